"""What a clause says by its words alone: how salty its water is, how often it is changed."""

from __future__ import annotations

import re

from .clauses import Clause
from .mentions import Mention

_HANDFUL = re.compile(r"\bhandful (?:for|per|to|in) (?:every |each |a |the )?lit(?:re|er)\b", re.IGNORECASE)
_SALT_WORDS = re.compile(r"\bsalted|\bsalty|\bsalt water|saltwater|\bbrin[ey]\b", re.IGNORECASE)
_AFRESH = re.compile(
    r"\b(?:(?<!for )another(?! (?:\d|few|couple|half|hour|minute))|separate|"
    r"a (?:small|large|medium|big|clean|deep|shallow)?\s*(?:mixing |sauce)?"
    r"(?:bowl|pan|pot|saucepan|jug|skillet|bag))\b",
    re.IGNORECASE,
)
_CHANGES = re.compile(
    r"(?:chang|refresh|renew|replac)\w* (?:(?:the |its |this |that )?(?:soaking |cold )?water|it)\s*"
    r"(?:every\s+(?P<every>[\d.]+|few|couple of)\s*h\w*|"
    r"(?P<times>once|twice|two|three|four|five|\d+|several|a few|often|regularly|occasionally|daily)?)",
    re.IGNORECASE,
)
_TIMES = {
    "once": 1,
    "twice": 2,
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "several": 3,
    "a few": 3,
    "often": 3,
    "regularly": 3,
    "occasionally": 2,
}


def goal(clause: Clause, mention: Mention) -> bool:
    """Whether a mention stands behind "until", "when" or "if": it tells when, not what."""
    return mention.i > clause.aim


def strength_of(clause: Clause) -> str:
    """How salty the method says a clause's water is: "", "salted" or "very"."""
    text = clause.text
    if _HANDFUL.search(text):
        return "very"
    if not _SALT_WORDS.search(text):
        return ""
    return (
        "very"
        if re.search(
            r"\b(?:heavily|handful|very|lots of|like the sea|salty as the sea|sea[- ]?water)\b",
            text,
            re.IGNORECASE,
        )
        else "salted"
    )


def changes_of(clause: Clause, hours: float | None) -> int:
    """How often a clause says the water is changed."""
    found = _CHANGES.search(clause.text)
    if found is None:
        return 0
    if every := found["every"]:
        step = {"few": 3.0, "couple of": 2.0}.get(every.lower()) or float(every)
        return min(max(round((hours or 24.0) / step) - 1, 1), 12)
    times = (found["times"] or "").lower()
    return int(times) if times.isdigit() else _TIMES.get(times, 1)


def is_afresh(clause: Clause) -> bool:
    """Whether a clause begins in another vessel."""
    if not (clause.has("another", "separate") or clause.vessel()):
        return False
    return bool(_AFRESH.search(clause.text))


_ABOUT_SALT = re.compile("salt|season", re.IGNORECASE)
_NEEDLESS = re.compile(
    r"\b(?:won[’']t|will not|shouldn[’']t|should not|don[’']t|do not|doesn[’']t|does not|unlikely to|rarely"
    r"|hardly|probably not|never) (?:\w+ )?need\b|\bno need\b|\bneeds? no\b|\b(?:salty|salt) enough\b"
    r"|\benough salt\b"
    r"|\b(?:taste|check|try it)\b.{0,40}\bbefore (?:you )?(?:add|season|salt)",
    re.IGNORECASE,
)


def needs_no_salt(clause: Clause) -> bool:
    """ "Check before adding salt, you won't need any", "the bacon is salty enough": nothing is added."""
    text = clause.text
    if clause.act not in _SEASONS or not ("need" in text or "enough" in text or "before" in text):
        return False
    return _ABOUT_SALT.search(text) is not None and _NEEDLESS.search(text) is not None


_SEASONS = frozenset({"season", "other", "put", "hold", "let", "serve", "mix", ""})
_KNOWN = frozenset({"the", "that", "this", "same", "its", "their", "it", "remaining", "reserved"})


def in_some_water(clause: Clause) -> bool:
    """Whether water is spoken of that nobody has spoken of before: "in water", not "in the water"."""
    waters = [m for m in clause.mentions if m.kind == "water" and m.prep in ("in", "into")]
    return bool(waters) and not any(
        {token.text for token in clause.tokens[max(m.i - 1, 0) : m.j]} & _KNOWN for m in waters
    )


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
    ) and clause.vessel() not in ("bowl", "pan")


_ORDINALS = (("first",), ("second", "other"), ("third",))


def by_number(lines: tuple[int, ...], clause: Clause) -> tuple[int, ...]:
    """ "The first lot of spaghetti", "the second can", of lines alike."""
    for place, words in enumerate(_ORDINALS[: len(lines)]):
        if clause.has(*words):
            return (lines[place],)
    return ()
