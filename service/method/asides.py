"""What a recipe tells beside its making: other ways to do it, stories, how it keeps, and dried food where the
list has cans."""

from __future__ import annotations

import re
from collections.abc import Collection

from .listed import Index, ListedLine
from .method_words import nouns, phrasing, root, small_words
from .prose_tokens import tokenize

_STORY = re.compile(
    r"\bwhen (?:i|we) (?:was|were)\b|\bas a child\b|\bused to\b|\byears ago\b|\bin those days\b"
    r"|\b(?:i|we) first (?:ate|had|made|tried|tasted|cooked)\b"
    r"|^\W*(?:i|we)(?: have|'ve|’ve)(?: always| often| never| also)? [\w-]+ed\b"
    r"|\bwhere (?:they|people) (?!(?:stay|lie|sit|stand|rest|remain)\b)\w+",
    re.IGNORECASE,
)
_OTHERWISE = re.compile(
    r"\W*(?:for (?:a|an) (?:\w+er|more \w+|special|change|crowd|double batch)\b|for variety\b"
    r"|(?:if|when) (?:you(?:'re|’re| are)? )?(?:doubl|tripl|halv)(?:e|ing)\b"
    r"|(?:try|use|swap|replace|substitute)\b.*\b(?:instead|in place)\b)",
    re.IGNORECASE,
)
_TELLS_WHY = re.compile(
    r"\W*(?:\w+ly )?[a-z]+ing (?:the|your|it|them|a)\b[^,;]* (?:makes?|keeps|helps|gives|improves|ensures)\b",
    re.IGNORECASE,
)
""" "Brining the bird makes it juicier": what an act is good for, where it is no command."""
_BESIDE = re.compile(
    r"\b\d[\d,.]*\s*k?cal\b|\bcalories:?\s*\d|\b\d[\d,.]*\s*calories\b"
    r"|^\W*(?:first(?: of all)?,? )?(?:gather|collect|assemble|get|have|lay out|set out|line up)"
    r" (?:together )?(?:all )?(?:of )?(?:the |your )?ingredients(?: together| ready| out)*"
    r"(?: first| before you \w+)?\W*$",
    re.IGNORECASE,
)
"""What a serving holds ("420 kcal, 2 g salt"), and what is got ready before anything is done."""
_MAY = re.compile(
    r"\W*(?:if|when|you (?:can|could|may|might)|to use|try|feel free"
    r"|(?:they|it|this|these|leftovers?)(?: also)? (?:can|may|could|keeps?|freezes?|lasts?))\b",
    re.IGNORECASE,
)
_DRIED = re.compile(r"\bdried (?P<food>\w+)", re.IGNORECASE)
_ANY = frozenset({"one", "bean", "pulse"})


_SIGNS = small_words("aside_sign")


def may_tell(paragraph: str) -> bool:
    """Whether a paragraph may hold an aside, by its words alone: most do not, and are asked no more."""
    return "or a" in paragraph or not _SIGNS.isdisjoint(paragraph.lower().split())


def is_beside(label: str) -> bool:
    """Whether a label or heading stands over what is no part of the making: "Variations", "Prep time"."""
    bare = label.strip(" .*").lower()
    return bare in nouns("beside") or bare in nouns("preliminary")


def is_note(label: str) -> bool:
    """Whether a heading stands over notes: "Notes", "Cook's tip"."""
    return label.strip(" .*").lower() in nouns("note")


def _labels() -> dict[str, str]:
    return {**nouns("note"), **nouns("beside")}


LABELS = frozenset(tokenize(label)[0].text for label in _labels())
"""First words of the labels of notes and of what stands beside the making."""
_A_LABEL = (
    rf"\W*({'|'.join(map(re.escape, sorted(_labels(), key=len, reverse=True)))})(?:\s*:|\.|\s+[-–—])\s+"
)
_LABEL = re.compile(_A_LABEL, re.IGNORECASE)
_NOTE = re.compile(rf"(?:^|(?<=[.!?]\s)){_A_LABEL}(?P<said>[^.!?]+)[.!?]?", re.IGNORECASE)


def label_at(paragraph: str, start: int) -> re.Match[str] | None:
    """The label that a sentence begins with: "Note: …", "Tip - …", "NB. …"; its group is the name."""
    return _LABEL.match(paragraph, start)


def without_notes(paragraph: str, done: Collection[str]) -> str:
    """A paragraph without its notes of which nothing is done. done: the sentences of which something is."""
    return _NOTE.sub(lambda note: note[0] if any(note["said"] in each for each in done) else "", paragraph)


def is_aside(sentence: str, index: Index, *, noted: bool) -> bool:
    """Whether a sentence tells of another time or another way. noted: it stands in a note, where what may be
    done is not."""
    if noted and _MAY.match(sentence):
        return True
    if (
        _BESIDE.search(sentence)
        or _STORY.search(sentence)
        or _OTHERWISE.match(sentence)
        or _TELLS_WHY.match(sentence)
    ):
        return True
    if _BESIDE.search(sentence) or _is_of_another_state(sentence, index):
        return True
    if _OFFERS.match(sentence) and not _names_a_food(sentence, index):
        return True
    found = _DRIED.search(sentence)
    return found is not None and _is_canned(root(found["food"].lower()), index)


_BESIDE = phrasing("beside_the_making")
_OFFERS = phrasing("offered_beside")
_STATE = phrasing("another_state")
_RULES = re.compile(r"\b(?:if|must|should|needs?|want|can|may|will|have to)\b", re.IGNORECASE)


def _is_of_another_state(sentence: str, index: Index) -> bool:
    """ "Salt-packed capers must be soaked", of a list that has capers and does not say so."""
    found = _STATE.match(sentence)
    if found is None or _RULES.search(sentence) is None:
        return False
    food, state = root((found["food"] or found["named"]).lower()), found["state"] or found["liquid"]
    lines = [line for line in index.lines if food in map(root, line.words)]
    return bool(lines) and not any(state[:4].lower() in line.text.lower() for line in lines)


def _names_a_food(sentence: str, index: Index) -> bool:
    """Whether a sentence speaks of food of the list, and not only of what seasons it."""
    return any(_is_food(line) for token in tokenize(sentence) for line in index.by_word.get(token.stem, ()))


def _is_food(line: ListedLine) -> bool:
    return line.kind not in _SEASONS


_SEASONS = frozenset({"salt", "spice", "herb", "oil", "acid", "water", "sweet"})


def _is_canned(food: str, index: Index) -> bool:
    """Whether the list has a food in cans and not dried."""
    cans = [line for line in index.lines if line.is_canned and line.kind == "legume"]
    meant = food in _ANY or any(food in map(root, line.words) for line in cans)
    return bool(cans) and meant and not any("dried" in line.text.lower() for line in index.lines)
