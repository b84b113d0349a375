"""Takes off a line what is no words: Markdown, HTML, addresses, look-alike letters of another alphabet.

Slips are set right too: what a scanner misread, and units that are run together with the word behind them.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterator

from ..units.kitchen_units import dimension, find
from .quantity import SIZED

SHORTEST_REST = 3
"""Letters in the shortest word that is taken to be run together with the unit before it."""

_POUND = re.compile(r"(?<=\d)(\s?)[1Il]b(?=s?\b)")
_ONE = re.compile(r"^\s*[Il|]\s+(?=([^\W\d_]+))")
_GLUED = re.compile(r"(?<=[\d¼½¾⅓⅔])([^\W\d_]{4,})")
_LINK = re.compile(r"!?\[([^\]]*)\]\([^)]*\)")
_ADDRESS = re.compile(r"\(?\b(?:https?://|www\.)\S+")
_TAG = re.compile(r"</?[A-Za-z][^<>]*>")
_EMPHASIS = re.compile(r"(?<![\w*_])(\*\*|__|\*|_|~~|`)(?=\S)(.+?)(?<=\S)\1(?![\w])")
_FOOTNOTE = re.compile(r"(?<=[^\W\d_])\*+|(?<=[)\]])\*+|\*{2,}|[†‡¹²³⁴⁵](?=\s|$)")
_OPTIONAL = re.compile(
    r"^\W*optional(?:ly)?(?:\s*[:\-–]\s*|\s+(?=[\d½¼¾⅓⅔]))(.+)$", re.IGNORECASE | re.DOTALL
)
_AHEAD = re.compile(
    r"^\W*(to taste|as needed|(?:for|to) (?:serve|serving|garnish))\s*:\s*(.+)$", re.IGNORECASE | re.DOTALL
)
"""What a food is for, said before it: "To taste: salt"."""
_DRAWN_OUT = re.compile(r"([aeou])\1{2,}")
"""A letter that is written again and again: "a loooot of pepper"."""
_NUMBERED = re.compile(r"^\s*(?:\d{1,2}[.)]|[A-E][:.)])\s+(?=[\d½¼¾⅓⅔])")
"""A number or letter before a line: "1) 2 eggs", "A: 2 tbsp soy sauce"."""
_OF_WEIGHT = re.compile(
    r"^\W*\d[\d.,]*\s?(?:(?:-|–|to)\s?\d[\d.,]*\s?)?%\s+(?:of\s+)?(?P<salt>(?:\w+\s)?salt\b)(?:\s+by\b.*)?",
    re.IGNORECASE,
)
_SO_MUCH = re.compile(
    r"^\W*(?:an? )?(?:(?:good|fair|decent|generous|healthy|liberal|small|large|big|huge|whole) )*"
    r"(?:amounts?|quantity|bit|lots?|loads?|heaps?|tons?|tonnes?|plenty) of (?=[^\W\d])",
    re.IGNORECASE,
)
"""How much in words that are no amount: "a good amount of", "loads of"."""
_LIKE = re.compile(r",?\s*\b(?:about |roughly )?(?:the )?size of (?:an?|your|my)\s\w+", re.IGNORECASE)
"""What a food is as large as: "butter the size of an egg" names no egg."""
_DRIED_OFF = re.compile(
    r"\b(?:washed|rinsed|cleaned|wiped|scrubbed|drained)(?: well)?(?:,| ?&| and| then|, then|, and)"
    r" (?:\w+ly |well )?dried\b(?=\s*(?:$|[,;.)]|and\b|&|well\b|\w+ly\b))",
    re.IGNORECASE,
)
"""Water that is dried off: "spinach, washed and dried" is no dried food."""
_PART_OF = re.compile(
    r"\b(?P<part>legs?[ -](?:and|&)[ -]thighs?|breasts?|thighs?|drumsticks?|wings?|legs?|livers?|shanks"
    r"|chops) of (?P<of>chicken|hen|turkey|duck|goose|lamb|veal|pork)\b",
    re.IGNORECASE,
)
"""What is counted in "4 thighs of chicken": those, and no whole birds."""
_RECIPE_SAYS = re.compile(
    r"[,;]?\s*\b(?:although |but |though )?(?:the|my|this) (?:original )?recipe (?:call|ask|say|use)s?\b.*$",
    re.IGNORECASE | re.DOTALL,
)
"""What a cook tells beside a food: "2 hocks the original recipe calls for shanks"."""
_UN = re.compile(r"\bun-(?=[a-z])", re.IGNORECASE)
_TIMES = re.compile(r"(?<=\d)\s*\*\s*(?=\d)")
_SEASONING = re.compile(
    r"\bs\s?(?:&|\+|/|and)\s?p\b|\bsalz\s(?:und|u\.|&|\+)\spfeffer\b|\bsel\set\spoivre\b|\bsal\s[ye]\spim(?:ient|ent)a\b"
    r"|\bsale\se\spepe\b|\bzout\sen\speper\b|\bsalt\soch\speppar\b",
    re.IGNORECASE,
)
"""Salt and pepper by their initials and in other tongues: the salt of such a line is not to be lost."""
_MARKED = re.compile(
    r"[\[*_~`<&†‡¹²³⁴⁵]|://|www\.|^\W*optional|\bs\s?(?:\+|/|and)\s?p\b|\s(?:und|u\.|\+|et|e|y|en|och)\sp",
    re.IGNORECASE,
)

_LOOK_ALIKE = str.maketrans(
    "аеорсухіјѕһкмтвнгАВЕКМНОРСТХУІЈЅοαερνκτυιΑΒΕΖΗΙΚΜΝΟΡΤΥΧ",
    "aeopcyxijshkmtbhrABEKMHOPCTXYIJSoaepvktuiABEZHIKMNOPTYX",
)
"""Cyrillic and Greek letters -> the Latin ones that they look like."""

_WORD = re.compile(r"[^\W\d_]+")


def cleaned(text: str) -> str:
    """The words of a line; what its marks stood for is kept ("Optional: cream" is "cream (optional)")."""
    if not text.isascii():
        text = _WORD.sub(_in_latin, text)
    text = _plainer(_DRAWN_OUT.sub(r"\1", text))
    text = _AHEAD.sub(r"\2 \1", text) if ":" in text else text
    if not _MARKED.search(text):
        return text
    text = _TAG.sub(" ", html.unescape(text)) if "<" in text or "&" in text else text
    text = _TIMES.sub(" x ", _ADDRESS.sub(" ", _LINK.sub(r"\1", text)))
    text = _FOOTNOTE.sub(" ", _EMPHASIS.sub(r" \2 ", text))
    return _SEASONING.sub("salt and pepper", _OPTIONAL.sub(r"\1 (optional)", text))


def _plainer(text: str) -> str:
    """Without a list's number; "un-salted" in one word; "2 % salt", "lots of salt" as of no amount."""
    text = _NUMBERED.sub("", text)
    text = _OF_WEIGHT.sub(r"\g<salt>", text) if "%" in text else text
    text = _DRIED_OFF.sub(r"\g<0> off", text) if "dried" in text else text
    text = _RECIPE_SAYS.sub("", text) or text if " recipe " in text else text
    if " of " in text:
        text = _PART_OF.sub(r"\g<of> \g<part>", _LIKE.sub("", _SO_MUCH.sub("", text)))
    return _UN.sub("un", text) if "un-" in text or "Un-" in text else text


def _in_latin(found: re.Match[str]) -> str:
    """A word that mixes alphabets, in Latin letters; a word of one other alphabet stays as it is."""
    word = found[0]
    latin = word.translate(_LOOK_ALIKE)
    return latin if latin.isascii() and any(letter.isascii() for letter in word) else word


def as_printed(text: str) -> str:
    """The line with what scanners misread set right: "2 Ibs" is 2 lbs, "I cup" is 1 cup."""
    found = _ONE.match(text)
    if found and find(found[1]):
        text = f"1 {text[found.end() :]}"
    return _POUND.sub(r"\1lb", text) if "b" in text else text


def parted(text: str) -> Iterator[str]:
    """The line with a unit parted from the word run together with it ("200gplain flour"), longest unit first.

    What is parted may be a word that only begins like a unit ("5ginger"): take it where the line names no
    food as it stands, and does so parted.
    """
    for glued in _GLUED.finditer(text):
        word = glued[1]
        for end in range(len(word) - SHORTEST_REST, 0, -1):
            if dimension(find(word[:end])) in SIZED:
                at = glued.start() + end
                yield f"{text[:at]} {text[at:]}"
