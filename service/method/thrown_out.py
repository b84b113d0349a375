"""Herbs and vegetables that gave a pot their taste and are taken out or thrown away: nobody eats them."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from .clauses import Clause
from .happenings import LIQUIDS, SOLIDS, Happening
from .layout import Layout
from .left_to_the_cook import grams_in, grams_roughly
from .mention import Mention
from .method_words import small_words, verbs
from .reading_state import HOT, ReadingState
from .stakes import is_salty
from .steamed_over import STANDS_IN, steams_over

THROWN = "thrown-out"
_GUESSED = 0.6
_MOST = 0.5
"""Share of a line above which it is still whole."""
_KINDS = frozenset({"vegetable", "aromatic", "potato", "fruit", "meat", "poultry"})
_PARTS = small_words("part_of_food")
_SOME = small_words("some_of_food")
_NEAR = 2
"""Clauses after which "it" is something else."""
FLAVOURS = frozenset({"aromatic", "herb", "spice"})
"""What is taken out of a pot for good where nothing is said of what it is used for."""
_STEMS = frozenset({"stalk", "stem", "sprig", "twig", "leaf"})
"""What is left of herbs that cooked: all of them goes."""
_STAYS_BY = small_words("set_down")
_USED_AFTER = re.compile(
    r"\b(?:reserv|set (?:it |them )?aside|keep|sav(?:e|ing)\b|chop|mash|squeez|return|slice"
    r"|crush|mince|smash)"
    r"|\b(?:from|off) (?:its|their|the) (?:\w+ )?(?:stems?|stalks?|skins?|sprigs?|cloves?|heads?|bulbs?)\b",
    re.IGNORECASE,
)
_BEHIND = re.compile(r"\bleav(?:e|ing) (?:the |all the )?(?:\w+ ){0,3}behind\b", re.IGNORECASE)


def read_thrown_out(state: ReadingState, clause: Clause) -> None:
    """Take a clause that throws cooked vegetables away, or that takes out what gave its taste."""
    if clause.negated:
        return
    if clause.act == "steam" or not STANDS_IN.isdisjoint(clause.words):
        steams_over(state, clause)
    if state.thrown_out and clause.base in _COMES_BACK and "line" not in clause.speaks:
        _come_back(state, clause)
    if clause.act in ("remove", "discard") or (
        not _PICKS.isdisjoint(clause.words) and _PICKED.search(clause.text)
    ):
        _take_out_flavours(state, clause)
    if clause.base == "tie" or not _BAGS.isdisjoint(clause.words):
        tied = state.lines_of(clause, FLAVOURS) if clause.act not in ("drain", "remove") else {}
        state.thrown_out |= dict.fromkeys(tied, state.turn)
    if clause.act != "discard" and "discarding" in clause.words:
        _discards_too(state, clause)
    thrown = clause.act == "discard" or ("behind" in clause.words and bool(_BEHIND.search(clause.text)))
    if not thrown:
        return
    if _ALL_ELSE.search(clause.text):
        _throw_the_rest(state)
    for mention in clause.mentions:
        if mention.kind == "line" and mention.prep in ("", "with") and _is_whole(clause, mention):
            thrown_lines = (n for n in mention.lines if state.kind(n) in _KINDS and _was_cooked(state, n))
            state.thrown_out |= dict.fromkeys(thrown_lines, state.turn)


_ALL_ELSE = re.compile(r"\b(?:the rest|everything else|all else|whatever is left)[.,;]?$", re.IGNORECASE)


def _throw_the_rest(state: ReadingState) -> None:
    """ "Lift out the ham and discard the rest": of the pot that it was in."""
    pot = state.latest(HOT)
    if pot is None or state.taken_out.isdisjoint(pot.foods):
        return
    left = {*pot.foods, *pot.extra, *pot.liquid} - state.taken_out
    of_taste = (n for n in left if state.kind(n) in _KINDS | FLAVOURS)
    state.thrown_out |= dict.fromkeys(of_taste, state.turn)
    state.pour_off(pot)


_COMES_BACK = frozenset({"return", "put", "add", "tip", "stir"})
_SOON = 4
"""Clauses after which what was taken out is still spoken of."""


def _come_back(state: ReadingState, clause: Clause) -> None:
    """ "Take out the pepper; skin it, chop, and return to the pot": what was taken out last."""
    last = max(state.thrown_out.values())
    if max(state.last_spoken.values(), default=0) > last:
        return  # "slice the beef and return it"
    comes = clause.base == "return" or clause.has("back")
    if comes and not clause.has("boil", "simmer", "heat") and state.turn - last <= _SOON:
        state.thrown_out = {n: turn for n, turn in state.thrown_out.items() if turn < last}


_BAGS = frozenset({"cheesecloth", "muslin", "sachet", "bouquet"})
"""What spices and herbs are put in that nobody eats: "tie the peppercorns in a piece of muslin"."""


def _discards_too(state: ReadingState, clause: Clause) -> None:
    """ "Brown the lardons with a clove and lift them out, discarding the clove": of what gave its taste."""
    at = next(i for i, token in enumerate(clause.tokens) if token.text == "discarding")
    behind = {n for m in clause.mentions if m.i > at and _is_whole(clause, m) for n in m.lines}
    state.thrown_out |= dict.fromkeys((n for n in behind if state.kind(n) in FLAVOURS), state.turn)


_PICKS = frozenset({"pick", "picked", "picking"})
_PICKED = re.compile(r"\bpick(?:ing|ed)? (?:\w+ )?out\b", re.IGNORECASE)


def _take_out_flavours(state: ReadingState, clause: Clause) -> None:
    """ "Fish out the bay leaf and the garlic", "remove the herb sprigs": they stay out, if nothing else is
    said of them. Onions that go with them go, too."""
    said = [m for m in clause.mentions if m.kind == "line" and m.prep in ("", "with") and m.i <= clause.aim]
    first = clause.mentions[0] if clause.mentions else None
    if first is not None and first.kind == "it" and first.i and clause.tokens[first.i - 1].text in verbs():
        said = []  # "take it out and in the same fat brown the onion"
    if not said and "it" in clause.speaks and clause.words.isdisjoint(_STAYS_BY):
        lines = _spoken_last(state)
    else:
        whole = (m for m in said if _is_whole(clause, m, cooked=bool(state.last_heat)))
        lines = {n for m in whole for n in _that_can_be_taken_out(state, m.lines)}
    flavours = {n for n in lines if state.kind(n) in FLAVOURS and _went_in(state, n)}
    if not flavours or _USED_AFTER.search(clause.sentence, max(clause.sentence.find(clause.text), 0)):
        return
    with_it = {n for n in lines if state.kind(n) == "vegetable" and _went_in(state, n)}
    fried = bool(with_it) and state.last_heat == "fry"  # "remove the mushrooms and garlic", for a while
    if lines <= flavours | with_it and not fried:
        state.thrown_out |= dict.fromkeys(lines, state.turn)


def _that_can_be_taken_out(state: ReadingState, lines: tuple[int, ...]) -> Sequence[int]:
    """Of several herbs, those in one piece: not what is chopped, ground or measured with spoons."""
    pieces = [
        n for n in lines if state.kind(n) not in FLAVOURS or _IN_PIECES.search(state.lines[n].text) is None
    ]
    return pieces if len(lines) > 1 and pieces else lines


_IN_PIECES = re.compile(
    r"\b(?:chopped|minced|ground|grated|dried|powder\w*|crushed|cups?|tsp|tbsp|tbs|teaspoons?|tablespoons?)\b",
    re.IGNORECASE,
)


def _spoken_last(state: ReadingState) -> set[int]:
    """What "it" means where only flavourings were spoken of, in their fat: "warm the garlic in the oil"."""
    latest = max(state.last_spoken.values(), default=-1)
    if state.turn - latest > _NEAR:
        return set()
    lines = {n for n, turn in state.last_spoken.items() if turn == latest and state.kind(n) != "oil"}
    return lines if all(state.kind(n) in FLAVOURS for n in lines) else set()


def _went_in(state: ReadingState, line: int) -> bool:
    """Whether a flavouring was put with other food before, or with all the rest, and cooked."""
    return bool(state.spoken.get(line) or state.last_heat)


def keep_what_is_used(state: ReadingState) -> None:
    """What the method goes on with after it was thrown away was another part of it."""
    spoken = state.last_spoken
    state.thrown_out = {
        n: turn
        for n, turn in state.thrown_out.items()
        if spoken.get(n, 0) <= turn or _has_fresh_one(state, n, state.thrown_out)
    }
    pickled = not state.last_heat and bool(state.thrown_out) and "acid" in state.index.by_kind
    if pickled and state.thrown_out.keys() >= set(state.index.of_kinds(*sorted(SOLIDS | {"aromatic"}))):
        state.thrown_out = {}  # the chillies are all there is to eat


_FOR_THE_PLATE = re.compile(r"\b(?:garnish|(?:to|for) (?:serve|serving|finish|finishing))", re.IGNORECASE)


def _has_fresh_one(state: ReadingState, line: int, thrown: Collection[int]) -> bool:
    """Whether the list has more of a herb for the plate, which is what the method goes on with."""
    own = state.lines[line]
    return any(
        other.kind == own.kind and set(other.words) & set(own.words) and _FOR_THE_PLATE.search(other.text)
        for other in state.index.lines
        if other.index not in thrown
    )


def give_salt_to_broth(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """What is thrown away after it simmered in a broth that is eaten: salt meat gave salt to it, vegetables
    took some out of it."""
    if not state.thrown_out:
        return
    for pot in state.happened:
        if pot.kind in HOT and pot.eaten is None and pot.foods.keys() <= state.thrown_out.keys():
            pot.eaten = 1.0
    known = {n for h in state.happened if h.kind in HOT for n in (*h.foods, *h.extra)}
    thrown = [n for n in state.thrown_out if n not in known]
    used = {n for h in state.happened for n in h.liquid}
    liquid = {n: 1.0 for kind in ("water", "stock") for n in state.index.of_kinds(kind) if n not in used}
    salty = [n for n in thrown if is_salty(state.lines[n])] or _drinks_salt(state, thrown, liquid)
    heats = [c for c in clauses if c.act in ("simmer", "boil") and not c.negated]
    if not (salty and liquid and heats):
        return
    longest = max(heats, key=lambda c: c.hours[0].likely if c.hours else 0.0)
    pot = Happening("simmer", longest, foods=dict.fromkeys(salty, 1.0), liquid=liquid, confidence=_GUESSED)
    pot.take_time(longest)
    pot.heated, pot.eaten, pot.closed = True, 1.0, True
    state.happened.append(pot)


def _drinks_salt(state: ReadingState, thrown: Sequence[int], liquid: Collection[int]) -> list[int]:
    """The vegetables among what is strained out of a soup, where they are enough to take salt out of it."""
    if not state.is_soup:
        return []
    stock_g = grams_in(state, liquid, ("stock",))
    weighed = {n: grams_roughly(state.lines[n]) or 0.0 for n in thrown if state.kind(n) in _DRINK}
    return (
        [n for n, grams in weighed.items() if grams] if sum(weighed.values()) > _SHARE * stock_g > 0 else []
    )


_DRINK = frozenset({"vegetable", "potato", "fruit"})
_SHARE = 0.05
"""Vegetables in weights of the stock, from which on the salt that they keep counts."""


def leave_thrown_out(state: ReadingState, layout: Layout) -> None:
    """Put aside what is thrown away."""
    for line in sorted(state.thrown_out):
        if layout.left(line) > _MOST:
            aside = layout.components.get(THROWN) or layout.new(THROWN, "Thrown out")
            aside.eaten = 0.0
            layout.place(aside, line, -1.0)


def _is_whole(clause: Clause, mention: Mention, *, cooked: bool = False) -> bool:
    """Whether all of a food goes, and not its ends or skins, or those that stayed shut. cooked: it is what
    cooked, so that the stalks of herbs are what is left of them."""
    behind = clause.tokens[mention.j].stem if mention.j < len(clause.tokens) else "."
    if cooked and behind in _STEMS:
        return True
    before = {token.text for token in clause.tokens[max(0, mention.i - 3) : mention.i]}
    return behind not in _PARTS and not before & _SOME


def _was_cooked(state: ReadingState, line: int) -> bool:
    """Whether a line lay in a hot liquid before."""
    if any(each.kind in HOT and line in (*each.foods, *each.liquid, *each.extra) for each in state.happened):
        return True
    together = (company for company in state.company if line in company)
    return any(state.kind(n) in LIQUIDS for company in together for n in company)
