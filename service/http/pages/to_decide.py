"""What of a recipe a person has to decide, with the sodium that hangs on it: lines, questions, figures."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from ...foods.matching.matcher import SURE
from ...review.tracing import Line
from ...store.records import Version
from .review_forms import foods_of
from .trade_words import SEVERITIES, Below, assumption_words, joined, plain

Document = dict[str, Any]

_KEYS_BELOW = re.compile(r"(?:recipe:|ingredients/\d+/)([^/:]+)(?=/)")
"""The keys of recipes by which the name of an assumption goes down."""

WORTH_DECIDING_MG = 5.0
"""A figure that less sodium of a serving hangs on is not asked about: 5 mg count as none (21 CFR 101.61)."""

OF_A_LINE = frozenset(
    {"low-confidence", "no-match", "no-quantity", "default-quantity", "incomplete", "food-words-unread"}
)
"""Notices that say no more than that a line is to be decided."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A food that a line could be. moves_mg: what a serving would have more of, mg of sodium."""

    code: str
    name: str
    sodium_mg_per_100g: float | None
    moves_mg: float | None


@dataclass(frozen=True, slots=True)
class Item:
    """One thing to decide. confidence: 0 to 1, None where it is no reading. swing_mg: sodium of a serving."""

    kind: Literal["line", "question", "figure"]
    title: str
    swing_mg: float
    pointer: str | None = None
    confidence: float | None = None
    why: str = ""
    candidates: tuple[Candidate, ...] = ()
    question: Document | None = None
    in_recipe: str | None = None
    """The version of the recipe, an ingredient of this one, in which it is to be decided."""


@dataclass(frozen=True, slots=True)
class Told:
    """The notices on one thing, the gravest severity and each message once."""

    severity: str
    messages: tuple[str, ...]


def items(version: Version, pointers: Sequence[str], traced: Sequence[Line], below: Below) -> list[Item]:
    """What is to be decided: what was not read first, then where the most sodium hangs on it.

    pointers, traced: of the ingredients, in the order of the answer. below: the recipes among them.
    """
    questions = list(_questions(version.answer))
    asked = {item.question["pointer"] for item in questions if item.question}
    lines = _lines(version, pointers, traced, below)
    unsure = [item for item in lines if item.pointer not in asked or (item.confidence or 0.0) < SURE]
    places = {item.pointer for item in unsure} | asked
    figures = [
        each
        for each in _figures(version.answer, version.request, below)
        if each.pointer not in places and each.swing_mg >= WORTH_DECIDING_MG
    ]
    found = [*unsure, *questions, *figures]
    return sorted(found, key=lambda item: (item.confidence != 0, -item.swing_mg))


def _lines(version: Version, pointers: Sequence[str], traced: Sequence[Line], below: Below) -> Iterable[Item]:
    answer, foods = version.answer, foods_of(version)
    gaps = {gap["pointer"]: gap for gap in answer["sodium"].get("uncounted", ())}
    for pointer, asked, line in zip(pointers, answer["ingredients"], traced, strict=True):
        gap = gaps.get(pointer)
        if asked["food"] and asked["grams"] is not None and asked["confidence"] >= SURE and gap is None:
            continue
        share = line.eaten_mg / line.listed_mg if line.listed_mg else 1.0
        if asked.get("recipe") in below:
            assert gap is not None  # a portion's food and weight are known
            hangs = (gap["high_mg"] - gap["low_mg"]) * share / answer["servings"]
            within = below[asked["recipe"]].save_id
            yield Item(
                "line", gap["line"], hangs, pointer, why=f"Not counted: {gap['why']}.", in_recipe=within
            )
            continue
        codes = [each["code"] for each in asked["alternatives"] if each["code"] in foods]
        now = foods.get(asked["food"]["code"]).per_100g("NA") if _is_known(asked, foods) else None
        candidates = [_candidate(foods.get(code), now, asked["grams"], share, answer) for code in codes]
        moves = [abs(each.moves_mg) for each in candidates if each.moves_mg is not None]
        if gap is not None:
            moves.append((gap["high_mg"] - gap["low_mg"]) * share / answer["servings"])
        said = [
            plain(each["message"], version.request)
            for each in answer["notices"]
            if each["pointer"] == pointer and each["code"] in OF_A_LINE - {"incomplete"}
        ]
        yield Item(
            "line",
            asked["line"] or asked["food"]["name"],
            max(moves, default=0.0),
            pointer,
            asked["confidence"],
            joined(said),
            tuple(candidates),
        )


def _is_known(asked: Document, foods: Any) -> bool:
    return bool(asked["food"]) and asked["food"]["code"] in foods


def _candidate(
    food: Any, now: float | None, grams: float | None, share: float, answer: Document
) -> Candidate:
    mg = food.per_100g("NA")
    moves = None
    if mg is not None and grams is not None:
        moves = (mg - (now or 0.0)) * grams / 100 * share / answer["servings"]
    return Candidate(food.code, food.name, mg, moves)


def _questions(answer: Document) -> Iterable[Item]:
    for question in (answer.get("reading") or {}).get("questions", ()):
        if not question["answered"]:
            yield Item(
                "question", question["message"], question["swing_mg_per_serving"] or 0.0, question=question
            )


def _figures(answer: Document, request: Document, below: Below) -> Iterable[Item]:
    """The figures that carry most of the range: each one's own part of its width."""
    ends = answer["sodium"]["per_serving_mg"]
    for carrier in answer["sodium"].get("carried_by", ()):
        name = carrier["assumption"]
        swing = math.sqrt(max(carrier["share"], 0.0)) * (ends["high"] - ends["low"])
        words = assumption_words(name, request, below)
        inner = [key for key in _KEYS_BELOW.findall(name) if key in below]
        yield Item(
            "figure",
            words,
            swing,
            None if inner else _place_of(name),
            why=plain(carrier["measure"], request),
            in_recipe=below[inner[-1]].save_id if inner else None,
        )


def _place_of(assumption: str) -> str | None:
    """Where the figure behind an assumption can be changed."""
    kind, _, pointer = assumption.partition(":")
    if kind == "recipe":
        return None
    if pointer.startswith("/"):
        return pointer
    step = assumption.partition("/")[0]
    return f"/steps/{step[5:]}" if step.startswith("step-") else None


def told(version: Version, decided: Iterable[Item]) -> list[Told]:
    """The notices by what they concern, each thing once, the gravest first; without what is to be decided."""
    ours = [item for item in decided if item.kind != "figure"]
    lines = {item.question["pointer"] if item.question else item.pointer for item in ours}
    about: dict[str, list[Document]] = {}
    for notice in version.answer["notices"]:
        thing = _thing(notice["pointer"])
        only_a_line = notice["code"] in OF_A_LINE and notice["severity"] != "stop"
        if only_a_line and (thing in lines or notice["code"] == "incomplete"):
            continue
        about.setdefault(thing or notice["code"], []).append(notice)
    found = [_told(notices, version.request) for notices in about.values()]
    return sorted(found, key=lambda each: SEVERITIES.index(each.severity))


def _thing(pointer: str) -> str:
    """The ingredient, component or step that a pointer is in."""
    parts = pointer.split("/")[1:]
    if "ingredients" in parts:
        return "/" + "/".join(parts[: parts.index("ingredients") + 2])
    return "/" + "/".join(parts[:2]) if parts[:1] in (["components"], ["steps"]) else ""


def _told(notices: Sequence[Document], request: Document) -> Told:
    ranked = sorted(notices, key=lambda each: SEVERITIES.index(each["severity"]))
    messages = dict.fromkeys(plain(each["message"], request) for each in ranked)
    return Told(ranked[0]["severity"], tuple(messages))
