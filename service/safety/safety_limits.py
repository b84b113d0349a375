"""The figures that safety rests on: temperatures to reach or keep, times to hold, and limits of other kinds.

All are rows of `food_safety.csv`, `lethality_times.csv` and `safety_limits.csv`: US rules, with sources.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from types import MappingProxyType

from ..core.numbers import shown, whole
from ..core.tables import Row, load

ROUNDED_C = 0.05
"""Rules are in whole degrees Fahrenheit; a caller's tenth of a degree Celsius may stand this much below."""


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
        rest = f" and {shown(self.rest_min)} min rest" if self.rest_min else ""
        return f"{shown(self.temperature_c, decimals=1)} °C ({whole(self.temperature_c * 1.8 + 32)} °F){rest}"


@dataclass(frozen=True, slots=True)
class Hold:
    """Minutes to stay at a temperature inside once the centre is there; `table` as in lethality_times."""

    table: str
    temperature_c: float
    minutes: float
    source: str

    @property
    def words(self) -> str:
        """The time as people say it."""
        if self.minutes >= 1:
            return f"{shown(self.minutes)} min"
        return f"{whole(self.minutes * 60)} s" if self.minutes else "no time"


@cache
def safe_temperatures() -> tuple[SafeTemperature, ...]:
    return load("food_safety", _temperature_of)


@lru_cache(maxsize=256)
def safe_temperature(food_class: str, form: str) -> SafeTemperature | None:
    """What the rules ask for a class (fish_lean and fish_fatty count as fish) and form; None if nothing."""
    family = family_of(food_class)
    return next((t for t in safe_temperatures() if (t.food_class, t.form) == (family, form)), None)


def family_of(food_class: str) -> str:
    """beef, pork, poultry, fish ... of a class that may say more (fish_fatty)."""
    return food_class.split("_", 1)[0]


def limit_c(form: str) -> float:
    """A temperature in °C for any food, by its form: cold, cure, hot, ice. A missing row is our fault."""
    found = safe_temperature("any", form)
    assert found is not None
    return found.temperature_c


def hold(table: str, temperature_c: float) -> Hold | None:
    """How long food is to stay at a temperature; between rows the longer; None if it is too cool for any.

    What is long enough for any poultry is long enough for a lean bird, whose own table has fewer rows.
    """
    reached = [
        row
        for name in tables_for(table)
        for row in holds(name)
        if row.temperature_c <= temperature_c + ROUNDED_C
    ]
    return min(reached, key=lambda row: row.minutes, default=None)


def tables_for(table: str) -> tuple[str, ...]:
    """The tables of lethality_times.csv that count where one is asked for."""
    return (table, "poultry") if table.endswith("_lean") else (table,)


def holds(table: str) -> tuple[Hold, ...]:
    """The rows of a table of lethality_times.csv, coolest first."""
    return _holds()[table]


def limit(id: str) -> float:
    """A figure of safety_limits.csv, in the unit that its row states. KeyError: there is no such row."""
    return _limits()[id]


@cache
def _holds() -> Mapping[str, tuple[Hold, ...]]:
    """By table, coolest first."""
    every = sorted(load("lethality_times", _hold_of), key=lambda row: row.temperature_c)
    tables = {row.table: tuple(each for each in every if each.table == row.table) for row in every}
    return MappingProxyType(tables)


@cache
def _limits() -> Mapping[str, float]:
    return MappingProxyType(dict(load("safety_limits", lambda row: (row["id"], float(row["value"])))))


def _hold_of(row: Row) -> Hold:
    return Hold(row["table"], _celsius(row["temperature_f"]), float(row["minutes"]), row["source"])


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
