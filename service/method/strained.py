"""Bones and vegetables that gave a stock its taste and stay behind when it is strained."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .clauses import Clause
from .happenings import LIQUIDS, SOLIDS, Happening
from .method_words import small_words
from .reading_state import HOT, ReadingState

STRAINS = frozenset({"strain", "sieve", "decant"})
THROUGH = frozenset({"sieve", "strainer", "chinois", "muslin", "cheesecloth", "colander"})
_POURS = small_words("pours_through")
_FLAVOURINGS = frozenset({"vegetable", "aromatic"})
_TASTE_OF = _FLAVOURINGS | {"herb", "spice"}
_SHELLS = frozenset({"bone", "shell", "carcass", "carcase", "head", "frame", "trimming", "bouquet", "cob"})
"""Of these, whatever they are of, nothing is eaten once their broth is strained."""
_BLENDS = frozenset({"blend", "puree", "purée", "liquidise", "liquidize", "whizz", "whiz", "blitz", "mash"})
_RUBS_THROUGH = frozenset({"push", "rub", "work"})
_SHAPED_BY_IT = frozenset({"batter", "dough", "noodles", "dumplings"})
"""What is pressed through holes to be shaped, and parts from nothing."""
_KEPT_BACK = SOLIDS | {"aromatic", "herb", "spice", "other"}


def strains(clause: Clause) -> bool:
    """Whether a clause parts a liquid from what cooked in it: "strain", "pass through a sieve"."""
    if clause.base in STRAINS:
        return True
    if THROUGH.isdisjoint(clause.words) or not clause.has("through", "into", "in", "onto", "to"):
        return False
    if not _SHAPED_BY_IT.isdisjoint(clause.words):
        return False
    return clause.base in _POURS or (
        "through" in clause.words and clause.has(*_POURS)
    )  # "once done run it …"


def goes_through(state: ReadingState, clause: Clause) -> bool:
    """ "Blend the soup and pass it through a sieve", "rub the tomatoes through a sieve": all that is eaten
    goes through."""
    return state.blended or clause.base in _RUBS_THROUGH


def note_blending(state: ReadingState, clause: Clause) -> None:
    """Keep in mind whether what cooked last was made smooth."""
    if clause.base in _BLENDS and state.last_heat in ("boil", "simmer"):
        state.blended = True
    elif clause.act in ("boil", "simmer"):
        state.blended = False


_ALWAYS_EATEN = frozenset({"pasta", "potato", "egg"})
SIEVED_FOR_ITSELF = frozenset({"pasta", "potato", "vegetable", "grain", "egg", "legume"})


def is_tipped_out(state: ReadingState, pot: Happening, clause: Clause) -> bool:
    """ "Tip the pasta into a colander": what stays in it is eaten, so that its water is poured away."""
    if clause.base in STRAINS or not clause.has("colander", "sieve", "strainer"):
        return False
    if goes_through(state, clause):
        return False
    solids = set(map(state.kind, pot.foods)) <= SIEVED_FOR_ITSELF
    if not solids or clause.has("broth", "stock", "liquid", "liquor", "soup"):
        return False
    state.pour_off(pot)
    return True


def is_drink(clause: Clause) -> bool:
    """Whether what is strained off is drunk: "strain into bottles"."""
    return strains(clause) and clause.has("bottle", "bottles", "drink", "glasses", "jug")


FOR_LATER = re.compile(
    r"\bfreez|\bfor tomorrow\b|\btomorrow['’]s\b"
    r"|\banother (?:time|day|use|meal|dish)\b|\bfor (?:a |\w+ )?(?:soup|stock)\b",
    re.IGNORECASE,
)


def is_for_later(clause: Clause) -> bool:
    """ "Keep the broth for soup", "freeze it", "the broth is for another day", "you won't need the stock"."""
    if clause.negated and _NOT_NEEDED.search(clause.text):
        return True
    broth = clause.act in ("hold", "") and not _BROTHS.isdisjoint(clause.words)
    return (broth or clause.act == "reserve") and FOR_LATER.search(clause.text) is not None


_NOT_NEEDED = re.compile(
    r"\b(?:stock|broth|liquor) (?:is(?:n['’]t| not)|won['’]t be|will not be) (?:needed|used|wanted)\b"
    r"|\b(?:do not|don['’]t|won['’]t|will not) need (?:the|this|that) (?:stock|broth|liquor)\b",
    re.IGNORECASE,
)
_LIQUOR = r"(?:liquid|liquor|water|stock|broth)"
_ANOTHER_SOUP = re.compile(
    rf"\b(?:leftover|left-over|remaining) (?:\w+ )?{_LIQUOR} ?(?:[:=–—-]|(?:is|for)\b)"
    rf"|\b{_LIQUOR}\b.{{0,20}}\b(?:makes?|can be|could be|may be|is good|is fine|good)\b"
    r"(?! (?:in|to) the).{0,30}\b(?<!the )(?:\w+ )?soups?\b"
    rf"|\b(?:use|save|keep) (?:the|its|this|that) (?:\w+ )?{_LIQUOR} "
    r"(?:for|in|as) (?!the|this|your)(?:\w+ ){0,3}soups?\b",
    re.IGNORECASE,
)


def is_of_another_soup(clause: Clause) -> bool:
    """ "Leftover liquid: soup!", "the liquid can be used for soup": a note on what else it is good for."""
    return _ANOTHER_SOUP.search(clause.sentence) is not None


_BROTHS = frozenset({"broth", "stock", "liquor", "likker"})


def note_straining(state: ReadingState, pot: Happening, clause: Clause) -> None:
    """The liquid of a pot is kept, for this dish or another; what is not spoken of again stays behind."""
    pot.closed = True
    if not goes_through(state, clause):
        pot.strained_at = state.turn
        pot.extra |= {n for n in _cooked_with(state, pot) if state.kind(n) in _TASTE_OF}
    if FOR_LATER.search(clause.sentence):
        pot.eaten, pot.drained = 0.0, True
    else:
        pot.eaten = 1.0
    if state.pot is pot:
        state.pot = None


def leave_solids(state: ReadingState) -> None:
    """What stayed in the sieve is the food of its pot, and is not eaten."""
    for pot in state.happened:
        if pot.strained_at < 0 or (pot.eaten is None and not pot.kept_ml):
            continue
        if set(map(state.kind, pot.foods)) <= _ALWAYS_EATEN:
            continue  # "keep a mug of the water, strain": the pasta
        cooked = dict.fromkeys(pot.extra, 1.0) | pot.liquid | pot.foods
        left = {
            n: share
            for n, share in cooked.items()
            if state.kind(n) in _KEPT_BACK
            and n not in state.taken_out
            and state.last_spoken.get(n, 0) <= pot.strained_at
        }
        if pot.foods.keys() <= left.keys() and any(state.kind(n) in SOLIDS for n in left):
            pot.liquid = {n: s for n, s in cooked.items() if n not in left and n not in pot.foods}
            pot.foods, pot.spent = left, True
        else:
            state.thrown_out |= dict.fromkeys(left, state.turn)


def pour_unused(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """ "Boil the sausages in salted water. Strain": poured away, where nothing more is said of a broth."""
    for pot in state.happened if not state.is_soup else ():
        if pot.strained_at < 0 or pot.eaten != 1.0 or pot.spent or pot.used_ml or pot.water is None:
            continue
        later = [c for c in clauses if c.place > pot.clause.place]
        at = next((k for k, c in enumerate(later) if c.base in STRAINS), len(later))
        rest = later[at:]
        bare = bool(rest) and rest[0].speaks <= _OF_FOOD and rest[0].words.isdisjoint(_INTO)
        if bare and not any(c.act in HOT or not c.words.isdisjoint(_OF_BROTH) for c in rest):
            pot.eaten, pot.drained = None, True


_OF_FOOD = frozenset({"line", "it"})
_INTO = frozenset({"into", "through", "bowl", "jug", "over"})
_OF_BROTH = _BROTHS | {"liquid", "liquids", "soup", "sauce", "gravy", "water", "return", "back"}


def _cooked_with(state: ReadingState, pot: Happening) -> set[int]:
    """What one clause names beside the food of a pot: "simmer the hen with the onions and the water"."""
    return state.simmered if pot.foods.keys() & state.simmered else set()


def strain_mixture(state: ReadingState, clause: Clause) -> None:
    """ "Simmer the shells with the onion and the water, then strain": no step, and yet strained."""
    pot = state.latest(HOT)
    if pot is not None and (pot.strained_at == state.turn or not (pot.closed and pot.drained)):
        return
    if goes_through(state, clause):
        return
    if _POURS_IN.search(clause.text) and state.lines_of(clause, ("wine", "stock", "milk", "acid")):
        return  # "pour in the wine through a strainer": it alone is strained
    mixture = state.mixture
    cooked = set(mixture.lines) if mixture.heated else set(state.simmered)
    sieved = state.solids(clause, direct=True)
    if sieved and state.spoken.keys().isdisjoint(sieved) and cooked.isdisjoint(sieved):
        return  # "tip the beans into a sieve", beside a pot that they have not been in
    liquid = any(state.kind(n) in LIQUIDS for n in cooked) or (mixture.heated and mixture.water is not None)
    if state.is_soup and state.last_heat in ("boil", "simmer"):
        cooked |= state.last_spoken.keys()  # what no more is said of went into it
        liquid = liquid or any(state.kind(n) in LIQUIDS for n in cooked)
    if liquid:
        over = {n for m in clause.mentions if m.prep in ("over", "onto", "on") for n in m.lines}
        left = (n for n in cooked - over if _stays_behind(state, n))
        state.thrown_out |= dict.fromkeys(left, state.turn)


_POURS_IN = re.compile(
    r"\b(?:pour|strain|tip|ladle|add) (?:\w+ )?(?:in|into)\b|\bto the (?:pan|pot|sauce)\b", re.I
)


def _stays_behind(state: ReadingState, line: int) -> bool:
    if not _SHELLS.isdisjoint(state.lines[line].words):
        return True
    return state.kind(line) in (_TASTE_OF if state.is_soup else _FLAVOURINGS)
