"""What a clause leaves out, because the one beside it says it: its verb, or the food that it is about."""

from __future__ import annotations

from collections.abc import Collection, Sequence, Set

from .listed import Index
from .meant_verbs import HEAT
from .mention import Mention
from .method_words import Verb, small_words, verbs
from .prose_tokens import Token
from .times_and_sizes import Span

PUT = Verb("put", "put", "base", False)
BOIL = Verb("boil", "boil", "base", False)
COVER = Verb("cover", "put", "base", False)
LIFT = Verb("lift", "remove", "base", False)
SIMMER = Verb("simmer", "simmer", "base", False)
_GO_IN = frozenset({"put", "cook", "boil", "simmer"})
"""What is done before "then the beans", so that these go in too."""
_SHARES = frozenset({"drain", "rinse", "dry", "soak", "boil", "cook"})
_SHARED_BY = _SHARES | {"cut", "hold"}
_MASHES = small_words("mashes")
_BEFORE_FOOD = frozenset({"the", "your", "all", "both", "a", "an", "those", "these", "of"})
_JOINS = frozenset({"and", ",", "then", "well", "thoroughly", "&", "or"})


def goes_in_too(tokens: Sequence[Token], i: int, verb_at: int, named: Collection[int]) -> bool:
    """Whether "then" at word i begins ", then the beans for another 4 minutes", which leaves "add" out."""
    words = [token.text for token in tokens[i + 1 : i + 9]]
    if words and words[0][0].isdecimal() and "in" in words and "water" in words:
        return True  # "trim, then 4 mins in boiling salted water"
    verb = verbs().get(tokens[verb_at].text)
    if verb is None or verb.act not in _GO_IN:
        return False
    k = i + 1
    while k < len(tokens) and k - i < 3 and tokens[k].text in _BEFORE_FOOD:
        k += 1
    return k < len(tokens) and k in named


_NEEDS = frozenset({"need", "needs", "want", "wants", "take", "takes"})
_BAKED = frozenset({"oven", "bake", "baked", "degrees", "rest", "pan", "bowl", "fridge"})


def pasta_takes(mentions: Sequence[Mention], said: Set[str], index: Index) -> bool:
    """ "The spaghetti need about 9 minutes", "the penne takes 11": in boiling water, whatever is done."""
    first = mentions[0]
    alone = first.kind == "line" and not first.prep and all(m.kind in ("line", "water") for m in mentions)
    return alone and said.isdisjoint(_BAKED) and index.kinds(first.lines) == {"pasta"}


_HOT = frozenset({"boil", "boiling", "simmer", "simmering", "rolling", "bubbling", "bubble"})
_COLD = frozenset({"cold", "iced", "lukewarm", "tepid"})
_LAID = _COLD | {"warm", "hot", "bowl", "basin", "drain", "drained", "soaked", "fresh"}
_POTS = frozenset({"pot", "pan", "saucepan"})
_APART = frozenset({"separate", "another", "second", "other", "own"})
_SOAKED_H = 2.0
"""Hours that pulses boil at the most, where nobody says whether they soak; common practice, no source."""
_LIES_RAW = small_words("lies_raw")
_FRESHENED_H = 0.3
"""Hours in water up to which vegetables boil, but for what lies there raw; common practice, no source."""
_BOILED = frozenset({"pasta", "potato", "grain", "egg"})
"""Food that lies in no cold water for a stated time but to be boiled."""
_ENDS = frozenset({",", ".", ";", "!", ":", "and", "to"})
_LISTS = _ENDS | {"&", "+", "cold", "with", "some", "a", "the", "plenty", "of", "pinch"}
"""What may stand in a list beside what it names."""
_OVER_FOOD = frozenset({"over", "cover", "top"})


def unsaid_verb(
    mentions: Sequence[Mention], part: Sequence[Token], said: Set[str], hours: Sequence[Span], index: Index
) -> Verb | None:
    """What is done where a telegram names food, water or a vessel, and no verb: "potatoes in salted water, 20
    minutes at a simmer", "water on", "pasta in"."""
    first = mentions[0]
    if hours and not _NEEDS.isdisjoint(said) and pasta_takes(mentions, said, index):
        return BOIL
    if hours and len(mentions) == 1 and index.kinds(first.lines) == {"pasta"}:
        if {token.text for token in part[first.j : hours[0].i]} <= _ENDS:
            return BOIL  # "pasta, 9 minutes"
    behind = part[first.j].text if first.j < len(part) else ""
    poured = mentions[1] if first.kind == "vessel" and len(mentions) > 1 else first
    if not first.prep and (poured.kind == "water" or index.kinds(poured.lines) == {"water"}):
        if ("on" in said and _on_it(part, poured.j)) or _stands(first, poured, said):
            return HEAT
    water = next((m for m in mentions if m.kind == "water"), None)
    if water is not None and first.kind == "line" and behind == ":" and not water.prep:
        water.prep = "in"  # "Peas: salted water, 4 minutes"
    if water is not None and hours and (first.kind == "line" or first.prep == "in"):
        kinds = index.kinds(first.lines)
        soon = kinds == {"legume"} and hours[0].likely < _SOAKED_H and said.isdisjoint(_LAID)
        soon = soon or (kinds == {"vegetable"} and _boils_soon(first, part, said, hours[0]))
        of_pot = behind == ":" and any(m.kind == "vessel" and m.name in _POTS for m in mentions)
        if not _HOT.isdisjoint(said) or (kinds and kinds <= _BOILED) or soon or of_pot:
            return BOIL  # "carrots: separate pan of salted water, 6 minutes"
    if hours and behind == ":" and first.kind == "line" and said & _APART and said & _POTS:
        return BOIL if index.kinds(first.lines) <= _BOILED | {"vegetable", "legume"} else None
    if first.kind == "water" and first.prep == "in" and hours and hours[0].i < first.i:
        if not _COLD.isdisjoint(said):
            return PUT  # "half an hour in cold water"
    if water is not None and hours and _lists_boiled(mentions, water, index):
        water.prep = "in"  # "another pan: salted water, pasta, 9 minutes"
        return BOIL
    if water is first and not hours and water.prep in ("", "with") and said & _OVER_FOOD:
        return COVER  # "cold water over the top", "water to cover"
    if water is not None and not (water.prep or hours) and _lies_in_water(mentions, part, index):
        water.prep = "in"  # "potatoes, cold water, salt"
        return PUT
    if put_in(mentions, labels=behind == ":" and first.prep == "in"):
        return PUT
    if first.kind == "line" and not first.prep and "flour" in said and _in_flour(mentions, index):
        return PUT
    if first.kind == "line" and not first.prep and behind == "out":
        return LIFT  # "peppers out of the brine", "eggs out"
    goes_in = first.kind == "line" and not first.prep and behind == "in" and _ends(part, first.j + 1)
    return PUT if goes_in else None


def _boils_soon(food: Mention, part: Sequence[Token], said: Set[str], hours: Span) -> bool:
    """ "Carrots: salted water, 8 minutes", and not "cucumbers" or "in cold water"."""
    raw = any(part[k].stem in _LIES_RAW for k in range(food.i, food.j))
    return hours.likely <= _FRESHENED_H and not raw and said.isdisjoint(_LAID)


def _lies_in_water(mentions: Sequence[Mention], part: Sequence[Token], index: Index) -> bool:
    """Whether nothing but potatoes or their like, water and salt are listed, and no other word is said."""
    if not {"line", "water", "salt", "vessel"}.issuperset([m.kind for m in mentions]):
        return False
    named = {i for m in mentions for i in range(m.i, m.j)}
    if not {token.text for i, token in enumerate(part) if i not in named} <= _LISTS:
        return False
    kinds = index.kinds([n for m in mentions for n in m.lines]) - {"salt"}
    return bool(kinds) and kinds <= _BOILED


def _in_flour(mentions: Sequence[Mention], index: Index) -> bool:
    """ "Liver in the flour, both sides"."""
    inside = [m for m in mentions if m.lines and m.prep in ("in", "into", "through")]
    return len(inside) == 1 and index.kinds(inside[0].lines) == {"flour"}


def _stands(first: Mention, water: Mention, said: Set[str]) -> bool:
    """ "A big pot of water with salt", "salted water, rolling": it is on the fire."""
    if first is water:
        return not _ROLLS.isdisjoint(said)
    near = water.i - first.j <= 1 or "boil" in said  # "have a pot of salted water at the boil"
    return first.name == "pot" and near and not water.prep


_ROLLS = frozenset({"rolling", "bubbling"})


def _lists_boiled(mentions: Sequence[Mention], water: Mention, index: Index) -> bool:
    """Whether what is listed behind water, with at most a pan before it, is food that is boiled in it."""
    before = [m for m in mentions if m.i < water.i]
    behind = next((m for m in mentions if m.i > water.i), None)
    if behind is None or any(m.kind != "vessel" for m in before) or water.prep in ("over", "under"):
        return False
    return bool(behind.lines) and index.kinds(behind.lines) <= _BOILED


def _on_it(part: Sequence[Token], i: int) -> bool:
    """ "Water on", "water, salted, on to boil", "water on with the salt"."""
    places = [k + 1 for k in range(i, len(part)) if part[k].text == "on"]
    return any(_ends(part, k) or part[k].text == "with" for k in places)


def _ends(part: Sequence[Token], i: int) -> bool:
    if i >= len(part) or part[i].text in _ENDS or part[i].text[0].isdecimal():
        return True
    return part[i].text in ("for", "when", "once")  # "pasta in when it boils"


def put_in(mentions: Sequence[Mention], *, labels: bool = False) -> bool:
    """Whether words without a verb say what is in what: "Everything in a pot", "potatoes in salted water"."""
    if mentions[0].kind == "vessel" and len(mentions) > 1 and (mentions[0].prep == "into" or labels):
        return True  # "into the big pan with the bay and fresh water", "in a bag: the lamb and soy sauce"
    if mentions[0].kind == "vessel" and len(mentions) > 1 and mentions[1].kind == "water":
        apart = mentions[1].i - mentions[0].j > 2  # "big pan, lots of water", and no "pan of cold water"
        return apart and not (mentions[0].prep or mentions[1].prep)
    inside = next((m for m in mentions if m.kind in ("vessel", "water") and m.prep in ("in", "into")), None)
    inside = inside or next((m for m in mentions if m.kind == "it" and m.prep in ("into", "through")), None)
    if inside is None:
        return False
    return any(m.kind in ("line", "all", "it") and not m.prep and m.i < inside.i for m in mentions)


def with_object(
    tokens: Sequence[Token], cuts: Sequence[tuple[int, int]], at: int, end: int, named: Collection[int]
) -> int:
    """Where a clause ends with the food that the next one names for both: "drain and flake the tuna"."""
    if not _is_bare(tokens, cuts[at], end, _SHARES):
        return end
    for k in range(at + 1, len(cuts)):
        verb_at = cuts[k][1]
        after = cuts[k + 1][0] if k + 1 < len(cuts) else len(tokens)
        verb = verbs().get(tokens[verb_at].text)
        adds = verb is not None and verb.base == "add" and k - at > 1  # "drain, rinse and add the beans"
        if verb is None or not (adds or verb.act in _SHARED_BY or verb.base in _MASHES):
            return end
        if _is_bare(tokens, cuts[k], after, _SHARED_BY):
            continue
        of_all = verb.act in _ALIKE  # and not "drain and mash the beans and the garlic"
        return _end_of_object(tokens, verb_at + 1, after, named, of_all=of_all) or end
    return end


_ALIKE = frozenset({"drain", "rinse"})
_BETWEEN = frozenset({",", "and", "&", "the", "both", "all"})


_NO_OBJECT = frozenset({"it", "them", "well", "in", "into", "with", "on", "to", "for", "until", "under"})
_LONGEST_OBJECT = 5


def _end_of_object(
    tokens: Sequence[Token], i: int, after: int, named: Collection[int], *, of_all: bool
) -> int:
    """Where the food ends that begins at word i: "the bunch of parsley", "the lettuce" that no line lists; 0
    where none stands there."""
    last = min(after, i + _LONGEST_OBJECT)
    j = next((k for k in range(i, last) if k in named or not tokens[k].text.isalpha()), last)
    if j < last and j in named and _NO_OBJECT.isdisjoint(token.text for token in tokens[i:j]):
        while j < after and (j in named or (of_all and tokens[j].text in _BETWEEN)):
            j += 1
        return next(k for k in range(j, i, -1) if k - 1 in named)
    unlisted = i + 1 < after and tokens[i].text in _BEFORE_FOOD and tokens[i + 1].text.isalpha()
    return i + 2 if unlisted and tokens[i + 1].text not in _BEFORE_FOOD | _NO_OBJECT else 0


def _is_bare(tokens: Sequence[Token], cut: tuple[int, int], end: int, acts: Collection[str]) -> bool:
    """Whether a clause is only its verb."""
    verb = verbs().get(tokens[cut[1]].text)
    if verb is None or not (verb.act in acts or verb.base == "salt") or verb.form != "base":
        return False
    words = (token.text for token in tokens[cut[1] + 1 : end])
    return all(word in _JOINS or word.endswith("ly") for word in words)
