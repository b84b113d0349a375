"""What a clause says by its words alone: how salty its water is, how often it is changed."""

from __future__ import annotations

import re
from itertools import pairwise

from .clauses import Clause
from .mention import Mention
from .method_words import nouns, phrasing, small_words

_HANDFUL = re.compile(r"\bhandful (?:for|per|to|in) (?:every |each |a |the )?lit(?:re|er)\b", re.IGNORECASE)
_SALT_WORDS = phrasing("salted_water")
_UNLESS = re.compile(
    r"\b(?:if|unless) (?:it|they|the|you|your)\b.*|\b(?:tastes?|too|so|less) (?:very |too )?salt.*"
    r"|(?:\bno|n[’'])t salt\w*"
    r"|\b(?:out of|from) (?:its|their|the) brine\b",
    re.IGNORECASE | re.DOTALL,
)
"""What says nothing of the salt in the water, for all its words."""
_AFRESH = phrasing("another_vessel")
_CHANGES = re.compile(
    r"\b(?:chang|refresh|renew|replac|swap|shift)\w*\b(?P<behind>.{0,60})"
    r"|(?P<count>two|three|four|five|six|several|\d+|a couple of|a few) (?:further |more )?"
    r"(?:changes|waters|rinses|baths)\b(?: of (?:(?:the|its|this|that|fresh|clean|cold|soaking) )*water\b)?",
    re.IGNORECASE | re.DOTALL,
)
_OF_WATER = re.compile(r"\bwaters?\b|\bit\b|\bthis\b|\bwhich\b", re.IGNORECASE)
_OFTEN = phrasing("how_often")
_TIMES = {
    "once": 1, "one": 1, "twice": 2, "two": 2, "a couple": 2, "occasionally": 2, "thrice": 3, "three": 3,
    "several": 3, "a few": 3, "often": 3, "regularly": 3, "frequently": 3, "four": 4, "five": 5, "six": 6,
}  # fmt: skip
_HOURS = {
    "few": 3.0, "couple of": 2.0, "other": 48.0, "second": 48.0, "two": 2.0, "three": 3.0, "four": 4.0,
    "six": 6.0, "eight": 8.0, "twelve": 12.0,
}  # fmt: skip
_MOST_CHANGES = 12


def goal(clause: Clause, mention: Mention) -> bool:
    """Whether a mention stands behind "until", "when" or "if": it tells when, not what."""
    return mention.i > clause.aim and not _resumes(clause, mention)


def _resumes(clause: Clause, mention: Mention) -> bool:
    """ "Simmer until soft, adding half the salt for the last 20 minutes": what is added is no aim."""
    if mention.amount is not None:
        before = [token.text for token in clause.tokens[max(0, mention.amount[0] - 2) : mention.amount[0]]]
        if mention.prep == "with" or before in ([",", "and"], [",", "plus"]):
            return True  # "fry until golden with a teaspoon of salt"
    return any(token.text in ("adding", "tossing") for token in clause.tokens[clause.aim : mention.i])


_NEAR = 4
_WET = frozenset({"water", "waters", "pot", "pan", "boiling", "simmering"})


def _only_food_is_salted(clause: Clause) -> bool:
    """Whether "salted" says what food is like and not its water: "the salted meats in a pot with water",
    "they are very salty, so begin with an hour in water"."""
    if clause.words.isdisjoint(("water", "waters", "pot", "pan")) or clause.has("brine", "saltwater", "sea"):
        return False
    texts = [token.text for token in clause.tokens]
    salted = [i for i, text in enumerate(texts) if text in ("salted", "salty")]
    near = (texts[max(0, i - _NEAR) : i + _NEAR + 1] for i in salted)
    wet = any(not _WET.isdisjoint(words) for words in near)
    foods = nouns("class").keys() | nouns("group").keys()
    after = [clause.tokens[i + 1].stem if i + 1 < len(texts) else "" for i in salted]
    return bool(salted) and (not wet or all(word in foods and word != "water" for word in after))


_DENIES = small_words("denies_salt")
_NOT_ADDED = re.compile(
    r"(?:\bnot|n['’]?t|\bnever) (?:add(?:ing)?|us(?:e|ing)|put|include)\b|\bleav(?:e|ing) out\b"
    r"|(?:\bnot|n['’]?t)$"
)


def is_denied(clause: Clause, mention: Mention) -> bool:
    """ "Toss everything together and add no salt", "the fish keeps drinking salt": none goes in."""
    if clause.tokens[mention.j - 1].stem != "salt":
        return False
    near = [token.text for token in clause.tokens[max(0, mention.i - 3) : mention.i]]
    denied = not _DENIES.isdisjoint(near) or _NOT_ADDED.search(" ".join(near)) is not None
    return denied and "matter" not in near and near[-2:] != ["too", "much"]


_OF_BATHS = frozenset({"water", "waters", "salt", "salted", "brine"})


def _names_salted_food(clause: Clause) -> bool:
    """ "Boil the salted cod": a food of the list is called so, and nothing else is salted."""
    salted = [i for i, token in enumerate(clause.tokens) if token.text in ("salt", "salted", "salty")]
    lines = [m for m in clause.mentions if m.kind == "line" and clause.tokens[m.j - 1].text not in _OF_BATHS]
    return bool(salted) and all(any(m.i <= i + 1 < m.j + (i + 1 == m.i) for m in lines) for i in salted)


def strength_of(clause: Clause) -> str:
    """How salty the method says a clause's water is: "", "salted" or "very"."""
    text = _UNLESS.sub("", clause.text)
    if _HANDFUL.search(text):
        return "very"
    if not _SALT_WORDS.search(text) or _only_food_is_salted(clause) or _names_salted_food(clause):
        return ""
    return "very" if _VERY.search(text) else "salted"


_VERY = phrasing("very_salty")


_CHANGED = ("chang", "refresh", "renew", "replac", "swap", "waters", "rinses", "baths")


def changes_of(clause: Clause, hours: float | None) -> int:
    """How often a clause says the water is changed in the hours that food lies in it (a day where nobody
    says how long): "twice", "every 8 hours", "morning and evening", "in three changes of water"."""
    said = clause.text.lower()
    fresh = "fresh" in said or "clean" in said or "new " in said
    if fresh and (changes := _in_fresh_water(clause, hours)):
        return changes
    if not any(map(said.__contains__, _CHANGED)):
        return 0
    found = _CHANGES.search(clause.text)
    if found is None:
        return 0
    if counted := found["count"]:
        return _number(counted)
    if not _OF_WATER.search(clause.text):
        return 0
    often = _OFTEN.search(found["behind"])
    if often is None:
        return 1
    return _as_often(often, hours)


def _as_often(often: re.Match[str], hours: float | None) -> int:
    if often["times"] and not often["daily"]:
        return _number(often["times"])
    if often["vague"]:
        return _number(often["vague"])
    return min(max(round((hours or 24.0) / _period(often)) - 1, 1), _MOST_CHANGES)


_FRESH_AND = re.compile(r"\b(?:with|in|using) (?:fresh|new|clean)(?: cold)? water,? ", re.IGNORECASE)
_THEN_FRESH = re.compile(
    r"\b(?:another|further|more)\b[^.;]{0,20} in (?:fresh|new|clean)\b(?! (?:\w+ )?(?:bowl|pan|pot|dish)\b)",
    re.IGNORECASE,
)


_NEW_ALONE = re.compile(r"(?:then |again )?(?:fresh|new|clean)(?: cold)? water(?: again)?", re.IGNORECASE)


def _in_fresh_water(clause: Clause, hours: float | None) -> int:
    """ "With fresh water twice a day", "then another twelve hours in fresh": changes called by no verb."""
    fresh = _FRESH_AND.search(clause.text)
    often = _OFTEN.match(clause.text, fresh.end()) if fresh is not None else None
    if often is not None:
        return _as_often(often, hours)
    if not clause.act and _NEW_ALONE.fullmatch(clause.text.strip(" .;,")):
        return 1  # "soak 8 hours; new water; 8 hours"
    return int(_THEN_FRESH.search(clause.text) is not None)


def _number(word: str) -> int:
    word = word.lower().removesuffix(" of")
    return min(int(word), _MOST_CHANGES) if word.isdigit() else _TIMES.get(word, 1)


def _period(often: re.Match[str]) -> float:
    """Hours from one change of the water to the next."""
    if often["times"]:
        return 24.0 / _number(often["times"])
    if often["halves"]:
        return 12.0
    if often["day"]:
        return 24.0
    unit, every = often["unit"].lower(), (often["every"] or "").lower()
    if not unit.startswith("h"):
        return _HOURS.get(every, 24.0) if every in ("other", "second") else 24.0 * float(every or 1)
    return _HOURS.get(every) or float(every or 1)


def is_afresh(clause: Clause) -> bool:
    """Whether a clause begins in another vessel."""
    if "vessel" not in clause.speaks and _OTHER.isdisjoint(clause.words):
        return False
    return bool(_AFRESH.search(clause.text))


_OTHER = frozenset({"another", "separate"})


def is_in_new_pot(clause: Clause) -> bool:
    """ "The peas into an empty saucepan": with nothing that was spoken of before."""
    return clause.vessel() == "pot" and is_afresh(clause)


_LONGEST_PLACE = 40


def is_elsewhere(clause: Clause) -> bool:
    """ "In a separate bowl, mix the oil and vinegar": the other vessel stands before the verb."""
    place = clause.sentence.find(clause.text)
    return 0 < place <= _LONGEST_PLACE and bool(_AFRESH.search(clause.sentence[:place]))


_ABOUT_SALT = re.compile("salt|season", re.IGNORECASE)
_NEEDLESS = phrasing("no_salt_needed")


_OF_NEED = (
    "need",
    "enough",
    "before",
    "already",
    "add ",
    "use ",
    "put in",
    "watch",
    "intake",
    "diet",
    "limit",
)


def needs_no_salt(clause: Clause) -> bool:
    """ "Check before adding salt, you won't need any", "the bacon is salty enough": nothing is added."""
    text = clause.text
    if clause.act not in _SEASONS or not any(map(text.__contains__, _OF_NEED)):
        return False
    return _ABOUT_SALT.search(clause.sentence) is not None and _NEEDLESS.search(text) is not None


_SEASONS = frozenset({"season", "other", "put", "hold", "let", "serve", "mix", ""})
_KNOWN = frozenset({"the", "that", "this", "same", "its", "their", "it", "remaining", "reserved"})


def in_some_water(clause: Clause) -> bool:
    """Whether water is spoken of that nobody has spoken of before: "in water", not "in the water"."""
    waters = [m for m in clause.mentions if m.kind == "water" and m.prep in ("in", "into")]
    return bool(waters) and not any(
        {token.text for token in clause.tokens[max(m.i - 1, 0) : m.j]} & _KNOWN for m in waters
    )


_OF_A_POT = frozenset({"reserved", "saved", "kept", "pasta", "starchy", "cooking"})


def is_of_a_pot(clause: Clause, water: Mention) -> bool:
    """Whether water is what another pot left: "heat the cream with the reserved water"."""
    if water.kind != "water":
        return False
    near = [token.text for token in clause.tokens[max(0, water.i - 2) : water.i]]
    return not _OF_A_POT.isdisjoint(near) or _THAT_COOKED.search(clause.text) is not None


_THAT_COOKED = phrasing("water_of_pot")


def is_to_water(clause: Clause) -> bool:
    """Whether something goes into "the water" or "the pot"."""
    return any(
        (
            m.kind == "water"
            or m.kind == "vessel"
            or (any(True for _ in m.lines) and clause.tokens[m.j - 1].text == "water")
        )
        and m.prep in ("in", "into", "to")
        for m in clause.mentions
    ) and ("through" in clause.words or clause.vessel() not in ("bowl", "pan"))


_ORDINALS = (("first",), ("second", "other"), ("third",))


def by_number(lines: tuple[int, ...], clause: Clause) -> tuple[int, ...]:
    """ "The first lot of spaghetti", "the second can", of lines alike."""
    for place, words in enumerate(_ORDINALS[: len(lines)]):
        if clause.has(*words):
            return (lines[place],)
    return ()


DRAWS = frozenset({"draw", "draws", "drawing", "release", "releases", "pull", "pulls", "lose", "loses"})


def is_drawn(clause: Clause, water: Mention) -> bool:
    """Whether water is that of the food: "the salt pulls the water from the marrow"."""
    if water.prep in ("in", "into"):
        return False
    return not DRAWS.isdisjoint(token.text for token in clause.tokens[max(0, water.i - 5) : water.i])


def is_for_soaking(clause: Clause, mention: Mention) -> bool:
    return any(token.text == "soaking" for token in clause.tokens[mention.i : mention.j])


_OF_NO_LINE = frozenset({"salad", "hands"})


def washes_another(clause: Clause) -> bool:
    """ "Wash the lettuce", of a list that has none: not what was spoken of before."""
    if clause.act != "rinse" or "line" in clause.speaks or "all" in clause.speaks:
        return False
    if clause.base == "wash" and not clause.mentions and "up" in clause.words:
        return True  # "wash up": the dishes
    table = nouns("class")
    for before, token in pairwise(clause.tokens):
        if token.text in _ENDS_OBJECT:
            return False
        known = before.text in _WHOSE and table.get(token.stem) in _WASHED and token.stem not in _PARTS
        if known or token.text in _OF_NO_LINE:
            return True
    return False


_ENDS_OBJECT = frozenset({"in", "under", "with", "from", "off", "of", "until", "to"})
_WHOSE = frozenset({"the", "your", "some", "all", "wash", "rinse", "fresh", "two", "both"})
_WASHED = frozenset({"vegetable", "potato", "fruit", "herb", "grain", "legume", "poultry", "seafood"})
_PARTS = frozenset({"leaf", "leave", "sprig", "seed", "slice", "bean", "kraut", "sauerkraut", "kimchi"})
"""Words of parts of a food that was spoken of, or of what became of it."""


def is_only_if(clause: Clause) -> bool:
    """ "Rinse if you find it too salty": not done, as long as nobody says so."""
    if clause.aim >= len(clause.tokens) or clause.tokens[clause.aim].text != "if":
        return False
    return "(" not in [token.text for token in clause.tokens[: clause.aim]]  # "(ice water if serving now)"


_LEAVES = frozenset({"out", "off", "from"})


def goes_out(clause: Clause, salt: Mention) -> bool:
    """ "Get the salt out of the cod", "rinse the salt from the capers": none goes in."""
    return salt.j < len(clause.tokens) and clause.tokens[salt.j].text in _LEAVES
