"""Salty foods that the method names and no line does: "a splash of soy sauce", "crumble in a stock cube"."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..core.tables import rows
from ..lines import read_line
from .clauses import Clause
from .layout import Component
from .method_words import singular, small_words
from .numbers_said import number_at
from .questions import Doubts
from .reading_state import MOST_HAPPENINGS, ReadingState

_NOT_BEFORE = small_words("part_of")
"""Words behind which such a name is part of another food's or thing's."""
_NOT_BEHIND = small_words("not_behind")
_SPLASHES = small_words("splash")
_AMOUNTS = small_words("measure")
"""Words that may stand between an amount and its food."""


@dataclass(frozen=True, slots=True)
class _Salty:
    """A row of method_salty.csv, for one of its names."""

    words: tuple[str, ...]
    row: dict[str, str]


@cache
def _names() -> dict[str, tuple[_Salty, ...]]:
    """Every name by its first word, longest first."""
    found: dict[str, list[_Salty]] = {}
    for row in rows("method_salty"):
        for name in row["words"].split("|"):
            words = tuple(name.split())
            found.setdefault(words[0], []).append(_Salty(words, row))
    return {first: tuple(sorted(each, key=lambda s: -len(s.words))) for first, each in found.items()}


@cache
def first_words() -> frozenset[str]:
    """Words that such a name may begin with."""
    return frozenset(_names())


def read_unlisted(state: ReadingState, clause: Clause) -> None:
    """Note what a clause adds that no line names and that holds salt."""
    if clause.negated:
        return
    end = 0
    for i, token in enumerate(clause.tokens):
        found = _at(clause, i) if i >= end and token.text in _names() else None
        if found is None:
            continue
        end = i + len(found.words)
        if found.row["class"] == "stock" and _is_homemade(state, clause, i):
            state.homemade = True
        elif (
            not _is_listed(state, found)
            and _goes_in(clause, i, end)
            and not _is_of_water(state, found, clause)
        ):
            text = _amount_before(clause, i, end)
            _note(state, clause, text, found.row)


def _is_homemade(state: ReadingState, clause: Clause, i: int) -> bool:
    """ "Make a stock of the carcass … pour in the chicken stock": of what is listed, and not bought."""
    before = {token.text for token in clause.tokens[max(0, i - 3) : i]}
    made = clause.tokens[i].text not in _CUBES and not before.isdisjoint(_MAKES)
    return state.homemade or (made and "up" not in before)


_MAKES = frozenset({"make", "makes", "making", "made", "homemade"})
_CUBES = frozenset({"stock", "bouillon"})
"""First words of what is bought to make a stock of."""


def _is_of_water(state: ReadingState, salty: _Salty, clause: Clause) -> bool:
    """Whether soda goes into water that food soaks or boils in, which is poured away."""
    wet = state.pot is not None or state.latest(("soak",)) is not None or state.water_of(clause) is not None
    return salty.row["class"] == "flour" and (wet or clause.has("soak", "soaking", "water", "boil"))


def _note(state: ReadingState, clause: Clause, text: str, row: dict[str, str]) -> None:
    """Keep what goes in: once, unless an amount says that more of it does; a stock cube for its stock."""
    same = [other for other in state.unlisted if other[2]["words"] == row["words"]]
    if (same and not any(c.isdecimal() for c in text)) or len(state.unlisted) >= MOST_HAPPENINGS:
        return
    stock = [
        n
        for n in state.unlisted
        if n[0].sentence == clause.sentence and n[2]["class"] == row["class"] == "stock"
    ]
    if "cube" in row["words"]:
        state.unlisted = [other for other in state.unlisted if other not in stock]
    state.unlisted.append((clause, text, row))


def _at(clause: Clause, i: int) -> _Salty | None:
    tokens = clause.tokens
    for salty in _names().get(tokens[i].text, ()):
        if tuple(t.text for t in tokens[i : i + len(salty.words)]) == salty.words:
            return salty
    return None


def _is_listed(state: ReadingState, salty: _Salty) -> bool:
    """Whether a line names the food, or another of its class that may be meant."""
    index, name = state.index, salty.row["class"]
    of_class = index.by_kind.get(name, ())
    if salty.row["any"] and of_class:
        return True
    stems = {singular(word) for other in salty.row["words"].split("|") for word in other.split()} - {"sauce"}
    if any(stems & set(n.words) and (n.kind == name or len(stems & set(n.words)) > 1) for n in index.lines):
        return True
    said = " ".join(salty.words)
    alone = {other for other in salty.row["words"].split("|") if " " not in other}
    return any(said in n.text.lower() or (n.words and n.words[-1] in alone) for n in index.lines)


def _goes_in(clause: Clause, i: int, end: int) -> bool:
    after = clause.tokens[end].text if end < len(clause.tokens) else "."
    since = max([m.j for m in clause.mentions if m.kind == "line" and m.j <= i], default=0)
    before = [token.text for token in clause.tokens[max(since, i - 3) : i]]
    if (
        clause.tokens[i].text == "hot"
        and _SPLASHES.isdisjoint(before)
        and not any(map(str.isdecimal, before))
    ):
        return False  # "put some hot sauce to it": of the pan
    if after in _NOT_BEFORE or _NOT_BEHIND.intersection(before) or i > clause.aim:
        return False
    if clause.act in ("marinate", "brine", "cure"):
        return True  # whether that is done is asked of the bath
    return clause.act not in _TAKES_OUT and not clause.has("optional", "optionally")


_TAKES_OUT = ("discard", "drain", "remove", "rinse")


def _amount_before(clause: Clause, i: int, end: int) -> str:
    """The food with its amount, as written."""
    first = i
    while first > 0 and (
        clause.tokens[first - 1].text in _AMOUNTS or number_at(clause.tokens, first - 1) is not None
    ):
        first -= 1
    since = clause.tokens[0].start
    return clause.text[clause.tokens[first].start - since : clause.tokens[end - 1].end - since]


def add_unlisted(state: ReadingState, doubts: Doubts, dish: Component) -> None:
    """Put what only the method names into the dish: as much as it says, or as a person does."""
    for clause, text, row in state.unlisted:
        measured = read_line(text).amount is not None
        if measured and clause.act != "serve":
            dish.add({"line": text}, None)
            continue
        name = next(name for name in row["words"].split("|") if text.lower().endswith(name))
        likely = "none" if clause.act == "serve" and not row["table"] else "usual"
        told = {"name": name, "said": text, "much": row["much"]}
        taken = doubts.ask("unlisted", f"{clause.sentence} {name}", likely, dish.id, **told)
        if taken != "none":
            dish.add({"line": text if taken == "usual" else row["much"]}, None)
