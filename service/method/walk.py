"""The method read from end to end: its clauses, each given to whom it concerns."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from .beforehand import lines_beforehand
from .boiling import amount_said, read_pot
from .clauses import Clause, clauses_of
from .coatings import read_coating
from .cold_baths import mix, read_bath, soak_instead
from .fates import read_fate
from .happenings import PROTEINS, SALTING, SOLIDS, Happening
from .listed import Index
from .mentions import Mention
from .method_words import small_words
from .poured import pot_is_poured
from .reading_state import COLD, HOT, Kitchen
from .roasts import more_time, read_roast

_MOVES_SALT = re.compile(
    r"\b(?:salt(?:ed|ing|y)?|brin\w+|marinad\w+|marinat\w+|soak\w*|drain\w*|rins\w+|cur(?:e|ed|ing))\b",
    re.IGNORECASE,
)
_SOUP = re.compile(r"\b(?:soup|stew|broth|chowder|ladle|bowls|pot liquor|chilli|curry)\b", re.IGNORECASE)
_MINCED = frozenset({"mince", "minced", "ground"})
_SALTY = SALTING | {"savoury", "stock", "salty"}
_LIES_H = 1.0
_GOES_ON = frozenset({"", "cook", "fry", "roast", "simmer", "let", "hold"})


def watch(paragraphs: Sequence[str], index: Index) -> Kitchen:
    """The kitchen at the end of the method, with everything that happened."""
    kitchen = Kitchen.of(index)
    first: Clause | None = None
    kitchen.is_soup = any(_SOUP.search(paragraph) for paragraph in paragraphs)
    for clause in _with_waters(list(clauses_of(paragraphs, index)), kitchen):
        first = first or clause
        _take(kitchen, clause)
    lines_beforehand(kitchen, first)
    for each in kitchen.happened:
        if each.kind in HOT and each.drained and each.heated:
            _drained_with(kitchen, each)
        elif each.kind in HOT and each.drained:
            soak_instead(kitchen, each)
        if each.kind in COLD and each.hours is None:
            each.hours = each.ahead
        if not _counts(kitchen, each) and each.water and (each.water.salt or each.water.strength):
            kitchen.seasoned.append((each.clause, each.water.salt))
    kitchen.happened = [each for each in kitchen.happened if each.foods and _counts(kitchen, each)]
    return kitchen


def _cook_pending(kitchen: Kitchen, clause: Clause) -> None:
    """What was salted and is cooked as it is was only seasoned, unless it lies packed in salt."""
    pending = kitchen.pending
    assert pending is not None
    if pending.clause.base in ("pack", "cover", "bury", "encase"):
        pending.take_time(clause)
    elif set(kitchen.solids(clause) or kitchen.last_foods) & set(pending.foods):
        kitchen.pending = None


def _with_waters(clauses: list[Clause], kitchen: Kitchen) -> list[Clause]:
    """Clauses in which "water" of the tap is told from the list's: where the method also speaks of
    "the water" or of its amount, or where the list's belongs to a brine, bare "water" comes from the tap."""
    waters = set(kitchen.index.of_kinds("water"))
    if not waters:
        return clauses
    of_baths = {line for mixture in kitchen.named.values() for line in mixture.lines} & waters
    of_list = ((c, m) for c in clauses for m in c.mentions if waters.intersection(m.lines))
    definite = any(_is_definite(c, m) or _is_stirred(c, waters) for c, m in of_list)
    if not definite and of_baths != waters:
        return clauses
    return [replace(c, mentions=tuple(_tapped(c, m, waters) for m in c.mentions)) for c in clauses]


def _tapped(clause: Clause, mention: Mention, waters: set[int]) -> Mention:
    if not mention.lines or not waters.issuperset(mention.lines) or _is_definite(clause, mention):
        return mention
    if clause.act == "mix" or (clause.base == "bring" and clause.has("dissolve", "dissolved")):
        return mention
    return mention._replace(kind="water", lines=())


def _is_stirred(clause: Clause, waters: set[int]) -> bool:
    """Whether a clause stirs water of the list with other things of the list."""
    named = {line for mention in clause.mentions for line in mention.lines}
    return clause.act == "mix" and bool(named & waters) and bool(named - waters)


def _is_definite(clause: Clause, mention: Mention) -> bool:
    before = [token.text for token in clause.tokens[max(0, mention.i - 4) : mention.i]]
    since = max((i + 1 for i, word in enumerate(before) if word in small_words("preposition")), default=0)
    return (
        mention.amount is not None
        or mention.portion is not None
        or bool({"the", "this"} & set(before[since:]))
    )


def _take(kitchen: Kitchen, clause: Clause) -> None:
    before, pot = len(kitchen.happened), kitchen.pot
    if clause.hours and clause.has("before") and clause.hours[0].likely >= 8:
        kitchen.ahead = (clause.sentence, clause.hours[0])
    read_fate(kitchen, clause)
    taken = len(kitchen.happened) > before
    if not taken:
        taken = read_bath(kitchen, clause) or read_pot(kitchen, clause)
    if kitchen.pending is not None and clause.act in ("roast", "fry", "boil", "simmer"):
        _cook_pending(kitchen, clause)
    now = kitchen.attention
    if now is not None and now.kind in ("fry", "roast") and now.hours is None and clause.act in _GOES_ON:
        now.take_time(clause)
    if not taken:
        read_coating(kitchen, clause)
        read_roast(kitchen, clause)
        more_time(kitchen, clause)
    if not taken or clause.act in ("heat", "mix", "boil"):
        mix(kitchen, clause)
    opened = kitchen.pot is not None and kitchen.pot is not pot
    kitchen.seasoned += _seasonings(kitchen, clause, taken)
    if (
        not taken
        and not clause.verb
        and _MOVES_SALT.search(clause.text)
        and clause.opens
        and len(clause.tokens) > 3
    ):
        kitchen.unread.append(clause)
    kitchen.remember(clause)
    begun = kitchen.happened[-1] if len(kitchen.happened) > before else None
    kitchen.attend(clause, begun or (kitchen.pot if opened else None))


def _seasonings(kitchen: Kitchen, clause: Clause, taken: bool) -> list[tuple[Clause, str]]:
    """Salt that goes into the dish and stands in no line."""
    said = kitchen.salt_said(clause)
    unnamed = clause.act == "season" and not kitchen.lines_of(clause) and not clause.has("water")
    if unnamed and not kitchen.index.of_kinds("salt") and not clause.negated:
        return [(clause, amount_said(clause, "salt"))] if not taken else []
    if said is None or taken or clause.negated or said.prep == "without":
        return []
    if (
        kitchen.water_of(clause) is not None
        and clause.has("water")
        and kitchen.pot is not None
        and kitchen.pot.clause is clause
    ):
        return []
    return [(clause, amount_said(clause, "salt"))]


def _drained_with(kitchen: Kitchen, pot: Happening) -> None:
    """What came into a pot later was drained with the rest."""
    for line in pot.extra:
        (pot.foods if kitchen.kind(line) in SOLIDS else pot.liquid).setdefault(line, 1.0)


def _counts(kitchen: Kitchen, each: Happening) -> bool:
    if each.kind in HOT:
        return each.heated and pot_is_poured(each, kitchen)
    if each.kind in ("marinate", "dry_cure") and each.eaten != 0.0 and not (each.drained or each.rinsed):
        return _lies_long(kitchen, each)
    return True


def _lies_long(kitchen: Kitchen, each: Happening) -> bool:
    """Whether food in a marinade or salt that is eaten with it lies there: named so, or an hour and longer.

    Mince, salad and what is stirred in passing hold all their salt either way: that is the dish.
    """
    lines = [kitchen.lines[n] for n in each.foods if kitchen.kind(n) in PROTEINS]
    if not lines or any(_MINCED & set(line.text.lower().replace(",", " ").split()) for line in lines):
        return False
    if each.clause.act in ("marinate", "brine", "cure", "pickle") or each.kind == "dry_cure":
        return True
    if not {kitchen.kind(n) for n in each.liquid} & _SALTY:
        return False
    return each.eaten is None and each.hours is not None and each.hours.likely >= _LIES_H
