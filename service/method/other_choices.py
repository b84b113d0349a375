"""What is only done another way: with the other food of a line ("if using fresh cod, salt it", of "salt cod
or fresh"), in another vessel than the recipe was cooked in ("this can also be made in a slow cooker"), or to
what is cooked already ("alternatively, boil them")."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from .clauses import Clause
from .happenings import SOLIDS
from .listed import Index
from .method_words import COOKS, root, small_words
from .prose_tokens import tokenize

_IF_USING = re.compile(
    r"\b(?:if|when) (?:(?:you(?:'re|’re| are)? |it is |it's )?(?:using|use|have|chose|chosen|bought)"
    r"|(?:you )?(?:make|making|cook|cooking) (?:it |this )?with) "
    r"(?P<what>[^,.;:()]{3,60}?)(?=[,.;:()]|\bthen\b|$)",
    re.IGNORECASE,
)
_OR = re.compile(r"\bor\b", re.IGNORECASE)


def without_other_choices(clauses: Sequence[Clause], index: Index) -> list[Clause]:
    """The clauses without those of a sentence that begins with another choice than the first of its line, and
    without another way to cook what is cooked already."""
    if any(clause.heading or not clause.words.isdisjoint(_VESSEL_WORDS) for clause in clauses):
        clauses = list(_without_other_ways(clauses))
    lines = tuple(line.text for line in index.lines if line.kind in SOLIDS and _OR.search(line.text))
    others = _offered_ways(clauses)
    if [clause for clause in clauses if clause.act in _QUICK and " or " in clause.sentence]:
        clauses = list(_without_quick_ways(clauses))
    if [clause for clause in clauses if "instead" in clause.words]:
        clauses = [clause for clause in clauses if not _is_done_instead(clause)]
    if not (lines or others):
        return list(clauses)
    return [
        c for c in clauses if c.sentence not in others and not (lines and _is_of_other(c.sentence, lines))
    ]


def _is_done_instead(clause: Clause) -> bool:
    """ "(If you have no time, skip the brine and rub the meat with salt instead.)": what stands behind."""
    skipped = _SKIPPED.match(clause.sentence)
    return skipped is not None and clause.sentence.find(clause.text) >= skipped.end()


_SKIPPED = re.compile(
    r"\W*(?:if|when|in a hurry|short of|no time)\b[^.;]{0,80}\b(?:skip|omit|leave out|forget|miss out)\b"
    r"[^.;]*?(?:\band\b|[,:;])(?=.*\binstead\b)",
    re.IGNORECASE | re.DOTALL,
)
_OFFERED = re.compile(
    r"(?:or,? )?(?:alternat(?:iv)?ely\b|(?:another|the other|a second) (?:way|option|method)\b"
    r"|(?:you|one) (?:can|could|may|might) (?:also|instead|equally|just as well)\b)"
    r"|(?:you (?:can|could|may|might)|(?:or )?if you (?:prefer|like|wish|want|would rather)|if preferred)\b"
    r".*\binstead\b(?! of)",
    re.IGNORECASE | re.DOTALL,
)
_COOKS = COOKS | {"steam"}


def _offered_ways(clauses: Sequence[Clause]) -> set[str]:
    """Sentences that offer another way to cook what is cooked already: "alternatively, boil the potatoes"."""
    found: set[str] = set()
    for i, clause in enumerate(clauses):
        if clause.act in _COOKS and _may_offer(clause) and _OFFERED.match(clause.sentence.lstrip("( ")):
            foods = {n for m in clause.mentions for n in m.lines}
            before = (c for c in clauses[:i] if c.act in _COOKS and c.sentence != clause.sentence)
            cooked = ({n for m in c.mentions for n in m.lines} for c in before)
            first = clause.sentence.lower().find("alternat") in range(5) and i > 0
            if first or any(not foods or not lines or foods & lines for lines in cooked):
                found.add(clause.sentence)
    return found


def _without_quick_ways(clauses: Sequence[Clause]) -> Iterator[Clause]:
    """The clauses without what a sentence offers instead of a long soak: "soak overnight, or boil for 2
    minutes and leave for an hour"."""
    soaked = left_out = ""
    for clause in clauses:
        if clause.sentence == left_out:
            continue
        if clause.sentence == soaked and clause.act in _QUICK and _is_behind_or(clause):
            left_out = clause.sentence
            continue
        soaked = clause.sentence if clause.act in _LONG and clause.hours else soaked
        yield clause


_LONG = frozenset({"soak", "hold", "let"})
_QUICK = frozenset({"boil", "simmer", "cook", "heat", "soak", "rinse"})


def _is_behind_or(clause: Clause) -> bool:
    before, _, _ = clause.sentence.partition(clause.text)
    return before.rstrip(" ,").endswith(" or") or clause.text.lower().startswith("or ")


_SIGNS = re.compile("alternat|also|instead|option|way|method|equally", re.IGNORECASE)


def _may_offer(clause: Clause) -> bool:
    return _SIGNS.search(clause.sentence) is not None


@lru_cache(maxsize=1024)
def _is_of_other(sentence: str, lines: tuple[str, ...]) -> bool:
    condition = _IF_USING.match(sentence.lstrip("( "))
    return condition is not None and any(_names_other(condition["what"], line) for line in lines)


def _names_other(said: str, line: str) -> bool:
    """Whether words name what a line allows instead, and nothing of what it lists first."""
    first, _, instead = (_OR.sub("|", line, count=1)).partition("|")
    words, own, other = _roots(said), _roots(first), _roots(instead)
    return bool(words & (other - own)) and not words & (own - other)


def _roots(text: str) -> frozenset[str]:
    words = (root(token.text) for token in tokenize(text) if token.text[0].isalpha())
    return frozenset("can" if word in _CANNED else word for word in words)


_CANNED = frozenset({"canned", "tinned", "tin", "jarred", "jar"})


_VESSEL = (
    r"(?:slow[- ]?cooker|crock[- ]?pot|pressure[- ]?cooker|instant[- ]?pot|multi[- ]?cooker|rice[- ]?cooker"
    r"|air[- ]?fryer|microwave|oven|smoker|bread[- ]?(?:machine|maker)|stove[- ]?top|stove|hob)"
)
_VESSEL_WORDS = small_words("cooker")
_OTHER_WAY = re.compile(
    r"^\W*(?:(?:this|it|these|they|you|the [a-z]+|i|we)(?: [a-z]+)? (?:can|could|may|might)(?: be)? "
    r"(?:also|just as well|equally)(?: be)? (?:done|made|cooked|prepared|do|make|cook|prepare|use)\b"
    rf"[^.;]{{0,40}}\b{_VESSEL}\b"
    rf"|(?:(?:for|using|with|to use) (?:a|an|the|your) {_VESSEL}(?: (?:method|version|way|recipe))?\s*[:,]"
    rf"|to (?:make|do|cook) (?:this |it |them )?(?:in|with|using) (?:a|an|the|your) {_VESSEL}\b"
    rf"|{_VESSEL} (?:method|version|instructions|directions|variation|option)\b))",
    re.IGNORECASE,
)
_HEADING = re.compile(
    rf"^(?:(?:for|in|using) (?:a|an|the|your) )?(?!oven|stove|hob|smoker){_VESSEL}"
    r"(?: (?:method|version|way|recipe|instructions|directions))?$",
    re.IGNORECASE,
)


def _without_other_ways(clauses: Sequence[Clause]) -> Iterator[Clause]:
    """The clauses without those that tell, to the end of their paragraph, how else it may be cooked."""
    cooked, aside = False, -1
    for clause in clauses:
        if clause.method != aside:
            other = _OTHER_WAY.match(clause.sentence) or (clause.heading and _HEADING.match(clause.heading))
            aside = clause.method if cooked and other else -1
        if clause.method != aside:
            cooked = cooked or clause.act in _COOKS
            yield clause
