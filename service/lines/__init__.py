"""Reading ingredient lines: text in, a `Line` out. No foods, no weights."""

from __future__ import annotations

from .line import Line, Measure
from .reading import LONGEST, read_line

__all__ = ["LONGEST", "Line", "Measure", "read_line"]
