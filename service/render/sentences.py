"""How a figure came about: the chain from ingredient line to serving, as data and in plain sentences.

Numbers in sentences are written with a point and no separators, to four significant figures; formatting for a
language is the caller's.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, field
from typing import Any

from ..core.numbers import shown
from ..nutrition.dietary_references import daily_value, percent_of

SIGNIFICANT = 4
NEGLIGIBLE = 1e-3
"""A part this small of what is listed stands among the data, but has no sentence of its own."""


@dataclass(frozen=True, slots=True)
class Subject:
    """The nutrient that is explained: INFOODS tag, name in words and unit."""

    tag: str
    name: str
    unit: str


@dataclass(frozen=True, slots=True)
class Source:
    """One ingredient and its share in a nutrient, for the whole recipe.

    pointer: JSON Pointer to the line in the request. food_name: None where the line has no food. grams:
    likely weight, None where not known. per_100g: amount in 100 g of the food, None where not known.
    ended: how much of it ended in each place ("eaten" and others), in the nutrient's unit.
    """

    line: str
    component: str
    food_name: str | None
    food_code: str | None
    grams: float | None
    per_100g: float | None
    ended: Mapping[str, float] = field(default_factory=dict)
    pointer: str = ""

    @property
    def listed(self) -> float | None:
        """What the line brings in, None where weight or amount is not known."""
        if self.grams is None or self.per_100g is None:
            return None
        return self.grams * self.per_100g / 100

    @property
    def eaten(self) -> float | None:
        """What of it is eaten, None where it is not known what the line brings in."""
        return None if self.listed is None else self.ended.get("eaten", 0.0)


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
    Inputs stand in the order of the list, each with its share of the listed sum and what of it is eaten;
    these add up to what is eaten of the recipe. What is not known is None, as are sums where no line tells.
    Raises InvalidRequest for an unknown audience.
    """
    is_known = any(source.listed is not None for source in sources)
    listed = sum(source.listed or 0.0 for source in sources)
    per_serving = eaten / servings
    reference = daily_value(subject.tag, audience)
    document = {
        **asdict(subject),
        "inputs": [_input(source, listed, servings) for source in sources],
        "listed": listed if is_known else None,
        "movements": [asdict(movement) for movement in movements],
        "eaten": eaten if is_known else None,
        "servings": servings,
        "per_serving": per_serving if is_known else None,
        "daily_value": reference,
        "daily_value_percent": percent_of(per_serving, reference) if is_known and reference else None,
    }
    told = [_input_sentence(subject, source) for source in sources]
    if not is_known:
        told.append(f"No line tells its {_named(subject)}, so that of the dish is not known.")
    else:
        told += [
            _sum_sentence(subject, listed, sources),
            *(_movement_sentence(subject, each) for each in movements if each.amount > NEGLIGIBLE * listed),
            _eaten_sentence(subject, eaten, listed),
            *_serving_sentences(subject, per_serving, servings, reference),
        ]
    return {**document, "sentences": told}


def _told(value: float) -> str:
    return shown(value, SIGNIFICANT)


def _input(source: Source, listed: float, servings: float) -> dict[str, Any]:
    brought, eaten = source.listed, source.eaten
    return {
        **asdict(source),
        "listed": brought,
        "share_of_listed": brought / listed if brought is not None and listed > 0 else None,
        "eaten": eaten,
        "eaten_per_serving": None if eaten is None else eaten / servings,
    }


def _input_sentence(subject: Subject, source: Source) -> str:
    name, unit = _named(subject), subject.unit
    where = f"“{source.line}” ({source.component})"
    if source.food_name is None:
        return f"{where} was matched to no food, so that its {name} is not known and is left out."
    if source.grams is None:
        return f"{where} has no weight, so that its {name} is not known and is left out."
    if source.listed is None:
        return f"{where}: the dataset does not know the {name} of {source.food_name}; it is left out."
    return (
        f"{where}: {_told(source.grams)} g of {source.food_name}, {_told(source.per_100g or 0.0)} {unit} in "
        f"100 g, brings {_told(source.listed)} {unit}.{_end_sentence(subject, source, source.listed)}"
    )


def _end_sentence(subject: Subject, source: Source, listed: float) -> str:
    """What became of a line's amount, "" where all of it is eaten."""
    lost = [
        f"{_told(amount)} {subject.unit} {_FATES[place]}"
        for place, amount in source.ended.items()
        if place != "eaten" and amount > NEGLIGIBLE * listed
    ]
    if not lost:
        return ""
    return f" Of that {_told(source.eaten or 0.0)} {subject.unit} is eaten; {', '.join(lost)}."


_FATES = {
    "poured_away": "is poured away",
    "left_on_tray": "is left on the tray",
    "trimmed": "is trimmed off",
    "not_eaten": "is not eaten",
    "evaporated": "goes off as steam",
    "lost_to_heat": "is lost to heat",
}


def _named(subject: Subject) -> str:
    """The nutrient's name inside a sentence: a small letter, but for names such as that of vitamin C."""
    return subject.name[:1].lower() + subject.name[1:]


def _sum_sentence(subject: Subject, listed: float, sources: Sequence[Source]) -> str:
    left_out = sum(source.listed is None for source in sources)
    sentence = f"The list as written holds {_told(listed)} {subject.unit} of {_named(subject)}"
    return f"{sentence}, not counting {left_out} of {len(sources)} lines." if left_out else f"{sentence}."


def _movement_sentence(subject: Subject, movement: Movement) -> str:
    when = "When the dish is served" if movement.step is None else f"In step {movement.step + 1}"
    amount = f"{_told(movement.amount)} {subject.unit}"
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
    "tap": "the tap",
}


def _eaten_sentence(subject: Subject, eaten: float, listed: float) -> str:
    share = f", {percent_of(eaten, listed)} % of the list" if listed > 0 else ""
    return f"{_told(eaten)} {subject.unit} is eaten{share}."


def _serving_sentences(
    subject: Subject, per_serving: float, servings: float, reference: float | None
) -> Iterator[str]:
    yield f"Over {_told(servings)} servings that is {_told(per_serving)} {subject.unit} each."
    if reference is not None:
        percent = percent_of(per_serving, reference)
        yield f"That is {percent} % of the daily value of {_told(reference)} {subject.unit}."
