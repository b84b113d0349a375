"""How a mention stands in its sentence: behind which preposition, which part is meant, how much it is."""

from __future__ import annotations

from collections.abc import Sequence

from ..units.kitchen_units import find
from .adjectives import SAYS_HOW
from .mention import Mention
from .method_words import small_words, verbs
from .numbers_said import is_number, number_at
from .prose_tokens import Token

_PREPS = small_words("preposition")
_PARTS = {"half": 0.5, "halves": 0.5, "third": 1 / 3, "quarter": 0.25, "most": 0.8}
_WITH_PARTICLE = small_words("particle")
"""Verbs that "in" goes with: "stir in the cream" says what is stirred, not where."""
_GOES = frozenset({"go", "goes", "went"})
"""Behind "in" these say what goes: "in goes the rice"."""
_PUTS = frozenset({"in", "out", "off", "away", "on"})
"""Before "with" these say what goes: "in with the onion", "off with the cure"."""
_POURS_IN = frozenset({"pour", "tip", "stir", "whisk", "add"})
"""Of these, those whose "in" is also that of a liquid: "pour in the marinade", but "put in the brine"."""
_OF_WATER = frozenset({"salted", "salty", "cold", "boiling", "plain", "fresh", "iced", "ice", "warm"})
_FAR = 6
"""Words between a food and its amount, at the most."""
_ASIDE = small_words("aside")
_BARE_UNITS = frozenset({"pinch", "dash"})
_HEAPED = small_words("heaped")
_REST = small_words("rest")
BREAKS = frozenset({",", "and", "or", "&", "plus", "+", "/", "then", "(", ")"})
"""What stands between the things of a list."""


def placed(
    tokens: Sequence[Token],
    words: Sequence[str],
    mention: Mention,
    since: int,
    last: Mention | None,
    *,
    counted: bool,
) -> Mention:
    """The mention, which is new, with its preposition, the portion meant, and the words of its amount."""
    prep, portion, amount, joined, apart = "", None, None, last is not None, False
    k = mention.i - 1
    if k >= since and words[k] == "the":
        k -= 1  # it says nothing of what stands behind it
    while k >= since:
        text, after = words[k], words[k + 1]
        if text in _PREPS and not (text == "with" and k > 0 and _puts(tokens, k - 1)):
            particle = text in ("in", "on", "over") and k > 0 and words[k - 1] in _WITH_PARTICLE
            ended = apart and after in ("the", "your") and _has_comma(tokens, k, mention.i)
            liquid = mention.kind == "bath" and k > 0 and words[k - 1] in _POURS_IN
            lies = after in _OF_WATER and words[k - 1] == "put"  # "put in salted water"
            goes = (particle and not lies) or ended or after in _GOES or (text == "in" and after == "with")
            prep, joined = "" if (goes and mention.kind == "line") or (particle and liquid) else text, False
            break
        if text in _PARTS and portion is None and (begins := _measure_at(tokens, k, since)) is not None:
            amount, k = (begins, mention.i), begins
        elif text in _PARTS and portion is None:
            if text != "halves" or not (apart or amount):  # "the lemon halves, 1/2 tsp salt"
                portion = _PARTS[text]
        elif text in _REST and portion is None:
            portion = -1.0
        elif text == "," or (text == "and" and after in _AFRESH):
            apart = True
        elif portion is None and after == "of" and (part := _part(tokens, k, since)) is not None:
            portion = part  # "2/3 of the salt", "two thirds of the salt"
        elif counted and amount is None and not apart and _counts_food(tokens, k, mention.i):
            first = k
            while first - 1 >= since and is_number(words[first - 1]):
                first -= 1
            amount = (first, mention.i)
            k = first
        elif text in _ARTICLES_OF_UNITS:
            if amount is None and not apart and k + 1 < mention.i and _is_unit(tokens, k + 1):
                amount = (k, mention.i)  # "the tablespoon of salt"
        elif amount is None and not apart and text in _BARE_UNITS and _is_bare(tokens, k):
            amount = (k, mention.i)  # "pinch salt"
        elif _acts(tokens, k) or text in _STOPS:
            joined = False
            break
        k -= 1
    if prep == "on" and apart and mention.kind == "line":
        prep = ""  # "3 minutes left on the timer, broccoli in"
    if joined and last is not None and not prep:
        prep = "" if last.kind == "it" or (apart and last.kind == "vessel") else last.prep
    if amount is not None and words[amount[0] - 1] == "all":
        amount = None  # "all three roots"
    mention.prep, mention.portion, mention.amount = prep, portion, amount
    return mention


def _measure_at(tokens: Sequence[Token], k: int, since: int) -> int | None:
    """Where the amount begins that has its half at word k: "the half teaspoon", "one and a half tablespoons",
    "a litre and a half"; None where it is a share: "half of the salt"."""
    and_a = k > 2 and [token.text for token in tokens[k - 2 : k]] == ["and", "a"]
    if _of_unit(tokens, k + 1):
        return k - 3 * (and_a and is_number(tokens[k - 3].text))
    if not and_a or k - 4 < since or not find(tokens[k - 3].text):
        return None
    said = tokens[k - 4].text
    return k - 4 if said in _ARTICLES_OF_UNITS or is_number(said) else None


_ARTICLES_OF_UNITS = frozenset({"the", "a", "an"})
_AFRESH = frozenset({"the", "a", "some", "plenty", "lots", "enough"})
"""Behind "and" these begin another thing of the list: "a clove of garlic and some salt"."""
_STOPS = frozenset({".", ";", ":", "until", "while", "when"})


def _part(tokens: Sequence[Token], k: int, since: int) -> float | None:
    """The share in "2/3 of", "two thirds of", "three quarters of", at word k."""
    whole = {"thirds": 3.0, "quarters": 4.0}.get(tokens[k].text)
    number = number_at(tokens, k - 1 if whole else k) if k > since or not whole else None
    if number is None:
        return None
    share = number[0] / whole if whole else number[0]
    return share if 0.0 < share < 1.0 else None


def _has_comma(tokens: Sequence[Token], i: int, j: int) -> bool:
    """Whether what a preposition is about ends before word j: "on the timer, broccoli"."""
    return any(token.text == "," for token in tokens[i + 2 : j])


def _puts(tokens: Sequence[Token], i: int) -> bool:
    """Whether "in" or "off" at word i begins "in with the onion", "off with the cure"."""
    begins = i == 0 or not tokens[i - 1].text.isalpha() or tokens[i - 1].text in ("and", "then", "goes", "go")
    return tokens[i].text in _PUTS and begins


def _is_unit(tokens: Sequence[Token], i: int) -> bool:
    """Whether a unit stands at a word ("a teaspoon"), or a spoon behind how full it is ("a good spoon")."""
    heaped = tokens[i].text in _HEAPED
    word = tokens[i + heaped].text
    return find(word) is not None and not (heaped and word in _BARE_UNITS)


def _is_bare(tokens: Sequence[Token], k: int) -> bool:
    """Whether a unit stands in a list of things, with no word before it: "vinegar, pinch salt"."""
    return k == 0 or tokens[k - 1].text in BREAKS or tokens[k - 1].text in (":", ";", ".")


def _of_unit(tokens: Sequence[Token], i: int) -> bool:
    """Whether a unit follows, so that "half" is an amount and no share."""
    i += i < len(tokens) and tokens[i].text in ("a", "an")
    return i < len(tokens) and find(tokens[i].text) is not None


def _acts(tokens: Sequence[Token], k: int) -> bool:
    """Whether a word is a verb whose object follows, so that no preposition reaches over it."""
    verb = verbs().get(tokens[k].text)
    if verb is None or verb.form not in ("base", "ing") or tokens[k].text in _ASIDE:
        return False
    before = tokens[k - 1].text if k else "."
    if verb.form == "ing" and verb.act in ("boil", "simmer"):
        return False
    says_how = verb.act == "heat" or verb.base in SAYS_HOW  # "in warm water", "in cool salted water"
    return before not in _BEFORE_NOUNS and not (says_how and before in _PREPS)


_BEFORE_NOUNS = frozenset({"a", "an", "the", "of"}) | _HEAPED
"""Behind these a word that is a verb as well is none: "a good spoon of salt"."""
_TIMES = frozenset({"day", "hour", "minute", "week", "night", "min", "hr", "h", "second", "month"})


def _counts_food(tokens: Sequence[Token], k: int, i: int) -> bool:
    """Whether the number at word k may be of the food at word i: not in "two days and you have made salt"."""
    return i - k <= _FAR and is_number(tokens[k].text) and tokens[k + 1].stem not in _TIMES
