"""Food that is put in what was stirred before: a bath, once it stood there."""

from __future__ import annotations

from .bath_kinds import kind_of_bath
from .clauses import Clause
from .dishes import in_a_pan, is_dish, with_raw_egg
from .happenings import DRY, PROTEINS, SALTING, SHORT_H, WET, Happening, Water, with_salt
from .held_back import rest_of_bath
from .left_to_the_cook import salty_paste
from .lying_in import (
    goes_in_bare,
    into_marinade,
    is_of_salt_water,
    is_spoken_of,
    is_waiting,
    is_with,
    lays_in,
    lays_unsaid,
    lie_in_baths,
    named_in,
)
from .parts_said import part_said
from .poured_on_food import FLOODS, covered_with, flavours_over_it
from .reading_state import HOT, ReadingState
from .salt_on_food import (
    stands_in_salt,
    with_salt_on_food,
)
from .waiting import is_brine, packed_with, start_pending
from .waters import water_said

_OF_SALADS = frozenset({"potato", "egg", "pasta", "grain", "legume", "bread"})


def _boils_on(state: ReadingState, clause: Clause) -> bool:
    """Whether what is put in goes to the food that boils: "cook the potatoes, then the prawns"."""
    pot = state.pot
    if pot is None or not pot.foods or pot.closed or pot not in state.happened:
        return False
    told = bool(clause.vessel()) or bool(clause.speaks & {"bath", "water"})
    its_water = pot is state.attention and pot.heated and state.mixture.lines.keys() <= pot.liquid.keys()
    return (clause.sentence == state.last_sentence or its_water) and not told


def into_mixture(state: ReadingState, clause: Clause) -> None:
    """ "Add the chicken" to a bowl of salty liquid: a bath if it then stands in the cold."""
    mixture = state.mixture
    covered = covered_with(state, clause)
    tossed = clause.act in ("mix", "coat") and state.last_sentence != "" and mixture.closed
    if _goes_elsewhere(state, clause):
        return
    rest = rest_of_bath(state, clause) if mixture.closed else {}
    bathed = covered or rest or (tossed and is_with(clause))
    if mixture.closed and not (bathed or _line_bath(state, clause)):
        return
    solids = {} if flavours_over_it(state, clause) else named_in(state, clause)
    own = {**(mixture.shares() if not mixture.closed else {}), **(rest or _own_lines(state, clause))}
    if own.keys() <= solids.keys():
        return
    if not rest and mixture.taken == 1.0 and clause.base in _PARTLY:
        own = _of_part(own, part_said(clause) or 1.0)  # "pour two thirds over the tuna"
    it = _is_of_last(clause)
    if not solids and (it or (tossed and state.last_place == clause.method)):
        last = state.last_foods or (state.main_foods() if clause.act == "hold" else ())
        lying = lie_in_baths(state) if is_of_salt_water(state, own) else PROTEINS
        solids = {n: 1.0 for n in last if n not in own and state.kind(n) in lying}
    if covered and set(map(state.kind, solids)) <= {"vegetable"}:
        solids = covered  # the onions that are poured over it with the wine
    if not solids and clause.base in FLOODS and state.bath_said(clause) and not state.solids(clause):
        solids = {n: 1.0 for n in state.last_foods if n not in own and state.kind(n) in ("vegetable", "egg")}
    solids, own = with_raw_egg(state, solids, own)
    own = {n: s for n, s in own.items() if n not in solids}
    kinds = set(map(state.kind, own))
    if not solids or not kinds & (WET | SALTING):
        return
    water = mixture.water or _told_water(state, clause)
    watery = water is not None or "water" in kinds
    if is_dish(state, solids, own, watery=watery) or (in_a_pan(clause) and not watery):
        return
    proteins = set(map(state.kind, solids)) & PROTEINS
    if proteins and not _OF_SALADS.isdisjoint(state.kind(n) for n in state.solids(clause) if n not in own):
        return  # a salad in layers
    pours = _pickles(state, clause, kinds, solids)
    dry = kinds <= DRY and bool(kinds & SALTING) and clause.act == "put"
    other = _other_lies(state, kinds, solids)
    salty_water = watery and (bool(kinds & (SALTING | {"savoury"})) or stands_in_salt(state, solids))
    if not (proteins or other or salty_water or pours or dry):
        return
    kind = kind_of_bath(
        "cure" if clause.base == "rub" else "" if mixture.closed else mixture.name,
        kinds,
        watery=watery,
        salty=bool(mixture.salt),
        is_paste=salty_paste(state, own),
    )
    solids = {n: s for n, s in solids.items() if not proteins or state.kind(n) in PROTEINS}
    pending = Happening(
        kind, clause, foods=solids, liquid={n: s for n, s in own.items() if state.kind(n) not in PROTEINS}
    )
    pending.water = water
    with_salt(pending, mixture)
    if (pours and (not proteins or state.latest(("brine", "dry_cure"), solids))) or any(
        "brine" in state.lines[n].words for n in own
    ):
        pending.kind = "brine"
    if pending.kind == "brine":
        pending.liquid |= packed_with(state, solids)
    with_salt_on_food(state, pending)
    pending.take_time(clause)
    state.pending = pending
    if clause.hours and clause.hours[0].likely >= SHORT_H:
        _stands_there(state, clause, kind)


def _is_of_last(clause: Clause) -> bool:
    """Whether what is put somewhere is what was spoken of last."""
    if clause.act == "hold" or ("it" in clause.speaks and is_spoken_of(clause)):
        return True
    return goes_in_bare(clause) or (clause.act == "put" and bool(clause.hours) and lays_unsaid(clause))


_PARTLY = frozenset({"pour", "spoon", "brush", "go", "tip"})


def _of_part(lines: dict[int, float], part: float) -> dict[int, float]:
    return {n: round(s * part, 4) for n, s in lines.items()} if part < 1.0 else lines


def _goes_elsewhere(state: ReadingState, clause: Clause) -> bool:
    """Whether what is put in goes into a jar's marinade, a pot, or nothing that was stirred before."""
    if clause.hours and _boils_in_it(state, clause):
        return True
    if clause.act != "put":  # "spread with the salt and sugar"
        return clause.act == "coat" and state.pending is not None and state.pending.clause is clause
    if "marinade" in state.named and into_marinade(state, clause):
        return True
    if state.pot is not None and state.pot.heated and set(map(state.kind, state.mixture.lines)) == {"oil"}:
        return not state.pot.closed  # "boil water with a little oil in it, drop in the beef"
    if clause.vessel() == "pot" and not (clause.has("crock") or is_brine(state)):
        return True  # what is done next says whether it boils
    roasts = state.roast is not None and state.roast is state.attention
    return (roasts and clause.base == "pour") or _boils_on(state, clause)


def _boils_in_it(state: ReadingState, clause: Clause) -> bool:
    """ "Salt a pot of boiling water. In with the artichokes for 35 minutes": in the pot that was heated just
    now, and in no brine."""
    pot = state.pot
    waits = pot is not None and pot.heated and state.attention is pot and not (pot.foods or pot.closed)
    return waits and clause.hours[0].likely <= _LONG_BOIL_H and clause.act in ("put", "hold")


_LONG_BOIL_H = 1.0
"""Hours that vegetables boil at the most; common practice, no source."""


def _stands_there(state: ReadingState, clause: Clause, kind: str) -> None:
    """ "Put the chops in and leave for a day": what is put in stands from here on."""
    cold = clause.celsius is None and not state.last_heat and clause.vessel() in ("", "bowl")
    long = clause.act not in ("mix", "coat") or clause.hours[0].likely >= _LONG_H
    brined = kind == "brine" and clause.act == "put"
    if (cold and long) or brined or lays_in(state, clause) or is_waiting(clause):
        start_pending(state)


_LONG_H = 0.3
"""Hours that nobody tosses or coats."""


def _told_water(state: ReadingState, clause: Clause) -> Water | None:
    """ "Cover it with hot water in which the salt is dissolved": water that no line names."""
    water = state.water_of(clause)
    return Water(amount=water_said(clause)) if water is not None and water.kind == "water" else None


def _own_lines(state: ReadingState, clause: Clause) -> dict[int, float]:
    """The lines of a clause; of "the other half of the salt", with the half that was stirred before."""
    lines, stirred = state.lines_of(clause), state.mixture
    if stirred.closed:
        return lines
    for n, share in lines.items():
        if 0 < share < 1 and state.kind(n) == "salt" and n in stirred.lines:
            lines[n] = round(min(share + stirred.lines[n], 1.0), 4)
    return lines


def _pickles(state: ReadingState, clause: Clause, kinds: set[str], foods: dict[int, float]) -> bool:
    """Whether vinegar is poured over food, or food goes into hot vinegar with salt, sugar, or after salt."""
    if "acid" not in kinds or "oil" in kinds:
        return False
    hot = state.mixture.heated and clause.act == "put"
    hot = hot and (
        bool(kinds & (SALTING | {"sweet"})) or state.latest(("brine", "dry_cure"), foods) is not None
    )
    return hot or clause.base in ("pour", "cover")


def _other_lies(state: ReadingState, kinds: set[str], solids: dict[int, float]) -> bool:
    """Whether food other than meat lies in a marinade: boiled eggs in soy sauce, or cheese that is grilled as
    meat is. kinds: of what it lies in."""
    if set(map(state.kind, solids)) == {"egg"}:
        return "savoury" in kinds and state.latest(HOT, solids) is not None
    firm = bool(solids) and all(not _FIRM.isdisjoint(state.lines[n].words) for n in solids)
    return firm and not kinds.isdisjoint(_IN_WHICH_CHEESE_LIES)


_FIRM = frozenset({"paneer", "halloumi"})
_IN_WHICH_CHEESE_LIES = frozenset({"milk", "savoury", "acid"})


def _line_bath(state: ReadingState, clause: Clause) -> bool:
    """Whether one clause names meat, or means it, and its salty liquid together."""
    if not state.lines_of(clause, ("savoury", "acid", "salt", "milk", "wine")):
        return False
    vessel = clause.vessel()
    if clause.base in FLOODS and state.lines_of(clause, SALTING) and state.lines_of(clause, ("acid",)):
        if state.lines_of(clause, ("vegetable",)):
            return True  # "pour the vinegar, mixed with salt, over the onions"
    brined = (clause.act == "mix" and vessel != "pot") or (clause.act == "put" and vessel == "bowl")
    if brined and state.lines_of(clause, SALTING) and state.water_of(clause) is not None:
        if state.lines_of(clause, ("vegetable",)) or "it" in clause.speaks:
            return True  # "combine the cucumbers, the salt and the water"
    if state.lines_of(clause, PROTEINS) or lays_in(state, clause):
        return True
    kinds = set(map(state.kind, state.lines_of(clause)))
    return _other_lies(state, kinds, state.solids(clause, direct=True))
