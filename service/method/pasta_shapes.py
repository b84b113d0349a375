"""What "the pasta" is in a list that names none by a word that is known."""

from __future__ import annotations

from .listed import Index
from .mention import Mention

_SPOONS = frozenset({"teaspoon", "tablespoon", "pinch", "dash"})
_DOUGHS = frozenset({"pasta", "noodle", "noodles"})


def pasta_of(index: Index, i: int) -> Mention | None:
    """The dough of the list's own pasta, flour under "Pasta dough"; else the one line of an unknown food, but
    no spoon of something."""
    flours = (index.lines[n] for n in index.of_kinds("flour"))
    if any(not _DOUGHS.isdisjoint(line.heading.lower().split()) for line in flours if line.heading):
        return Mention(i, i + 1, "made")
    others = (index.lines[n] for n in index.of_kinds("other"))
    shapes = tuple(n.index for n in others if (n.line.unit or "") not in _SPOONS)
    return Mention(i, i + 1, "line", shapes) if len(shapes) == 1 else None
