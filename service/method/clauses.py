"""Sentences parted into clauses: one verb each, what it speaks of, how long, how hot."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .asides import LABELS, is_aside, is_beside, is_note, label_at, may_tell
from .clause_cuts import cuts_of
from .denials import NEGATIONS, is_negated, undenied
from .done_before import DONE_BEFORE, as_done, with_own_subject
from .elided import BOIL, PUT, SIMMER, pasta_takes, unsaid_verb, with_object
from .elided_times import MAY_ELIDE, OTHERS, WHOLE, in_all, on_both_sides, with_elided
from .headed_foods import heads_work_on, with_heads
from .lettered_parts import with_letters
from .listed import Index
from .meant_verbs import (
    DRAIN,
    HEAT,
    STOVE,
    is_too_salty,
    meant,
    not_used,
    on_the_stove,
    pours_off_food,
    takes_time,
)
from .mention import Mention, kinds_of
from .mentions import mentions_of
from .method_parts import heading_of_paragraph, part_meant
from .method_words import Verb, small_words, verbs
from .numbers_said import has_figures
from .prose_tokens import Token, sentences
from .salted_words import names_salt_food
from .sentence_openers import OPENERS, without_openers
from .sizes_and_heat import cut_cm, has_degrees, has_sizes, has_temperature, temperature, thickness_cm
from .strewn_on import strewn
from .times_and_sizes import Span, durations, spans_within
from .verbs_said import DISCARD, verb_of
from .weekdays import CLOCKED, WEEKDAYS, dated_spans

_LABEL = re.compile(r"([A-Za-z][A-Za-z0-9'’ ]{2,30}):\s")
"""A label before a paragraph ("Sauce: melt …") says what it is about as a heading does."""
_BOILED = frozenset({"pasta", "noodles", "rice", "potatoes", "eggs", "beans", "greens", "dumplings", "spuds"})
"""Food that a label names: "Pasta: 40 l water, boil 8 min" is about it."""
_SHORT_LABELLED = 4
_JOINS = frozenset({",", "and", "&"})
_ON_FOOD = frozenset({"on", "over", ":", "sides", "side"})
"""Words with which salt or a sauce is on food, though no verb puts it there."""
_FIGURE = re.compile("[0-9]")
_LEADS_ON = frozenset({"and", "then", ",", ";", ":", "or", "-", "–", "—", "("})
_TAKES_AWAY = small_words("takes_away")
_AIMED = frozenset({"until", "when", "once", "if"})
_MEANWHILE = frozenset({"you", "the", "it", "they", "we", "your", "that"})
_WHILE = frozenset({"while", "whilst", "as"})
_AIM_WORDS = _AIMED | _WHILE | {"that", "till", "to"}


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

    def is_of_it(self) -> bool:
        """ "Lay it in wine with an onion": "it" is the food, and none of what stands behind."""
        first = self.mentions[0] if self.mentions else None
        put = self.act in ("put", "hold")
        return put and first is not None and first.kind == "it" and not first.prep

    @property
    def place(self) -> tuple[int, int]:
        """Where in the method it stands."""
        return self.method, self.start

    def vessel(self) -> str:
        if "vessel" not in self.speaks:
            return ""
        return next(m.name for m in self.mentions if m.kind == "vessel")


def clauses_of(paragraphs: Sequence[str], index: Index) -> Iterator[Clause]:
    """The clauses of a method, in order."""
    heading, beside, notes = "", False, False
    since: list[float] = []
    parts = tuple(dict.fromkeys(line.heading for line in index.lines if line.heading))
    for number, paragraph in enumerate(paragraphs):
        if (head := heading_of_paragraph(paragraph, parts)) is not None:
            heading, says_more = head
            beside, notes = is_beside(heading), is_note(heading)
            if not (says_more or heads_work_on(paragraph, index)):
                continue
        label = _LABEL.match(paragraph) if ":" in paragraph else None
        if beside or (label is not None and is_beside(label[1])):
            continue
        noted, tells, bare = notes, notes or may_tell(paragraph), False
        for whole in with_heads(sentences(paragraph), paragraph, index):
            begins = label_at(paragraph, whole[0].start) if whole[0].text in LABELS else None
            if begins is not None and is_beside(begins[1]):
                continue
            tokens = [token for token in whole if token.start >= begins.end()] if begins else whole
            tokens = with_letters(tokens, paragraph, index.letters) if index.letters else tokens
            noted = noted or (begins is not None and begins.start() == 0)
            told = noted or bare or begins is not None
            bare = not tokens  # "NB. …"
            if bare or (
                (tells or told) and is_aside(paragraph[tokens[0].start : tokens[-1].end], index, noted=told)
            ):
                continue
            labelled = (
                label is not None
                and not _tells_day(label[1], tokens)
                and tokens[0].start < label.end()
                and not _names_food(tokens, index)
                and not _is_said(tokens, label.end(), index)
            )
            said = _without_label(tokens, label.end(), index) if label and labelled else tokens
            if label and said is tokens and tokens[0].text in _IN_TURN and tokens[1:]:
                said = tokens[1:]  # "first the peas: boil" is "the peas: boil"
            said = _without_aside(said) if "):" in paragraph else said
            if said and (said := _without_hearsay(said)):
                said = without_openers(said) if said[0].text in OPENERS else said
                head_here = part_meant(label[1], parts) if label else heading
                yield from _of_sentence(number, paragraph, said, index, head_here, since)


def _names_food(tokens: Sequence[Token], index: Index) -> bool:
    """Whether a label is the food that is spoken of: "Peas: boil", "the peas: …", "for the peas: …"."""
    first = int(len(tokens) > 1 and tokens[0].text in _IN_TURN)  # "first the peas: …"
    words = [token.text for token in tokens[first : first + 2]]
    at = first + (2 if words == ["for", "the"] else 1 if words[0] in ("the", "for", "your") else 0)
    found = index.by_word.get(tokens[at].stem) if at < len(tokens) else None
    return found is not None and (words[0] != "for" or found[0].kind in _SOLID)


_IN_TURN = frozenset({"first", "now", "next", "then", "finally", "lastly"})
_SOLID = frozenset({"meat", "poultry", "fish", "vegetable", "potato", "legume", "grain", "pasta", "egg"})


def _without_aside(tokens: list[Token]) -> list[Token]:
    """A sentence whose object stands behind a colon, without the bracket before that: "lower in (mind the
    splashes): 6 eggs"."""
    for i in range(2, len(tokens) - 1):
        if tokens[i].text == ":" and tokens[i - 1].text == ")":
            opens = max((k for k in range(i) if tokens[k].text == "("), default=0)
            return tokens[:opens] + tokens[i + 1 :] if opens else tokens
    return tokens


def _is_said(tokens: Sequence[Token], end: int, index: Index) -> bool:
    """Whether a label says what a sentence is about or does: "Pasta: 40 l water", "Scald the cod: pour …"."""
    first = tokens[0].text
    if first in _BOILED or first in ("in", "into"):
        return True  # "In a bag: the lamb, soy sauce and oil"
    verb = verbs().get(first)
    commands = verb is not None and verb.form == "base"
    return commands and any(token.stem in index.by_word for token in tokens if token.end <= end)


def _without_label(tokens: list[Token], end: int, index: Index) -> list[Token]:
    """A sentence without the label before it, unless that is its only verb ("Roast: 2 hours at 160 °C")."""
    after = [token for token in tokens if token.start >= end]
    if len(after) < _SHORT_LABELLED and (after[0].text if after else "") in verbs():
        return tokens  # "Marinade: discard."
    commands = bool(after) and (verb := verbs().get(after[0].text)) is not None and verb.form == "base"
    if after and tokens[0].text in _STARTS:
        return tokens if commands else after  # "Start a day ahead: the cod into cold water"
    if commands and after[0].stem in index.by_word and after[1:2] and after[1].text in _JOINS:
        return tokens  # "Shake in a bag: flour, salt, thyme"
    return after if commands or tokens[0].text not in verbs() else tokens


_STARTS = frozenset({"start", "begin"})


def _tells_day(label: str, tokens: Sequence[Token]) -> bool:
    """ "The night before: soak the beans", "Friday night: …": by that it is known how long."""
    if tokens[0].text in _STARTS:
        return False
    return "before" in label or any(token.text in WEEKDAYS for token in tokens[:3])


_OTHERS = frozenset({"some", "others", "many", "most", "few", "certain", "my", "other"})
_PEOPLE = small_words("people")
_BUT = frozenset({"but", "so", ";"})


def _without_hearsay(tokens: list[Token]) -> list[Token]:
    """A sentence without what only others do ("some people rinse first; I don't") or what it only asks ("save
    the water?")."""
    first = tokens[0].text
    if tokens[-1].text == "?" and (first in _ASKS or _takes_away(first)):
        return []
    if first == "if" and not _FORGOT.isdisjoint([token.text for token in tokens[1:5]]):
        return []  # "if you have forgotten to soak them, use two tins"
    if first != "rinse" and first not in _OTHERS:
        return tokens
    near = [token.text for token in tokens[1:4]]
    if first == "rinse" and near[:2] == ["and", "repeat"]:
        return []  # a saying, of anything that is done once more
    if first not in _OTHERS or _PEOPLE.isdisjoint(near) or near[:1] == ["of"]:
        return tokens  # "some of it will be left"
    for k, token in enumerate(tokens):
        if token.text in _BUT:
            return tokens[k:]
    return []


_FORGOT = frozenset({"forgot", "forget", "forgotten"})
_ASKS = frozenset({"should", "why", "what", "how", "would", "could", "does", "is", "can", "do"})


def _takes_away(word: str) -> bool:
    verb = verbs().get(word)
    return verb is not None and verb.form != "past" and verb.act in ("drain", "rinse", "reserve", "discard")


def _of_sentence(
    number: int, paragraph: str, tokens: list[Token], index: Index, heading: str, since: list[float]
) -> Iterator[Clause]:
    words = [token.text for token in tokens]
    stems = [token.stem for token in tokens]
    texts = frozenset(words)
    sentence = paragraph[tokens[0].start : tokens[-1].end]
    figures = _FIGURE.search(sentence) is not None
    counted = figures or has_figures(texts)
    mentions = mentions_of(tokens, words, stems, index, heading, counted=counted)
    named = {i for m in mentions for i in range(m.i, m.j)}
    times = durations(tokens) if figures or not _TIME_WORDS.isdisjoint(stems) else []
    if times and not texts.isdisjoint(MAY_ELIDE):
        times = with_elided(tokens, times)
        times = on_both_sides(tokens, times) if len(times) > 1 and texts & OTHERS else times
    if not CLOCKED.isdisjoint(texts):
        times = sorted([*times, *dated_spans(tokens, since)], key=lambda span: span.i)
    cuts = cuts_of(tokens, words, named)
    warm = has_temperature(texts) or (counted and has_degrees(texts))
    sized, hot = counted and has_sizes(stems), not STOVE.isdisjoint(texts)
    before = len(cuts) > 1 and not DONE_BEFORE.isdisjoint(texts)
    for at, (begin, verb_at) in as_done(tokens, cuts, mentions, named) if before else enumerate(cuts):
        end = cuts[at + 1][0] if at + 1 < len(cuts) else len(tokens)
        if at + 1 < len(cuts) and end - verb_at <= 3:
            end = with_object(tokens, cuts, at, end, named)
        part = tuple(tokens[begin:end])
        said = texts if len(cuts) == 1 else frozenset(words[begin:end])
        spoken = tuple(mentions) if len(cuts) == 1 else _within(mentions, begin, end)
        spoken = spoken if begin == cuts[at][0] else with_own_subject(spoken, cuts[at][0] - begin)
        first = begin + (words[begin] == "salt" and begin == verb_at and names_salt_food(spoken, index))
        verb = verb_of(tokens, first, end, verb_at + first - begin, named)
        told = spans_within(times, begin, end) if times and len(cuts) > 1 else tuple(times)
        told = in_all(part, told) if len(told) > 1 and not WHOLE.isdisjoint(said) else told
        denies = not NEGATIONS.isdisjoint(said)
        unused = denies and verb is not None and not_used(verb, spoken, said)
        if unused or ("salty" in said and is_too_salty(words[begin:end])):
            verb, denies = DISCARD, False
        if verb is None and spoken:
            verb = PUT if words[begin] in ("then", "lastly") else unsaid_verb(spoken, part, said, told, index)
        if (
            verb is None
            and times
            and ("simmer" in said or _is_set(words[begin], said))
            and "oven" not in said
        ):
            verb = SIMMER
        bare = verb is None or verb.base == "top"  # "tamari on top"
        if bare and spoken and not (said.isdisjoint(_ON_FOOD) or has_degrees(said)):
            verb = strewn(spoken, part, said, index) or verb
        verb = meant(verb, part, spoken, said, told) if spoken or told else verb
        if told and verb is not None and takes_time(verb, part):
            verb = BOIL if spoken and pasta_takes(spoken, said, index) else None
        verb = HEAT if hot and on_the_stove(verb, spoken, said) else verb
        verb = DRAIN if verb and verb.base == "discard" and pours_off_food(part, spoken, index) else verb
        last = _last(part)
        text = paragraph[part[0].start : last]
        meanwhile = words[begin] in _WHILE and (bool(told) or _is_at_work(verb, spoken))
        sizes = sized and (_FIGURE.search(text) is not None or has_figures(said)) and not _is_depth(said)
        yield Clause(
            method=number,
            start=part[0].start,
            end=last,
            text=text,
            sentence=sentence,
            verb=verb,
            tokens=part,
            mentions=spoken,
            hours=told,
            celsius=temperature(part) if warm and (has_temperature(said) or has_degrees(said)) else None,
            thickness=(thickness_cm(part) if sizes else None)
            or (cut_cm(part) if verb and verb.act == "cut" and _is_cut_up(verb, said) else None),
            heading=heading,
            negated=denies and is_negated(part, verb),
            opens=at == 0,
            words=undenied(part) if denies else said,
            act=verb.act if verb else "",
            base=verb.base if verb else "",
            speaks=kinds_of(spoken),
            aim=len(part) if said.isdisjoint(_AIM_WORDS) or meanwhile else _aim(part),
        )


def _is_at_work(verb: Verb | None, spoken: Sequence[Mention]) -> bool:
    """ "While you drain the tuna", "while the water comes to the boil": that is done, too."""
    return (verb is not None and verb.act in ("drain", "rinse")) or _is_of_water(spoken)


def _is_of_water(spoken: Sequence[Mention]) -> bool:
    """ "While the salted water comes to the boil": what is heated meanwhile."""
    return bool(spoken) and all(m.kind in ("water", "vessel") for m in spoken)


_SETTINGS = frozenset({"low", "high"})


def _is_set(first: str, words: frozenset[str]) -> bool:
    """ "Low for 7 hours", "8 hours on high", in a slow cooker."""
    return first in _SETTINGS or ("on" in words and not words.isdisjoint(_SETTINGS))


def _is_cut_up(verb: Verb, words: frozenset[str]) -> bool:
    """Whether food is cut to pieces, and not only its thin ends off it."""
    return verb.base != "trim" and (verb.base != "cut" or words.isdisjoint(("off", "away")))


def _is_depth(words: frozenset[str]) -> bool:
    """ "Cover with water by 4 inches": how deep it lies, and no piece."""
    return "water" in words and not words.isdisjoint(("cover", "above", "over", "covers", "covered"))


_TIME_WORDS = small_words("time")


def _aim(part: Sequence[Token]) -> int:
    """Where "until", "when" or "if" stands in a clause that does not begin with it, else its length."""
    if part[0].text in _AIMED or (part[0].text == "(" and part[1:2] and part[1].text in _AIMED):
        return len(part)
    for i, token in enumerate(part):
        if token.text == "if" and [t.text for t in part[i + 1 : i + 2]] == ["using"]:
            continue  # "season the shoulder (if using) with salt"
        if token.text == "once" and i and part[i - 1].text == "at":
            continue  # "put them at once in salted water"
        if token.text in _AIMED or token.text == "till":
            listed = any(later.text == ":" for later in part[i:-1])
            return len(part) if listed else i  # "simmer until dissolved: water, salt"
        if token.text in _WHILE and i + 1 < len(part) and part[i + 1].text in _MEANWHILE:
            return i  # "leave it while you get on with everything else"
        if token.text == "to" and i + 1 < len(part) and part[i + 1].text in _TAKES_AWAY:
            return i  # "soak to draw out the salt"
    return len(part)


def _last(part: Sequence[Token]) -> int:
    """Where the words of a clause end, without the "and" or the comma that leads to the next."""
    for token in reversed(part):
        if token.text not in _LEADS_ON:
            return token.end
    return part[-1].end


def _within(mentions: Sequence[Mention], begin: int, end: int) -> tuple[Mention, ...]:
    """The mentions that begin in words begin to end, with the places that they have among those."""
    if not begin:
        return tuple([m for m in mentions if m.i < end])
    return tuple([moved(m, begin) for m in mentions if begin <= m.i < end])


def moved(mention: Mention, by: int) -> Mention:
    m, moved = mention, mention.amount and (mention.amount[0] - by, mention.amount[1] - by)
    return Mention(m.i - by, m.j - by, m.kind, m.lines, m.name, m.prep, m.portion, moved)
