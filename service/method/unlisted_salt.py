"""Salt that food lies in or under and no line lists: "make a 6 % brine", "bury it in coarse salt"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from .asides import without_notes
from .clauses import Clause
from .ingredients_meant import MAKES
from .left_to_the_cook import grams_roughly
from .listed import Index, ListedLine, listed_of
from .method_words import phrasing
from .questions import figures_of
from .weights_told import per_litre_g, salt_grams

_BRINE = re.compile(r"\bbrin(?:e|es|ed|ing)\b|\bsolution\b", re.IGNORECASE)
_SALTS = re.compile(r"\bsalt|\bseason", re.IGNORECASE)
_STRENGTH = phrasing("brine_in_percent")
_OF_BRINES = phrasing("brine_of_strength")
_STIRRED = phrasing("salt_in_water")
_LAID = phrasing("laid_in_brine")
_MUCH = phrasing("salt_by_the_pound")
_LIES_UNDER = phrasing("put_under_salt")
_CURED = phrasing("lies_under_salt")
_LONGEST = 20_000
"""Characters of a method that are looked through: more than any recipe has."""
_LEAST_G = 15.0
"""Salt of a line, g, from which on it may be that of a brine."""


def unlisted_salt(
    index: Index, clauses: Sequence[Clause], paragraphs: Sequence[str], place: int
) -> ListedLine | None:
    """The line that stands for the salt of a brine or a cure of which the list says nothing, or only "salt";
    None where a line may be it as it is, or salt only seasons.

    place: the index that it is given, behind all others, where it does not stand for a line of the list."""
    text = " ".join(paragraphs)[:_LONGEST]
    if "salt" not in text and "brin" not in text.lower():
        return None
    salts = [line for line in index.lines if line.kind == "salt"]
    if any((grams_roughly(line) or 0.0) >= _LEAST_G or line.purpose for line in salts):
        return None
    done = {clause.sentence for clause in clauses}
    text = " ".join([without_notes(paragraph, done) for paragraph in paragraphs])[:_LONGEST]
    alone = _is_all_of(salts, text)
    said = _told(text) or ("" if salts else _told_otherwise(text))
    unsaid = not said and (alone or not salts) and any(map(_lays_in_brine, clauses))
    strength = ""
    if unsaid and not _is_made_here(index):
        strength = next((name for name in ("weak", "strong") if f"{name} brine" in text.lower()), "usual")
        said = _unsaid_brine(strength)
    if not said:
        return None
    (line,) = listed_of((said,))
    return replace(line, index=salts[0].index if alone else place, strength=strength)


def _told(text: str) -> str:
    """The line of a brine that a method tells by its strength; "" where it tells none."""
    strength = _per_litre(text)
    return "" if strength is None else f"{strength:g} g salt per litre of water, for the brine"


def _told_otherwise(text: str) -> str:
    """The line of salt that a method stirs into water, or lays food under; "" where it does neither."""
    if _STIRRED.search(text) and _LAID.search(text):
        return "salt"
    much = _MUCH.search(text) if _LIES_UNDER.search(text) else None
    if much is not None and (salt_grams(much[1]) or 0.0) >= _LEAST_G:
        return f"{much[1]} salt"
    return "salt" if _CURED.search(text) else ""


def _unsaid_brine(strength: str) -> str:
    """The line of a brine of which nobody says how strong it is: "weak", "usual" or "strong"."""
    return f"{figures_of('brine_salt')[strength]:g} g salt per litre of water, for the brine"


def _is_made_here(index: Index) -> bool:
    """Whether the list has a brine: olives in theirs, or what it makes one of."""
    kinds = {"curing", "salty"}
    in_brine = any("brine" in line.text.lower() for line in index.lines)
    return in_brine or not kinds.isdisjoint(index.by_kind)


def _lays_in_brine(clause: Clause) -> bool:
    """ "Brine the chicken overnight", "lay it in a strong brine"."""
    if clause.negated or clause.has("dry", "dry-brine", "dry-brined") or _OWN_BRINE.search(clause.text):
        return False
    if clause.base == "brine":
        return bool(clause.hours) or "line" in clause.speaks
    lays = clause.act in ("put", "hold", "soak", "") and (clause.hours or clause.base in _LAYS)
    baths = {m.prep for m in clause.mentions if m.kind == "bath" and m.name == "brine"}
    return (bool(lays) and not baths.isdisjoint(("in", "into"))) or (clause.base in MAKES and "" in baths)


_OWN_BRINE = re.compile(r"\b(?:its|their)(?: own)? brine\b", re.IGNORECASE)
"""What it was bought in: "put the mozzarella back in its brine"."""
_LAYS = frozenset({"lay", "submerge", "immerse", "put", "place", "keep", "leave", "soak", "steep"})


def _is_all_of(salts: Sequence[ListedLine], text: str) -> bool:
    """Whether a line "salt" of a list is for the brine alone: the method salts nothing else."""
    alone = len(salts) == 1 and salts[0].line.amount is None and not salts[0].line.joined
    rest = _OF_BRINES.sub("", _STRENGTH.sub("", text))
    return alone and len(_SALTS.findall(rest)) <= 1


def _per_litre(text: str) -> float | None:
    """The salt of a brine, g a litre, of "6 % brine", "brine (60 g salt per litre)"; None where a method
    tells none by its strength."""
    if _BRINE.search(text) is None:
        return None
    if (percent := _STRENGTH.search(text)) is not None:
        figures = [float(each.replace(",", ".")) for each in percent.groups() if each]
        return 10.0 * sum(figures) / len(figures)
    told = _OF_BRINES.search(text)
    return per_litre_g(told[0]) if told is not None else None
