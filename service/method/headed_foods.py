"""Food that stands alone before what is done with it: "Potatoes:", "THE AUBERGINES", "Eggs. Boil 9 min"."""

from __future__ import annotations

from collections.abc import Sequence

from .listed import Index
from .mention import Mention
from .method_words import small_words
from .prose_tokens import Token, tokenize

_WORKED_ON = frozenset(
    {"meat", "poultry", "fish", "seafood", "vegetable", "potato", "legume", "grain", "pasta", "egg", "tofu"}
)
_LONGEST = 6
_AROUND = small_words("around_headed_food")


def heads_work_on(paragraph: str, index: Index) -> bool:
    """Whether a heading names nothing but food of the list, which what stands below it works on: "To make the
    aubergines:"; not "For the tomato sauce"."""
    return _is_of_food([token for token in tokenize(paragraph) if token.text[0].isalpha()], index)


def stands_alone(tokens: Sequence[Token], mentions: Sequence[Mention]) -> bool:
    """Whether words name food and tell nothing of it: "the aubergines", "for the potatoes"."""
    if len(tokens) > _LONGEST:
        return False
    named = {i for m in mentions if m.kind == "line" for i in range(m.i, m.j)}
    return all(i in named or t.text in _AROUND or not t.text[0].isalnum() for i, t in enumerate(tokens))


def is_only_named(tokens: Sequence[Token], mentions: Sequence[Mention]) -> bool:
    """Whether one food stands alone: "the eggs:", and not "flour, egg and crumbs"."""
    return len(mentions) == 1 and stands_alone(tokens, mentions)


def with_heads(said: list[list[Token]], paragraph: str, index: Index) -> list[list[Token]]:
    """Sentences, each that does no more than name food joined to the next one, whose food it is: "EGGS. Boil
    9 minutes" is "eggs: boil 9 minutes", as "eggs – boil 9 minutes" is."""
    found: list[list[Token]] = []
    for tokens in said:
        whole, before = tokens, found[-1] if found else tokens
        if before is not tokens and len(before) <= _LONGEST and before[-1].text == ".":
            if _is_of_food(before[:-1], index) and not _names_food(tokens, index):
                whole = [*_with_colon(found.pop()), *tokens]
        found.append(whole)
    if " - " in paragraph or "–" in paragraph or "—" in paragraph:
        found = [_with_colon_for_dash(tokens, index) for tokens in found]
    return found


def _is_of_food(tokens: Sequence[Token], index: Index) -> bool:
    """Whether words name food that is worked on, and tell nothing of it."""
    kinds = set()
    for token in tokens:
        if token.text in _AROUND:
            continue
        lines = index.by_word.get(token.stem)
        if not lines:
            return False
        kinds |= {line.kind for line in lines}
    return bool(kinds) and kinds <= _WORKED_ON


def _names_food(tokens: Sequence[Token], index: Index) -> bool:
    lines = (line for token in tokens for line in index.by_word.get(token.stem, ()))
    return any(line.kind in _WORKED_ON for line in lines)


def _with_colon(tokens: Sequence[Token]) -> list[Token]:
    return [*tokens[:-1], Token(":", ":", tokens[-1].start, tokens[-1].end)]


_DASHES = frozenset({"-", "–", "—"})


def _with_colon_for_dash(tokens: list[Token], index: Index) -> list[Token]:
    at = next((i for i, token in enumerate(tokens[:_LONGEST]) if token.text in _DASHES), 0)
    if not at or not _is_of_food(tokens[:at], index):
        return tokens
    return [*_with_colon(tokens[: at + 1]), *tokens[at + 1 :]]
