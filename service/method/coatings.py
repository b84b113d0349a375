"""Flour that food is turned in, and fat it is fried in: part sticks or soaks in, the rest stays behind."""

from __future__ import annotations

import re
from collections.abc import Collection

from ..units.kitchen_units import dimension, to_grams, to_millilitres
from .clauses import Clause
from .coats_said import INTO, LEFT_OVER_G, batter_of_list, dips, goes_through, stirred_before, thickens
from .happenings import PROTEINS, SOLIDS, Happening
from .leavens import is_leaven
from .left_to_the_cook import grams_roughly
from .listed import ListedLine
from .mention import Mention
from .reading_state import ReadingState

_TURNS = frozenset(
    {"dredge", "roll", "dip", "coat", "flour", "bread", "crumb", "press", "turn", "draw", "drag", "pass"}
    | {"tumble", "dunk", "swish", "push", "douse", "plunge"}
)
_BREADS = frozenset({"dredge", "bread", "crumb", "pané", "pane"})
"""What is done with all the flour and crumbs of the list, where no clause says with which."""
_PANES = frozenset({"crumb", "pané", "pane"})
_TURNED = frozenset({"tumble", "dunk", "swish", "push", "press", "turn", "flip", "draw", "shake"})
_BEHIND = frozenset({"in", "into", "with", "through", "on"})
_COATED = PROTEINS | {"vegetable", "cheese", "potato"}
_KEEPS_FAT = frozenset(
    {"cover", "submerge", "immerse", "keep", "reserve", "strain", "drain", "store", "steep", "infuse"}
    | {"float", "save"}
)
"""What is done to fat that food is cooked or kept in, so that most of it is left."""
_KEPT = frozenset({"keeping", "covered", "submerged", "cover", "remaining", "left"})
_IN_BATHS = frozenset({"deep-fry", "shallow-fry"})
_WATERY = ("wine", "stock", "milk", "water")
_SPREADS = frozenset({"butter", "margarine", "shortening", "suet"})
_DEEP_ML = 200.0
_DEEP_C = 150.0
"""Fat that is as hot as a recipe says, °C, is as deep as a thermometer needs."""
_SHALLOW_ML = 60.0
"""Fat, ml, from which on a line "for frying" is a bath where the method speaks of its depth."""
_DEPTHS = (
    *("half", "full", "plenty", "lots", "abundant", "enough", "good", "generous", "liberal", "cm", "mm"),
    *("centim", "inch", "finger", "depth", "deep", "way", "come", "reach", "panful", "potful", "shallow"),
    *("hot", "frying", "excess", "extra", "surplus"),
)
"""One of these stands wherever fat is told by its depth, or "1 in": looked for first, as they are cheap."""
_INCHES = re.compile(r"\d\s?in\b", re.IGNORECASE)
_FATS = r"\b(?:oil|fat|lard|ghee|dripping|shortening)\b"
_IN_DEPTH = re.compile(
    r"\b(?:half a (?:pan|pot|wok)|panful|potful|plenty|lots|abundant|enough|half[- ]full|third[- ]full"
    r"|(?:good|generous|liberal) (?:amount|quantity|layer)"
    r"|(?:cm|mm|centimet(?:re|er)s?|inch(?:es)?|fingers?|\d\s?in)(?: of| deep)?)\b[^.;]{0,30}"
    + _FATS
    + "|"
    # "oil to a depth of 3 cm", "oil half way up"
    + _FATS
    + r"[^.;]{0,40}\b(?:to a depth|deep|half ?way|half[- ]full|third[- ]full|to (?:come|reach)"
    r"|(?:cm|mm|inch(?:es)?)(?: deep| up)?)\b"
    r"|\bdeep[- ]?(?:fat )?fr(?:y|ied|ying|yer)\b|\bshallow[- ]?fr(?:y|ied|ying)\b"
    r"|\b(?:hot|frying) (?:oil|fat)\b"
    r"|\b(?:pour|tip|drain)(?:ed|ing)? (?:out|off|away) (?:the )?(?:excess|extra|surplus) (?:oil|fat)",
    re.IGNORECASE,
)
_INTO_FAT = re.compile(
    r"\b(?:in|into)\b[^.;]{0,30}\b(?:hot|boiling|smoking|sizzling)\b[^.;,]{0,15}" + _FATS, re.IGNORECASE
)
"""Food that goes into fat that is hot: it fries there, whatever the verb."""
_NO_COATING = frozenset({"surface", "board", "worktop", "counter", "tin", "tray", "thicken", "thickened"})
_SHAKEN = re.compile(
    r"\b(?:shak|tap|knock)\w* off|\bexcess\b|\bthen (?:in |into )?(?:the )?(?:beaten )?egg", re.IGNORECASE
)
"""Food that is only dusted with flour leaves some of it where it is shaken off."""
_COATS = re.compile(r"\bcoat|\bdredg|\bbread(?:ing|ed)\b|\bcrumb|\bdust|\bcrust\b|\bflour\b", re.IGNORECASE)
"""Headings of what food is turned in."""
_IN_BAG = re.compile(r"\b(?:bags?|sacks?|coats?)\b", re.IGNORECASE)
_THINLY = re.compile(
    r"\b(?:coat|grease|cover the (?:base|bottom)|film|thin|little|gently|saut[eé]\w*|sweat|soften)\b"
    r"|\b(?:sear|brown)\b"
    r"|\bto (?:fry|cook) (?:all |up )?(?:the |your )?(?:\w+ )?(?:onions?|garlic|shallots?|mince|veg\w*)\b",
    re.IGNORECASE,
)


def _is_in_depth(text: str) -> bool:
    said = text.lower()
    if not (any(map(said.__contains__, _DEPTHS)) or _INCHES.search(said)):
        return False
    return _IN_DEPTH.search(text) is not None


def read_coating(state: ReadingState, clause: Clause) -> None:
    """Take a clause that dredges or deep-fries."""
    if clause.act in ("heat", "put", "let", "") and (fats := _fats_in_depth(state, clause)):
        state.fat_is_hot, state.fats_in_depth = True, state.fats_in_depth | fats
    elif state.fat_is_hot and (clause.act == "heat" or clause.vessel()):
        state.fat_is_hot = False
    if clause.base in _KEEPS_FAT or not _KEPT.isdisjoint(clause.words):
        state.fats_left |= {n for n in state.lines_of(clause, ("oil",)) if _is_much(state.lines[n])}
        state.fats_left |= {n for n in _only_fat(state, clause) if _is_much(state.lines[n])}
    if clause.negated or not _NO_COATING.isdisjoint(clause.words):
        return
    coats = clause.act in ("dredge", "coat", "mix", "put") or clause.base in _TURNED
    if coats or goes_through(state, clause):
        _dredge(state, clause)
    elif not clause.act or clause.base == "flour":
        _in_turn(state, clause)
    hot_fat = clause.act in ("cook", "simmer", "put") and state.fat_is_hot
    swims = clause.act in ("", "put", "cook", "other") and clause.has("hot", "boiling", "smoking", "sizzling")
    swims = swims and bool(_INTO_FAT.search(clause.text))
    if clause.act == "fry" or swims or (hot_fat and state.solids(clause)):
        _fry(state, clause)


def _fats_in_depth(state: ReadingState, clause: Clause) -> set[int]:
    """The lines of fat of which a clause makes a bath to fry in."""
    named = set(state.lines_of(clause, ("oil",))) or set(_only_fat(state, clause))
    if not named:
        return set()
    hot = clause.celsius is not None and clause.celsius >= _DEEP_C and not clause.has("oven", "tin", "tray")
    deep = (hot or _is_in_depth(clause.text)) and not _THINLY.search(clause.text)
    return {n for n in named if _is_much(state.lines[n]) or (deep and _may_be_much(state.lines[n]))}


def _only_fat(state: ReadingState, clause: Clause) -> tuple[int, ...]:
    """The fat of the list where the method says "oil" or "fat" and means it."""
    if not (clause.has("oil", "fat", "lard", "ghee", "dripping") or _fries_deep(clause)):
        return ()
    fats = [n for n in state.index.of_kinds("oil") if state.lines[n].purpose == "fryer"]
    fats = fats or [n for n in state.index.of_kinds("oil") if not _is_spread(state.lines[n])]
    return tuple(fats) if len(fats) == 1 else ()


_IN_TWO_WORDS = re.compile(r"\b(?:deep|shallow)[- ]fr", re.IGNORECASE)


def _fries_deep(clause: Clause) -> bool:
    """ "Deep-fry", in one word or two."""
    return clause.base in _IN_BATHS or (clause.base == "fry" and bool(_IN_TWO_WORDS.search(clause.sentence)))


def _is_spread(listed: ListedLine) -> bool:
    """Whether a fat is for spreading and short frying: butter that is not clarified."""
    return bool(_SPREADS & set(listed.words)) and "clarified" not in listed.words


def _may_be_much(listed: ListedLine) -> bool:
    """Whether a line may be a bath of fat, for all that it says."""
    if _is_spread(listed) and listed.purpose != "fryer":
        return False
    amount = listed.line.amount
    return amount is None or _millilitres(listed) >= _SHALLOW_ML


def _dredge(state: ReadingState, clause: Clause) -> None:
    if all(map(is_leaven, state.index.by_kind.get("flour", ()))):
        return  # "toss the wings with the baking powder"
    flours = state.lines_of(clause, ("flour",))
    behind = {n for m in clause.mentions if m.prep in _BEHIND or _is_in(clause, m) for n in m.lines}
    flours = {n: s for n, s in flours.items() if n in behind or clause.base == "flour"}
    flours = {stirred_before(state, n): s for n, s in flours.items()} or batter_of_list(state, clause)
    mixture = state.mixture
    of_mixture = (
        not mixture.closed
        and any(state.kind(n) == "flour" for n in mixture.lines)
        and (_goes_in(clause) or any(_is_mixture(state, m) for m in clause.mentions))
    )
    added = not mixture.closed and _is_added_to_flour(state, clause)
    of_mixture = of_mixture or added
    tossed = clause.base == "toss" and _is_tossed_in(state, clause, flours)
    if clause.base == "shake" and _IN_BAG.search(clause.sentence) and not mixture.closed:
        of_mixture = tossed = any(state.kind(n) == "flour" for n in mixture.lines)
    tossed = tossed or (clause.base == "shake" and bool(flours))
    dusted = clause.base == "dust" and bool(flours) and _leaves_flour(state, clause, flours)
    through = goes_through(state, clause)
    turned = clause.base in _TURNS or clause.has("coat", "shaking", "excess")
    said = turned or through or dusted or tossed or added
    known = state.latest(("dredge",))
    if (
        known is not None
        and (clause.act == "dredge" or clause.base in ("press", "cover", "coat", "top"))
        and known.clause.sentence == clause.sentence
    ):
        known.liquid |= {n: 1.0 for n in behind | dips(state) if state.kind(n) in ("egg", "flour", "milk")}
        return
    bare = clause.act == "dredge" and not flours and not of_mixture and clause.base in _BREADS
    bare = bare and "made" not in clause.speaks  # "bread dumplings go well"
    if bare:  # "let drip, dredge": in the flour that waits, or in the only one of the list
        of_mixture = not mixture.closed and any(state.kind(n) == "flour" for n in mixture.lines)
        flours = {} if of_mixture else dict.fromkeys(state.index.of_kinds("flour"), 1.0)
        state.dipped |= _washes(state) if clause.base in _PANES else set()
    if clause.act in ("put", "mix") and not flours:
        eggs = {n for n in state.lines_of(clause, ("egg",)) if set(state.lines_of(clause)) == {n}}
        state.dipped |= eggs if any(state.kind(n) in PROTEINS for n in state.last_foods) else set()
    if said and not flours and clause.base in _TURNS:
        state.dipped |= {n for n in behind if state.kind(n) in ("egg", "milk")}
    if not (said or bare) or not (flours or of_mixture):
        return
    foods = {n: s for n, s in _coated(state, clause).items() if state.kind(n) in _COATED}
    foods |= dict.fromkeys(state.stirred_with(foods, PROTEINS), 1.0)
    if not foods or set(foods) & set(flours) or thickens(state, foods, flours):
        return
    if clause.has("batter") and not mixture.closed:
        flours = {
            **flours,
            **{n: s for n, s in mixture.lines.items() if n not in foods and state.kind(n) != "oil"},
        }
    if clause.base == "dip" or clause.has("egg", "eggs") or through:
        flours = {**flours, **{n: 1.0 for n in behind if state.kind(n) == "egg"}}
    known = state.latest(("dredge",), foods)
    if not mixture.closed and (of_mixture or set(flours) & set(mixture.lines)):
        flours = {
            **flours,
            **{n: s for n, s in mixture.lines.items() if state.kind(n) in ("flour", "salt", "spice", "herb")},
        }
    flours.update({n: 1.0 for n in state.index.of_kinds("flour") if n in flours})
    flours = _of_this_food(state, flours, foods)
    if known is not None:
        known.liquid |= flours | dict.fromkeys(dips(state), 1.0)
        return
    flours |= dict.fromkeys(_of_heading(state, flours), 1.0)
    flours |= dict.fromkeys(dips(state), 1.0)
    flours |= dict.fromkeys(_stirred_in(state, flours), 1.0)
    state.begin(Happening("dredge", clause, foods=foods, liquid=flours, closed=True, confidence=0.85))


def _in_turn(state: ReadingState, clause: Clause) -> None:
    """ "Flour, egg, panko - in that order": with no verb, what food is turned in."""
    named = {n for m in clause.mentions for n in m.lines}
    kinds = {state.kind(n) for n in named}
    if not ({"flour", "egg"} <= kinds <= {"flour", "egg", "milk", "salt", "spice"}) or not state.last_foods:
        return
    foods = {n: s for n, s in _coated(state, clause).items() if state.kind(n) in _COATED and n not in named}
    if foods and state.latest(("dredge",), foods) is None:
        lines = dict.fromkeys(named, 1.0)
        state.begin(Happening("dredge", clause, foods=foods, liquid=lines, closed=True, confidence=0.85))


def _of_this_food(state: ReadingState, flours: dict[int, float], foods: Collection[int]) -> dict[int, float]:
    """Of several lines of flour those for a coating, or else under the heading of the food."""
    several = [n for n in flours if state.kind(n) == "flour"]
    if len(several) < _SEVERAL:
        return flours
    headings = {state.lines[n].heading for n in foods}
    own = [n for n in several if _FOR_COATING.search(state.lines[n].text)]
    own = own or [n for n in several if state.lines[n].heading in headings]
    names = {state.lines[n].words[-1:] for n in own}
    others = {n for n in several if n not in own and state.lines[n].words[-1:] in names}
    return {n: s for n, s in flours.items() if n not in others}


_SEVERAL = 2
_FOR_COATING = re.compile(r"\bfor (?:the )?(?:coating|dredging|dusting|rolling|breading)\b", re.IGNORECASE)


def _of_heading(state: ReadingState, flours: dict[int, float]) -> set[int]:
    """What the list puts beside the flour under "For the coating": the salt and the spices of it."""
    headings = {h for n in flours if _COATS.search(h := state.lines[n].heading)}
    return {
        line.index
        for line in state.index.lines
        if line.heading in headings and line.kind in ("flour", "salt", "spice", "herb")
    }


def _stirred_in(state: ReadingState, flours: dict[int, float]) -> set[int]:
    """The salt, spices and milk that were stirred into the flour or the egg of a coating."""
    found: set[int] = set()
    for company in state.company:
        kinds = {state.kind(n) for n in company}
        if company & flours.keys() and not kinds & PROTEINS:
            found |= {n for n in company if state.kind(n) in ("salt", "spice", "herb", "milk")}
    return found - flours.keys()


_DRY_MIX = frozenset({"flour", "salt", "spice", "herb", "sweet", "cheese", "oil"})


def _is_added_to_flour(state: ReadingState, clause: Clause) -> bool:
    """ "Mix the flour with the spices; add the chicken, a piece at a time": it is turned in dry flour."""
    pieces = {n for n in state.solids(clause, direct=True) if state.kind(n) in PROTEINS}
    if clause.act != "put" or clause.base not in ("add", "put", "place", "drop") or not pieces:
        return False
    lines = state.mixture.lines.keys() - pieces
    kinds = {state.kind(n) for n in lines if state.lines[n].purpose != "fryer"}
    minced = any(not _MINCED.isdisjoint(state.lines[n].text.lower().split()) for n in pieces)
    return "flour" in kinds and kinds <= _DRY_MIX - {"oil"} and not (minced or state.mixture.water)


_MINCED = frozenset({"mince", "minced", "ground", "sausage"})


def _is_in(clause: Clause, mention: Mention) -> bool:
    """ "Toss in the starch": where food is turned, and not what is tossed in."""
    before = [token.text for token in clause.tokens[max(0, mention.i - 3) : mention.i]]
    return clause.base in ("toss", "roll", "shake") and "in" in before


def _leaves_flour(state: ReadingState, clause: Clause, flours: dict[int, float]) -> bool:
    """Whether food is dusted over more flour than sticks to it: what is shaken off, or an amount that no line
    gives, before it fries in depth."""
    if _SHAKEN.search(clause.sentence):
        return True
    deep = any(_is_much(n) or n.purpose == "fryer" for n in state.index.lines if n.kind == "oil")
    return deep and all(state.lines[n].line.amount is None for n in flours)


def _is_mixture(state: ReadingState, mention: Mention) -> bool:
    if mention.kind == "it":  # "season the flour and turn the chicken in it"
        return mention.prep in INTO and {state.kind(n) for n in state.mixture.lines} <= _DRY_MIX - {"oil"}
    return mention.kind == "bath" and mention.name == "other" and mention.prep in _BEHIND


def _goes_in(clause: Clause) -> bool:
    """ "Dip the chicken in", "dip the fish": in the batter that was stirred."""
    if clause.base in ("dip", "dunk") and not any(m.prep for m in clause.mentions):
        return True
    last = clause.tokens[-1].text
    words = [token.text for token in clause.tokens if token.text not in (",", ".", "and", ";")]
    return clause.base in ("dip", "dunk") and (last == "in" or words[-1:] == ["in"])


def _is_tossed_in(state: ReadingState, clause: Clause, flours: dict[int, float]) -> bool:
    """ "Toss the pieces in cornflour": in so much that some is left; a spoonful to thicken is eaten."""
    behind = {n for m in clause.mentions if m.prep in INTO or _is_in(clause, m) for n in m.lines}
    return any(n in behind and (grams_roughly(state.lines[n]) or 0.0) >= LEFT_OVER_G for n in flours)


def _washes(state: ReadingState) -> set[int]:
    """The egg and the milk that were beaten together, or the only egg of the list."""
    eggs = set(state.index.of_kinds("egg"))
    beaten = {n for company in state.company if company & eggs for n in company if state.kind(n) == "milk"}
    return eggs | beaten


def _fry(state: ReadingState, clause: Clause) -> None:
    if clause.has("little", "splash", "drizzle", "knob", "tablespoon", "tbsp"):
        return
    if state.lines_of(clause, _WATERY) or state.water_of(clause) is not None:
        return  # meat in wine and lard stews there
    if not state.index.of_kinds("oil"):
        return
    hot = clause.celsius is not None and clause.celsius >= _DEEP_C
    deep = (hot or _is_in_depth(clause.sentence)) and not _THINLY.search(clause.sentence)
    state.fats_in_depth |= {n for n in _only_fat(state, clause) if deep and _may_be_much(state.lines[n])}
    oils = [
        n for n in state.index.lines if n.kind == "oil" and (_is_much(n) or n.index in state.fats_in_depth)
    ]
    foods = {n: s for n, s in state.foods(clause).items() if state.kind(n) in SOLIDS}
    coating = state.latest(("dredge",))
    if coating is not None and foods and foods.keys() <= coating.liquid.keys():
        foods = dict(coating.foods)  # the egg went on them
    if not oils or not foods:
        return
    foods |= dict.fromkeys(state.stirred_with(foods, PROTEINS), 1.0)
    if (fried := state.latest(("fry",), foods)) is not None and len(foods) == 1:
        fried.take_time(clause, more=clause.has(*_ONCE_MORE))
        return  # fried once more
    if (known := state.latest(("fry",))) is not None and (not clause.hours or set(foods) & set(known.foods)):
        known.foods.update(foods)
        return
    happening = Happening(
        "fry", clause, foods=foods, liquid={line.index: 1.0 for line in oils[:1]}, closed=True
    )
    happening.take_time(clause)
    state.begin(happening)


_ONCE_MORE = frozenset({"another", "more", "again", "further", "continue", "longer"})


def _is_much(listed: ListedLine) -> bool:
    """Whether a line is a bath of fat: a stated fifth of a litre or more, or for deep or shallow frying."""
    line = listed.line
    if line.unit is not None and dimension(line.unit) == "length" and _is_in_depth(listed.text):
        return True  # "peanut oil, 3 inches deep"
    if listed.purpose == "fryer" and line.amount is None:
        return bool({"deep", "shallow"} & set(listed.text.lower().replace("-", " ").split()))
    if line.amount is None or line.unit is None or _is_spread(listed):
        return False
    return _millilitres(listed) >= _DEEP_ML


def _millilitres(listed: ListedLine) -> float:
    line = listed.line
    if line.amount is None or line.unit is None:
        return 0.0
    return line.amount.likely * (to_millilitres(line.unit) or to_grams(line.unit) or 0.0)


def _coated(state: ReadingState, clause: Clause) -> dict[int, float]:
    """What is turned in a coating: the piece, never the egg or the crumbs."""
    direct = {n: s for n, s in state.solids(clause, direct=True).items() if state.kind(n) != "egg"}
    pieces = dict.fromkeys((n for n in state.last_foods if state.kind(n) != "egg"), 1.0)
    salted = state.pending or state.latest(("dry_cure", "brine", "marinate", "soak"))
    return direct or pieces or state.main_foods() or (dict(salted.foods) if salted is not None else {})
