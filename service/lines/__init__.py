"""Reading ingredient lines: text in, a `Line` out. No foods, no weights."""

from __future__ import annotations

from .line import Line, Measure
from .line_reading import LONGEST, read_line
from .several import joined_lines, shared_lines

__all__ = ["LONGEST", "Line", "Measure", "joined_lines", "read_line", "shared_lines"]
