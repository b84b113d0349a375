"""Lists that say the same once more in other measures."""

from __future__ import annotations

from collections.abc import Sequence

from .listed import ListedLine

_LEAST_TWICE = 4
"""Lines of a list that must come back in order before it is taken to be told twice."""


def twice_listed(lines: Sequence[ListedLine]) -> tuple[int, ...]:
    """The second half of a list that says the first once more, food by food ("8 cups flour … 1 kg flour")."""
    half, rest = divmod(len(lines), 2)
    if rest or half < _LEAST_TWICE:
        return ()
    pairs = list(zip(lines[:half], lines[half:], strict=True))
    alike = sum(bool(set(a.words) & set(b.words)) and a.kind == b.kind for a, b in pairs)
    measured = all(a.line.amount is not None for pair in pairs for a in pair)
    return tuple(b.index for _, b in pairs) if measured and alike == half else ()
