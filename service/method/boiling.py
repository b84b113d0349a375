"""Hot water: what boils in it, what salts it, and whether it is poured away."""

from __future__ import annotations

import re

from .clauses import Clause
from .happenings import LIQUIDS, SOLIDS, Happening, Water
from .implied_pots import implied
from .poured import is_no_pot
from .reading_state import Kitchen, is_afresh, strength_of
from .waters import amount_said, is_hot, salts_of, water_for

_HEATS = frozenset({"boil", "simmer", "cook", "heat", "put", "let", "season", "mix", "cover"})
_NAMED = 0.8
"""Below this confidence a pot's water stands in no sentence, so that nothing is added to it in passing."""
_LIKE_POT = frozenset({"water", "pot", "pan", "saucepan", "it", "kettle"})
_KEEPS = re.compile(
    r"water (?:is|has been|gets) (?:fully |completely |all )?(?:absorbed|evaporated)|absorb|evaporat"
    r"|(?:water|liquid) (?:is|has) (?:all )?(?:gone|(?:been )?(?:boiled|cooked) (?:off|away))"
    r"|no (?:more )?(?:water|liquid) (?:is left|remains)",
    re.IGNORECASE,
)
_PUREES = frozenset({"blend", "mash", "puree", "purée", "liquidise", "blitz", "process", "pulse"})


def read_pot(kitchen: Kitchen, clause: Clause) -> bool:
    """Take a clause that is about boiling; whether it was one."""
    if clause.base in _PUREES:
        _pureed(kitchen, clause)
    for work in (_covered, _into_open_pot, _salted, _opened, implied):
        if work(kitchen, clause):
            return True
    if kitchen.pot is not None and is_hot(kitchen, clause):
        kitchen.pot.heated = kitchen.pot.heated or kitchen.attention is kitchen.pot
    if (
        kitchen.pot is not None
        and kitchen.attention is kitchen.pot
        and clause.act in ("boil", "simmer", "cook", "heat", "hold", "")
    ):
        pot = kitchen.pot
        if (
            pot.foods
            and not pot.closed
            and clause.hours
            and not kitchen.solids(clause, direct=True).keys() - pot.foods.keys()
        ):
            pot.take_time(clause, more=clause.has("more", "another", "further", "longer"))
            _note_absorbed(pot, clause)
            return clause.act in ("boil", "simmer", "cook")
        if pot.foods and not pot.closed:
            _note_absorbed(pot, clause)
            if clause.act == "simmer" and not pot.named:
                pot.kind = "simmer"
    return False


def _pureed(kitchen: Kitchen, clause: Clause) -> None:
    """What is mashed has left its pot; with the liquid where the clause says so."""
    pot = kitchen.pot
    if pot is None or not pot.foods:
        return
    if clause.has("water", "liquid") and not clause.negated and not pot.drained:
        pot.eaten = 1.0
    pot.closed, kitchen.pot = True, None


def _note_absorbed(pot: Happening, clause: Clause) -> None:
    if _KEEPS.search(clause.text):
        pot.absorbed = True


def _opened(kitchen: Kitchen, clause: Clause) -> bool:
    """ "Bring a large pot of salted water to a boil", "boil the potatoes in plenty of water"."""
    water = kitchen.water_of(clause)
    if water is None or clause.negated or clause.act not in _HEATS:
        return False
    vessel = clause.vessel() == "pot"
    if not (is_hot(kitchen, clause) or vessel) or clause.has("bath", "bain", "steamer", "icy"):
        return False
    if is_no_pot(kitchen, clause):
        return False
    lines = kitchen.lines_of(clause, (*LIQUIDS, "salt", "sweet", "spice", "herb", "aromatic", "oil"))
    solids = kitchen.solids(clause)
    if _is_for_a_bath(kitchen, lines) and not solids:
        return False
    before = kitchen.latest(("boil", "simmer"))
    if before is not None and clause.has("same") and solids:
        before.foods.update(solids)
        before.closed, before.eaten = False, None
        kitchen.pot = kitchen.attention = before
        return True
    pot = Happening("simmer" if clause.act == "simmer" else "boil", clause, liquid=lines)
    pot.water = water_for(kitchen, clause)
    pot.foods = dict(solids)
    if solids and _has_no_object(kitchen, clause):
        pot.foods, pot.extra = dict.fromkeys(kitchen.last_foods, 1.0), set(solids) - set(kitchen.last_foods)
    pot.heated = is_hot(kitchen, clause)
    if not solids and clause.act in ("boil", "simmer", "cook", "put") and water.prep in ("in", "into"):
        pot.foods = _shaped(kitchen, clause) or kitchen.foods(clause)
    pot.take_time(clause)
    kitchen.pot = pot
    if pot.foods:
        kitchen.begin(pot)
        _note_absorbed(pot, clause)
    return True


def _has_no_object(kitchen: Kitchen, clause: Clause) -> bool:
    """ "Put in a pot with water and an onion": what is put there is what was spoken of last."""
    return (
        clause.act == "put"
        and len(clause.tokens) > 1
        and clause.tokens[1].text in ("in", "into", "to", "back")
        and bool(clause.mentions)
        and clause.mentions[0].kind in ("vessel", "water")
        and bool(kitchen.last_foods)
    )


def _shaped(kitchen: Kitchen, clause: Clause) -> dict[int, float]:
    """All that dumplings, bagels and their like were made of, where those are what boils."""
    near = clause.method == kitchen.made_in and not kitchen.last_foods
    made = near or any(m.kind == "made" for m in clause.mentions)
    if not made:
        return {}
    baths = {n for each in kitchen.happened for n in each.liquid}
    sauces = {n for n, line in kitchen.lines.items() if "sauce" in line.heading.lower()}
    return {n: 1.0 for n in kitchen.spoken if n not in baths | sauces and kitchen.kind(n) != "water"}


def _is_for_a_bath(kitchen: Kitchen, lines: dict[int, float]) -> bool:
    """Whether liquids are those of a named brine, or are stirred to one with sugar."""
    baths = set().union(*(mixture.lines for mixture in kitchen.named.values())) if kitchen.named else set()
    kinds = {kitchen.kind(line) for line in lines}
    return (
        bool(baths.intersection(lines)) or {"water", "sweet", "salt"} <= kinds or {"water", "acid"} <= kinds
    )


def _covered(kitchen: Kitchen, clause: Clause) -> bool:
    """ "Cover the potatoes with cold water": what is done next says whether they soak or boil."""
    water = kitchen.water_of(clause)
    covers = clause.base in ("cover", "submerge", "immerse", "start", "begin") or clause.has(
        "cover", "covered", "covering", "submerge"
    )
    if water is None or not covers or clause.act not in ("put", "other", "", "brine", "let"):
        return False
    if water.prep not in ("with", "in", "by", "under", "") or kitchen.bath_said(clause):
        return False
    foods = kitchen.solids(clause) or dict.fromkeys(kitchen.last_foods, 1.0)
    extra = set(foods) if _has_no_object(kitchen, clause) else set()
    if extra:
        foods = dict.fromkeys(kitchen.last_foods, 1.0)
    if not foods:
        return False
    liquid = kitchen.lines_of(clause, ("water", "salt"))
    if kitchen.company and kitchen.company[-1] & set(foods):
        together = {n: 1.0 for n in kitchen.company[-1] if n not in foods}
        foods = {**foods, **{n: s for n, s in together.items() if kitchen.kind(n) in SOLIDS}}
        liquid |= {n: s for n, s in together.items() if kitchen.kind(n) not in SOLIDS}
    pot = Happening("boil", clause, foods=foods, liquid=liquid, extra=extra - set(foods))
    pot.water = water_for(kitchen, clause)
    pot.take_time(clause)
    kitchen.pot = kitchen.begin(pot)
    return True


def _into_open_pot(kitchen: Kitchen, clause: Clause) -> bool:
    """ "Add the pasta", once there is a pot of water."""
    pot = kitchen.pot
    if pot is None or pot.closed or clause.act not in ("put", "cook", "boil", "simmer", "mix", "heat"):
        return False
    new = {
        line: share for line, share in kitchen.solids(clause, direct=True).items() if line not in pot.foods
    }
    to_water = _is_to(clause)
    if kitchen.water_of(clause) is not None and not to_water:
        return False
    elsewhere = is_afresh(clause) or clause.vessel() in ("pan", "bowl")
    if pot.foods and new and not to_water:
        if pot.confidence < _NAMED:
            kitchen.attention = None
        if elsewhere or not _adds(clause) or kitchen.attention is not pot:
            return False
        if set(pot.foods) & set(kitchen.solids(clause, direct=True)):
            pot.closed = True
            kitchen.pot = None
            return False
        # A pot that has its food and gets more is a soup unless it is drained.
        pot.extra |= set(kitchen.lines_of(clause)) - set(pot.foods)
        return False
    if elsewhere and not to_water:
        return False
    if _meant_elsewhere(kitchen, pot, clause, new) and not to_water:
        return False
    if (
        not new
        and to_water
        and not pot.foods
        and clause.act in ("put", "cook")
        and not salts_of(kitchen, clause)
    ):
        new = dict.fromkeys(kitchen.last_foods, 1.0)
    if (
        not pot.foods
        and (shaped := _shaped(kitchen, clause))
        and clause.act in ("put", "cook", "boil", "simmer")
    ):
        new = shaped
    if not new:
        others = (
            kitchen.lines_of(clause, (*LIQUIDS, "oil", "salt", "spice", "herb", "aromatic", "sweet", "flour"))
            if not elsewhere
            else {}
        )
        if others and pot.foods and pot.confidence < _NAMED and not to_water:
            kitchen.attention = None
        elif others and pot.foods and _adds(clause) and (to_water or kitchen.attention is pot):
            pot.extra |= {
                line
                for line in others
                if kitchen.kind(line) not in ("water", "spice", "herb", "oil", "salt", "aromatic")
            }
        elif others and not pot.foods and (to_water or _fresh(kitchen, pot, clause)):
            pot.liquid.update(others)
        return False
    if not pot.foods:
        pot.clause = clause
        kitchen.begin(pot)
    pot.foods.update(new)
    if salts := salts_of(kitchen, clause):
        if said := amount_said(clause, "salt"):
            pot.water = pot.water or Water()
            pot.water.salt, pot.water.strength = said, "salted"
        else:
            pot.liquid.update(salts)
    pot.take_time(clause)
    pot.heated = pot.heated or is_hot(kitchen, clause)
    _note_absorbed(pot, clause)
    return True


def _meant_elsewhere(kitchen: Kitchen, pot: Happening, clause: Clause, new: dict[int, float]) -> bool:
    """Whether what is put in goes to the pan spoken of since, while the pot of water still waits."""
    if pot.foods or kitchen.attention is pot or clause.act not in ("put", "mix") or not new:
        return False
    return not {kitchen.kind(n) for n in new} & {"pasta", "potato", "egg"}


def _adds(clause: Clause) -> bool:
    """Whether a clause puts more into what is there already."""
    return clause.act == "put" or clause.base in ("stir", "fold")


def _is_to(clause: Clause) -> bool:
    """Whether something goes into "the water" or "the pot"."""
    return any(
        (
            m.kind == "water"
            or m.kind == "vessel"
            or (any(True for _ in m.lines) and clause.tokens[m.j - 1].text == "water")
        )
        and m.prep in ("in", "into", "to")
        for m in clause.mentions
    ) and clause.vessel() not in ("bowl", "pan")


def _salted(kitchen: Kitchen, clause: Clause) -> bool:
    """ "Salt the water", "add 2 tbsp salt": for a pot that waits."""
    pot = kitchen.pot
    if pot is None or pot.closed or clause.act not in ("put", "season", "mix", "coat", "other", "", "let"):
        return False
    salts, said = salts_of(kitchen, clause), kitchen.salt_said(clause) or clause.base == "salt"
    if not salts and not said:
        return False
    about_water = clause.has("water", "pot") or clause.base == "salt"
    only_salt = not kitchen.solids(clause) and not kitchen.lines_of(clause, ("spice", "herb"))
    if (
        pot.foods
        and not clause.has("water")
        and not (only_salt and clause.act == "put" and kitchen.attention is pot)
    ):
        return False
    if not about_water and not only_salt:
        return False
    if salts:
        pot.liquid.update(salts)
    else:
        water = pot.water or Water()
        water.strength = strength_of(clause) if "very" in strength_of(clause) else "salted"
        water.salt = amount_said(clause, "salt") or water.salt
        pot.water = water
    return True


def _fresh(kitchen: Kitchen, pot: Happening, clause: Clause) -> bool:
    """Whether a clause follows so close on a pot's own that it speaks of it."""
    return pot.clause.sentence == clause.sentence or (
        pot.clause.method == clause.method and clause.start - pot.clause.end < 60
    )
