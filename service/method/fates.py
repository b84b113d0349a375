"""What becomes of liquids and coatings: drained, rinsed off, discarded, kept, poured over."""

from __future__ import annotations

import re

from .bought_salty import of_a_can, of_cured_meat
from .clauses import Clause
from .hand_steps import packs_down
from .happenings import POURED_WITHOUT_WORD, PROTEINS, SALTING, WET, Happening, Water
from .in_passing import adjectives, under_the_tap
from .kept_liquids import eaten_with, reserved
from .liquors import leaves_liquor_open
from .reading_state import COLD, HOT, ReadingState
from .strained import is_drink, note_straining, strain_mixture, strains

_LIQUID_SAID = re.compile(
    r"(?:water|liquid|brine|marinade|juice|broth|stock|milk|whey|syrup|cure|rub|flour|oil|fat)\w*",
    re.IGNORECASE,
)
_RESERVES = re.compile(
    r"reserv(?:e|es|ing)\b|reserved\b(?! (?:\w+ )?(?:water|liquid|marinade|broth|stock|juice|milk|oil|fat))"
    r"|sav(?:e|ing)|keep(?:ing)?|set(?:ting)? aside|hold(?:ing)? back|scoop out",
    re.IGNORECASE,
)
_RINSES = ("rinse", "rinsing", "rinsed")
_KEEPING = frozenset(
    {"reserve", "reserves", "reserving", "reserved", "save", "saving", "keep", "keeping"}
    | {"set", "setting", "hold", "holding", "scoop"}
)
_IN_BROTH = re.compile(
    r"\b(?:in|to|into|with|over|strain|season|reduce|ladle) the "
    r"(?:hot |remaining |reserved |strained |chicken )?"
    r"(?:broth|stock|soup|(?:cooking|poaching) liquid|pot liquor)\b",
    re.IGNORECASE,
)
_BROTHS = frozenset({"broth", "stock", "soup", "liquid", "liquor"})
_AFRESH = re.compile(
    r"\b(?:start|begin)(?:ing)? (?:again|afresh|over)\b|\b(?:fresh|clean|new) (?:cold )?water\b", re.I
)
_SCRAPED = ("off", "away", "clean", "cure", "rub", "salt", "marinade", "excess", "paste", "miso")
"""Beside "scrape" these say that food is cleaned, not that a pan is."""
_STRAINS = frozenset({"strain", "sieve", "decant"})
_POURS = WET | SALTING | {"flour", "sweet"}
"""Kinds of which a liquid or a coating is; bay leaves and onions are taken out of it."""
_SOME = (
    "half",
    "third",
    "quarter",
    "few",
    "some",
    "ladle",
    "ladleful",
    "ladlefuls",
    "cup",
    "cupful",
    "cupfuls",
)
_FAT = frozenset({"fat", "oil", "grease", "drippings"})


def read_fate(state: ReadingState, clause: Clause) -> None:
    """Take what a clause says of a liquid that food sat in."""
    adjectives(state, clause)
    under_the_tap(state, clause)
    if clause.act in ("drain", "rinse", "dry", "remove", "discard"):
        _leaves(state, clause)
    if clause.act == "reserve" or (_KEEPING & clause.words and _RESERVES.search(clause.text)):
        reserved(state, clause)
    if (
        clause.has("ice", "iced", "refresh")
        and state.pot is not None
        and state.pot.foods
        and not state.pot.extra
    ):
        state.pot.drained = state.pot.closed = True
        state.pot = None
    if (
        clause.act not in ("drain", "rinse", "dry")
        and strains(clause)
        and (pot := state.latest(HOT)) is not None
    ):
        note_straining(state, pot, clause)
    strain_mixture(state, clause)
    _put_back(state, clause)
    if not leaves_liquor_open(state, clause):
        eaten_with(state, clause)
        _cooked_in(state, clause)
        _broth_used(state, clause)


def _broth_used(state: ReadingState, clause: Clause) -> None:
    """ "Lift out the chicken … add the leeks to the broth": what it was cooked in is eaten."""
    pot = state.latest(HOT)
    if pot is None or pot.clause.sentence == clause.sentence or clause.negated:
        return
    if clause.act in ("remove", "discard", "drain", "reserve") or state.index.of_kinds("stock"):
        return
    if (
        _BROTHS & clause.words
        and _IN_BROTH.search(clause.text)
        and not {state.kind(n) for n in pot.foods} & {"pasta"}
    ):
        pot.eaten, pot.drained = 1.0, False


def _put_back(state: ReadingState, clause: Clause) -> None:
    """ "Take out the meat, shred it and return it to the pot": its liquid was not poured away."""
    if clause.act != "put" or not (clause.base == "return" or clause.has("back")) or clause.vessel() == "pan":
        return
    foods = state.solids(clause, direct=True) or dict.fromkeys(state.last_foods, 1.0)
    pot = state.latest(HOT, foods) if foods else None
    if pot is not None and pot.lifted:
        pot.drained = pot.lifted = pot.closed = False
        state.pot = state.attention = pot


def _about(state: ReadingState, clause: Clause, kinds: tuple[str, ...]) -> Happening | None:
    """The happening whose food or liquid a clause speaks of."""
    solids = state.solids(clause, direct=clause.act != "remove")
    found = state.latest(kinds, solids) if solids else None
    if found is None and solids and clause.act == "drain":
        found = next((h for h in reversed(state.happened) if h.kind in HOT and h.extra & solids.keys()), None)
    if found is None and not solids:
        found = state.latest(kinds)
        others = bool(state.last_foods) and set(state.last_foods).isdisjoint(found.foods if found else ())
        elsewhere = found is not None and (
            found.closed or (clause.sentence == state.last_sentence and not found.extra & {*state.last_foods})
        )
        if elsewhere and others and clause.act == "drain":
            return None  # it is other food that is drained here: "soak the rice and drain"
    return found


def _salted_before(state: ReadingState, clause: Clause) -> None:
    """Go back to what was salted before another pot went on in the meantime."""
    if state.pending is None and state.waited is not None and clause.act in ("rinse", "drain", "dry"):
        if state.solids(clause, direct=True).keys() & state.waited.foods.keys():
            state.pending, state.waited = state.waited, None


def _rinsed(clause: Clause, found: Happening) -> None:
    can_be = found.kind in (*COLD, "drain")
    found.rinsed = found.rinsed or (can_be and (clause.act == "rinse" or clause.has(*_RINSES)))
    if found.rinsed and clause.has(*_RINSES, "wash"):
        found.rinsing = found.rinsing or clause


def _leaves(state: ReadingState, clause: Clause) -> None:
    if clause.negated and clause.act in ("drain", "discard", "rinse"):
        _not_poured(state, clause)
        return
    brushes = clause.base == "brush" and clause.has("with", "on", "onto", "over")  # "brush it on"
    if brushes or packs_down(clause) or (state.last_heat == "fry" and _on_paper(clause)):
        return
    if state.last_heat == "fry" and clause.act == "drain" and not clause.mentions:
        return  # "fry, drain, and fry again"
    about_fat = clause.has(*_FAT) and not clause.has("water", "brine", "marinade", "pasta")
    if about_fat and clause.act in ("drain", "discard", "remove"):
        return
    _salted_before(state, clause)
    if state.pending is not None and (
        clause.act in ("rinse", "drain", "dry")
        or clause.has("liquid", "juice", "juices", "brine", "moisture", "water")
    ):
        _wrung_out(state, clause)
    found = _about(state, clause, (*COLD, *HOT, "drain", "ferment"))
    if found is not None and found.kind in ("brine", "ferment") and is_drink(clause):
        note_straining(state, found, clause)
        return
    if (
        found is not None
        and clause.base in _STRAINS
        and found.kind in COLD
        and not _is_poured_through(state, found)
    ):
        return
    if found is None and clause.act == "drain" and _pot_of_pasta(state, clause):
        return
    if found is None:
        if not of_a_can(state, clause):
            of_cured_meat(state, clause)
        return
    if clause.act == "rinse" and found.kind in HOT and _others(state, clause, found):
        return  # "wash the greens" while the ham boils
    if clause.act == "remove" and (_is_part(clause) or not _takes_out(state, clause, found)):
        return
    if clause.act == "drain" and found.kind in HOT:
        _drained_together(state, clause, found)
    of_liquid = set(state.lines_of(clause, _POURS)) & set(found.liquid)
    if found.kind in HOT and clause.act == "discard" and _AFRESH.search(clause.sentence):
        return  # "throw that water away and start again"
    if clause.act == "discard" and not of_liquid and not _LIQUID_SAID.search(clause.text):
        return
    if clause.act == "dry" and found.kind in HOT:
        return
    if clause.base == "strain" and found.kind in HOT and not _of_solid(state, clause, found):
        note_straining(state, found, clause)
        return
    if (
        found.closed
        and clause.act == "drain"
        and state.solids(clause)
        and found.kind in COLD
        and of_a_can(state, clause)
    ):
        return
    if clause.base == "strain" and found.kind in HOT:
        found.strained_at = state.turn
    if clause.act == "remove" and found.kind in HOT and found.hours is None:
        found.take_time(clause)  # "when they swim (2 minutes) take them out"
    found.lifted = clause.act == "remove" and not found.drained
    found.drained = True
    if found.kind in ("marinate", "dry_cure"):
        if (
            clause.act in ("discard", "rinse")
            or (clause.act == "drain")
            or clause.has("discard", "discarding", "rinse")
        ) or (
            clause.act == "dry"
            and (
                clause.base in ("wipe", "brush", "shake")
                or (clause.base == "scrape" and clause.has(*_SCRAPED))
            )
            and not any(m.prep == "with" and m.lines for m in clause.mentions)
        ):
            found.eaten = 0.0
    _rinsed(clause, found)
    if found.kind in HOT and (clause.act in ("drain", "discard", "remove", "rinse")):
        found.closed = True
        if state.pot is found:
            state.pot = None
    if found.kind in COLD and clause.act in ("drain", "rinse", "remove", "discard", "dry"):
        found.closed = True
    used = found.kept_ml is not None or 0.0 < (found.eaten or 0.0) < 1.0
    if clause.act == "discard" and not used and re.search(r"reserv|keep|save", clause.text, re.I) is None:
        found.eaten = 0.0


def _drained_together(state: ReadingState, clause: Clause, pot: Happening) -> None:
    """ "Drain the pasta and the beans": what is drained with the food of a pot boiled in it too."""
    named = state.solids(clause, direct=True)
    if pot.closed or not named.keys() & pot.foods.keys():
        return
    for line, share in named.items():
        elsewhere = any(line in each.foods for each in state.happened)
        elsewhere = elsewhere or any(state.lines[line].words == state.lines[n].words for n in pot.foods)
        boils = state.kind(line) in POURED_WITHOUT_WORD | {"grain", "legume"}
        if boils and not elsewhere and not state.lines[line].is_canned:
            pot.foods[line] = share


def _not_poured(state: ReadingState, clause: Clause) -> None:
    """ "Don't drain": the juice that salt draws, or the liquid that food lies in, stays with it."""
    if clause.act == "rinse":
        return
    if state.pending is not None and state.pending.kind == "dry_cure":
        state.pending = None
        return
    found = _about(state, clause, (*COLD, *HOT))
    if found is not None and not found.drained:
        found.eaten, found.closed = 1.0, True


def _on_paper(clause: Clause) -> bool:
    """ "Drain on kitchen paper": fat drips off what was fried, and no liquid is poured away."""
    return clause.act == "drain" and clause.has("paper", "towel", "towels", "rack", "newspaper")


def _others(state: ReadingState, clause: Clause, found: Happening) -> bool:
    """Whether a clause speaks of other food than all of what lies in a liquid."""
    named = state.solids(clause)
    return bool(named) and not found.foods.keys() <= named.keys()


def _is_poured_through(state: ReadingState, found: Happening) -> bool:
    """Whether straining is how food leaves a bath: a joint of meat is lifted out."""
    return not found.closed and not {state.kind(n) for n in found.foods} & PROTEINS


def _pot_of_pasta(state: ReadingState, clause: Clause) -> bool:
    """ "Drain the pasta": it was boiled, in the pot that waits or in one that nobody spoke of."""
    foods = {n: s for n, s in state.solids(clause).items() if state.kind(n) in ("pasta", "potato")}
    if not foods or any(state.lines[n].is_canned for n in foods):
        return False
    pot = state.pot
    if pot is None or pot.foods:
        pot = Happening("boil", clause, water=Water("salted"), confidence=0.6)
    pot.foods, pot.heated, pot.drained, pot.closed = foods, True, True, True
    state.begin(pot)
    state.pot = None
    return True


def _of_solid(state: ReadingState, clause: Clause, found: Happening) -> bool:
    """Whether straining keeps the food and not the liquid."""
    return bool(state.solids(clause, direct=True)) or {state.kind(n) for n in found.foods} <= {
        "pasta", "potato", "vegetable", "grain", "egg"
    }  # fmt: skip


def _takes_out(state: ReadingState, clause: Clause, found: Happening) -> bool:
    """ "Remove the pork from the brine", "lift out with a slotted spoon"; not "remove from the heat"."""
    if clause.has(
        "heat",
        "oven",
        "grill",
        "stove",
        "hob",
        "lid",
        "foil",
        "bone",
        "bones",
        "skin",
        "seeds",
        "refrigerator",
        "fridge",
    ) and not clause.has("brine", "marinade", "water", "liquid", "cure", "slotted"):
        return False
    if found.kind in HOT and found.extra:
        return clause.has("water")
    solids = state.solids(clause)
    said = clause.has("brine", "marinade", "water", "liquid", "cure", "bag", "fridge")
    about = set(solids or state.last_foods)
    if not said and about and not about & set(found.foods):
        return False
    if found.kind in HOT and solids and set(found.foods) - set(solids) and not clause.has("water"):
        return False
    if found.kind in HOT:
        return clause.has("water", "slotted", "pot", "out", "ice", "skimmer", "tongs") or bool(solids)
    return True


def _is_part(clause: Clause) -> bool:
    """ "Take out a third and blend it", "remove a ladleful": of a soup, and no food that leaves its pot."""
    return "line" not in clause.speaks and clause.has(*_SOME) and not clause.has("water", "brine")


def _wrung_out(state: ReadingState, clause: Clause) -> None:
    """Salted vegetables or meat whose juice is poured off: a dry cure that is not eaten whole."""
    pending = state.pending
    assert pending is not None
    if state.latest(HOT, pending.foods) is not None:
        state.pending = None  # what is in a pot of salted water boils there
        return
    solids = state.solids(clause)
    if not set(solids or state.last_foods) & set(pending.foods):
        return
    if clause.act == "dry" and clause.base in ("pat", "blot", "dry") and pending.hours is None:
        return
    if pending.hours is None and not _is_salting(state, pending, clause):
        return
    state.pending = None
    if pending.kind == "marinate":
        return
    pending.take_time(clause)
    pending.drained = pending.closed = state.mixture.closed = True
    pending.eaten = 0.0
    pending.rinsed = clause.act == "rinse" or clause.has("rinse", "rinsed")
    pending.rinsing = clause if pending.rinsed else None
    state.begin(pending)


def _is_salting(state: ReadingState, pending: Happening, clause: Clause) -> bool:
    return (
        clause.act in ("rinse", "drain", "dry")
        and {state.kind(n) for n in pending.foods} <= {"vegetable", "potato"}
        and clause.base != "dry"
    )


def _cooked_in(state: ReadingState, clause: Clause) -> None:
    """ "Add the chicken and all its juices": the marinade goes along; on a grill it does not."""
    if clause.act not in ("put", "fry", "roast", "simmer", "cook") or clause.negated:
        return
    found = state.latest(("marinate",))
    if found is None or found.eaten is not None or found.clause.sentence == clause.sentence:
        return
    solids = set(state.solids(clause)) & set(found.foods)
    if clause.act in ("simmer", "cook") and not found.drained and not clause.mentions and found.hours:
        found.eaten, found.guessed = 1.0, True  # it simmers in what it lay in
        return
    if not solids and clause.speaks.isdisjoint(("it", "all")) and clause.act != "roast":
        return
    if clause.base in ("grill", "broil", "barbecue") or clause.has(
        "skewers", "skewer", "grill", "thread", "barbecue", "coals", "rack"
    ):
        found.eaten, found.guessed = 0.0, True
