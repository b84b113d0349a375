"""Food that a brine or marinade is for, though no line lists it: "turkey brine", "pour over the steaks"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

from ..core.tables import rows
from ..lines import read_line
from .bath_kinds import kind_of_bath
from .clauses import Clause
from .happenings import PROTEINS, SOLIDS, Happening
from .layout import Layout, name_of
from .listed import Index, ListedLine, equipment, listed_of
from .method_words import class_of, nouns, small_words, verbs
from .numbers_said import number_at
from .prose_tokens import Token, tokenize
from .questions import Doubts
from .reading_state import COLD, ReadingState

_BATHS = frozenset({"brine", "marinade", "cure"})
_LAYS = frozenset({"put", "cover", "coat", "hold", "boil", "other", "let", "pour", "mix", ""})
_ACTS = frozenset({"brine", "marinate", "cure"})
_OF_IT = small_words("made_of_food")
_OF_A_SERVING = ("serving_low", "serving_likely", "serving_high")
_OF_A_WHOLE = ("whole_low", "whole_likely", "whole_high")
_FURTHEST = 3
"""Tokens before a food in which its amount may begin."""


@dataclass(frozen=True, slots=True)
class MeantFood:
    """A food that no line lists. line: the line that stands for it; amount: how much of it the method says,
    "" where it does not; sentence: where it is named. bath: the clause that lays it in; whole_list: the
    recipe is that of its bath, by its title."""

    line: ListedLine
    amount: str
    sentence: str
    bath: Clause
    whole_list: bool


def food_meant(index: Index, clauses: Sequence[Clause], title: str, place: int) -> MeantFood | None:
    """The food of a brine or marinade where the list has nothing that could lie in it; None elsewhere.

    place: the index of a line that the food is given, behind all others."""
    if index.of_kinds(*PROTEINS):
        return None
    for_bath = not _BATHS.isdisjoint(token.stem for token in tokenize(title))
    baths = [clause for clause in clauses if _is_bath(clause)]
    if for_bath and not baths:
        baths = [each for each in clauses if each.act in _LAYS and any(_foods(each.tokens))]
    if not baths:
        return None
    places = [(each.tokens, each.sentence) for each in baths]
    places.append((tuple(tokenize(title)), title))
    if not index.of_kinds(*SOLIDS):  # else those are what lies in it
        places += [(each.tokens, each.sentence) for each in clauses if each.act != "serve"]
    named = ((tokens, *span, sentence) for tokens, sentence in places for span in _foods(tokens))
    found = next(named, None)
    if found is None:
        return None
    tokens, first, end, sentence = found
    words = " ".join(token.text for token in tokens[first:end])
    amount = _amount(tokens, first, words)
    (line,) = listed_of((amount or words,))
    since = clauses[clauses.index(baths[0]) :]
    bath = next((each for each in (*baths, *since) if each.hours), baths[0])
    return MeantFood(replace(line, index=place), amount, sentence, bath, for_bath)


def lay_in_whole_list(meant: MeantFood, state: ReadingState) -> None:
    """Where a recipe is that of a brine or marinade, let all of its list be what the food lies in."""
    place = meant.line.index
    whole = {line.index: 1.0 for line in state.index.lines if line.index != place and not equipment(line)}
    lies = next((each for each in state.happened if each.kind in COLD and place in each.foods), None)
    if lies is None:
        lies = Happening("marinate", meant.bath, foods={place: 1.0}, named=True)
        lies.take_time(meant.bath)
    lies.liquid = whole
    kinds = set(map(state.kind, whole))
    lies.kind = kind_of_bath("", kinds, watery=lies.water is not None)
    if lies.eaten is None:  # nobody eats a brine
        lies.eaten, lies.guessed = 0.0, lies.kind != "brine"
    after = [each for each in state.happened if each is not lies and place in each.foods]
    state.happened = [lies, *after]


def _is_bath(clause: Clause) -> bool:
    if clause.negated or clause.act == "serve":
        return False
    return clause.act in _ACTS or (clause.act in _LAYS and clause.has(*_BATHS))


def _foods(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """Where meat, poultry or fish are named: "flank steak", "chicken breasts"; not "chicken stock"."""
    at = 0
    while at < len(tokens):
        end = at
        while end < len(tokens) and _is_flesh(tokens[end], goes_on=end > at):
            end += 1
        following = tokens[end].stem if end < len(tokens) else ""
        if end > at and following not in _OF_IT:
            yield at, end
        at = max(end, at + 1)


def _is_flesh(token: Token, *, goes_on: bool) -> bool:
    if goes_on and token.stem in nouns("cut"):
        return True
    if token.stem == "hand" and not goes_on:
        return False  # "wet your hands"
    return class_of((token.stem,)) in PROTEINS and (goes_on or token.text not in verbs())


def _amount(tokens: Sequence[Token], first: int, words: str) -> str:
    """The food with the amount before it: "4 lb pork shoulder", "a 12-pound turkey"."""
    for at in range(max(0, first - _FURTHEST), first):
        if number_at(tokens, at) is not None:
            said = " ".join(token.text for token in tokens[at:first])
            line = read_line(f"{said} {words}")
            if line.amount is not None and line.unit is not None and line.food_words:
                return line.text
    return ""


@cache
def _weights() -> tuple[tuple[frozenset[str], dict[str, str]], ...]:
    return tuple((frozenset(row["words"].split("|")), row) for row in rows("method_meant_foods"))


def ask_how_heavy(meant: MeantFood, doubts: Doubts, layout: Layout, servings: float | None) -> None:
    """Give the food the weight that the method says, or that such a dish has, and ask for it."""
    if meant.amount:
        return
    food, kind = meant.line.text, meant.line.kind
    stems = {token.stem for token in tokenize(food)} | {kind}
    row = next(row for words, row in _weights() if _fits(words, stems))
    ends, times = (_OF_A_SERVING, servings) if servings else (_OF_A_WHOLE, 1.0)
    low, likely, high = (_rounded(float(row[end]) * times) for end in ends)
    told = {"low": low, "usual": likely, "high": high}
    taken = doubts.ask("meant_food", meant.sentence, "usual", name_of(meant.line), food=food, **told)
    grams = {"little": f"{low}", "usual": f"{low} to {high}", "much": f"{high}"}[taken]
    layout.meant[meant.line.index] = f"{grams} g {food}"


def _fits(words: frozenset[str], stems: set[str]) -> bool:
    return any(set(each.split()) <= stems if " " in each else each in stems for each in words)


def _rounded(grams: float) -> int:
    step = 10 if grams < 1000 else 100
    return int(step * round(grams / step))
