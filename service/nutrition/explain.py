"""How a figure came about: the chain from ingredient line to serving, as data and in plain sentences.

Numbers in sentences are written with a point and no separators, to four significant figures; formatting for a
language is the caller's.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from .reference_values import daily_value, percent_of

SIGNIFICANT = 4


@dataclass(frozen=True, slots=True)
class Subject:
    """The nutrient that is explained: INFOODS tag, name in words and unit."""

    tag: str
    name: str
    unit: str


@dataclass(frozen=True, slots=True)
class Source:
    """One ingredient and its share in a nutrient, for the whole recipe.

    grams: likely weight, None where not known. per_100g: amount in 100 g of the food, None where not known.
    eaten: what of it is eaten, in the nutrient's unit; None where the calculation cannot tell line from line.
    food_name: None where the line has no food. fate: what became of the rest, in words, "" where nothing.
    """

    line: str
    component: str
    food_name: str | None
    food_code: str | None
    grams: float | None
    per_100g: float | None
    eaten: float | None = None
    fate: str = ""

    @property
    def listed(self) -> float | None:
        """What the line brings in, None where weight or amount is not known."""
        if self.grams is None or self.per_100g is None:
            return None
        return self.grams * self.per_100g / 100


@dataclass(frozen=True, slots=True)
class Movement:
    """An amount that went from one place to another; step: its index, None when the dish is served."""

    source: str
    target: str
    step: int | None
    amount: float


def explain(
    subject: Subject,
    sources: Sequence[Source],
    *,
    eaten: float,
    servings: float,
    movements: Sequence[Movement] = (),
    audience: str | None = None,
) -> dict[str, Any]:
    """The chain of a nutrient: {tag, name, unit, inputs, listed, movements, eaten, servings, per_serving,
    daily_value, daily_value_percent, sentences}.

    eaten: the likely amount that is eaten of the whole recipe, in the subject's unit; servings: above 0.
    Inputs stand in the order of the list, each with its share of the listed sum. What is not known is None.
    Raises InvalidRequest for an unknown audience.
    """
    listed = sum(source.listed or 0.0 for source in sources)
    per_serving = eaten / servings
    reference = daily_value(subject.tag, audience)
    return {
        **asdict(subject),
        "inputs": [_input(source, listed) for source in sources],
        "listed": listed,
        "movements": [asdict(movement) for movement in movements],
        "eaten": eaten,
        "servings": servings,
        "per_serving": per_serving,
        "daily_value": reference,
        "daily_value_percent": None if reference is None else percent_of(per_serving, reference),
        "sentences": [
            *(_input_sentence(subject, source) for source in sources),
            _sum_sentence(subject, listed, sources),
            *(_movement_sentence(subject, movement) for movement in movements),
            _eaten_sentence(subject, eaten, listed),
            *_serving_sentences(subject, per_serving, servings, reference),
        ],
    }


def shown(value: float) -> str:
    """A number as it stands in a sentence: four significant figures, no exponent, no idle zeros."""
    rounded = float(f"{value:.{SIGNIFICANT}g}")
    text = f"{rounded:.10f}".rstrip("0").rstrip(".")
    return text or "0"


def _input(source: Source, listed: float) -> dict[str, Any]:
    brought = source.listed
    return {
        **asdict(source),
        "listed": brought,
        "share_of_listed": brought / listed if brought is not None and listed > 0 else None,
    }


def _input_sentence(subject: Subject, source: Source) -> str:
    name, unit = subject.name.lower(), subject.unit
    where = f"“{source.line}” ({source.component})"
    if source.food_name is None:
        return f"{where} was matched to no food, so that its {name} is not known and is left out."
    if source.grams is None:
        return f"{where} has no weight, so that its {name} is not known and is left out."
    if source.per_100g is None:
        return f"{where}: the dataset does not know the {name} of {source.food_name}; it is left out."
    sentence = (
        f"{where}: {shown(source.grams)} g of {source.food_name}, {shown(source.per_100g)} {unit} in 100 g, "
        f"brings {shown(source.listed or 0.0)} {unit}."
    )
    if source.eaten is not None and source.eaten != source.listed:
        sentence += (
            f" Of that {shown(source.eaten)} {unit} is eaten{f'; {source.fate}' if source.fate else ''}."
        )
    return sentence


def _sum_sentence(subject: Subject, listed: float, sources: Sequence[Source]) -> str:
    left_out = sum(source.listed is None for source in sources)
    sentence = f"The list as written holds {shown(listed)} {subject.unit} of {subject.name.lower()}"
    return f"{sentence}, not counting {left_out} of {len(sources)} lines." if left_out else f"{sentence}."


def _movement_sentence(subject: Subject, movement: Movement) -> str:
    when = "When the dish is served" if movement.step is None else f"In step {movement.step + 1}"
    amount = f"{shown(movement.amount)} {subject.unit}"
    return f"{when}, {amount} goes from {_place(movement.source)} to {_place(movement.target)}."


def _place(name: str) -> str:
    return _PLACES.get(name, f"“{name}”")


_PLACES = {
    "eaten": "the plate",
    "poured_away": "what is poured away",
    "left_on_tray": "what is left on the tray",
    "trimmed": "what is trimmed off",
    "not_eaten": "what is not eaten",
    "evaporated": "steam",
    "lost_to_heat": "what heat destroys",
}


def _eaten_sentence(subject: Subject, eaten: float, listed: float) -> str:
    share = f", {percent_of(eaten, listed)} % of the list" if listed > 0 else ""
    return f"{shown(eaten)} {subject.unit} is eaten{share}."


def _serving_sentences(
    subject: Subject, per_serving: float, servings: float, reference: float | None
) -> Iterator[str]:
    yield f"Over {shown(servings)} servings that is {shown(per_serving)} {subject.unit} each."
    if reference is not None:
        percent = percent_of(per_serving, reference)
        yield f"That is {percent} % of the daily value of {shown(reference)} {subject.unit}."
