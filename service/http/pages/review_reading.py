"""What the review page shows of a recipe in prose: its method with phrases marked, and the open questions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ...calculator import with_answers
from ...core.errors import Fault, InvalidRequest
from ...render.readings import assumed_words, done_words, doubt_words, named
from ...store.records import Version

Piece = tuple[str, int | None]
"""Words of the method, and the number of the step that they became, from 1; None where they became none."""


def marked(reading: Mapping[str, Any]) -> list[list[Piece]]:
    """The paragraphs of a method, each in pieces; phrases that became steps carry the step's number."""
    return [
        _pieces(paragraph, [(s["start"], s["end"], i) for i, s in steps if s["method"] == number])
        for number, paragraph in enumerate(reading["method"])
        for steps in [list(enumerate(reading["steps"], 1))]
    ]


def _pieces(paragraph: str, spans: Sequence[tuple[int, int, int]]) -> list[Piece]:
    pieces: list[Piece] = []
    at = 0
    for start, end, number in sorted(spans):
        if start < at:
            continue
        pieces += [(paragraph[at:start], None), (paragraph[start:end], number)]
        at = end
    return [(text, number) for text, number in [*pieces, (paragraph[at:], None)] if text]


def read_steps(reading: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Each step in words, with its number and its place."""
    steps = zip(reading["recipe"].get("steps", ()), reading["steps"], strict=True)
    return [
        {
            "number": i,
            "kind": kind,
            "words": words,
            "doubt": doubt_words(source["confidence"]),
            "assumed": assumed_words(source["assumed"]),
            "pointer": f"/steps/{i - 1}",
            "line": "" if source["end"] else source["text"],
        }
        for i, (step, source) in enumerate(steps, 1)
        for kind, _, words in [done_words(step).partition(": ")]
    ]


def read_assumed(reading: Mapping[str, Any]) -> list[tuple[str, str]]:
    """By component in words, what only the method names and how much of it is taken."""
    found: dict[str, list[str]] = {}
    for line in reading["lines"]:
        if line.get("assumed"):
            found.setdefault(named(line["component"]), []).append(line["text"])
    return [(name, ", ".join(texts)) for name, texts in found.items()]


def answered_by(version: Version, form: Mapping[str, str]) -> dict[str, Any]:
    """The recipe of a version with a question answered as a form says.

    Raises InvalidRequest: there is no such question, or no such choice.
    """
    reading = version.answer.get("reading") or {"questions": ()}
    asked = next((each for each in reading["questions"] if each["id"] == form.get("question")), None)
    choice = form.get("choice", "")
    if asked is None or choice not in {each["choice"] for each in asked["choices"]}:
        raise InvalidRequest([Fault("choice", "Choose one of the answers.")])
    written = dict(version.request["written"])
    answers = {**written.pop("answers", {}), asked["id"]: choice}
    return with_answers({**version.request, "written": written}, {"written": {"answers": answers}})
