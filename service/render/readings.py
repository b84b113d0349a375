"""A reading of a recipe in prose for people: the method marked, where lines went, the questions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any


def reading_lines(reading: Mapping[str, Any]) -> Iterator[str]:
    """A reading for people: the method with its phrases marked, the lines by component, the questions."""
    steps = reading["recipe"].get("steps", [])
    yield from _marked(reading["method"], reading["steps"])
    if steps:
        yield "\nSteps"
    for number, (step, source) in enumerate(zip(steps, reading["steps"], strict=True), 1):
        yield f"  [{number}] {step_words(step, source)}"
    yield "\nWhere the lines went"
    yield from _components(reading)
    if reading["questions"]:
        yield "\nQuestions, most sodium first"
    for question in reading["questions"]:
        yield from _question(question)
    for notice in reading["notices"]:
        yield f"  {notice['severity']}: {notice['message']}"


def _marked(method: Sequence[str], steps: Sequence[Mapping[str, Any]]) -> Iterator[str]:
    yield "Method"
    for number, paragraph in enumerate(method):
        marked = paragraph
        here = ((i, s) for i, s in enumerate(steps, 1) if s["method"] == number and s["end"])
        found = [(s["start"], s["end"], i) for i, s in here]
        for start, end, i in sorted(found, reverse=True):
            marked = f"{marked[:start]}[{i}: {marked[start:end]}]{marked[end:]}"
        yield f"  {marked}"


def step_words(step: Mapping[str, Any], source: Mapping[str, Any]) -> str:
    """A step in words, with how sure it is and what was assumed."""
    food = step["food"] if isinstance(step["food"], str) else ", ".join(step["food"])
    words = f"{step['kind'].replace('_', ' ')}: {food}"
    if "bath" in step:
        words += f" in {step['bath']}"
    if "duration_h" in step:
        words += f", {step['duration_h']:.3g} h"
    if "temperature_c" in step:
        words += f", {step['temperature_c']:g} °C"
    assumed = f"; assumed: {', '.join(source['assumed']).replace('_', ' ')}" if source["assumed"] else ""
    return f"{words} ({source['confidence']:.0%} sure{assumed})"


def _components(reading: Mapping[str, Any]) -> Iterator[str]:
    for component in reading["recipe"]["components"]:
        eaten = component.get("eaten_fraction")
        fate = "" if eaten is None else f", {eaten:.0%} of what is left is eaten"
        yield f"  {component['id']}{fate}"
        for line in reading["lines"]:
            if line["component"] == component["id"]:
                part = f" ({line['share']:.0%} of it)" if "share" in line else ""
                yield f"    {line['text']}{part}{' (assumed)' if line.get('assumed') else ''}"
    left = [line for line in reading["lines"] if line["component"] is None and line["reason"] != "a heading"]
    for line in left:
        yield f"  nowhere, {line['reason']}: {line['text']}"


def _question(question: Mapping[str, Any]) -> Iterator[str]:
    yield f"  {question['message']} ({question['swing_mg_per_serving']:.0f} mg a serving; {question['id']})"
    for choice in question["choices"]:
        mark = "*" if choice["choice"] == question["taken"] else " "
        mg = choice["sodium_mg_per_serving"]
        figure = "" if mg is None else f" {mg:.0f} mg"
        yield f"   {mark} {choice['choice']}: {choice['label']}{figure}"
