"""What a recipe editor's system sends on a save: a brined dish of 15 lines, changed a little or much.

(a) the same body again; (b) one line's amount changed; (c) another recipe of lines that were seen before;
(d) a new amount in every line, all words seen before. Nothing is sent twice but in (a).
"""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from itertools import count
from typing import Any

LINES: dict[str, tuple[tuple[float, str], ...]] = {
    "loin": ((1.4, "{} kg boneless pork loin"),),
    "brine": (
        (3, "{} litres water"),
        (165, "{} g table salt"),
        (45, "{} g sugar"),
        (2, "{} tsp black peppercorns"),
    ),
    "roots": (
        (900, "{} g potatoes"),
        (4, "{} carrots, sliced"),
        (2, "{} onions, chopped"),
        (3, "{} tbsp olive oil"),
        (2, "{} cloves garlic, crushed"),
    ),
    "gravy": (
        (500, "{} ml chicken stock"),
        (2, "{} tbsp all-purpose flour"),
        (30, "{} g unsalted butter"),
        (1, "{} tbsp Dijon mustard"),
        (100, "{} ml heavy cream"),
    ),
}
"""By component, each line's usual amount and its words: 15 lines."""

STEPS = (
    {"kind": "brine", "food": "loin", "bath": "brine", "duration_h": 24, "temperature_c": 3,
     "thickness_cm": 7},
    {"kind": "drain", "food": "loin", "rinsed": True},
    {"kind": "roast", "food": "loin", "duration_h": 1.2, "temperature_c": 170},
    {"kind": "roast", "food": "roots", "duration_h": 0.8, "temperature_c": 200},
    {"kind": "simmer", "food": "gravy", "duration_h": 0.2, "temperature_c": 96},
)  # fmt: skip

VARIANTS = 12
"""Amounts of each line that have been seen before (c) begins."""


def recipe(amounts: dict[str, list[float]], number: int = 0) -> dict[str, Any]:
    """The dish with these amounts, by component in the order of LINES. number: what makes its title new."""
    components = [
        {
            "id": name,
            "ingredients": [
                words.format(f"{amount:g}")
                for amount, (_, words) in zip(amounts[name], LINES[name], strict=True)
            ],
        }
        for name in LINES
    ]
    title = f"Brined loin with roots, Tern Quay {number}".removesuffix(" 0")
    return {"title": title, "servings": 8, "components": components, "steps": [*map(dict, STEPS)]}


def usual_amounts() -> dict[str, list[float]]:
    return {name: [amount for amount, _ in lines] for name, lines in LINES.items()}


def body(document: dict[str, Any]) -> bytes:
    return json.dumps(document).encode()


UNCHANGED = body(recipe(usual_amounts()))


class Sender:
    """The bodies of each case in turn; what is new in one has been in none before. first: its number, which
    another sender has not come to."""

    def __init__(self, first: int = 1) -> None:
        self._random, self._numbers = random.Random(first), count(first)

    def seen(self) -> Iterator[bytes]:
        """What a service has seen before it is measured: every line in each of its VARIANTS."""
        yield UNCHANGED
        for variant in range(VARIANTS):
            yield body(recipe(_each(lambda amount, v=variant: amount + v * _unit(amount))))

    def next(self, case: str) -> bytes:
        """The next body of a case, "a" to "d"."""
        number = next(self._numbers)
        if case == "a":
            return UNCHANGED
        if case == "b":
            amounts = usual_amounts()
            amounts["brine"][1] += number / 1000
            return body(recipe(amounts))
        if case == "c":
            chosen = _each(lambda amount: amount + self._random.randrange(VARIANTS) * _unit(amount))
            return body(recipe(chosen, number))
        return body(recipe(_each(lambda amount: amount * (1 + (number + 0.5) / 10_000)), number))


def _each(change: Any) -> dict[str, list[float]]:
    return {name: [change(amount) for amount in amounts] for name, amounts in usual_amounts().items()}


def _unit(amount: float) -> float:
    """By how much seen amounts of a line differ."""
    return 0.1 if amount < 2 else 1 if amount < 10 else 5
