"""A reading of a recipe in prose for people: the method marked, where lines went, the questions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ..core.numbers import shown, whole

_ASSUMED = {
    "duration_h": "how long it takes",
    "temperature_c": "how warm it is kept",
    "thickness_cm": "how thick the food is",
    "water": "how much water there is",
    "eaten_fraction": "what becomes of what is left",
    "pump_percent": "how much goes in",
    "yield_fraction": "how much stays",
}
"""Fields of a step in words, for what nobody states."""
_KINDS = {"dry_cure": "cure", "sous_vide": "cook in a bag"}
_SURE, _FAIRLY = 0.85, 0.7


def reading_lines(reading: Mapping[str, Any]) -> Iterator[str]:
    """A reading for people: the method with its phrases marked, the lines by component, the questions."""
    steps = reading["recipe"].get("steps", [])
    yield from _marked(reading["method"], reading["steps"])
    yield "\nSteps" if steps else "\nNo step moves salt; everything is eaten."
    for number, (step, source) in enumerate(zip(steps, reading["steps"], strict=True), 1):
        yield f"  [{number}] {step_words(step, source)}"
    yield "\nWhere the lines went"
    yield from _components(reading)
    if reading["questions"]:
        yield "\nQuestions, most sodium first (* as taken; answer with the word before the colon)"
    for question in reading["questions"]:
        yield from _question(question)
    if reading["notices"]:
        yield "\nNotices"
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
    """A step in words, how sure it is where that is not plain, and what was assumed."""
    doubt, assumed = doubt_words(source["confidence"]), assumed_words(source["assumed"])
    told = f"{done_words(step)}{f' ({doubt})' if doubt else ''}"
    return f"{told}; assumed: {assumed}" if assumed else told


def doubt_words(confidence: float) -> str:
    """How sure a reading is, where it is not plain."""
    return "" if confidence >= _SURE else "fairly sure" if confidence >= _FAIRLY else "a guess"


def assumed_words(fields: Sequence[str]) -> str:
    """What nobody states of a step, in words."""
    return ", ".join(_ASSUMED.get(field, field.replace("_", " ")) for field in fields)


def done_words(step: Mapping[str, Any]) -> str:
    """What is done in a step, in words."""
    names = [step["food"]] if isinstance(step["food"], str) else step["food"]
    kind = _KINDS.get(step["kind"], step["kind"].replace("_", " "))
    words = f"{kind.capitalize()}: {' and '.join(map(named, names))}"
    if "bath" in step:
        words += f" in {named(step['bath'])}"
    if "duration_h" in step:
        words += f", {hours_words(step['duration_h'])}"
    if "temperature_c" in step:
        words += f", {shown(step['temperature_c'])} °C"
    if step.get("water_changes"):
        words += f", water changed {step['water_changes']} times"
    if step.get("rinsed"):
        words += ", and rinsed"
    return words


def named(component: str) -> str:
    """What people call a component that a reading made."""
    return component.replace("-", " ")


def hours_words(hours: float) -> str:
    """A time as kitchens say it: 40 s, 20 min, 1 h 20 min, 3 days."""
    minutes = round(hours * 60)
    if minutes < 2:
        return f"{whole(hours * 3600)} s"
    if hours >= 48 and round(hours) % 24 == 0:
        return f"{round(hours) // 24} days"
    full, rest = divmod(minutes, 60)
    return " ".join(part for part in (f"{full} h" if full else "", f"{rest} min" if rest else "") if part)


def fate_words(eaten: float | None) -> str:
    """What becomes of what is left of a component."""
    if eaten is None:
        return ""
    if eaten <= 0:
        return "what is left is poured away or left behind"
    return "all of it is eaten" if eaten >= 1 else f"{eaten:.0%} of what is left is eaten"


def _components(reading: Mapping[str, Any]) -> Iterator[str]:
    for component in reading["recipe"]["components"]:
        fate = fate_words(component.get("eaten_fraction"))
        yield f"  {named(component['id'])}{f': {fate}' if fate else ''}"
        for line in reading["lines"]:
            if line["component"] == component["id"]:
                part = f" ({line['share']:.0%} of it)" if "share" in line else ""
                yield f"    {line['text']}{part}{' (assumed)' if line.get('assumed') else ''}"
    left = [line for line in reading["lines"] if line["component"] is None and line["reason"] != "a heading"]
    for line in left:
        yield f"  nowhere, {line['reason']}: {line['text']}"


def _question(question: Mapping[str, Any]) -> Iterator[str]:
    mg = question["swing_mg_per_serving"]
    yield f"  {question['message']} {whole(mg)} mg of sodium a serving hang on it. [{question['id']}]"
    for choice in question["choices"]:
        mark = "*" if choice["choice"] == question["taken"] else " "
        sodium = choice["sodium_mg_per_serving"]
        figure = "" if sodium is None else f" {whole(sodium)} mg"
        yield f"   {mark} {choice['choice']}: {choice['label']}{figure}"
