"""Lines as kitchens write them, and all that is read of each: what a field does not say, it must not say."""

from __future__ import annotations

import csv
from dataclasses import fields
from pathlib import Path

import pytest
from saltledger.core.spread import Spread
from saltledger.lines import Line, Measure, read_line
from saltledger.lines.several import joined_lines

TEXT = Path(__file__).with_name("whole_lines.csv").read_text(encoding="utf-8")
LINES = list(csv.DictReader(line for line in TEXT.splitlines() if not line.startswith("# ")))


def figure(amount: Spread | None) -> str:
    if amount is None:
        return ""
    ends = {amount.low, amount.high}
    every = [amount.likely] if len(ends) == 1 else [amount.low, amount.likely, amount.high]
    return " to ".join(f"{round(each, 4):g}" for each in every)


def measure(each: Measure) -> str:
    return f"{figure(each.amount)} {each.unit}"


def further(line: Line) -> str:
    """Every field that says something, but for amount, unit and food."""
    words = {
        field.name: " | ".join(value) if isinstance(value, tuple) else value
        for field in fields(line)
        if field.name not in ("text", "amount", "unit", "food_words", "package", "measures", "flags")
        and (value := getattr(line, field.name))
    }
    if line.flags:
        words["flags"] = " ".join(sorted(line.flags))
    if line.package:
        words["package"] = measure(line.package)
    if line.measures:
        words["measures"] = " + ".join(map(measure, line.measures))
    return "; ".join(f"{name}: {said}" for name, said in words.items())


@pytest.mark.parametrize("row", LINES, ids=[row["line"] for row in LINES])
def test_a_line_says_all_this_and_nothing_else(row: dict[str, str]) -> None:
    line = read_line(row["line"])
    assert figure(line.amount) == row["amount"]
    assert (line.unit or "", line.food_words) == (row["unit"], row["food"])
    assert further(line) == row["more"]


def test_a_food_without_a_quantity_beside_one_that_has_it_gets_none() -> None:
    """The quantity is the first food's alone, unless it says "each"."""
    (pepper,) = joined_lines(read_line("1 tsp salt and pepper"))
    assert pepper.amount is None
    (flour,) = joined_lines(read_line("2 tbsp each butter and flour"))
    assert (figure(flour.amount), flour.unit) == ("2", "tablespoon")
    assert "no-quantity" not in flour.flags
    (onion,) = joined_lines(read_line("2 carrots and 1 onion"))
    assert (figure(onion.amount), onion.unit) == ("1", None)
