"""Temperatures: cold enough to cure in, hot enough to eat. Notices only, and never a promise of safety.

The figures are in `food_safety.csv` and `roast_times.csv` (US rules). A step knows the temperature of the
bath, pot or oven, not of the food inside: the notices say what to measure.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache

from ..findings import Notice, Severity
from ..tables import Row, load

COLD_STEPS = frozenset({"brine", "dry_cure", "marinate", "soak"})
COOK_STEPS = frozenset({"simmer", "boil", "steam", "roast", "fry"})

_DEFER = "Local codes and licensed practice come first."
_SHORT_H = 2.0
"""Hours that perishable food may stand outside the cold (USDA FSIS two-hour rule, from memory)."""


@dataclass(frozen=True, slots=True)
class SafeTemperature:
    """A temperature that a rule asks for, inside the food, and the minutes to stay or rest there."""

    food_class: str
    form: str
    temperature_c: float
    rest_min: float
    mark: str
    source: str

    @property
    def words(self) -> str:
        rest = f" and {self.rest_min:g} min rest" if self.rest_min else ""
        return f"{self.temperature_c:.1f} °C ({self.temperature_c * 1.8 + 32:.0f} °F){rest}"


@cache
def safe_temperatures() -> tuple[SafeTemperature, ...]:
    return load("food_safety", _temperature_of)


def safe_temperature(food_class: str, form: str) -> SafeTemperature | None:
    """What the rules ask for a class (fish_lean and fish_fatty count as fish) and form; None if nothing."""
    family = _family(food_class)
    return next((t for t in safe_temperatures() if (t.food_class, t.form) == (family, form)), None)


def hold_minutes(temperature_c: float) -> float | None:
    """Minutes to hold a whole roast at a temperature inside; between rows the longer; None if too cool."""
    reached = [minutes for celsius, minutes in _roast_times() if celsius <= temperature_c + 1e-9]
    return reached[-1] if reached else None


@lru_cache(maxsize=512)
def temperature_notices(
    step_kind: str, food_class: str, temperature_c: float | None, duration_h: float | None
) -> tuple[Notice, ...]:
    """What is to be said of a step's temperature; pointers are within the step.

    food_class: beef, pork, poultry, fish (lean or fatty); cheese, vegetables and others give none.
    """
    if safe_temperature(food_class, "whole") is None:
        return ()
    if step_kind in COLD_STEPS:
        return tuple(_cold(temperature_c, duration_h))
    if step_kind in COOK_STEPS:
        return tuple(_cooked(food_class, temperature_c, duration_h))
    return ()


def _cold(temperature_c: float | None, duration_h: float | None) -> Iterator[Notice]:
    cure, cold, hot = (_limit_c(form) for form in ("cure", "cold", "hot"))
    if temperature_c is None:
        yield _notice(
            "temperature-not-stated",
            "check",
            f"No temperature is given. In a brine or cure hold meat and fish below {cure:.1f} °C (40 °F). "
            f"{_DEFER}",
        )
    elif temperature_c < _limit_c("ice"):
        yield _notice(
            "food-may-freeze",
            "check",
            f"At {temperature_c:g} °C lean meat begins to freeze, and frozen food takes up next to nothing.",
        )
    elif temperature_c > cold and temperature_c < hot:
        is_short = duration_h is not None and duration_h <= _SHORT_H
        yield _notice(
            "held-too-warm",
            "check" if is_short else "stop",
            f"{temperature_c:g} °C is above {cold:.0f} °C (41 °F), in the range where bacteria grow. Hold "
            f"meat and fish below {cure:.1f} °C (40 °F); salt and nitrite do not make up for it, and no cure "
            f"rescues meat that has begun to spoil. {_DEFER}",
        )
    elif cure < temperature_c <= cold:
        yield _notice(
            "held-barely-cold",
            "check",
            f"{temperature_c:g} °C is inside cold holding ({cold:.0f} °C, 41 °F) but not below the "
            f"{cure:.1f} °C (40 °F) asked for curing and brining. {_DEFER}",
        )


def _cooked(food_class: str, temperature_c: float | None, duration_h: float | None) -> Iterator[Notice]:
    whole, ground = safe_temperature(food_class, "whole"), safe_temperature(food_class, "ground")
    assert whole is not None
    other = f"; ground, injected or tenderised {ground.words}" if ground else ""
    yield _notice(
        "cook-through",
        "info",
        f"Measure inside the thickest part: {_family(food_class)} in whole pieces {whole.words}{other} "
        f"({whole.source}). {_DEFER}",
    )
    if temperature_c is None or temperature_c >= whole.temperature_c:
        return
    held = hold_minutes(temperature_c) if _family(food_class) in {"beef", "pork"} else None
    if held is None:
        yield _notice(
            "cooked-too-cool",
            "stop",
            f"At {temperature_c:g} °C the food cannot come to {whole.words}, however long it stays. {_DEFER}",
        )
    elif duration_h is None or duration_h * 60 < held:
        yield _notice(
            "cooked-too-short",
            "stop",
            f"At {temperature_c:g} °C a whole roast is to be held {held:g} min once its centre is there (FDA "
            f"Food Code 3-401.11(B)); the step is shorter. {_DEFER}",
        )
    else:
        yield _notice(
            "cooked-by-time",
            "check",
            f"At {temperature_c:g} °C a whole roast, not injected, is to be held {held:g} min once its "
            f"centre is there (FDA Food Code 3-401.11(B)). The time to warm through comes on top: "
            f"measure. {_DEFER}",
        )


def _notice(code: str, severity: Severity, message: str) -> Notice:
    return Notice(code, severity, message, "/temperature_c")


def _family(food_class: str) -> str:
    return food_class.split("_", 1)[0]


def _limit_c(form: str) -> float:
    found = safe_temperature("any", form)
    assert found is not None
    return found.temperature_c


@cache
def _roast_times() -> tuple[tuple[float, float], ...]:
    return load("roast_times", lambda row: (_celsius(row["temperature_f"]), float(row["minutes"])))


def _temperature_of(row: Row) -> SafeTemperature:
    return SafeTemperature(
        row["food_class"],
        row["form"],
        _celsius(row["temperature_f"]),
        float(row["rest_min"]),
        row["mark"],
        row["source"],
    )


def _celsius(fahrenheit: str) -> float:
    return (float(fahrenheit) - 32) / 1.8
