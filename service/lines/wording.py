"""Parts the words of a line: the food's name, how it is prepared, and what may be taken instead."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field

from ..units.kitchen_units import dimension, find
from .amounts import Cursor, is_numeric
from .line_tokens import Token
from .naming import Name, known, plain, read_name
from .quantities_in_lines import read_quantity
from .vocabulary import modifiers, preparations, role, sizes, without_phrases

Tokens = Sequence[Token]

AND = frozenset({"and", "&", "n"})
"""Words that join two foods."""

_BESIDE = frozenset({"plus", "+", "with"})
_LONGEST_QUALIFIER = 3
_SHAPES = frozenset(
    {
        "piece",
        "slice",
        "strip",
        "wedge",
        "half",
        "bunch",
        "handful",
        "dash",
        "splash",
        "pinch",
        "drizzle",
        "glug",
    }
)
"""Units that behind a comma are a shape or a little of the food, and no other food."""
_JOINTS = AND | {"/", "+"}


@dataclass(slots=True)
class Wording:
    """What is known of the words so far; see `lines.line.Line`."""

    food: str = ""
    preparation: list[str] = field(default_factory=list)
    stated_after: list[str] = field(default_factory=list)
    alternatives: list[str] = field(default_factory=list)
    joined: list[str] = field(default_factory=list)
    kinds: list[str] = field(default_factory=list)

    def prepare(self, texts: Sequence[str], *, after: bool) -> None:
        """Notes preparations; after: they stand behind the food."""
        for text in texts:
            if text and text not in self.preparation:
                self.preparation.append(text)
            if text and after and text not in self.stated_after:
                self.stated_after.append(text)


def part_words(segments: Sequence[Tokens], *, counted: bool) -> Wording:
    """The words of a line's segments (what commas divide, brackets and quantities taken out).

    counted: the line has a quantity; without one "parsley, thyme" names two foods.
    """
    wording = Wording()
    ahead: list[str] = []
    last_choice = _last_choice(segments, counted=counted)
    if last_choice and segments[last_choice][0].word == "or":
        other = [token for token in segments[last_choice][1:] if token.word not in role("no_food_after_or")]
        needs = borrowed(segments[0], other) if other else ()
        segments = [[*segments[0], *needs], *segments[1:]] if needs else segments
    for at, tokens in enumerate(segments):
        if wording.food and at <= last_choice and tokens[0].word != "or" and _is_choice(tokens):
            wording.alternatives += [without_phrases(plain(each)) for each in _at_or(tokens) if each]
        elif wording.food:
            _later_segment(tokens, wording, counted=counted)
        else:
            ahead += _begin(tokens, wording, ahead, counted=counted)
    wording.food = wording.food or " ".join(ahead)
    return wording


def _begin(tokens: Tokens, wording: Wording, ahead: Sequence[str], *, counted: bool) -> list[str]:
    """Names the food by a segment, with what segments `ahead` said of it; what this one says ahead of it."""
    name = _first_food(tokens, wording, counted=counted)
    wording.prepare(name.before, after=False)
    wording.prepare(name.behind, after=True)
    if name.real:
        wording.food = " ".join([*ahead, name.text])
    return [name.text] if name.text and not name.real else []


def _last_choice(segments: Sequence[Tokens], *, counted: bool) -> int:
    """Up to which segment the line lists foods to choose from; 0 where it does not.

    "maple syrup, agave, or honey"; "agave or honey" at the end only where no quantity stands before the food,
    for "1 lb beef, chuck or brisket" names kinds.
    """
    for at in range(len(segments) - 1, 0, -1):
        tokens = segments[at]
        if tokens[0].word == "or" or (not counted and _is_choice(tokens) and _at_or(tokens)[1]):
            return 0 if is_seasoning(segments[0]) else at
    return 0


def _is_choice(tokens: Tokens) -> bool:
    """Whether a segment amid "maple syrup, agave, or honey" names a food of its own."""
    return read_name(tokens).real and not known([token.word for token in tokens])


def _first_food(tokens: Tokens, wording: Wording, *, counted: bool) -> Name:
    """The food of a segment that may name several."""
    first, second = _at_or(tokens)
    if second:
        return _before_or(first, second, wording, counted=counted)
    first, *further = split_foods(first, counted=counted)
    wording.joined += [without_phrases(plain(each)) for each in further]
    name = read_name(first)
    if name.tail and _is_beside(name.tail):
        wording.joined += [plain(each) for each in split_foods(name.tail[1:], counted=counted)]
    return name


def _before_or(first: Tokens, second: Tokens, wording: Wording, *, counted: bool) -> Name:
    """ "butter or margarine": the first, unless it lacks its noun ("vegetable or canola oil")."""
    cursor = Cursor(second)
    read_quantity(cursor)
    other = cursor.rest()
    if not read_name(other).real:
        # "chopped or sliced onions" never comes here; "oil or less" has no second food.
        return _first_food(first, wording, counted=counted)
    wording.alternatives.append(without_phrases(plain(second)))
    return _first_food([*first, *borrowed(first, other)], wording, counted=counted)


def borrowed(first: Tokens, other: Tokens) -> Tokens:
    """The words of `other` that `first` needs to name a food; none where it names one already."""
    told = other[: len(other) - len(read_name(other).tail)]  # "vegetable oil in the pan"
    words = [token for token in told if token.kind == "word" and not known([token.word])]
    name = read_name(first)
    if not words:
        return ()
    if not name.real:
        return words
    last = next((token.word for token in reversed(first) if token.text not in {"%", "-"}), "")
    if first[-1].text == "%":
        last = f"{first[-2].text}%" if len(first) > 1 else last
    takes = modifiers().get(words[-1].word, frozenset()) | modifiers()["*"]
    # "garlic or garlic powder": what the other says again is a food of its own here.
    if last not in takes or len(first) > 2 or last in {token.word for token in words}:
        return ()
    return words[1:] if len(words) > 1 else words


def _later_segment(tokens: Tokens, wording: Wording, *, counted: bool) -> None:
    """A segment behind the food: its kind ("flour, all-purpose"), a preparation, or another food."""
    if tokens[0].word in AND:
        tokens = tokens[1:]
    words = [token.word for token in tokens if token.kind == "word"]
    text = without_phrases(plain(tokens))
    if not words:
        wording.food = f"{text} {wording.food}" if "%" in text else wording.food
    elif words[0] == "or" and len(words) > 1:
        if words[1] not in role("no_food_after_or") and read_name(tokens[1:]).real:
            wording.alternatives.append(without_phrases(plain(tokens[1:])))
    elif _is_another_food(tokens, words, wording.food, counted=counted):
        foods = split_foods(tokens[1:] if words[0] in _BESIDE else tokens, counted=counted)
        wording.joined += [without_phrases(plain(each)) for each in foods]
    elif words[-1] != "of" and len(words) <= _LONGEST_QUALIFIER and _qualifies(words):
        wording.food = f"{plain(tokens)} {wording.food}"
    else:
        wording.prepare([text], after=True)
        if _are_states(words):
            wording.kinds.append(text)


def _are_states(words: Sequence[str]) -> bool:
    """Whether words say of what kind a food is, as states that also name one: "skim", "low-fat"."""
    table = preparations()
    return len(words) <= _LONGEST_QUALIFIER and all(
        word in table and table[word].kind == "state" for word in words
    )


def kinds_of(brackets: Sequence[Tokens], food: str) -> Iterator[str]:
    """The kinds of `food` that brackets name: smoked in "sausage (smoked sausage)"."""
    head = food.rpartition(" ")[2]
    for part in (part for tokens in brackets for part in _at_commas(tokens)):
        words = [token.word for token in part if token.kind == "word"]
        words = [word for word in words if word not in role("before_kind")]
        again = words[-1:] == [head]
        kind = words[:-1] if again else words
        short = 0 < len(kind) <= _LONGEST_QUALIFIER and role("not_kind").isdisjoint(kind)
        if short and (again or _qualifies(kind) or _are_states(kind)):
            yield " ".join(kind)


def _at_commas(tokens: Tokens) -> list[Tokens]:
    """The tokens between commas."""
    at = next((at for at, token in enumerate(tokens) if token.text == ","), len(tokens))
    return [tokens[:at], *(_at_commas(tokens[at + 1 :]) if at < len(tokens) else ())]


def _is_another_food(tokens: Tokens, words: Sequence[str], food: str, *, counted: bool) -> bool:
    """Whether a segment behind the food names a further one."""
    if _is_beside(tokens) or is_seasoning(tokens) or counts_another_food(tokens, food.split()):
        return True
    telling = [word for word in words if not (_is_aside(word) or word in sizes() or find(word) in _SHAPES)]
    return not counted and bool(telling) and _qualifies(telling[:1]) and not known(telling)


def _is_aside(word: str) -> bool:
    known_as = preparations().get(word)
    return known_as is not None and known_as.kind == "aside"


def counts_another_food(tokens: Tokens, words: Collection[str]) -> bool:
    """Whether a segment is a quantity and a food of its own: the second of "3 tomatoes, 1 cucumber" and of
    "300 g flour, 200 g sugar"; said again of the food of those words, it is none ("1 cup rice, 3 cups rice
    when cooked")."""
    cursor = Cursor(tokens)
    quantity = read_quantity(cursor) if is_numeric(tokens[0]) else None
    if quantity is None or quantity.package or quantity.measures or dimension(quantity.unit) == "length":
        return False
    rest = cursor.rest()
    name = read_name(rest)
    told = {token.word for token in name.kept if token.kind == "word"}
    if not name.real or rest[0].word in role("stop") or name.tail or name.behind:
        return False
    if not told.isdisjoint(words):
        return False
    return quantity.unit is None or not (name.before or known(list(told)) or told & role("no_other_food"))


def _is_beside(tokens: Tokens) -> bool:
    """ "plus 1 egg yolk", "with 1 tablespoon water", "with salt": another food."""
    return tokens[0].word in _BESIDE and (_quantified(tokens[1:]) or is_seasoning(tokens[1:]))


def _quantified(tokens: Tokens) -> bool:
    """Whether the tokens are a quantity and a food."""
    cursor = Cursor(tokens)
    return read_quantity(cursor) is not None and read_name(cursor.rest()).real


def is_seasoning(tokens: Tokens) -> bool:
    """Whether the tokens say salt or pepper and nothing else ("freshly ground black pepper")."""
    words = {token.word for token in tokens if token.kind == "word"} - AND
    named = words & role("seasoning")
    return bool(named) and words <= role("seasoning") | role("beside_seasoning") | preparations().keys()


def _qualifies(words: Sequence[str]) -> bool:
    """Whether words name a kind of food: they speak of no preparation and no purpose."""
    return not known(words) and role("stop").isdisjoint(words) and AND.isdisjoint(words) and "or" not in words


def _at_or(tokens: Tokens) -> tuple[Tokens, Tokens]:
    """The tokens before and after "or" (or a slash between words) where two foods stand there."""
    for at, token in enumerate(tokens):
        slash = token.text == "/" and at + 1 < len(tokens) and tokens[at + 1].kind == "word"
        if at == 0 or not (token.word == "or" or slash) or tokens[at - 1].kind == "number":
            continue
        before = tokens[:at]
        while before and (before[-1].word in AND or before[-1].text == "/"):
            before = before[:-1]
        after = tokens[at + 1 :]
        if after and after[0].word in role("no_food_after_or"):
            return before, ()
        if slash and is_seasoning(before) and is_seasoning(after):
            continue
        if before and after and not _both_prepared(before, after):
            return before, after
    return tokens, ()


def _both_prepared(before: Tokens, after: Tokens) -> bool:
    """ "chopped or sliced onions", "onions, chopped or sliced": one food."""
    table = preparations()
    first, second = table.get(before[-1].word), table.get(after[0].word)
    return bool(first and second and first.kind == "cut" and second.kind in {"cut", "degree"}) and not (
        first is not None and first.word == "fresh"
    )


def split_foods(tokens: Tokens, *, counted: bool) -> list[Tokens]:
    """The foods that "and" joins: any where no quantity stands before them, else a seasoning or what has a
    quantity of its own. Salt is never left in another food's name."""
    if not any(token.word in _JOINTS for token in tokens):
        return [tokens]
    names = [name for name in role("one_food") if f" {name} " in f" {plain(tokens)} "]
    for at, token in enumerate(tokens):
        before, after = tokens[:at], tokens[at + 1 :]
        if any(name.startswith(plain(tokens[at - 1 : at + 1])) for name in names if at):
            continue
        if at and token.word in _JOINTS and _are_two(before, after, token.word in AND, counted=counted):
            return [before, *split_foods(after, counted=counted)]
    return [tokens]


def _are_two(before: Tokens, after: Tokens, said: bool, *, counted: bool) -> bool:
    """Whether a joint parts two foods. said: it is the word, no mark that may mean "or"."""
    if not (read_name(before).real and read_name(after).real):
        return False
    return is_seasoning(after) or (said and (not counted or _quantified(after)))
