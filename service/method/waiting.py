"""What waits: food put in a salty mixture or under salt; it counts once it stood or is wrung out."""

from __future__ import annotations

import re

from .bath_kinds import kind_of_bath
from .clauses import Clause
from .dishes import in_a_pan, is_dish, with_raw_egg
from .happenings import DRY, PROTEINS, SALTING, SHORT_H, WET, Happening, Water, with_salt
from .headings import bath_of_heading
from .held_back import rest_of_bath
from .leavens import is_leaven
from .left_to_the_cook import salty_paste
from .lying_in import (
    goes_in_bare,
    into_marinade,
    is_spoken_of,
    is_waiting,
    is_with,
    lays_in,
    lays_unsaid,
    lie_in_baths,
    named_in,
)
from .method_words import small_words
from .parts_said import part_said
from .poured_on_food import FLOODS, covered_with, flavours_over_it
from .reading_state import HOT, ReadingState
from .salt_on_food import (
    can_be_cured,
    goes_into_pot,
    into_salt,
    lies_on_food,
    may_be_wrung,
    seasons_meat,
    stands_in_salt,
    tosses,
    was_only_seasoned,
    with_salt_on_food,
)
from .soda_baths import soda_on_meat
from .waters import amount_said, water_said

_MACHINES = frozenset({"processor", "blender", "liquidiser", "liquidizer", "grinder", "mincer"})
"""In which all that goes in becomes one mass."""


def dry_salt(state: ReadingState, clause: Clause) -> None:
    """ "Rub the salt into the meat": a cure if it then stands, or if it is washed off again."""
    if goes_into_pot(state, clause) or _stirs_flour(state, clause) or _SALT_OUT.search(clause.text):
        return
    salts = _own_salt(state, clause, state.lines_of(clause, SALTING)) or soda_on_meat(state, clause)
    if not salts and clause.act == "coat" and not state.lines_of(clause, WET):
        salts = {
            n: s for n, s in state.last_dry.items() if state.kind(n) in SALTING and not lies_on_food(state, n)
        }
    said = state.salt_said(clause)
    if clause.base == "salt" and not salts:
        salts = dict.fromkeys(state.index.of_kinds("salt"), 1.0)
    strewn = clause.base == "salt" and not salts and may_be_wrung(state, clause)
    strews = clause.act == "coat" or tosses(state, clause, "vegetable") or seasons_meat(state, clause)
    named = said and strews
    if not (salts or named or strewn) and not _of_salt(state, clause):
        return
    if state.lines_of(clause, WET - {"oil"}) or (
        clause.act == "put"
        and clause.base not in _LAYS_IN_SALT
        and clause.words.isdisjoint(_STREWN)
        and not into_salt(state, clause)
    ):
        return
    if "egg" in (kinds := set(map(state.kind, state.solids(clause)))) and kinds & PROTEINS:
        return  # "toss the pork in egg white, cornflour and salt"
    if clause.act == "put" and clause.has("tin", "tray", "sheet") and state.lines_of(clause, ("oil",)):
        return  # "into a tin with oil and the salt": it roasts
    layered = clause.has("layer", "layers", "between", "sprinkling")
    if (clause.vessel() == "pot" and not layered) or state.water_of(clause) or clause.has(*_MACHINES):
        return
    foods = {n: s for n, s in state.foods(clause).items() if can_be_cured(state, n)}
    if _is_of_sauce(state, clause, salts, foods):
        return
    if clause.base == "work" and not foods.keys().isdisjoint(state.index.minced()):
        return  # "work the mince with the salt": a mixture
    if clause.base == "work" and any("white" in state.lines[n].words for n in foods):
        return  # "work the egg whites into the salt" makes a crust
    unheard = clause.act == "put" and not state.solids(clause) and not state.mixture.closed
    if not foods or (unheard and not any(map(state.spoken.get, foods))):
        return  # "add the salt" to a bowl, ahead of all food
    lines = state.lines_of(clause, DRY - {"flour"})
    if not lines and not state.mixture.closed:
        lines = {n: s for n, s in state.mixture.lines.items() if state.kind(n) in DRY | {"egg"}}
    pending = Happening(
        "dry_cure",
        clause,
        foods=foods,
        liquid={
            **salts,
            **{n: s for n, s in lines.items() if n not in foods and (state.kind(n) != "salt" or not salts)},
        },
    )
    if clause.base in ("cover", "pack", "layer", "scatter", "bury"):
        pending.liquid |= _packed_with(state, foods)
    if (said or strewn) and not salts:
        pending.water = Water("dry", amount_said(clause, "salt"))
    _with_salt_before(state, pending)
    pending.take_time(clause)
    if state.pending is not None and state.pending.hours and foods.keys().isdisjoint(state.pending.foods):
        state.waited = state.pending  # the slices stand under their salt meanwhile
    state.pending = pending
    if clause.hours and clause.hours[0].likely >= 1:
        start_pending(state)


_LAYS_IN_SALT = small_words("lays_in_salt")
_STREWN = frozenset({"layer", "layers", "between", "strewing", "sprinkling", "scattering", "alternating"})


_SALT_OUT = re.compile(r"\bremov(?:e|es|ing) (?:the |any |some |all |excess |surplus )*salt\b")
"""In "massage them to remove the salt"."""


def _stirs_flour(state: ReadingState, clause: Clause) -> bool:
    """ "Whisk the flour with the salt", "stir in the cheese and salt" behind it: no salting of the food that
    waits."""
    if clause.base in _STIRS_IN and not state.mixture.closed:
        if "flour" in map(state.kind, state.mixture.lines):
            return True
    flours = state.lines_of(clause, ("flour",)) if clause.act == "mix" else {}
    return not all(is_leaven(state.lines[n]) for n in flours) and not state.solids(clause)


_STIRS_IN = frozenset({"stir", "fold", "beat"})


def _is_of_sauce(
    state: ReadingState, clause: Clause, salts: dict[int, float], foods: dict[int, float]
) -> bool:
    """ "Add a pinch of salt", of a line that stands under "Mustard sauce": none of the fish before it."""
    if clause.act not in ("put", "mix") or not salts or state.solids(clause):
        return False
    headings = {state.lines[n].heading for n in salts}
    here = {state.lines[n].heading for n in foods}
    return "" not in headings and headings.isdisjoint(here) and not any(map(bath_of_heading, headings))


def _with_salt_before(state: ReadingState, pending: Happening) -> None:
    """ "Rub in 2 tsp of the salt … sprinkle with the rest": one cure of both."""
    before = state.pending
    if before is None or before.kind != "dry_cure" or before.foods.keys() != pending.foods.keys():
        return
    pending.hours = before.hours
    for line, share in before.liquid.items():
        now = pending.liquid.get(line, 0.0)
        pending.liquid[line] = 1.0 if now < 0 or share < 0 or now + share > 1 else now + share


def _own_salt(state: ReadingState, clause: Clause, salts: dict[int, float]) -> dict[int, float]:
    """Of several lines of salt, those that name this food ("salt for the cabbage")."""
    if len(salts) < 2:
        return salts
    words = {word for line in state.foods(clause) for word in state.lines[line].words}
    own = {n: s for n, s in salts.items() if words & set(state.lines[n].text.lower().split())}
    return own or {n: s for n, s in salts.items() if " for " not in state.lines[n].text} or salts


def _of_salt(state: ReadingState, clause: Clause) -> bool:
    """Whether a clause rubs in a mixture that is salt and spices."""
    mixture = state.mixture
    packs = clause.act == "coat" or clause.base in ("pack", "cover", "bury", "encase")
    if mixture.closed or not packs or clause.speaks.isdisjoint(("it", "bath")):
        return False
    kinds = set(map(state.kind, mixture.lines))
    return bool(kinds & SALTING) and kinds <= DRY | {"egg", "water"}


def _is_brine(state: ReadingState) -> bool:
    """Whether salt was stirred into cold water last, by no heat."""
    mixture = state.mixture
    if mixture.closed or mixture.heated:
        return False
    kinds = set(map(state.kind, mixture.lines))
    watery = mixture.water is not None or "water" in kinds
    return watery and (bool(kinds & SALTING) or bool(mixture.salt))


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
    if not rest and clause.base in _PARTLY and (part := part_said(clause)) is not None:
        own = {n: round(s * part, 4) for n, s in own.items()}  # "pour two thirds over the tuna"
    it = (
        clause.act == "hold"
        or ("it" in clause.speaks and is_spoken_of(clause))
        or goes_in_bare(clause)
        or (clause.act == "put" and bool(clause.hours) and lays_unsaid(clause))
    )
    if not solids and (it or (tossed and state.last_place == clause.method)):
        last = state.last_foods or (state.main_foods() if clause.act == "hold" else ())
        lying = lie_in_baths(state) if {"water", "salt"} <= set(map(state.kind, own)) else PROTEINS
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
    eggs = "savoury" in kinds and _are_boiled_eggs(state, solids)
    salty_water = watery and (bool(kinds & (SALTING | {"savoury"})) or stands_in_salt(state, solids))
    if not (proteins or eggs or salty_water or pours or dry):
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
        pending.liquid |= _packed_with(state, solids)
    with_salt_on_food(state, pending)
    pending.take_time(clause)
    state.pending = pending
    if clause.hours and clause.hours[0].likely >= SHORT_H:
        _stands_there(state, clause, kind)


_PARTLY = frozenset({"pour", "spoon", "brush", "go", "tip"})


def _goes_elsewhere(state: ReadingState, clause: Clause) -> bool:
    """Whether what is put in goes into a jar's marinade, a pot, or nothing that was stirred before."""
    if clause.act != "put":  # "spread with the salt and sugar"
        return clause.act == "coat" and state.pending is not None and state.pending.clause is clause
    if "marinade" in state.named and into_marinade(state, clause):
        return True
    if state.pot is not None and state.pot.heated and set(map(state.kind, state.mixture.lines)) == {"oil"}:
        return not state.pot.closed  # "boil water with a little oil in it, drop in the beef"
    if clause.vessel() == "pot" and not (clause.has("crock") or _is_brine(state)):
        return True  # what is done next says whether it boils
    roasts = state.roast is not None and state.roast is state.attention
    return (roasts and clause.base == "pour") or _boils_on(state, clause)


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


def _are_boiled_eggs(state: ReadingState, solids: dict[int, float]) -> bool:
    return set(map(state.kind, solids)) == {"egg"} and state.latest(HOT, solids) is not None


def _packed_with(state: ReadingState, foods: dict[int, float]) -> dict[int, float]:
    """Herbs and spices that lie in the jar with the food."""
    together = set().union(*(company for company in state.company if company & set(foods)))
    return {n: 1.0 for n in together if n not in foods and state.kind(n) in ("herb", "spice", "aromatic")}


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
    return bool(state.lines_of(clause, PROTEINS)) or lays_in(state, clause)


def start_pending(state: ReadingState) -> bool:
    pending = state.pending
    state.pending = None
    if pending is None or (pending.kind == "dry_cure" and was_only_seasoned(state, pending)):
        return False
    kinds = set(map(state.kind, pending.foods))
    if pending.kind == "dry_cure" and not (kinds & PROTEINS or kinds == {"cheese"}):
        # Salted vegetables count once their juice is poured off; until then they wait.
        state.pending = pending
        return True
    state.mixture.closed = True
    pot = state.pot
    if (
        pot is not None
        and pot.liquid.keys() & pending.liquid.keys()
        and pot.foods.keys() <= pending.liquid.keys()
    ):
        state.pot = None  # it was the brine that was heated
        state.happened = [each for each in state.happened if each is not pot]
    state.begin(pending)
    return True


def soaks_in_brine(state: ReadingState, clause: Clause) -> bool:
    """ "Add the chops and let them soak": in the brine or marinade that they were just put into."""
    pending = state.pending
    if pending is None or pending.kind not in ("brine", "marinate") or state.water_of(clause) is not None:
        return False
    named = state.solids(clause)
    if not clause.hours or (named and named.keys().isdisjoint(pending.foods)) or state.lines_of(clause, WET):
        return False
    pending.take_time(clause)
    return start_pending(state)
