"""Sentences parted into clauses: one verb each, what it speaks of, how long, how hot."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .elided import PUT, SIMMER, goes_in_too, put_in, with_object
from .listed import Index, is_heading
from .meant_verbs import HEAT, meant, not_used, on_the_stove
from .mention import Mention
from .mentions import mentions_of
from .method_words import Verb, small_words, verbs
from .prose_tokens import Token, sentences
from .sizes_and_heat import cut_cm, has_degrees, has_sizes, has_temperature, temperature, thickness_cm
from .times_and_sizes import Span, durations, has_figures
from .verbs_said import AWAY_VERBS, DISCARD, OF_SUBJECT, is_done_to, is_participle, is_verb, verb_of
from .weekdays import WEEKDAYS, weekday_spans

_JOINTS = frozenset(
    {",", ";", ":", "and", "then", "or", "but", "-", "–", "—", "&", "(", ")", "until", "so", "before", "to"}
)
_FILLERS = small_words("filler")
_SUBORDINATE = small_words("subordinate")
_LABEL = re.compile(r"([A-Za-z][A-Za-z0-9 ]{2,30}):\s")
"""A label before a paragraph ("Sauce: melt …") says what it is about as a heading does."""
_BOILED = frozenset({"pasta", "noodles", "rice", "potatoes", "eggs", "beans", "greens", "dumplings", "spuds"})
"""Food that a label names: "Pasta: 40 l water, boil 8 min" is about it."""
_LEADS_ON = frozenset({"and", "then", ",", ";", ":", "or", "-", "–", "—", "("})
_NEGATIONS = frozenset(
    {"not", "don't", "dont", "never", "no", "without", "don’t", "avoid", "isn't", "needn't"}
)
_TAKES_AWAY = frozenset(
    {"lose", "remove", "draw", "take", "pull", "get", "rid", "leach", "reduce", "mellow", "tame", "desalt"}
)
_AIMED = frozenset({"until", "when", "once", "if"})
_MEANWHILE = frozenset({"you", "the", "it", "they", "we", "your", "that"})
_AIM_WORDS = _AIMED | {"that", "till", "while", "whilst", "to", "as"}


@dataclass(slots=True, eq=False)
class Clause:
    """One thing done. method: index of the paragraph; start, end: its characters. verb: None where nothing
    is done; act, base: the verb's, "" then. words: all but those behind a negation. aim: the place of the
    word ("until", "when") behind which things are only what is waited for. speaks: kinds of its mentions."""

    method: int
    start: int
    end: int
    text: str
    sentence: str
    verb: Verb | None
    tokens: tuple[Token, ...]
    mentions: tuple[Mention, ...]
    hours: tuple[Span, ...]
    celsius: float | None
    thickness: float | None
    heading: str
    negated: bool
    opens: bool
    words: frozenset[str]
    act: str
    base: str
    aim: int
    speaks: frozenset[str]

    def has(self, *words: str) -> bool:
        """Whether one of the words stands in it, with no "not" or "without" before it."""
        return not self.words.isdisjoint(words)

    def vessel(self) -> str:
        if "vessel" not in self.speaks:
            return ""
        return next(m.name for m in self.mentions if m.kind == "vessel")


def clauses_of(paragraphs: Sequence[str], index: Index) -> Iterator[Clause]:
    """The clauses of a method, in order."""
    heading = ""
    since: list[float] = []
    for number, paragraph in enumerate(paragraphs):
        if (head := is_heading(paragraph)) is not None:
            heading = head
            continue
        label = _LABEL.match(paragraph) if ":" in paragraph else None
        for tokens in sentences(paragraph):
            labelled = (
                label is not None
                and tokens[0].start < label.end()
                and tokens[0].stem not in index.by_word
                and not _is_said(tokens, label.end(), index)
            )
            said = _without_label(tokens, label.end()) if label and labelled else tokens
            if said and (said := _without_hearsay(said)):
                yield from _of_sentence(number, paragraph, said, index, label[1] if label else heading, since)


def _is_said(tokens: Sequence[Token], end: int, index: Index) -> bool:
    """Whether a label says what a sentence is about or does: "Pasta: 40 l water", "Scald the cod: pour …"."""
    first = tokens[0].text
    if first in _BOILED:
        return True
    verb = verbs().get(first)
    commands = verb is not None and verb.form == "base"
    return commands and any(token.stem in index.by_word for token in tokens if token.end <= end)


def _without_label(tokens: list[Token], end: int) -> list[Token]:
    """A sentence without the label before it, unless that is its only verb ("Roast: 2 hours at 160 °C")."""
    after = [token for token in tokens if token.start >= end]
    if len(after) < _SHORT_LABELLED and (after[0].text if after else "") in verbs():
        return tokens  # "Marinade: discard."
    commands = bool(after) and (verb := verbs().get(after[0].text)) is not None and verb.form == "base"
    return after if commands or tokens[0].text not in verbs() else tokens


_OTHERS = frozenset({"some", "others", "many", "most", "few", "certain", "my", "other"})
_PEOPLE = frozenset(
    {"people", "folk", "folks", "cooks", "chefs", "recipes", "like", "say", "swear", "prefer", "would", "do"}
    | {"insist", "books", "purists", "families", "always", "used", "will"}
)
_BUT = frozenset({"but", "so", ";"})


def _without_hearsay(tokens: list[Token]) -> list[Token]:
    """A sentence without what only others do ("some people rinse first; I don't") or what it only asks ("save
    the water?")."""
    first = tokens[0].text
    if tokens[-1].text == "?" and (first in _ASKS or _takes_away(first)):
        return []
    near = [token.text for token in tokens[1:4]]
    if first == "rinse" and near[:2] == ["and", "repeat"]:
        return []  # a saying, of anything that is done once more
    if first not in _OTHERS or _PEOPLE.isdisjoint(near) or near[:1] == ["of"]:
        return tokens  # "some of it will be left"
    for k, token in enumerate(tokens):
        if token.text in _BUT:
            return tokens[k:]
    return []


_ASKS = frozenset({"should", "why", "what", "how", "would", "could", "does", "is", "can", "do"})


def _takes_away(word: str) -> bool:
    verb = verbs().get(word)
    return verb is not None and verb.form != "past" and verb.act in ("drain", "rinse", "reserve", "discard")


def _of_sentence(
    number: int, paragraph: str, tokens: list[Token], index: Index, heading: str, since: list[float]
) -> Iterator[Clause]:
    mentions = mentions_of(tokens, index, heading)
    named = {i for m in mentions for i in range(m.i, m.j)}
    stems = {token.stem for token in tokens}
    texts = {token.text for token in tokens}
    figures = not _DIGITS.isdisjoint({text[0] for text in texts})
    counted = figures or has_figures(texts)
    times = durations(tokens) if figures or not _TIME_WORDS.isdisjoint(stems) else []
    if not WEEKDAYS.isdisjoint(texts):
        times = sorted([*times, *weekday_spans(tokens, since)], key=lambda span: span.i)
    cuts = _cuts(tokens, named)
    warm = has_temperature(texts) or (counted and has_degrees(texts))
    sized = counted and has_sizes(stems)
    sentence = paragraph[tokens[0].start : tokens[-1].end]
    for at, (begin, verb_at) in enumerate(cuts):
        end = cuts[at + 1][0] if at + 1 < len(cuts) else len(tokens)
        if at + 1 < len(cuts) and end - verb_at <= 3:
            end = with_object(tokens, cuts, at, end, named)
        part = tuple(tokens[begin:end])
        verb = verb_of(tokens, begin, end, verb_at, named)
        words = frozenset(texts if len(cuts) == 1 else [token.text for token in part])
        spoken = tuple([_moved(m, begin) for m in mentions if begin <= m.i < end]) if mentions else ()
        denies = not _NEGATIONS.isdisjoint(words)
        if denies and verb is not None and not_used(verb, spoken, words):
            verb, denies = DISCARD, False
        if verb is None and spoken and (tokens[begin].text == "then" or put_in(spoken)):
            verb = PUT
        if verb is None and times and tokens[begin].text in ("low", "high") and "oven" not in words:
            verb = SIMMER  # "Low for 7 hours", in a slow cooker
        told = tuple([span for span in times if begin <= span.i < end]) if times else ()
        verb = meant(verb, part, spoken, words, told) if spoken else verb
        verb = HEAT if on_the_stove(verb, spoken, words) else verb
        last = _last(part)
        yield Clause(
            method=number,
            start=part[0].start,
            end=last,
            text=paragraph[part[0].start : last],
            sentence=sentence,
            verb=verb,
            tokens=part,
            mentions=spoken,
            hours=told,
            celsius=temperature(part) if warm else None,
            thickness=(thickness_cm(part) if sized and not _is_depth(words) else None)
            or (cut_cm(part) if verb and verb.act == "cut" and _is_cut_up(verb, words) else None),
            heading=heading,
            negated=denies and _is_negated(part, verb),
            opens=at == 0,
            words=_said(part) if denies else words,
            act=verb.act if verb else "",
            base=verb.base if verb else "",
            speaks=frozenset([m.kind for m in spoken]) if spoken else _NOTHING,
            aim=len(part) if words.isdisjoint(_AIM_WORDS) else _aim(part),
        )


def _is_cut_up(verb: Verb, words: frozenset[str]) -> bool:
    """Whether food is cut to pieces, and not only its thin ends off it."""
    return verb.base != "trim" and (verb.base != "cut" or words.isdisjoint(("off", "away")))


def _is_depth(words: frozenset[str]) -> bool:
    """ "Cover with water by 4 inches": how deep it lies, and no piece."""
    return "water" in words and not words.isdisjoint(("cover", "above", "over", "covers", "covered"))


_DIGITS = frozenset("0123456789")
_NOTHING: frozenset[str] = frozenset()
_TIME_WORDS = small_words("time")


def _aim(part: Sequence[Token]) -> int:
    """Where "until", "when" or "if" stands in a clause that does not begin with it, else its length."""
    if part[0].text in _AIMED:
        return len(part)
    for i, token in enumerate(part):
        if token.text in _AIMED or token.text == "till":
            return i
        if token.text in ("while", "whilst", "as") and i + 1 < len(part) and part[i + 1].text in _MEANWHILE:
            return i  # "leave it while you get on with everything else"
        if token.text == "that" and [t.text for t in part[i + 1 : i + 3]] == ["the", "salt"]:
            return i  # "in water, that the salt will go out"
        if token.text == "to" and i + 1 < len(part) and part[i + 1].text in _TAKES_AWAY:
            return i  # "soak to draw out the salt"
    return len(part)


def _said(part: Sequence[Token]) -> frozenset[str]:
    """The words of a clause but the three behind a negation: "do not rinse" has no rinsing in it."""
    words = [token.text for token in part]
    unsaid = {
        k
        for i, word in enumerate(words)
        if word in _NEGATIONS
        for k in range(i + 1, i + (6 if word in _BIDS_NOT else 4))
    }
    return frozenset(word for i, word in enumerate(words) if i not in unsaid)


_BIDS_NOT = frozenset({"don't", "don’t", "dont", "never"})
_MINDS = frozenset(
    {"necessary", "needed", "required", "obviously", "forget", "worry", "panic", "laugh", "judge"}
    | {"ask", "skip", "fear", "rush", "skimp"}
)
"""Behind "don't" these bid a cook to do what was said."""
_NEEDED = frozenset({"needed", "necessary", "required", "essential"})


def _is_negated(part: Sequence[Token], verb: Verb | None) -> bool:
    """Whether a clause says that its verb is not to be done: "do not soak", "without salting"."""
    table = verbs()
    if not _NEEDED.isdisjoint(token.text for token in part):
        return True  # "soaking is not needed"
    for i, token in enumerate(part):
        if token.text in _NEGATIONS:
            return not (i + 1 < len(part) and part[i + 1].text in _MINDS)
        if verb is not None and (known := table.get(token.text)) is not None:
            if known.base == verb.base or (verb.base == "discard" and known.base in AWAY_VERBS):
                return False
    return False


def _last(part: Sequence[Token]) -> int:
    """Where the words of a clause end, without the "and" or the comma that leads to the next."""
    for token in reversed(part):
        if token.text not in _LEADS_ON:
            return token.end
    return part[-1].end


def _moved(mention: Mention, by: int) -> Mention:
    if not by:
        return mention
    i, j, kind, lines, name, prep, portion, amount = mention
    moved = (amount[0] - by, amount[1] - by) if amount else None
    return Mention(i - by, j - by, kind, lines, name, prep, portion, moved)


def _cuts(tokens: Sequence[Token], named: set[int]) -> list[tuple[int, int]]:
    """Where clauses begin, each with the place of its verb (its own beginning where it has none there)."""
    first = _skip(tokens, 0)
    begins = {0}
    cuts = [(0, first if first < len(tokens) and is_verb(tokens, first, named, opens=True) else 0)]
    if cuts[0][1] == 0 and tokens[0].text == "for" and (made := _made_for(tokens)):
        cuts = [(0, made)]
    for i in [k for k, token in enumerate(tokens[:-1], 1) if token.text in _JOINTS]:
        m = _skip(tokens, i)
        if m >= len(tokens) or m <= cuts[-1][1] or m in begins:
            continue
        if tokens[i - 1].text in ("to", "until", "before", "so") and not (
            tokens[i - 1].text == "before"
            and verbs().get(tokens[m].text, Verb("", "", "", False)).act == "drain"
        ):
            continue
        after_time = tokens[i - 1].text == "," and len(cuts) == 1 and _only_tells_when(tokens, i - 1)
        if is_verb(tokens, m, named, opens=after_time) or is_participle(tokens, m, named):
            cuts.append((m, m))
            begins.add(m)
        elif tokens[i - 1].text == "then" and goes_in_too(tokens, i - 1, cuts[-1][1], named):
            cuts.append((i - 1, i - 1))
            begins.add(i - 1)
        elif tokens[i - 1].text in (",", ";", ":") and tokens[i].text in _SUBORDINATE and i > cuts[-1][1]:
            cuts.append((i, i))
            begins.add(i)
        elif tokens[i].text == "into" and i > cuts[-1][1] + 1 and not _puts(tokens, cuts[-1][1]):
            cuts.append((i, i))  # "peel, chunk, into a pan of water"
            begins.add(i)
        elif tokens[i].text in ("with", "in") and (acts := _with_this(tokens, i)):
            cuts.append((i, acts))
            begins.add(i)
        elif tokens[i].text in _ONCE and tokens[i - 1].text in ("and", "then") and i > cuts[-1][1]:
            cuts.append((i, i))  # "boil the vinegar and when cold pour it on"
            begins.add(i)
        elif (i in named or tokens[i].text in OF_SUBJECT) and (
            (done := is_done_to(tokens, i, named)) and _acts(tokens, cuts[-1][0], i)
        ):
            cuts.append((i, done))
            begins.add(i)
    return cuts


def _only_tells_when(tokens: Sequence[Token], comma: int) -> bool:
    """Whether what stands before a comma only tells when: "The night before, rub …"."""
    return comma <= _LONGEST_WHEN and any(t.stem in _TIME_WORDS or t.text == "before" for t in tokens[:comma])


_LONGEST_WHEN = 6


def _puts(tokens: Sequence[Token], at: int) -> bool:
    verb = verbs().get(tokens[at].text)
    return verb is not None and verb.act == "put"


def _acts(tokens: Sequence[Token], since: int, i: int) -> bool:
    """Whether something is done before word i: not in "the cod and the potatoes are boiled"."""
    table = verbs()
    return any(tokens[k].text in table for k in range(since, i))


_THIS = frozenset({"this", "these", "it", "them", "which", "that"})


def _with_this(tokens: Sequence[Token], i: int) -> int:
    """Where the verb stands of "and with this rub the ham"; 0 where there is none."""
    if i + 3 >= len(tokens) or tokens[i + 1].text not in _THIS:
        return 0
    verb = verbs().get(tokens[i + 2].text)
    return i + 2 if verb is not None and verb.form == "base" and tokens[i + 3].text in _OBJECTS else 0


_OBJECTS = frozenset({"the", "all", "together", "a", "your"})


def _made_for(tokens: Sequence[Token]) -> int:
    """Where the verb stands of "For the dumplings mix flour, eggs and water"; 0 where there is none."""
    for k in range(2, min(5, len(tokens) - 1)):
        verb = verbs().get(tokens[k].text)
        if verb is not None and verb.form == "base" and verb.act in ("mix", "boil", "heat", "put", "cut"):
            noun = tokens[k - 1].text in ("the", "a", "your") or not tokens[k + 1].text.isalpha()
            return 0 if noun or tokens[k].text == "spread" else k
    return 0


_SHORT_LABELLED = 4
_ONCE = frozenset({"when", "once"})


def _skip(tokens: Sequence[Token], i: int) -> int:
    while i < len(tokens) and (
        tokens[i].text in _FILLERS or (tokens[i].text.endswith("ly") and len(tokens[i].text) > 4)
    ):
        i += 1
    return i
