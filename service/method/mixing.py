"""What is stirred together: brines, marinades and rubs in the making."""

from __future__ import annotations

from .clause_words import is_afresh, is_elsewhere
from .clauses import Clause
from .happenings import PROTEINS, SALTING, WET, Mixture
from .headings import bath_of_heading
from .ingredients_meant import MAKES
from .mention import Mention
from .quick_pickles import lie_in_vinegar
from .reading_state import HOT, ReadingState
from .unnamed_baths import mix_unnamed
from .waters import amount_said, salt_beside, with_more_water


def mix(state: ReadingState, clause: Clause) -> None:
    """Keep what is stirred together."""
    stands = not state.mixture.closed or "all" in clause.speaks
    if not (stands or clause.act in _MAY_STIR or clause.base in _WORKS) or _flattens(state, clause):
        return
    lines = state.lines_of(clause)
    water, said = state.water_of(clause), state.salt_said(clause)
    named = state.bath_said(clause)
    whole = "all" in clause.speaks or (clause.act == "mix" and not lines and not water)
    if whole and (coating := _coating(state, clause)):
        lines = coating
    if named is not None and named.name in state.named and whole:
        state.mixture = state.named[named.name]  # "tip all the brine ingredients into a pan"
        state.mixture.closed = False
    elif named is not None and whole and clause.act in ("mix", "put") and _is_made(clause, named):
        mix_unnamed(state, named.name)
    if named is not None and named.name != "other" and clause.base in MAKES and not lines:
        state.announced = clause.method, named.name
    fills = clause.base in _FILLS and clause.vessel() == "bowl" and not state.solids(clause)
    stirs = fills or clause.act in {"mix", "heat", "boil"} or clause.base == "work"
    stirs = stirs or (clause.act == "season" and _is_seasoned(state, clause, lines))
    if clause.base in ("salt", "season") and water is not None and not water.prep:
        stirs, lines = True, lines | salt_beside(state, water.lines)  # "salt the water"
    stirs |= clause.base in _CRUSHES and (len(lines) > 1 or clause.has("together"))
    stirs = stirs or (
        clause.act == "put"
        and (clause.has("blender", "processor", "liquidiser", "shaker") or _is_dry_mix(state, lines))
    )
    listed = not clause.act and clause.opens and len(lines) > 1 and _is_list(state, clause, lines)
    hot = clause.act == "simmer" and bool(lines) and _is_stirred_hot(state, clause)
    stirs = stirs or listed or hot  # "Marinade: yoghurt, lemon, salt."
    if (apart := not state.mixture.closed and _is_of_another_part(state, clause)) and not (
        stirs and (lines or water or said)
    ):
        return
    if stirs or (clause.act == "put" and not lines.keys() & set(state.last_foods)):
        begins = state.mixture.closed or apart or is_elsewhere(clause)
        begins = begins or (is_afresh(clause) and clause.act != "put")
        begins = begins or (stirs and len(lines) > 1 and _in_another_bowl(state, clause, lines))
        if (
            begins
            and (lines or water or said)
            and (stirs or is_afresh(clause) or _salts_water(state, clause, lines))
        ):
            if "flour" in map(state.kind, state.mixture.lines):
                state.floured = state.mixture
            state.mixture = Mixture(sentence=clause.sentence, part=clause.heading)
            _name_as_announced(state, clause)
    mixture = state.mixture
    if mixture.closed or clause.act == "serve":
        return
    mixture.heated = mixture.heated or clause.act in ("heat", "boil", "simmer")
    mixture.add(_without_meat(state, lines) if clause.act in _APART else lines)
    if clause.act in ("put", "mix") and "acid" in state.index.by_kind:
        lie_in_vinegar(state, clause)
    if water is not None and water.kind == "water":
        salt = amount_said(clause, "salt") if said is not None else ""
        mixture.water = with_more_water(state, mixture.water, clause, salt)
    if said is not None:
        mixture.salt = amount_said(clause, "salt") or mixture.salt or "salt"
    name = named.name if named and named.name != "other" else bath_of_heading(clause.heading)
    if name and clause.act in ("mix", "heat", "boil", ""):
        _call_it(state, mixture, name)


_APART = frozenset({"cut", "drain"})


def _without_meat(state: ReadingState, lines: dict[int, float]) -> dict[int, float]:
    """ "Slash the thighs", "slice the chicken and stir in", "drain the herring": what is cut, or comes out of
    its own water, is in no bowl yet."""
    return {n: s for n, s in lines.items() if state.kind(n) not in PROTEINS}


def _is_list(state: ReadingState, clause: Clause, lines: dict[int, float]) -> bool:
    """ "Marinade: yoghurt, lemon, salt.", "Masala: tamarind, turmeric, salt": of nothing that lies in it."""
    if bath_of_heading(clause.heading):
        return True
    kinds = set(map(state.kind, lines))
    return (
        len(lines) > _FEW and kinds <= _SEASONED | WET | {"sweet", "curing"} and not kinds.isdisjoint(SALTING)
    )


_FEW = 2


def _flattens(state: ReadingState, clause: Clause) -> bool:
    """ "Beat the escalopes out": nothing is stirred."""
    if clause.base != "beat":
        return False
    kinds = set(map(state.kind, state.lines_of(clause)))
    return bool(kinds) and kinds <= PROTEINS


def _is_dry_mix(state: ReadingState, lines: dict[int, float]) -> bool:
    """ "Put the flour, salt and pepper in a bag": they are stirred, whatever the verb."""
    kinds = set(map(state.kind, lines)) if len(lines) > 1 else set()
    return "flour" in kinds and kinds <= {"flour", "salt", "spice", "herb"}


def _in_another_bowl(state: ReadingState, clause: Clause, lines: dict[int, float]) -> bool:
    """ "Whisk the vinegar, sugar and salt", once the rice boils; "stir the rest of the soy sauce with the
    sugar", beside the bowl that has the first of it."""
    bowl = state.mixture.lines.keys()
    if not bowl.isdisjoint(lines):
        return -1.0 in lines.values()
    apart = clause.base not in _STIRS_IN or clause.has("together")
    if apart and bowl <= set(state.bowled) and clause.act == "mix" and not clause.mentions[0].prep:
        return not state.solids(clause)  # "put the pork in a bag. Combine the soy sauce and vinegar"
    pot = state.latest(HOT) if state.mixture.heated and clause.act in ("mix", "heat") else None
    if pot is None or not pot.foods or not pot.foods.keys() <= bowl or "water" in clause.speaks:
        return False
    return apart or pot.drained


_STIRS_IN = frozenset({"stir", "add", "fold", "swirl", "toss"})


def _call_it(state: ReadingState, mixture: Mixture, name: str) -> None:
    """ "Stir to a marinade": what was stirred is called so from now on, with what was called so before."""
    known = state.named.get(name)
    if known is None:
        state.named[name], mixture.name = mixture, name
    else:
        known.add({n: s for n, s in mixture.lines.items() if state.kind(n) not in PROTEINS})
        known.water = known.water or mixture.water


def _is_seasoned(state: ReadingState, clause: Clause, lines: dict[int, float]) -> bool:
    """ "Season the flour with pepper", "salt the buttermilk": with the only salt of the list."""
    kinds = set(map(state.kind, lines))
    if "milk" in kinds and kinds <= _SEASONED and clause.base in _SEASONS:
        salts = state.index.of_kinds("salt")
        if clause.base == "salt" and len(salts) == 1:
            lines[salts[0]] = 1.0
        return bool(SALTING & set(map(state.kind, lines)))
    return "flour" in kinds


_SEASONED = frozenset({"milk", "salt", "spice", "herb", "aromatic", "acid"})
_SEASONS = frozenset({"salt", "season", "flavour", "spice"})


def _is_stirred_hot(state: ReadingState, clause: Clause) -> bool:
    """Whether a clause that simmers makes a bath: of no pieces, or only until all is dissolved."""
    solids = set(map(state.kind, state.solids(clause)))
    # with onions in it
    sours = solids == {"vegetable"} and bool(state.lines_of(clause, ("acid", "milk")))
    return not solids or sours or clause.has("dissolve", "dissolved", "dissolves")


def _is_of_another_part(state: ReadingState, clause: Clause) -> bool:
    """Whether a clause works on another part of the list than that whose lines are in the bowl."""
    part = clause.heading
    return part != state.mixture.part and any(n.heading == part for n in state.index.lines)


_MAY_STIR = frozenset({"mix", "heat", "boil", "put", "season", "simmer", ""})
_PRESSES = frozenset({"squeeze", "grate", "juice", "measure"})
"""How the first thing goes into a bowl: "squeeze the lemons into a bowl"."""
_CRUSHES = frozenset({"pound", "crush", "bash", "shake", "bruise"})
_FILLS = _PRESSES | _CRUSHES
_WORKS = MAKES | _PRESSES | _CRUSHES | {"work"}


def _name_as_announced(state: ReadingState, clause: Clause) -> None:
    """ "To make the brine, combine the first four ingredients in a pan": what is stirred now is it,
    and not what the list seemed to make of it."""
    place, name = state.announced
    if place == clause.method and name and not state.mixture.lines:
        state.named[name], state.mixture.name = state.mixture, name
        state.announced = -1, ""


def _is_made(clause: Clause, bath: Mention) -> bool:
    """Whether a clause makes the bath that it names: not "make cuts so the marinade will penetrate"."""
    before = {token.text for token in clause.tokens[: bath.i]}
    return bath.name != "other" and before.isdisjoint(("so", "that", "where", "which"))


_OF_COATINGS = frozenset({"coating", "breading", "dredging", "crumb"})


def _coating(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "Combine the coating ingredients", of a list without headings: flour, and the dry lines beside it."""
    if _OF_COATINGS.isdisjoint(clause.words) or any(line.heading for line in state.index.lines):
        return {}
    dry = {"flour", "salt", "spice", "herb"}
    flours = [n for n in state.index.of_kinds("flour") if not state.spoken.get(n)]
    order = [line.index for line in state.index.lines]
    found = set(flours[:1])
    for way in (1, -1):
        at = order.index(flours[0]) + way if flours else -1
        while 0 <= at < len(order) and state.kind(order[at]) in dry and not state.spoken.get(order[at]):
            found.add(order[at])
            at += way
    return dict.fromkeys(sorted(found), 1.0) if len(found) > 1 else {}


def _salts_water(state: ReadingState, clause: Clause, lines: dict[int, float]) -> bool:
    """ "Add the salt to the water": a brine begins."""
    salty = state.salt_said(clause) is not None or any(state.kind(n) in SALTING for n in lines)
    return salty and state.water_of(clause) is not None


_ALL = 0.97


def pour_in_all_water(state: ReadingState) -> None:
    """ "Heat half the water with the salt, then add the rest cold": all the water of a brine goes in, and the
    ice that cools it."""
    _pour_in_unused(state)
    for line in state.waters:
        users = [each for each in state.happened if line in each.liquid]
        total = sum(each.liquid[line] for each in users)
        if 0 < total < _ALL and {each.kind for each in users} <= {"brine", "inject"}:
            for each in users:
                each.liquid[line] = round(each.liquid[line] / total, 4)


_BRINES = frozenset({"brine", "solution", "water"})


def _pour_in_unused(state: ReadingState) -> None:
    """Water of the list that nothing took, of a brine that has none or is cooled with ice."""
    used = {n for h in state.happened for n in (*h.liquid, *h.extra, *h.foods)}
    unused = [n for n in sorted(state.waters) if n not in used and not state.lines[n].heading]
    baths = [h for h in state.happened if h.kind in ("brine", "dry_cure") and h.clause.words & _BRINES]
    if not unused or len(baths) != 1 or not any(state.kind(n) == "salt" for n in baths[0].liquid):
        return
    dry = baths[0].water is None and not any(state.kind(n) in WET for n in baths[0].liquid)
    for line in unused:
        if dry or "ice" in state.lines[line].words:
            baths[0].liquid[line], baths[0].kind = 1.0, "brine"
