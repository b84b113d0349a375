"""Verbs that mean another act by what their clause speaks of: pass through water, remove salt by soaking."""

from __future__ import annotations

import re
from collections.abc import Sequence, Set
from itertools import dropwhile

from .listed import Index
from .mention import Mention
from .method_words import Verb, small_words
from .numbers_said import number_at
from .prose_tokens import Token
from .times_and_sizes import Span

_PUT = Verb("put", "put", "base", False)
_POUR = Verb("pour", "put", "base", False)
_SOAK = Verb("soak", "soak", "base", False)
_BOIL = Verb("boil", "boil", "base", False)
_CUT = Verb("slash", "cut", "base", False)
_BRUSH = Verb("brush", "coat", "base", False)
_WIPE, _BRUSHES = Verb("brush", "dry", "base", False), frozenset({"brush", "dust"})
_RUB = Verb("rub", "coat", "base", False)
_SCRUBS = frozenset({"scrub", "wash"})
_ONTO = frozenset({"with", "on", "onto", "over"})
_JUICES = frozenset({"squeeze", "juice"})
_INTO = frozenset({"in", "into", "over", "onto"})
_OFF = frozenset({"off", "away", "from", "clean", "down"})
_SLITS = small_words("slits")
_USED = frozenset({"use", "reuse", "keep", "save", "reserve", "boil"})
_STILL = frozenset({"until", "before", "too", "more", "all", "unless", "till", "yet", "instead"})
_SPOONS = frozenset({"spoon", "ladle", "fork"})
_LIFT = Verb("lift", "remove", "base", False)
_DIPS = frozenset({"pass", "dip"})
_DRAWS = frozenset({"remove", "draw", "pull", "take", "extract", "eliminate", "get", "leach", "discard"})
_SOAKING = frozenset({"soak", "soaking", "steeping"})
_LEAST_H = 0.3
_LONG_H = 0.45
"""Hours for which nobody sweats onions in a pan."""
_LEAKS = frozenset({"sweat", "purge"})
_HOLD = Verb("leave", "hold", "base", False)
_HOT = small_words("sweats_hot")


def not_used(verb: Verb, spoken: Sequence[Mention], words: Set[str]) -> bool:
    """ "Do not reuse the marinade", "the brine is not used": it is thrown away."""
    if verb.base not in _USED or not spoken or spoken[0].kind != "bath" or spoken[0].prep:
        return False
    return _STILL.isdisjoint(words)


def is_too_salty(words: Sequence[str]) -> bool:
    """ "The broth is too salty for anything", "the water will be too salty to use": it is thrown away."""
    begin = 1 + (words[1:2] == ["cooking"])
    liquid = words[:1] == ["the"] and words[begin : begin + 1] and words[begin] in _LIQUORS
    return bool(liquid) and words[begin + 1] in _WILL_BE and "too" in words[begin + 1 : begin + 5]


_LIQUORS = frozenset({"water", "broth", "liquid", "liquor", "stock", "brine", "juice"})
_WILL_BE = frozenset({"is", "was", "will", "gets", "becomes"})


def meant(
    verb: Verb | None,
    part: Sequence[Token],
    spoken: Sequence[Mention],
    words: Set[str],
    hours: Sequence[Span],
) -> Verb | None:
    """The verb that a clause means, where it is not the one that it says."""
    if hours and part[0].text == "after" and not _SHOULD.isdisjoint(words):
        if verb is None or verb.act in _TURNED_OUT:
            return TURNS_OUT  # "after 2 hours a thick piece should bend without snapping"
    if verb is None:
        return None
    if verb.base == "make" and not _SLITS.isdisjoint(words) and all(m.kind != "bath" for m in spoken):
        return _CUT  # "make slits in the lamb"
    if verb.base in _BRUSHES and "off" in words:
        return _WIPE if verb.base == "brush" or "salt" in words else verb  # "brush it off with a cloth"
    if verb.base == "brush" and not _ONTO.isdisjoint(words):
        return _BRUSH  # and wipes nothing off
    if verb.base in _SOFTENS and not _IN_A_BOIL.isdisjoint(words) and _is_in_water(spoken):
        return _BOIL  # "soften the cabbage leaves in boiling water"
    if verb.base in _SPOONS and "out" in words and words.isdisjoint(_INTO):
        return _LIFT  # "spoon the olives out of the jar"
    if verb.base == "cover" and hours and "simmer" in words and words >= _AT_A_SIMMER:
        return _SIMMER  # "pork, salt and water to cover, 2 hours at a simmer"
    if verb.base == "use" and "same" in words and _in_same_water(spoken, words):
        return _COOK
    if verb.base in _BEGINS and hours and any(m.kind == "water" and m.prep == "in" for m in spoken):
        return _SOAK  # "begin with the capers: an hour in cold water"
    if verb.base == "set" and _is_laid(spoken):
        return _PUT  # "set the joint in a casserole"
    if verb.base in _JUICES and _is_juiced(spoken):
        return _POUR  # "squeeze the limes over the fish"
    if verb.base == "scrape" and not _INTO.isdisjoint(words) and _OFF.isdisjoint(words):
        return _POUR  # "scrape it over the meat"
    if (verb.act == "rinse" or verb.base in _DIPS) and not _SALTED.isdisjoint(words):
        if words.isdisjoint(_HEATED) and _is_in_brine(part, spoken):
            return Verb(WASH, "soak", verb.form, False)  # "wash the prawns in salted water"
    if verb.base in _SCRUBS and "salt" in words and _with_salt(part, spoken):
        return _RUB  # "scrub the tripe with the salt"
    if verb.base in _BEATS and not _FLAT.isdisjoint(words) and spoken and spoken[0].kind in ("line", "it"):
        return _POUND  # "beat the escalopes out to 5 mm", "whack it flat"
    if verb.base in _DIPS:
        return (
            _PUT if any(m.kind == "water" and m.prep in ("in", "into", "through") for m in spoken) else verb
        )
    if verb.base == "cook" and words & _SOURS and words & _LEAVES:
        return _HOLD  # "leave to 'cook' in the lime juice for 20 minutes"
    if verb.base in _LEAKS and hours and hours[0].likely >= _LONG_H and words.isdisjoint(_HOT):
        return _HOLD  # "let the slices sweat for an hour", under their salt
    if verb.act == "cut" and (_cuts_into(spoken) or (verb.base in _CUTS_IN and part[1].text == "in")):
        return _PUT  # "slice the cucumber into it", "slice in the radishes"
    if "lid" in words and verb.act == "put" and _puts_lid(part):
        return _HOLD  # and nothing goes into anything
    if verb.base == "bring" and "up" in words and _brings_up(part, words):
        return _BOIL
    if verb.base in _DRAWS and "salt" in words and _draws_salt(part, spoken, words, hours):
        return _SOAK
    return verb


_BEGINS = frozenset({"begin", "start"})
_SOURS = frozenset({"juice", "juices", "citrus", "acid"})
_LEAVES = frozenset({"leave", "let", "allow", "left"})
_SOFTENS = frozenset({"soften", "wilt"})
_IN_A_BOIL = frozenset({"boiling", "simmering", "salted"})


def _is_in_water(spoken: Sequence[Mention]) -> bool:
    return any(m.kind == "water" and m.prep in ("in", "into") for m in spoken)


_AT_A_SIMMER = frozenset({"at", "simmer", "water"})
_SIMMER = Verb("simmer", "simmer", "base", False)
_COOK = Verb("cook", "cook", "base", False)


def _in_same_water(spoken: Sequence[Mention], words: Set[str]) -> bool:
    """ "Use the same water for the pasta": what is named behind cooks in it."""
    return "for" in words and [(m.kind, m.prep) for m in spoken] == [("water", ""), ("line", "")]


def _brings_up(part: Sequence[Token], words: Set[str]) -> bool:
    """ "Cold water over the top, bring up, then 8 minutes", "bring it up in clean water"."""
    at = next(k for k, token in enumerate(part) if token.text == "up")
    if at == 1:
        return True
    said = [token.text for token in part[1 : at + 2]]
    return "water" in words and said in (["it", "up", "in"], ["them", "up", "in"])


def takes_time(verb: Verb, part: Sequence[Token]) -> bool:
    """ "It takes about 10 minutes", "which can take them up to an hour": nothing is taken away, nor
    cut in "three quarters of an hour"."""
    if verb.base == "quarter":
        return verb.form == "s"
    if verb.base != "take":
        return False
    at = next((i for i, token in enumerate(part) if token.text in _TAKES), None)
    if at is None:
        return False
    behind = dropwhile(lambda i: part[i].text in _ROUGHLY, range(at + 1, len(part)))
    first = next(behind, None)
    return first is not None and number_at(part, first) is not None


TURNS_OUT = Verb("leave", "hold", "past", False)
_BEATS = frozenset({"beat", "bash", "whack", "hammer", "flatten", "roll", "bang", "hit"})
_FLAT = frozenset({"flat", "thin", "thinner", "hammer", "mallet", "mm", "millimetres"})
_POUND = Verb("pound", "cut", "base", False)
_SHOULD, _TURNED_OUT = frozenset({"should", "will"}), frozenset({"cut", "season", "other", "mix"})
_TAKES = frozenset({"take", "takes", "took", "taking"})
_ROUGHLY = small_words("roughly")
_SETS = frozenset({"put", "set", "place", "turn", "pop", "get", "stick", "stand", "return", "bring", "crank"})
STOVE = frozenset({"heat", "flame", "stove", "stovetop", "hob", "burner", "fire"})
_DOWN = frozenset({"off", "down", "low", "lower", "lowest", "oven", "from", "grill", "back", "aside"})
HEAT = Verb("heat", "heat", "base", False)


def on_the_stove(verb: Verb | None, spoken: Sequence[Mention], words: Set[str]) -> bool:
    """ "Put it on a high heat", "set over a flame", "turn the heat to high": what stands there is heated."""
    if verb is None or verb.base not in _SETS or STOVE.isdisjoint(words) or not _DOWN.isdisjoint(words):
        return False
    return all(m.kind in ("it", "vessel") for m in spoken)


def _is_juiced(spoken: Sequence[Mention]) -> bool:
    over = bool(spoken) and spoken[-1].prep == "over"  # "after 10 minutes squeeze dry" speaks of nothing
    return over and spoken[0].kind == "line" and not spoken[0].prep


def _with_salt(part: Sequence[Token], spoken: Sequence[Mention]) -> bool:
    """Whether what food is scrubbed with is salt, in no water."""
    texts = [token.text for token in part]
    at = texts.index("with") if "with" in texts else len(texts)
    behind = texts[at : at + _NEAR]
    return "salt" in behind and "water" not in behind and bool(spoken) and spoken[0].i < at


_NEAR = 5


def _is_laid(spoken: Sequence[Mention]) -> bool:
    inside = any(m.kind == "vessel" and m.prep in ("in", "into", "on") for m in spoken)
    return inside and spoken[0].kind in ("line", "it") and not spoken[0].prep


def _puts_lid(part: Sequence[Token]) -> bool:
    """ "Put the lid on", "put on a lid"."""
    at = next(i for i, token in enumerate(part) if token.text == "lid")
    return at >= 2 and part[at - 1].text in ("the", "a", "its") and part[at - 2].text in _LID_BEHIND


_LID_BEHIND = frozenset({"put", "place", "set", "pop", "on", "clap", "slap", "puts"})
_CUTS_IN = frozenset({"slice", "chop", "grate", "shred"})


def _cuts_into(spoken: Sequence[Mention]) -> bool:
    """Whether food is cut into a liquid that is spoken of."""
    if len(spoken) < 2 or spoken[0].kind != "line" or spoken[0].prep:
        return False
    return spoken[-1].kind in ("it", "bath") and spoken[-1].prep == "into"


WASH = "wash"
"""The base of verbs that only wash food in salted water."""
_HEATED = frozenset({"boiling", "simmering", "hot", "boil"})
_SALT_WATER = re.compile(
    r"\b(?:salted|salty|salt) water\b|\bwater (?:with|and|plus) (?:the |some |a )?"
    r"(?:\w+ (?:of )?(?:the )?)?salt(?= (?:and|then|for|in|until|to)\b| ?[^\w ]|$)"
)


def _is_in_brine(part: Sequence[Token], spoken: Sequence[Mention]) -> bool:
    """ "The prawns in salted water", "them in a bowl of water with the salt"; in no pot."""
    food, *where = spoken or (None,)
    if food is None or food.prep or food.kind not in ("line", "it"):
        return False
    if not any(m.prep in _IN for m in where) or any(_is_elsewhere(part, m) for m in where):
        return False
    return _SALT_WATER.search(" ".join(token.text for token in part)) is not None


def _is_elsewhere(part: Sequence[Token], mention: Mention) -> bool:
    """Whether food goes into a pot, or into flour next."""
    if mention.kind == "vessel":
        return mention.name != "bowl"
    return mention.kind == "line" and part[mention.j - 1].text not in ("water", "salt")


_IN = frozenset({"in", "into", "through", "with"})
_SALTED = frozenset({"salted", "salty", "salt"})


def _draws_salt(
    part: Sequence[Token], spoken: Sequence[Mention], words: Set[str], hours: Sequence[Span]
) -> bool:
    """ "Draw the salt out of the cod in cold water for a day", "remove the salt by soaking"."""
    first = next((m for m in spoken if not m.prep), None)
    if first is None or first.j - 1 >= len(part) or part[first.j - 1].text != "salt":
        return False
    soaks = not _SOAKING.isdisjoint(words) or any(m.kind == "water" and m.prep == "in" for m in spoken)
    return soaks and bool(hours) and hours[0].likely >= _LEAST_H


def pours_off_food(part: Sequence[Token], spoken: Sequence[Mention], index: Index) -> bool:
    """ "Pour off the potatoes": they stay, and what is poured off is their water."""
    first = spoken[0] if spoken else None
    if first is None or first.kind != "line" or first.prep or part[0].text not in _POURS_OFF:
        return False
    behind = part[first.j].text if first.j < len(part) else ""
    told = part[1].text == "off" or behind == "off"
    return told and all(index.lines[n].kind in _BOILED for n in first.lines)


_POURS_OFF = frozenset({"pour", "tip"})
_BOILED = frozenset({"potato", "pasta", "grain", "vegetable", "legume", "egg"})
DRAIN = Verb("drain", "drain", "base", False)
