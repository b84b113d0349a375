"""Reads one ingredient line: finds its quantity, its brackets and its segments, and puts the `Line` together.

Works on text alone; foods and weights come later. Any text of up to 500 characters gives a line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from ..core.errors import Fault, InvalidRequest
from ..core.spread import Spread
from ..units.kitchen_units import dimension, find
from . import juices
from .amounts import Cursor, exactness, is_numeric, read_exactness
from .cleaning import as_printed, cleaned
from .line import Line, Measure
from .line_templates import LineTemplates
from .line_tokens import Token, tokenize
from .naming import known, plain, read_name
from .quantities_in_lines import read_bracket, read_quantity, read_unit_alone
from .quantity import EACH, Quantity, add, read_measure
from .sharing import foods_listed
from .vocabulary import phrase_flags, role, trailing_units, without_phrases
from .wording import AND, Wording, counts_another_food, kinds_of, part_words

LONGEST = 500
"""Characters in the longest line that is read."""

Tokens = Sequence[Token]

_SHARES = re.compile(r"(?:\(\s*|,\s*|(?<![\w/.]))(?P<lean>[7-9]\d)\s?/\s?(?P<fat>\d{1,2})(?![\w/])(?:\s*\))?")
WHOLE = 100

_BULLETS = frozenset("-*•·●◦▪□☐✓>")
_BREAKS = frozenset({",", ";", ":"})
_SENTENCE_ENDS = frozenset(".!?")
_PLUS = frozenset({"plus", "+"})
_BEHIND_COUNT = frozenset({"or", "to", "in", "per", "if", "for", "total", "is", "should", "will"})
_ARTICLES = frozenset({"a", "an"})
_JOINTS = frozenset({"x", "-", ":", "=", ",", "."})
_OF_TIME = frozenset({"day", "days", "hour", "hours", "week", "weeks", "month", "months", "year", "years"})


@dataclass(slots=True)
class _Parts:
    """A line behind its leading quantity: what commas divide, and what stands in brackets."""

    segments: list[Tokens] = field(default_factory=list)
    brackets: list[Tokens] = field(default_factory=list)


@lru_cache(maxsize=2048)
def read_line(text: str) -> Line:
    """The line that `text` says; kept for the next save of the same recipe.

    Raises InvalidRequest: text of more than 500 characters.
    """
    return _templates.line(text)


def read_whole(text: str) -> Line:
    """The same, read from its first character on whatever was read before. Raises InvalidRequest as
    `read_line` does."""
    if len(text) > LONGEST:
        found = f"The line has {len(text)} characters, longer than {LONGEST} characters; split it."
        raise InvalidRequest([Fault("", found)])
    tokens = _unbulleted(tokenize(as_printed(_with_shares(cleaned(text)))))
    taken = juices.taken_of(tokens)
    cursor = Cursor(taken.tokens if taken else tokens)
    quantity = read_quantity(cursor) or Quantity()
    rest = cursor.rest()
    if taken is None and (spooned := juices.spooned_of(cursor)):
        taken, rest = spooned, spooned.tokens
    parts = _parts(rest, counted=quantity.amount is not None)
    _late_quantity(parts, quantity)
    takes = taken.parts if taken else juices.taken_after(parts.segments, parts.brackets, quantity)
    brackets = [bracket for bracket in parts.brackets if not _exactly(bracket, quantity)]
    left = [without_phrases(plain(read_bracket(bracket, quantity))) for bracket in brackets]
    one_food = quantity.amount is not None and EACH not in quantity.flags
    wording = part_words(parts.segments, counted=one_food)
    wording.prepare(quantity.manner, after=False)
    wording.alternatives += [text.removeprefix("or ") for text in left if _is_choice(text)]
    wording.prepare([text for text in left if not _is_choice(text)], after=True)
    wording.kinds += kinds_of(parts.brackets, wording.food) if parts.brackets else ()
    juices.apply(takes, wording, quantity)
    words = [token.word for token in tokens if token.kind == "word" or token.word == "&"]
    shared = _shared(parts.segments, wording, counted=one_food) if not AND.isdisjoint(words) else ()
    _trailing_unit(wording, quantity, words)
    return _line(text, words, quantity, wording, shared)


def _shared(segments: Sequence[Tokens], wording: Wording, *, counted: bool) -> tuple[str, ...]:
    """The foods of a list, where its one quantity may be that of all; foods told apart get full names."""
    listed = foods_listed(segments)
    if wording.joined and len(listed) == 1 + len(wording.joined):
        wording.food, *wording.joined = listed
    return listed if counted and not wording.joined and not wording.alternatives else ()


def _exactly(bracket: Tokens, quantity: Quantity) -> bool:
    """Whether a bracket says only how the quantity is meant ("2 tbsp flour (heaped)"); it is taken so."""
    share = read_exactness(Cursor(bracket)) if len(bracket) == 1 else None
    if share is None or quantity.amount is None:
        return False
    quantity.amount = quantity.amount.times(share)
    return True


def _is_choice(text: str) -> bool:
    """Whether a bracket's text names another food to take ("or margarine")."""
    first, _, rest = text.partition(" ")
    return first == "or" and bool(rest) and rest.split()[0] not in role("no_food_after_or")


def _with_shares(text: str) -> str:
    """Shares of lean and fat, as in "ground beef (90/10)", told as words of the food: they change it."""
    return _SHARES.sub(_share_words, text)


def _share_words(found: re.Match[str]) -> str:
    lean, fat = int(found["lean"]), int(found["fat"])
    return f" {lean}% lean " if lean + fat == WHOLE else found[0]


def _line(text: str, words: list[str], quantity: Quantity, wording: Wording, shared: tuple[str, ...]) -> Line:
    told = phrase_flags(words)
    flags = quantity.flags | told
    if wording.alternatives:
        flags.add("alternatives")
    if wording.joined:
        flags.add("joined")
    if "per" in words and words[words.index("per") + 1 :][:1] != ["cent"]:
        flags.add("per")
    if quantity.amount is None:
        flags.add("no-quantity")
        if text.rstrip().endswith(":"):
            flags.add("heading")
    return Line(
        text=text,
        amount=quantity.amount,
        unit=quantity.unit,
        package=quantity.package,
        measures=tuple(quantity.measures),
        size=quantity.size,
        food_words=(told and without_phrases(wording.food)) or wording.food,
        preparation=tuple(wording.preparation),
        stated_after=tuple(wording.stated_after),
        alternatives=tuple(wording.alternatives),
        joined=tuple(wording.joined),
        kinds=tuple(wording.kinds),
        shared=shared,
        flags=frozenset(flags),
    )


def _unbulleted(tokens: Tokens) -> Tokens:
    """Without bullets; a bracket that opens the line ("[optional] …") goes to its end."""
    at = 0
    while at < len(tokens) and tokens[at].text in _BULLETS:
        at += 1
    if at < len(tokens) and tokens[at].text == "(":
        closes = next((i for i, token in enumerate(tokens) if token.text == ")"), len(tokens) - 1)
        return [*tokens[closes + 1 :], *tokens[at : closes + 1]]
    return tokens[at:]


def _parts(tokens: Tokens, *, counted: bool) -> _Parts:
    """Divides at commas, spaced dashes and "plus"; brackets apart, an unclosed one runs to the end. counted:
    a quantity stands before the tokens."""
    parts = _Parts()
    segment: list[Token] = []
    bracket: list[Token] = []
    depth = 0
    for at, token in enumerate(tokens):
        if token.text == "(":
            depth += 1
        elif token.text == ")":
            depth = max(0, depth - 1)
            if depth == 0 and bracket:
                parts.brackets.append(bracket)
                bracket = []
        elif depth:
            bracket.append(token)
        elif _ends_sentence(tokens, at):
            parts.brackets.append(tokens[at + 1 :])
            break
        elif token.text in _BREAKS or _is_dash(tokens, at):
            parts.segments.append(segment)
            segment = []
        elif segment and (token.word in _PLUS or (counted and _runs_on(tokens, at))):
            parts.segments.append(segment)
            segment = [token]
        else:
            segment.append(token)
    parts.segments.append(segment)
    if bracket:
        parts.brackets.append(bracket)
    parts.segments = [each for each in parts.segments if each]
    if parts.brackets and not any(
        token.kind == "word" for each in parts.segments for token in each
    ):  # "4 pinches of (mozzarella or cheddar)"
        return _parts(parts.brackets[0], counted=counted)
    return parts


def _ends_sentence(tokens: Tokens, at: int) -> bool:
    """Whether a point ends a sentence behind which another begins: no abbreviation ("tbsp. of")."""
    if tokens[at].text not in _SENTENCE_ENDS or at == 0 or at + 1 == len(tokens):
        return False
    before, after = tokens[at - 1], tokens[at + 1]
    return after.kind == "word" and after.text[0].isupper() and not after.glued and len(before.text) > 2


def _runs_on(tokens: Tokens, at: int) -> bool:
    """Whether another food begins here without a mark: spoons or cups of it ("1 c flour 1 tsp salt")."""
    if not is_numeric(tokens[at]) or not _names(tokens[at - 1]):
        return False
    cursor = Cursor(tokens[at:])
    quantity = read_quantity(cursor)
    rest = cursor.rest()
    spooned = quantity is not None and dimension(quantity.unit) == "volume" and not quantity.measures
    return spooned and bool(rest) and rest[0].word not in role("stop") and read_name(rest).real


def _names(token: Token) -> bool:
    """Whether a word may end the name of a food: no unit, no preparation, and no joint."""
    joins = token.word in role("stop") or token.word in AND or token.word in _BEHIND_COUNT
    return token.kind == "word" and not joins and find(token.word) is None and read_name([token]).real


def _is_dash(tokens: Tokens, at: int) -> bool:
    spaced_after = at + 1 < len(tokens) and not tokens[at + 1].glued
    return tokens[at].text == "-" and not tokens[at].glued and spaced_after


def _late_quantity(parts: _Parts, quantity: Quantity) -> None:
    """Quantities behind the food: the line's own where it has none yet, else said again or added."""
    segments = parts.segments
    for at, segment in enumerate(segments):
        if quantity.amount is None:
            segments[at] = _own_quantity(segment, quantity, segments[0], first=at == 0)
        elif segment[0].word in _PLUS:
            segments[at] = _added(segment, quantity, segments[0])
        elif at and counts_another_food(segment, [token.word for token in segments[0]]):
            continue
        elif at and (is_numeric(segment[0]) or segment[0].word in exactness()):
            segments[at] = read_bracket(segment, quantity)
        elif quantity.unit is None or dimension(quantity.unit) == "count":
            segments[at] = _without_weight(segment, quantity)
    for at, bracket in enumerate(parts.brackets):
        if quantity.amount is None:
            parts.brackets[at] = _own_quantity(bracket, quantity, (), first=False)
    parts.segments = [each for each in segments if each]


def _without_weight(tokens: Tokens, quantity: Quantity) -> Tokens:
    """Takes what a counted thing weighs from the end of `tokens` ("1 lobster weighing about 700 g")."""
    at = next((at for at, token in enumerate(tokens) if token.word in role("weighing")), 0)
    if at == 0:
        return tokens
    rest = list(tokens[at:])
    while rest and not is_numeric(rest[0]):
        rest.pop(0)
    if not rest or read_bracket(rest, quantity):
        return tokens
    return tokens[: at - 1] if tokens[at - 1].word in {"that", "which"} else tokens[:at]


def _own_quantity(tokens: Tokens, quantity: Quantity, food: Tokens, *, first: bool) -> Tokens:
    """Takes the line's quantity from the end of `tokens` ("Butter 200 g"); the tokens before it. food: the
    line's first segment."""
    opening = next((at for at, token in enumerate(tokens) if token.word not in exactness()), 0)
    if not first and (alone := read_unit_alone(Cursor(tokens))) is not None:
        _take(alone, quantity)
        return []
    for at in _starts(tokens, first=first):
        cursor = Cursor(tokens[at:])
        found = read_quantity(cursor)
        cursor.take("each") or cursor.take("ones") or cursor.take("sized", "ones")
        if found is None:
            continue
        named_again = _is_said_before(cursor.rest(), tokens[:at] if first else food)
        behind = cursor.done or named_again or (at <= opening and _counts(found, cursor))
        if not behind and not (_names_before(tokens, at, found) and _is_prepared(cursor)):
            continue
        _take(found, quantity)
        kept = list(tokens[:at])
        while kept and (kept[-1].word in _JOINTS or kept[-1].word in exactness()):
            kept.pop()
        return kept if named_again else [*kept, *cursor.rest()]
    return tokens


def _take(found: Quantity, quantity: Quantity) -> None:
    for name in Quantity.__slots__:
        setattr(quantity, name, getattr(found, name))


def _counts(quantity: Quantity, cursor: Cursor) -> bool:
    """Whether a number before other words counts the food: not where an unknown unit may stand there."""
    word = cursor.peek()
    return (
        quantity.unit is not None or word.kind != "word" or word.word in _BEHIND_COUNT or known([word.word])
    )


def _is_said_before(rest: Tokens, before: Tokens) -> bool:
    """Whether the words behind a quantity only name the food again ("Onion, 1 large onion")."""
    words = {_singular(token.word) for token in before}
    return bool(rest) and all(_singular(token.word) in words for token in rest)


def _names_before(tokens: Tokens, at: int, quantity: Quantity) -> bool:
    """Whether a food's name ends where a quantity of it begins; a length is of its pieces."""
    is_length = dimension(quantity.unit) == "length" and quantity.package is None
    return at > 0 and not is_length and _names(tokens[at - 1])


def _is_prepared(cursor: Cursor) -> bool:
    """Whether what follows a quantity says how the food is prepared: "feta 200 g crumbled"."""
    first, second = cursor.peek(), cursor.peek(1)
    if first.kind != "word" or first.word in _OF_TIME:
        return False
    return first.word in role("stop") or first.word == "or" or known([first.word, second.word])


def _starts(tokens: Tokens, *, first: bool) -> Iterator[int]:
    """Where a quantity may begin: at figures of their own, "B12" has none."""
    for at, token in enumerate(tokens):
        if first and at == 0:
            continue
        clear = at == 0 or not token.glued or tokens[at - 1].word in _JOINTS
        before_figure = at + 1 < len(tokens) and tokens[at + 1].kind == "number"  # "beans one 15 oz can"
        worded = is_numeric(token) if before_figure else at == 0 and _may_begin(token)
        if (token.kind in {"number", "fraction"} and clear) or worded:
            yield at


def _may_begin(token: Token) -> bool:
    return is_numeric(token) or token.word in _ARTICLES


def _added(tokens: Tokens, quantity: Quantity, food: Tokens) -> Tokens:
    """ "plus 2 tablespoons for dusting": added where it is of the same food."""
    cursor = Cursor(tokens, 1)
    measure = read_measure(cursor)
    rest = cursor.rest()
    same = not rest or rest[0].word in role("stop") or rest[0].word in {token.word for token in food}
    if measure and same and add(quantity, measure):
        return [] if rest and rest[0].word not in role("stop") else rest
    return tokens


def _trailing_unit(wording: Wording, quantity: Quantity, said: Sequence[str]) -> None:
    """A count behind the food ("3 garlic cloves"); a unit that no food follows is the food, as it is written
    ("6 cloves", "500 g ribs")."""
    if not wording.food and quantity.unit and dimension(quantity.unit) == "count":
        written = (word for word in reversed(said) if find(word) == quantity.unit)
        wording.food, quantity.unit = next(written, quantity.unit), None
    words = wording.food.split()
    long = dimension(quantity.unit) == "length"
    if (quantity.unit and not long) or quantity.amount is None or len(words) < 2:
        return
    unit = find(words[-1])
    rule = trailing_units().get(unit or "")
    if unit is None or rule is None or (rule.foods and rule.foods.isdisjoint(map(_singular, words))):
        return
    if long:  # "1 inch cinnamon stick"
        quantity.package, quantity.amount = Measure(quantity.amount, quantity.unit), Spread.exact(1.0)
    quantity.unit = unit
    if rule.keeps.isdisjoint(words):
        wording.food = " ".join(words[:-1])


def _singular(word: str) -> str:
    return word.removesuffix("s")


_templates = LineTemplates(read_whole)
