"""Lines of salt that tell how much goes into each of several things: "1 tsp salt, plus 1 tbsp for the pasta
water", "salt: 1 tsp for the meat, 2 tsp for the sauce"."""

from __future__ import annotations

import re
from collections.abc import Sequence

_NEAR = ".{0,40}"
MAY_TELL = (
    rf"\bsalt\b{_NEAR}\d{_NEAR}\b(?:for|in|into|to|on)\b"
    rf"|\d{_NEAR}\bsalt\b{_NEAR} (?:a|one|half) {_NEAR}\b(?:for|in|into|to|on)\b"
    rf"|\bsalt\b{_NEAR} (?:a|one|half) {_NEAR}\b(?:for|in|into|to|on)\b"
)
"""What a line must look like to tell several amounts of salt."""
_FIGURE = r"(?:an?|one|two|three|half an?|[\d½¼¾⅓⅔⅛](?:[\d½¼¾⅓⅔⅛./-]| (?=[\d½¼¾⅓⅔⅛]))*)"
_UNIT = (
    r"(?:tsps?|teaspoons?|tbsps?|tbs|tablespoons?|cups?|gr?|grams?|kg|oz|ounces?|ml|pinch(?:es)?|handfuls?)"
    r"\b\.?"
)
_SIZE = r"(?:(?:heaped|heaping|level|scant|rounded|generous|big|good|small|large) )*"
_JOINS = re.compile(
    r"\s*(?:[,;:+&()]|\s[-–—]\s)\s*|\s+(?:and|plus)\s+|(?<=salt)\s+(?=[\d½¼¾⅓⅔⅛])", re.IGNORECASE
)
_LEADS = re.compile(r"(?:(?:and|plus|about|another|an extra|a further)\s+)+", re.IGNORECASE)
_PIECE = re.compile(
    rf"(?:(?P<amount>{_FIGURE}) ?(?P<unit>{_SIZE}{_UNIT})?)?(?: ?(?:of )?(?P<salt>(?:[a-z-]+ ){{0,3}}?salt))?"
    r"(?: (?:more|extra|the same))?(?: ?\b(?P<purpose>(?:for|in|into|to|on) .+))?",
    re.IGNORECASE,
)
_IDLE = re.compile(r"divided|separated|or to taste|in total|total|needed", re.IGNORECASE)
_NO_PURPOSE = re.compile(
    r"to (?:taste|serve|finish)\b|for (?:each|every|serving)\b|to (?:each|every)\b", re.IGNORECASE
)
_MORE = re.compile(r"\bplus\b|[+&;]|\band\b", re.IGNORECASE)
_BOTH = 2
_LOOSE = re.compile("pinch|handful", re.IGNORECASE)


def salts_for_each(text: str) -> list[str]:
    """A line of each amount and what it is for; none where a line tells no more than one, or other food."""
    pieces = [_LEADS.sub("", piece, count=1) for piece in _JOINS.split(text.strip(" .")) if piece.strip()]
    found = [_PIECE.fullmatch(piece) for piece in pieces if not _IDLE.fullmatch(piece)]
    told = [piece for piece in found if piece is not None]
    names = [piece["salt"] for piece in told if piece["salt"]]
    if len(told) < len(found) or not names:
        return []
    parts = _parts(told, text)
    unit = next((piece["unit"] for piece in told if piece["unit"]), None)
    if unit is None or len(parts) < _BOTH:
        return []
    return [_line(p["amount"], p["unit"] or unit, names[0], p["purpose"]) for p in parts]


def _parts(told: Sequence[re.Match[str]], text: str) -> list[re.Match[str]]:
    """The amounts, without one that only tells what the others come to: "3 tsp salt: 1 tsp for the meat, 2
    for the sauce"; none where nobody can tell how much each is."""
    parts = [piece for piece in told if piece["amount"] and (piece["purpose"] or piece["salt"])]
    each = [piece for piece in parts if piece["purpose"]]
    if not each or any(_NO_PURPOSE.match(piece["purpose"]) for piece in each):
        return []
    if any(not piece["unit"] and not piece["amount"].isdecimal() for piece in parts):
        return []  # "2 tsp salt, half for the meat"
    between = text.partition(parts[0][0])[2].partition(each[0][0])[0]
    named_again = sum(piece["salt"] is not None for piece in told) > 1
    return parts if named_again or _MORE.search(between) else each


def _line(amount: str, unit: str, salt: str, purpose: str | None) -> str:
    of = "of " if _LOOSE.search(unit) else ""
    return f"{amount} {unit} {of}{salt.lower()}{f' {purpose}' if purpose else ''}"
