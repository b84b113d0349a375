"""Dressings, sauces and rubs of which more is made than is eaten: "use half, the rest keeps for a week"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from .clauses import Clause
from .happenings import PROTEINS, LeftOver
from .layout import Layout
from .left_to_the_cook import grams_in
from .method_words import nouns, phrasing, small_words
from .parts_said import millilitres
from .preserved_pulp import UNSAID, find_pulp
from .prose_tokens import tokenize
from .questions import Doubts
from .reading_state import MOST_HAPPENINGS, ReadingState
from .stakes import is_salty, is_worth_asking, lines_mg

_GATE = frozenset(
    {"rest", "remain", "left", "half", "third", "quarter", "twice", "double", "triple", "three times", "need"}
    | {"surplus", "spare", "extra", "enough", "as you", "as one"}
)
_GATE_ASIDE = ("dip", "side", "table", "pass", "bowl")
"""Letters without which a sentence says nothing of left-overs, and of what comes apart."""
_PART = (
    r"(?P<part>(?:the |a |one )?half|(?:a |one )?third|two[- ]thirds|(?:a |one )?quarter|three[- ]quarters"
    r"|most(?= of))"
)
_LATER = (
    r"(?:keeps?\b(?! warm| hot)|freez|stor(?:e|es|ing)\b|next (?:time|week|day)|later (?:use|meal|date)"
    r"|another (?:time|day|use|meal|batch|recipe|dish|occasion|night|week)|future|tomorrow|a rainy day"
    r"|for (?:sandwiches|lunch|supper|soup|breakfast)|fridge for|jar for|other (?:use|dish|meal|thing|recipe)"
    r"|for (?:up to |about |at least )?(?:a|one|two|three|four|several|\d+) (?:more )?(?:day|week|month)s?)"
)
_REST = (
    r"(?:\bthe rest\b|\brest of\b|remainder|remaining|(?:other|second) half|left[- ]?over|surplus|spare"
    r"|excess|extra)"
)
_KEPT = re.compile(rf"{_REST}[^.;!?]{{0,60}}?\b{_LATER}", re.IGNORECASE)
_KEEPS = re.compile(
    r"\b(?P<verb>keep|save|freeze|store|reserve|refrigerate|bottle|set aside|put)\b[^.;!?]{0,12}"
    rf"{_REST}(?P<behind>[^.;!?]{{0,60}})",
    re.IGNORECASE,
)
_AWAY = frozenset({"freeze", "store", "refrigerate", "bottle"})
"""Verbs that keep for another day by themselves."""
_NEEDS = re.compile(
    r"\b(?:need|needs|use|uses|takes?|want|calls? for)(?: only| just| about| around| roughly| up"
    rf"| no more than| the| a)* {_PART}\b(?! (?:an?|of an?) (?:hour|lemon|lime|onion|pound|cup|pint))"
    r"(?! (?:\w+spoon|tsp|tbsp|cup|pint|pound|hour))",
    re.IGNORECASE,
)
_ONLY = re.compile(r"\b(?:only|just|no more than|won't|will not|not all)\b", re.IGNORECASE)
_MAKES = phrasing("makes_more")
_HAVE_LEFT = phrasing("have_left")
_IS_LEFT = phrasing("is_left")
_MOST_OF_LIST = 0.7
_AS_YOU_LIKE = phrasing("as_you_like")
_FOR_LATER = re.compile(
    rf"\b{_PART}\b[^.;!?]{{0,25}}\bfor (?:another|a second|the next|next|future|later|other)\b"
    r"|\b(?:freeze|save|store|refrigerate|keep) "
    rf"{_PART.replace('part', 'kept')}\b(?! (?:an?|of an?) hour)"
    r"(?![^.;!?]*\b(?:top|garnish|serve|serving|dip|sauce|glaze|gravy|bast|brush))",
    re.IGNORECASE,
)
_SHARES = {
    "half": 0.5,
    "third": 1 / 3,
    "two third": 2 / 3,
    "quarter": 0.25,
    "three quarter": 0.75,
    "most": 0.8,
}
_TIMES = {"twice": 0.5, "double": 0.5, "two": 0.5, "triple": 1 / 3, "three times": 1 / 3}
_UNSAID, ASIDE, SOME = UNSAID, -1.0, -2.0
"""Shares of which the method says nothing, nothing but that it is served apart, and only that it is some."""
_ON_THE_SIDE = phrasing("on_the_side")
_ANY_PART = re.compile(rf"\b{_PART}\b", re.IGNORECASE)
_DISHES = small_words("dish_kept")
_OF_A_POT = phrasing("pot_liquor")
_LOOKS_BACK, _FAR_BACK = 8, 40
"""Clauses in which what is left over was spoken of, and in which it was made."""


def find_left_over(state: ReadingState, clauses: Sequence[Clause]) -> Iterator[LeftOver]:
    """Everything of which the method says that some is kept for another day."""
    told: set[int] = set()
    whole = "\n".join([c.sentence for c in clauses if c.opens]).lower()
    gate, aside = ([part for part in parts if part in whole] for parts in (_GATE, _GATE_ASIDE))
    said = [
        (i, share)
        for i, c in enumerate(clauses)
        if c.opens and (share := _said(state, clauses, i, gate, aside)) is not None
    ]
    for i, share in sorted(said[:MOST_HAPPENINGS], key=lambda each: each[1] == ASIDE):
        lines = tuple(n for n in _made(state, clauses, i) if n not in told)
        told.update(lines)
        if lines:
            yield LeftOver(clauses[i], lines, share or _by_amount(state, clauses, i, lines))
    yield from find_pulp(state, clauses)


def _said(
    state: ReadingState, clauses: Sequence[Clause], i: int, gate: Sequence[str], aside: Sequence[str]
) -> float | None:
    """What a sentence says of left-overs: a share, ASIDE if it is served apart, None if nothing. gate, aside:
    the letters of these that stand anywhere in the method."""
    sentence = clauses[i].sentence.lower()
    share = _share_said(state, clauses, i) if any(map(sentence.__contains__, gate)) else None
    if share is None and any(map(sentence.__contains__, aside)) and _ON_THE_SIDE.search(sentence):
        return ASIDE if _speaks_of_sauce(sentence) else None
    return share


def keep_left_over(state: ReadingState, doubts: Doubts, layout: Layout) -> None:
    """Put aside what is made and not eaten, as much as the method or a person says."""
    settled = {n for each in state.happened for n in (*each.liquid, *each.foods) if each.kind != "fry"}
    settled |= {n for left in state.left_over if left.share != ASIDE for n in left.lines}
    for left in state.left_over:
        if left.share == ASIDE and not settled.isdisjoint(left.lines):
            continue  # what becomes of it is told of its bath
        if left.share == ASIDE and not is_worth_asking(state, 0.5 * lines_mg(state, left.lines)):
            continue
        share = left.share if left.share > 0.0 else _asked(state, doubts, left)
        if share >= 1.0:
            continue
        aside = layout.new(*(_LEFT_BEHIND if left.thrown else ("left-over", "Kept for another time")))
        aside.eaten = 0.0
        for line in left.lines:
            if line not in layout.meant:
                layout.place(aside, line, (1.0 - share) * layout.left(line))


_LEFT_BEHIND = ("left-behind", "Left behind")


def _asked(state: ReadingState, doubts: Doubts, left: LeftOver) -> float:
    if left.thrown:
        return doubts.figure("pulp", left.clause.sentence, "peel", _LEFT_BEHIND[0])
    foods = ", ".join(state.lines[n].line.food_words for n in left.lines[:3])
    aside, said = left.share == ASIDE, left.clause.sentence
    likely = "all" if aside else "third" if left.share == SOME else "most"
    without = "" if aside else "little"
    return doubts.figure("left_over", said, likely, "left-over", without, food=foods, said=said[:120])


def _share_said(state: ReadingState, clauses: Sequence[Clause], i: int) -> float | None:
    """The share that is eaten; 0 where some is left and nobody says how much, None where nothing is."""
    text = clauses[i].sentence
    if _OF_A_POT.search(text):
        return None  # what becomes of it is told of its pot
    if (needs := _NEEDS.search(text)) is not None:
        said = _part(needs["part"])
        if _ONLY.search(text) or "need" in needs[0].lower() or _keeps(_with_next(clauses, i)):
            return said
    if (makes := _MAKES.search(text)) is not None:
        return _TIMES.get(makes["times"].lower(), _UNSAID)
    if (later := _FOR_LATER.search(text)) is not None:
        return 1.0 - _part(later["part"] or later["kept"])
    if _keeps(text) and not _of_the_dish(clauses, i):
        return _rest_of(clauses, i)
    if (left := _IS_LEFT.search(text)) is not None and left["some"].lower() not in ("some", "any", "much"):
        return 1.0 - _part(left["some"])
    likes = _AS_YOU_LIKE.search(text) is not None and "water" not in text
    if left is None and not likes and not _HAVE_LEFT.search(text):
        return None
    if _speaks_of_sauce(text) or _section_named(state, _with_last(clauses, i)):
        return _UNSAID
    return None


def _section_named(state: ReadingState, text: str) -> set[int]:
    """The lines under a heading by whose words a sentence calls what they make: "pour over the nuoc cham"."""
    stems = {t.stem for t in tokenize(text)}
    for heading in {n.heading for n in state.index.lines if n.heading}:
        words = {t.stem for t in tokenize(heading)} - {"for", "the", "to", "and"}
        if words and words <= stems:
            return {n.index for n in state.index.lines if n.heading == heading}
    return set()


def _keeps(text: str) -> bool:
    """Whether a sentence says that the rest of something is kept for another day."""
    found = _KEEPS.search(text)
    if found is None:
        return bool(_KEPT.search(text))
    return found["verb"].lower() in _AWAY or bool(re.search(_LATER, found["behind"], re.IGNORECASE))


def _with_next(clauses: Sequence[Clause], i: int) -> str:
    """A sentence and the one behind it."""
    later = next((c.sentence for c in clauses[i + 1 :] if c.opens), "")
    return f"{clauses[i].sentence}\n{later}"


def _with_last(clauses: Sequence[Clause], i: int) -> str:
    """A sentence and the one before it."""
    return f"{clauses[i - 1].sentence if i else ''}\n{clauses[i].sentence}"


def _rest_of(clauses: Sequence[Clause], i: int) -> float:
    """What is eaten where "the rest" keeps: the parts that its paragraph speaks of before."""
    if re.search(r"\b(?:other|second) half\b", clauses[i].sentence, re.IGNORECASE):
        return 0.5
    own = _ANY_PART.findall(clauses[i].sentence.partition("rest")[0])
    before = [
        c.sentence for c in clauses[max(0, i - _LOOKS_BACK) : i] if c.opens and c.method == clauses[i].method
    ]
    parts = own or [part for text in before for part in _ANY_PART.findall(text)]
    used = sum(map(_part, parts))
    return used if 0.0 < used < 1.0 else _UNSAID


def _by_amount(state: ReadingState, clauses: Sequence[Clause], i: int, lines: Sequence[int]) -> float:
    """ "Use 4 tablespoons of it, the rest keeps": its share of what the lines weigh; 0 where unsaid."""
    near = (c for c in clauses[max(0, i - _LOOKS_BACK) : i + 1] if "of" in c.words and c.act != "reserve")
    ml = next(
        (
            found
            for c in near
            if any(m.kind in ("bath", "it") for m in c.mentions) and (found := millilitres(c))
        ),
        0.0,
    )
    whole = grams_in(state, lines)
    return ml / whole if 0.0 < ml < whole else _UNSAID


def _part(words: str) -> float:
    stems = words.lower().replace("-", " ").removesuffix("s").split()
    said = " ".join(w for w in stems if w not in ("the", "a", "one"))
    return _SHARES.get(said, _SHARES["half"])


def _speaks_of_sauce(text: str) -> bool:
    return any(t.stem in nouns("sauce") or t.stem == "dip" for t in tokenize(text))


def _of_the_dish(clauses: Sequence[Clause], i: int) -> bool:
    """ "Leftovers keep for three days": what keeps is the dish itself, and the figures are for all of it."""
    stems = {t.stem for t in tokenize(clauses[i].sentence)}
    if not stems.isdisjoint(nouns("sauce")):
        return False
    if stems & {"leftover", "left-over"} or stems & _DISHES:
        return True
    before = " ".join(c.sentence for c in clauses[max(0, i - _LOOKS_BACK) : i + 1] if c.opens)
    return not (_ANY_PART.search(before) or re.search(r"\b(?:spoon\w*|tbsp|tablespoons?)\b", before))


_STIRS = frozenset({"mix", "heat", "simmer", "boil", "reduce"})


def _made(state: ReadingState, clauses: Sequence[Clause], i: int) -> set[int]:
    """The lines of what is left over: under a heading that it is called by, else what was mixed last."""
    rest = {n for m in clauses[i].mentions if m.portion == -1.0 and len(m.lines) == 1 for n in m.lines}
    if rest and all(state.kind(n) == "oil" for n in rest):
        return rest  # "the rest of the fat goes back in the jar", and none of the vinegar beside it
    sauces = nouns("sauce").keys() | nouns("dish").keys()
    recent = clauses[max(0, i - _FAR_BACK) : i + _LOOKS_BACK]
    parts = {n for c in recent if c.sentence == clauses[i].sentence for n in _shared_out(c)}
    if parts:
        return parts  # "dice half the beef (save the rest for sandwiches)"
    section = (
        set() if _speaks_of_sauce(clauses[i].sentence) else _section_named(state, _with_last(clauses, i))
    )
    if section and len(section) < _MOST_OF_LIST * len(state.index.lines):
        return section
    near = [c.sentence for c in clauses[max(0, i - _LOOKS_BACK) : i + 1] if c.opens]
    for sentence in reversed(near[-3:]):
        said = {t.stem for t in tokenize(sentence)} & sauces
        if named := [
            n for n in state.index.lines if n.heading and said & {t.stem for t in tokenize(n.heading)}
        ]:
            return {n.index for n in named}
    for clause in reversed(clauses[max(0, i - _FAR_BACK) : i + 1]):
        uses = any(m.kind == "bath" and m.prep in ("with", "in", "into") for m in clause.mentions)
        if not uses and (clause.act in _STIRS or clause.base == "shake"):
            made = _stirred(state, recent, clause)
            if len(made) > 1:
                return made
    return set()


def _shared_out(clause: Clause) -> set[int]:
    return {n for m in clause.mentions if m.portion is not None and 0.0 < m.portion < 1.0 for n in m.lines}


def _stirred(state: ReadingState, clauses: Sequence[Clause], last: Clause) -> set[int]:
    """What was stirred together up to a clause of one paragraph, but for pieces of meat or fish."""
    found: set[int] = set()
    for clause in clauses:
        if clause.method != last.method or clause.start > last.start:
            continue
        if clause.act in ("mix", "put", "heat", "simmer", "boil", "reduce", "cut", "") or clause is last:
            found |= {n for m in clause.mentions if m.prep not in ("over", "without") for n in m.lines}
        if clause.act in ("serve", "fry", "roast", "drain"):
            found.clear()
    apart = PROTEINS | {"pasta", "potato", "water"}
    return {n for n in found if state.kind(n) not in apart or is_salty(state.lines[n])}
