"""What waits: food put in a salty mixture or under salt; it counts once it stood or is wrung out."""

from __future__ import annotations

import re

from .clauses import Clause
from .happenings import DRY, PROTEINS, SALTING, WET, Happening, Water
from .headings import bath_of_heading
from .leavens import is_leaven
from .method_words import small_words
from .reading_state import ReadingState
from .salt_on_food import (
    can_be_cured,
    goes_into_pot,
    into_salt,
    lies_on_food,
    may_be_wrung,
    seasons_meat,
    tosses,
    was_only_seasoned,
)
from .soda_baths import soda_on_meat
from .waters import amount_said

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
        pending.liquid |= packed_with(state, foods)
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


def is_brine(state: ReadingState) -> bool:
    """Whether salt was stirred into cold water last, by no heat."""
    mixture = state.mixture
    if mixture.closed or mixture.heated:
        return False
    kinds = set(map(state.kind, mixture.lines))
    watery = mixture.water is not None or "water" in kinds
    return watery and (bool(kinds & SALTING) or bool(mixture.salt))


def packed_with(state: ReadingState, foods: dict[int, float]) -> dict[int, float]:
    """Herbs and spices that lie in the jar with the food."""
    together = set().union(*(company for company in state.company if company & set(foods)))
    return {n: 1.0 for n in together if n not in foods and state.kind(n) in ("herb", "spice", "aromatic")}


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
