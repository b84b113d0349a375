"""Hot water: what boils in it, what salts it, and whether it is poured away."""

from __future__ import annotations

import re

from .clauses import Clause
from .happenings import LIQUIDS, POURED_WITHOUT_WORD, PROTEINS, SOLIDS, Happening, Water
from .poured import is_no_pot
from .reading_state import Kitchen, is_afresh, strength_of

_BOILS = frozenset({"boil", "boils", "boiling", "boiled", "simmer", "simmering", "rolling", "blanch"})
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
_LARGE = re.compile(
    r"\b(?:large|big|huge) (?:\w+ )?(?:pot|(?:sauce)?pan|stockpot|kettle|potful) (?:\w+ )?of "
    r"(?:\w+ ){0,3}water\b|\bplenty of (?:\w+ ){0,3}water\b",
    re.IGNORECASE,
)
_LARGE_POT = "2.5 to 4 l water"
"""What a large pot of water holds; common practice, no source."""


def read_pot(kitchen: Kitchen, clause: Clause) -> bool:
    """Take a clause that is about boiling; whether it was one."""
    if clause.base in _PUREES:
        _pureed(kitchen, clause)
    for work in (_covered, _into_open_pot, _salted, _opened, _implied):
        if work(kitchen, clause):
            return True
    if kitchen.pot is not None and _is_hot(kitchen, clause):
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
            pot.take_time(clause)
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


def _is_hot(kitchen: Kitchen, clause: Clause) -> bool:
    return (
        any(token.text in _BOILS for token in clause.tokens)
        or clause.act in ("boil", "simmer")
        or (clause.act in ("cook", "heat"))
    )


def _waters(kitchen: Kitchen, clause: Clause) -> dict[int, float]:
    return kitchen.lines_of(clause, ("water",))


def _salts(kitchen: Kitchen, clause: Clause) -> dict[int, float]:
    return kitchen.lines_of(clause, ("salt",))


def _water_for(kitchen: Kitchen, clause: Clause) -> Water | None:
    """Water that no line names, as salty as the clause says."""
    if _waters(kitchen, clause):
        return None
    said = kitchen.salt_said(clause)
    strength = strength_of(clause) or ("salted" if said or clause.base == "salt" else "")
    amount = amount_said(clause, "water") or (_LARGE_POT if _LARGE.search(clause.text) else "")
    return Water(strength, amount_said(clause, "salt"), amount)


def amount_said(clause: Clause, word: str) -> str:
    """The amount of something that a clause gives, as written: "2 tbsp salt"; "" where it gives none."""
    for mention in clause.mentions:
        if mention.amount and clause.tokens[mention.j - 1].text.endswith(word):
            since = clause.tokens[0].start
            first = mention.i - (mention.amount[1] - mention.amount[0])
            if 0 <= first < len(clause.tokens):
                start, end = clause.tokens[first].start, clause.tokens[mention.j - 1].end
                return clause.text[start - since : end - since]
    return ""


def _opened(kitchen: Kitchen, clause: Clause) -> bool:
    """ "Bring a large pot of salted water to a boil", "boil the potatoes in plenty of water"."""
    water = kitchen.water_of(clause)
    if water is None or clause.negated or clause.act not in _HEATS:
        return False
    vessel = clause.vessel() == "pot"
    if not (_is_hot(kitchen, clause) or vessel) or clause.has("bath", "bain", "steamer", "icy"):
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
    pot.water = _water_for(kitchen, clause)
    pot.foods = dict(solids)
    pot.heated = _is_hot(kitchen, clause)
    if not solids and clause.act in ("boil", "simmer", "cook", "put") and water.prep in ("in", "into"):
        pot.foods = _shaped(kitchen, clause) or kitchen.foods(clause)
    pot.take_time(clause)
    kitchen.pot = pot
    if pot.foods:
        kitchen.begin(pot)
        _note_absorbed(pot, clause)
    return True


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
    covers = clause.base in ("cover", "submerge", "immerse") or clause.has(
        "cover", "covered", "covering", "submerge"
    )
    if water is None or not covers or clause.act not in ("put", "other", "", "brine"):
        return False
    if water.prep not in ("with", "in", "by", "under", "") or kitchen.bath_said(clause):
        return False
    foods = kitchen.solids(clause) or dict.fromkeys(kitchen.last_foods, 1.0)
    if not foods:
        return False
    liquid = kitchen.lines_of(clause, ("water", "salt"))
    if kitchen.company and kitchen.company[-1] & set(foods):
        together = {n: 1.0 for n in kitchen.company[-1] if n not in foods}
        foods = {**foods, **{n: s for n, s in together.items() if kitchen.kind(n) in SOLIDS}}
        liquid |= {n: s for n, s in together.items() if kitchen.kind(n) not in SOLIDS}
    pot = Happening("boil", clause, foods=foods, liquid=liquid)
    pot.water = _water_for(kitchen, clause)
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
        and not _salts(kitchen, clause)
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
    if salts := _salts(kitchen, clause):
        if said := amount_said(clause, "salt"):
            pot.water = pot.water or Water()
            pot.water.salt, pot.water.strength = said, "salted"
        else:
            pot.liquid.update(salts)
    pot.take_time(clause)
    pot.heated = pot.heated or _is_hot(kitchen, clause)
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
    if (
        pot is None
        or pot.closed
        or pot.extra
        or clause.act not in ("put", "season", "mix", "coat", "other", "", "let")
    ):
        return False
    salts, said = _salts(kitchen, clause), kitchen.salt_said(clause) or clause.base == "salt"
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


def _implied(kitchen: Kitchen, clause: Clause) -> bool:
    """ "Boil the potatoes for 20 minutes", "cook the pasta": water that nobody names."""
    if clause.negated or clause.act not in ("boil", "cook", "simmer"):
        return False
    solids = kitchen.solids(clause, direct=True)
    liquids = [
        m
        for m in clause.mentions
        if m.prep in ("in", "into", "with")
        and (m.kind == "bath" or any(kitchen.kind(n) in (*LIQUIDS, "oil") for n in m.lines))
    ]
    if (
        not solids
        or clause.vessel() == "pan"
        or clause.has("oven", "grill", "microwave", "steamer", "fry", "butter", "broth")
    ):
        return False
    if pot := kitchen.latest(("boil", "simmer"), solids):
        if not pot.closed:
            pot.take_time(clause)
            return True
    pastas = {line: share for line, share in solids.items() if kitchen.kind(line) == "pasta"}
    if liquids:
        if clause.act == "cook" or not all(m.kind == "line" for m in liquids):
            return False
        return _in_liquid(kitchen, clause, solids)
    if clause.act == "cook" and not pastas:
        return False
    if clause.act == "simmer" and not pastas:
        return False
    foods = pastas if clause.act == "cook" else solids
    if pastas and any(set(pastas) & company for company in kitchen.company):
        return False
    if (
        clause.act != "cook"
        and not POURED_WITHOUT_WORD & {kitchen.kind(line) for line in foods}
        and clause.base == "boil"
    ):
        if not {kitchen.kind(n) for n in foods} & (PROTEINS | {"grain", "legume"}):
            return False
    if any(
        line in each.extra or line in each.foods
        for line in foods
        for each in kitchen.happened
        if each.kind in ("boil", "simmer") and not each.closed
    ):
        return False
    pot = Happening("boil", clause, foods=foods, confidence=0.75, heated=True)
    strength = strength_of(clause) or ("salted" if pastas else "")
    pot.water = Water(strength, amount_said(clause, "salt"))
    pot.liquid = _salts(kitchen, clause)
    pot.take_time(clause)
    kitchen.pot = kitchen.begin(pot)
    return True


def _in_liquid(kitchen: Kitchen, clause: Clause, solids: dict[int, float]) -> bool:
    """ "Poach the fish in the stock": a pot whose liquid is eaten unless it is said to go."""
    liquid = kitchen.lines_of(clause, (*LIQUIDS, "salt"))
    pot = Happening("simmer", clause, foods=solids, liquid=liquid, heated=True)
    pot.extra |= {line for line in liquid if kitchen.kind(line) != "water"}
    pot.take_time(clause)
    kitchen.pot = kitchen.begin(pot)
    return True
