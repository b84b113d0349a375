"""Liquids of which a part or all is eaten: kept back, poured over, cooked with the food, used again."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from .clauses import Clause
from .happenings import LIQUIDS, POURED_WITHOUT_WORD, PROTEINS, Happening
from .marinades_used import LEFT, marinade_used, share_kept, some_juice, was_held_back, what_is_left
from .mention import Mention
from .method_words import small_words
from .partly_poured import leave_part
from .parts_said import millilitres
from .reading_state import HOT, ReadingState
from .strained import is_for_later, note_straining

_PART_OF_IT = re.compile(
    r"(?<![a-z])(?:ml|l|lit(?:re|er)s?|cups?|cupfuls?|mugs?|mugfuls?|ladles?|ladlefuls?|pints?|quarts?|tbsps?"
    r"|tablespoons?|spoonfuls?|spoons?|splash(?:es)?|glass(?:es)?|\d\))(?: or (?:two|so|three))?\s*\)? of "
    r"(?:it\b|its\b|(?:(?:the|this|that|your) (?:\w+[ -]){0,2}"
    r"|(?:\w+ )?(?:pasta|cooking|starchy|noodle|potato|poaching|reserved) (?:\w+ )?)"
    r"(?P<what>stock|broth|liquid|liquor|brine|marinade|juices?|water)\b)",
    re.IGNORECASE,
)
_EATS = frozenset({"serve", "", "mix", "put"})
_WHOLE = frozenset({"all", "its", "their"})
_AND_ALL = re.compile(
    r"\b(?:juices?|liquid|brine|syrup|marinade|dressing|liquor) and all\b"
    r"|\bin (?:its|their) (?:own )?(?:juices?|syrup|liquid|liquor)\b",
    re.IGNORECASE,
)
_IN_BROTH = re.compile(
    r"\b(?:in|to|into|with|over|strain|season|reduce|ladle) the "
    r"(?:hot |remaining |reserved |strained |chicken )?"
    r"(?:broth|stock|soup|(?:cooking|poaching) liquid|pot (?:liquor|likker))\b",
    re.IGNORECASE,
)
_MEASURED = re.compile(
    r"(?<![a-z])(?:ml|l|lit(?:re|er)s?|cups?|pints?|quarts?|ladles?|ladlefuls?) (?:of )?(?:stock|broth)\b",
    re.IGNORECASE,
)
BROTHS = frozenset({"broth", "stock", "soup", "liquid", "liquor", "likker"})
_RESTS = small_words("rest")
_DIPS = small_words("dips_out")
_USES = frozenset(
    {"dredge", "remove", "boil", "reduce", "simmer", "put", "mix", "heat", "season", "cook", "other"}
    | {"serve", ""}
)
_KINDS_OF = {
    "brine": ("brine", "ferment", "dry_cure"),
    "marinade": ("marinate",),
    "juice": ("dry_cure", "marinate", "brine", *HOT),
    "": (*HOT, "soak"),
}
"""Kinds of steps whose liquid a word means, the likeliest first."""


def _meant_by(state: ReadingState, word: str) -> Happening | None:
    """The happening whose liquid is "the brine", "the juice", "the liquor"."""
    kinds = _KINDS_OF.get(word.rstrip("s"), _KINDS_OF[""])
    if word in ("broth", "stock", "soup"):
        return state.latest(HOT)
    if kinds is _KINDS_OF[""]:
        return state.latest(HOT) or state.latest(("soak", "brine", "dry_cure"))
    return state.latest(kinds)


_RESERVES = re.compile(
    r"reserv(?:e|es|ing)\b|(?<!the )(?<!of )(?<!with )reserved\b"
    r"(?! (?:\w+ )?(?:water|liquid|liquor|marinade|broth|stock|juice|milk|oil|fat))"
    r"|sav(?:e|ing)\b|keep(?:ing)?|hold(?:ing)? back|scoop out"
    r"|set(?:ting)?(?: (?:\w+ ){1,3}(?:liquid|juice|water|liquor|brine)s?)? aside",
    re.IGNORECASE,
)
KEEPING = small_words("keeping")


def keeps(clause: Clause) -> bool:
    """Whether a clause keeps back a liquid: "reserve a cup of the water", "drain all but 1 cup of it"."""
    if clause.base == "keep" and "covered" in clause.words:
        return False  # "keep them covered with water"
    if clause.act == "reserve" or (KEEPING & clause.words and _RESERVES.search(clause.text)):
        return True
    if clause.base == "measure":
        return millilitres(clause) is not None
    if clause.act not in ("drain", "discard"):
        return False
    return any(m.prep == "except" and m.kind != "vessel" for m in clause.mentions)


def reserved(state: ReadingState, clause: Clause) -> None:
    """ "Reserve 1 cup of the pasta water", "reserve the marinade"."""
    if is_for_later(clause) and (pot := state.latest(HOT)) is not None and pot.strained_at < 0:
        pot.eaten = 0.0  # "save the broth for another day"
        state.pour_off(pot)
        return
    found = state.latest(("marinate", "brine", "soak"))
    if found is not None and was_held_back(found):
        return  # what was held back before any food lay in it
    named = {n for m in clause.mentions for n in m.lines if state.kind(n) in LIQUIDS}
    keeps = clause.act == "reserve" or clause.has("reserving", "reserved", "keep", "saving")
    keeps = keeps or (clause.has("keeping") and not clause.has("few", "little", "some", "spoonful"))
    if found is not None and keeps and named & set(found.liquid) and not named & set(found.foods):
        found.eaten = share_kept(state, clause, found)
        return
    kept = (m for m in clause.mentions if m.prep not in _LIES_IN)  # "plunge into ice water and set aside"
    said = next((m for m in kept if _names_liquid(clause, m)), None)
    if said is None:
        _of_pot_reserved(state, clause, named)
        return
    word = said.name if said.name in ("brine", "marinade") else clause.tokens[said.j - 1].text
    found = _meant_by(state, word)
    if found is None:
        return
    ml = millilitres(clause)
    if found.kind == "marinate" and ml is None:
        found.eaten = share_kept(state, clause, found)
        return
    found.drained = True
    if ml is not None:
        found.kept_ml = ml
    elif found.kind in ("brine", "ferment", "dry_cure"):
        return  # kept for what is said later
    elif found.kind == "soak" or not clause.has("some", "little", "cup", "splash", "mugful", "ladleful"):
        found.eaten = 1.0 if not set(map(state.kind, found.foods)) & {"pasta", "potato"} else None
        found.kept_ml = _SOME_ML if found.eaten is None else None
    else:
        found.kept_ml = 200.0


_LIES_IN = frozenset({"in", "into", "under"})
_SOME_ML = 240.0
"""Water of a pot that is kept where nobody says how much, ml; common practice, no source."""
_LIQUIDS = frozenset({"water", "liquid", "liquor", "waters", "liquids"})


def leave_unused(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """ "Save the liquid, I'll tell you why next time": kept, not how much, and in nothing that follows."""
    leave_part(state, clauses)
    for pot in state.happened:
        if pot.kind not in HOT or pot.kept_ml != _SOME_ML or pot.used_ml:
            continue
        kept = next((i for i, c in enumerate(clauses) if _is_kept(c)), None)
        if kept is None or any(
            c.words & _LIQUIDS and c.sentence != clauses[kept].sentence for c in clauses[kept + 1 :]
        ):
            continue
        pot.kept_ml = None


def _is_kept(clause: Clause) -> bool:
    return bool(clause.words & _LIQUIDS) and (clause.act == "reserve" or clause.base in ("keep", "save"))


def _of_pot_reserved(state: ReadingState, clause: Clause, named: Collection[int]) -> None:
    """ "Keeping 100 ml of the milk" that fish was poached in, "reserving a little of the broth", "strain it
    and keep 500 ml". named: the lines of liquids that the clause names."""
    pot, ml = state.latest(HOT), millilitres(clause)
    if pot is None:
        return
    poached = not pot.liquid.keys().isdisjoint(named)
    broth = not state.index.of_kinds("stock") and (
        clause.has("broth", "stock") or (ml is not None and pot.closed and not state.lines_of(clause))
    )
    if not (broth or (poached and ml is not None)):
        return
    if ml is not None or clause.has("some", "little"):
        pot.drained, pot.eaten, pot.kept_ml = True, None, ml or 200.0
    elif clause.act == "drain":
        pot.drained = False
        note_straining(state, pot, clause)  # "drain, keeping the stock"


def _names_liquid(clause: Clause, mention: Mention) -> bool:
    return mention.kind == "bath" or clause.tokens[mention.j - 1].text in ("water", "liquid", "liquor")


def eaten_with(state: ReadingState, clause: Clause) -> None:
    """ "Pour in the marinade", "add the pork with its marinade", "serve in the broth"."""
    if clause.negated:
        return
    if "bath" in clause.speaks:
        marinade_used(state, clause)
    elif not LEFT.isdisjoint(clause.words):
        what_is_left(state, clause)
    if clause.act in {"discard", "drain", "reserve"}:
        return
    if "of" in clause.words and not clause.words.isdisjoint(_JUICES):
        some_juice(state, clause)
    if "bath" in clause.speaks and _THE_JUICE.search(clause.text):
        _juice_used(state)
    if clause.act in _EATS and not _WHOLE.isdisjoint(clause.words) and _AND_ALL.search(clause.text):
        _eaten_whole(state)
    if "bowl" in clause.words and _IN_ITS_BOWL.search(clause.text) and not _BINNED.search(clause.sentence):
        _left_in_bowl(state)
    if not _RESTS.isdisjoint(clause.words):
        _rest_used(state, clause)
    if clause.act in _USES and "of" in clause.words and state.happened and not keeps(clause):
        _part_used(state, clause)
    if clause.act in _ADDS and not clause.words.isdisjoint(_WATERS) and (pot := state.latest(HOT)):
        if clause.act == "put" and _with_its_water(state, clause, pot):
            pot.eaten, pot.drained = 1.0, False
        elif pot.drained or _is_pasta(state, pot) or not _SOME.isdisjoint(clause.words):
            _some_water(clause, pot)


_JUICES = frozenset({"juice", "juices"})
_SOME = frozenset({"some", "little"})
_ITS_WATER = re.compile(
    r"\b(?:and|with) (?:all )?(?:its|their) (?:own )?(?:cooking |boiling )?(?:water|liquid|liquor)\b", re.I
)


def _with_its_water(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """ "Add the cod and its cooking water", "the beans with their liquid": all of it goes along."""
    named = not pot.foods.keys().isdisjoint(state.solids(clause))
    return named and not _is_pasta(state, pot) and _ITS_WATER.search(clause.text) is not None


_THE_JUICE = re.compile(
    r"\b(?:(?:keep|save|use|add|stir|whisk|beat|mix|into|in|to|with) (?:the|this|that|their|its)"
    r"|(?:this|that|the)(?= juice is\b)) juices?\b(?! of\b)",
    re.IGNORECASE,
)


def _juice_used(state: ReadingState) -> None:
    """ "Salt the tomatoes in a colander over a bowl … whisk the oil into the juice": with all its salt."""
    cure = state.happened[-1] if state.happened else None
    dripped = cure is not None and cure.kind == "dry_cure" and cure.drained and not cure.rinsed
    if cure is not None and dripped and set(map(state.kind, cure.foods)) <= {"vegetable", "fruit"}:
        cure.eaten, cure.drained = 1.0, False


_BINNED = re.compile(r"\b(?:bin|sink|away|waste|discard\w*|throw\w*)\b", re.IGNORECASE)
_IN_ITS_BOWL = re.compile(
    r"\b(?:left|remains?|remaining|stays?|behind|(?:liquid|juices?|vinegar)) in the (?:\w+[ -]){0,2}bowl\b"
    r"|\b(?:over|into) (?:the|its) (?:same )?bowl (?:(?:that|which) )?(?:it|they) \w+",
    re.IGNORECASE,
)


def _left_in_bowl(state: ReadingState) -> None:
    """ "Squeeze the onion over the bowl it marinated in", "whisk the oil into what is left in the bowl": its
    vinegar is eaten, and none of what is only salted."""
    found = state.latest(("marinate",))
    if found is not None and not found.eaten and "acid" in map(state.kind, found.liquid):
        found.eaten, found.guessed = 1.0, False


_ADDS = frozenset({"put", "mix", "let", "cook", "simmer", "coat", "reduce", "season"})
_WATERS = frozenset({"water", "liquid"})


def _is_pasta(state: ReadingState, pot: Happening) -> bool:
    return "pasta" in map(state.kind, pot.foods)


def _eaten_whole(state: ReadingState) -> None:
    """ "Serve it juice and all": what it lay in last is eaten with it."""
    found = state.latest(("brine", "marinate", "dry_cure", "ferment"))
    waits = state.pending
    for each in (waits, found):
        if each is not None and not each.drained:
            each.eaten = 1.0
            return


def _part_used(state: ReadingState, clause: Clause) -> None:
    """ "Boil down 1 litre of the stock": not all of it is eaten."""
    part = _PART_OF_IT.search(clause.text)
    if part is None:
        return
    said = _of_food(state, clause, part.span("what"))
    _part_of(clause, said or _meant_by(state, (part["what"] or "").lower()))


def _part_of(clause: Clause, found: Happening | None) -> None:
    ml = millilitres(clause)
    if found is None or ml is None or found.clause.sentence == clause.sentence:
        return
    if clause.base in _DIPS or clause.has("out"):
        found.drained, found.kept_ml = True, ml  # "dip out a mugful of its water"
        return
    further = found.used_ml if found.used_in != clause.sentence else 0.0
    found.used_ml, found.used_in = further + ml, clause.sentence
    found.eaten, found.drained, found.kept_ml = None, True, found.used_ml


def _of_food(state: ReadingState, clause: Clause, what: tuple[int, int]) -> Happening | None:
    """The pot of the food that its water is called by: "half a pint of the bacon water", what is "water"."""
    end = clause.start + what[0]
    words = {t.stem for t in clause.tokens if end - _A_NAME <= t.start < end}
    pots = (each for each in reversed(state.happened) if each.kind in HOT)
    return next(
        (p for p in pots if any(words & set(state.lines[n].words) for n in (*p.foods, *p.extra))), None
    )


_A_NAME = 20
"""Characters before "water" within which stands the food that boiled in it."""
_REST_OF_BROTH = re.compile(
    r"\b(?:remaining|rest of (?:the|this|that)|leftover) (?:\w+ )?(?:broth|stock|liquor|soup)\b",
    re.IGNORECASE,
)


def _rest_used(state: ReadingState, clause: Clause) -> None:
    """ "Add the rest of the stock": after all, all of it is eaten."""
    rest = next((m for m in clause.mentions if m.portion == -1.0 and _names_liquid(clause, m)), None)
    if rest is None and clause.act in ("serve", "put", "heat", "mix") and _REST_OF_BROTH.search(clause.text):
        pot = state.latest(HOT)
        if pot is not None and pot.used_ml and not clause.has("freeze", "keep", "another", "time"):
            pot.kept_ml, pot.eaten = None, 1.0
    if rest is None or clause.act not in _USES or clause.has(*_NOT_ALL_OF_IT):
        return
    found = _meant_by(state, rest.name if rest.name != "other" else clause.tokens[rest.j - 1].text)
    if found is not None and found.used_ml and found.kind in HOT:
        found.kept_ml, found.eaten = None, 1.0


_NOT_ALL_OF_IT = ("freeze", "keep", "away", "another", "reserved", "saved")


def _some_water(clause: Clause, pot: Happening) -> None:
    """ "Add a splash of the pasta water"."""
    for mention in clause.mentions:
        words = clause.text[: clause.tokens[mention.j - 1].end - clause.start].lower()
        if (
            mention.kind == "bath" and words.endswith(("pasta water", "cooking water", "cooking liquid"))
        ) or (clause.tokens[mention.j - 1].text == "water" and words.endswith("pasta water")):
            pot.kept_ml, pot.drained = millilitres(clause) or pot.kept_ml or 100.0, True


def broth_used(state: ReadingState, clause: Clause) -> None:
    """ "Lift out the chicken … add the leeks to the broth": what it was cooked in is eaten."""
    if clause.negated:
        return
    pot = next((h for h in reversed(state.happened) if h.kind in HOT and not _is_pasta(state, h)), None)
    if pot is None or pot.kept_ml is not None or pot.clause.sentence == clause.sentence:
        return  # "the broth" of which a part was kept is that part
    stocks = state.index.of_kinds("stock")
    if clause.act in _LEAVES_BROTH or (stocks and pot.liquid.keys().isdisjoint(stocks)):
        return
    if _MEASURED.search(clause.text) and set(map(state.kind, pot.foods)) & PROTEINS:
        _part_of(clause, pot)  # "add 2 cups of stock", of a list that has none
    elif _IN_BROTH.search(clause.text):
        pot.eaten, pot.drained = 1.0, False


_LEAVES_BROTH = frozenset({"remove", "discard", "drain", "reserve"})


def put_back(state: ReadingState, clause: Clause) -> None:
    """ "Take out the meat and return it to the pot", "take out the kombu, add tofu": no liquid is gone."""
    pot = state.attention
    if pot is not None and pot.lifted and pot.water is None and clause.base in ("add", "stir"):
        pot.drained = pot.lifted = not set(map(state.kind, pot.foods)) <= {"salty"}
    if not (clause.base == "return" or clause.has("back")) or clause.vessel() == "pan":
        return
    foods = state.solids(clause, direct=True) or dict.fromkeys(state.last_foods, 1.0)
    pot = state.latest(HOT, foods) if foods else None
    if pot is not None and not (pot.extra or state.is_soup):
        if _PARTED_FROM_WATER.issuperset(map(state.kind, pot.foods)):
            return  # "return the potatoes to the pot", of which the water was emptied
    if pot is not None and pot.kept_ml is None and (pot.lifted or not pot.drained):
        pot.drained = pot.lifted = pot.closed = False
        pot.eaten = 1.0 if set(map(state.kind, pot.foods)) <= PROTEINS else pot.eaten
        state.pot = state.attention = pot


_PARTED_FROM_WATER = POURED_WITHOUT_WORD | {"grain", "legume"}
COOKS_IN = frozenset({"put", "fry", "roast", "simmer", "cook"})
"""Acts by which food may go on with what it lay in."""
MAY_KEEP = frozenset({"reserve", "drain", "discard", "other"})
"""Acts of clauses that may keep back a liquid with no word of keeping."""


def cooked_in(state: ReadingState, clause: Clause) -> None:
    """ "Add the chicken and all its juices": the marinade goes along; on a grill it does not."""
    if clause.negated:
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
