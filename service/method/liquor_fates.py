"""What becomes of a liquor that food cooked in, by the words: poured away, kept for another day, used."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from .clauses import Clause
from .method_words import small_words
from .parts_said import millilitres

_WHAT = rf"(?:{'|'.join(sorted(small_words('liquor')))})"
_REST = r"(?:the )?(?:rest|remainder|what(?:['’]s| is| remains)? (?:over|left))\b"
_WHOSE = r"(?:the|this|that|its|their|your|any)"
_WORDS = r"(?:(?!(?:and|or|with|from|in|into|to|on|out|away)\b)[\w-]+ ){0,3}?"
_IT = rf"(?:(?:(?:all|most|any|some|rest) (?:of )?)?(?:{_WHOSE} )?{_WORDS}{_WHAT}\b|{_REST})"
_BINS = r"(?:discard|ditch|dump|bin|lose)(?:n?ing|e?s)?"
_TIPS = r"(?:throw|chuck|tip|pour|drain|empty|toss)(?:ing|s)?"
_GONE = r"(?:away|out(?! of)|off|down the (?:sink|drain))"
_IS = r"(?:can |may |should |must |will )?(?:then )?(?:is|are|be|gets?|goes?|go)"
_NOT = r"(?:don['’]?t|do not|won['’]?t|will not|no longer|needn['’]?t)"
_THROWN = re.compile(
    rf"\b{_BINS} {_IT}(?! (?:fat|scum|skin|solids))|\b{_TIPS} {_GONE} {_IT}|\b{_TIPS} {_IT} {_GONE}"
    rf"|\bget(?:ting)? rid of {_IT}|\b(?:{_WHAT}|rest) {_IS} "
    r"(?:discarded|thrown|poured|tipped|down|in the bin)"
    rf"|\b{_NOT} (?:be )?(?:need|us|want|keep)(?:e|ed|ing)? {_IT}"
    rf"|\bno (?:further |more )?(?:need|use) (?:of|for) {_IT}"
    rf"|\b(?:{_WHAT}|rest) (?:is|are|was|will be)(?:n['’]?t| not| no longer) (?:needed|used|wanted|eaten)"
    rf"|\b(?:{_WHAT}|rest) (?:has|have) (?:done|served) (?:its|their)",
    re.IGNORECASE,
)
_DAY = (
    r"(?:another (?:day|time|use|meal|dish|recipe|batch|night|occasion)|tomorrow|freezer|next (?:time|week)"
    r"|later use|a rainy day|other (?:use|dish|recipe|thing|purpose)s?"
    r"|(?:for|into|in|as) (?!the\b|this\b)(?:an? |making |your (?:next )?)?(?:\w+ )?"
    r"(?:soups?|risottos?|stocks?|stews?)\b)"
)
_KEEPS = r"(?:keep|sav|reserv|stor|refrigerat|set|put|us|strain|cool|chill)(?:t?ing|e?s|e)?"
_LATER = re.compile(
    rf"\bfreez(?:e|ing) {_IT}|\b{_KEEPS} (?:and \w+ )?(?:aside |away )?{_IT}[^.;!?]{{0,40}}?\b{_DAY}"
    rf"|\b(?:{_WHAT}|rest) (?:can |may |will |should )?(?:be|is|are|goes?|keeps?|makes?)\b"
    rf"[^.;!?]{{0,40}}?(?:\b{_DAY}|\bfrozen\b)",
    re.IGNORECASE,
)
_SPEAKS = re.compile(rf"\b{_WHAT}\b", re.IGNORECASE)
_STAYS_IN = re.compile(rf"\b(?:in|from|out of|off|of) (?:{_WHOSE} )?{_WORDS}{_WHAT}\b", re.IGNORECASE)
_PART = re.compile(rf"\bof (?:{_WHOSE} )?{_WORDS}(?:{_WHAT}\b|it\b)", re.IGNORECASE)
_HALF = re.compile(
    rf"\b(?P<part>half|a third|a quarter|two[- ]thirds|three[- ]quarters) (?:of )?{_WHOSE} {_WORDS}{_WHAT}\b",
    re.IGNORECASE,
)
_SHARES = {"half": 0.5, "a third": 1 / 3, "a quarter": 0.25, "two thirds": 2 / 3, "three quarters": 0.75}
_SETS_BY = frozenset({"reserve", "measure", "keep", "save"})
_POURS = frozenset({"drain", "discard", "remove"})
_STANDS = frozenset({"hold", "let", "cool", "", "drain", "discard", "remove", "dry"})


@dataclass(frozen=True, slots=True)
class Fate:
    """ml, share: how much of the liquor is eaten, where a clause says so; said_at: where it says that last.
    thrown: what else there is goes away, or is for another day; thrown_at: the sentence that says so first.
    uses: the method goes on with all of it."""

    ml: float | None = None
    share: float | None = None
    thrown: bool = False
    uses: bool = False
    said_at: tuple[int, int] = (-1, 0)
    thrown_at: tuple[int, int] | None = None

    @property
    def is_said(self) -> bool:
        """Whether any word tells that not all of it is eaten."""
        return self.thrown or self.ml is not None or self.share is not None


def fate_of_liquor(clauses: Iterable[Clause]) -> Fate:
    """What clauses say, from when food went in, of the liquor that it cooks in."""
    set_by, used, share, gone_at, uses, at = 0.0, 0.0, None, None, False, (-1, 0)
    for clause in clauses:
        if gone_at is None and clause.opens and _gone(clause):
            gone_at = clause.place
        if _SPEAKS.search(clause.sentence) is None:
            continue
        said = _PART.search(clause.text) is not None or (
            clause.act == "reserve" and "line" not in clause.speaks
        )
        ml = millilitres(clause) if said else None
        half = _HALF.search(clause.text) if ml is None else None
        if ml is not None or half is not None:
            at = clause.place
        if ml is not None and (clause.act == "reserve" or clause.base in _SETS_BY or _dips(clause)):
            set_by += ml
        elif ml is not None:
            used += ml
        elif half is not None:
            part = _SHARES[half["part"].lower().replace("-", " ")]
            share = 1.0 - part if clause.act == "discard" else part
        elif not _gone(clause) and _SPEAKS.search(clause.text) and clause.act not in _POURS:
            uses = uses or clause.act not in _STANDS or _STAYS_IN.search(clause.text) is None
    return Fate(set_by or used or None, share, gone_at is not None, uses, at, gone_at)


def _dips(clause: Clause) -> bool:
    """ "Ladle off 300 ml of the broth": kept for what is said later."""
    return clause.has("ladle", "dip", "scoop", "take", "keeping", "reserving", "saving")


def _gone(clause: Clause) -> bool:
    return _THROWN.search(clause.sentence) is not None or _LATER.search(clause.sentence) is not None
