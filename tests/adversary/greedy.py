"""Bodies that ask for as much work as they can: every way in which a request's parts multiply.

Each maker takes a scale from 0 to 1 of what the schemas let through, and gives requests. What such a request
may cost is held by `test_greedy`, at a small scale by counting, and by `tests.bench.work` at full scale by
the processor's time and by memory.
"""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

WORDS = [
    "salt",
    "pork",
    "loin",
    "beef",
    "chicken",
    "broth",
    "sauce",
    "soy",
    "water",
    "sugar",
    "onion",
    "garlic",
    "fresh",
    "chopped",
    "dried",
    "ground",
    "large",
    "cup",
    "ounce",
    "can",
    "tablespoon",
    "black",
    "pepper",
    "olive",
    "oil",
    "of",
    "and",
    "or",
    "with",
    "half",
    "2",
    "1/2",
    "400",
    "g",
    "(about",
    "3)",
    "low-sodium",
]
COLD = ("brine", "marinate", "soak", "dry_cure")
HOT = ("simmer", "boil", "steam", "roast", "fry")
TARGET = {"sodium_mg_per_serving": 480}


@dataclass(frozen=True)
class Greedy:
    """A request that asks for much."""

    name: str
    path: str
    body: Any
    method: str = "POST"

    @property
    def data(self) -> bytes:
        return json.dumps(self.body, separators=(",", ":")).encode()


def of_scale(scale: float, seed: int = 1) -> Iterator[Greedy]:
    """Requests of every kind, each at `scale` of what it may be (0 to 1]."""
    rng = random.Random(seed)
    for name, recipe in recipes(scale, rng):
        yield Greedy(name, "/v1/calculations", recipe)
        yield Greedy(f"{name}, explained", f"/v1/calculations?explain={ALL_TAGS}&label=fda", recipe)
        for vary in ("/servings", "/components/0/ingredients/0", "/steps/0/duration_h"):
            body = {"recipe": recipe, "target": TARGET, "vary": vary}
            yield Greedy(f"{name}, target {vary}", "/v1/targets", body)
        yield Greedy(f"{name}, claim", "/v1/targets", {**body, "target": {"claim": "low_sodium"}})
        versions = [{"label": f"v{i}", "recipe": recipe} for i in range(10)]
        yield Greedy(f"{name}, compared", "/v1/comparisons", {"versions": versions})
    for name, lines in {"junk": junk(scale, rng), "wordy": wordy(scale, rng)}.items():
        yield Greedy(f"{name} lines", "/v1/lines", {"lines": lines})
        yield Greedy(f"{name} recipe", "/v1/calculations", {"servings": 4, "ingredients": lines})
    yield from faulty(scale)


ALL_TAGS = "WATER,ENERC,PROCNT,FAT,ASH,CHOCDF,FIBTG,SUGAR,CA,FE,MG,P,K,NA,ZN,CU,MN,VITC,THIA,RIBF,NIA"


def recipes(scale: float, rng: random.Random) -> Iterator[tuple[str, dict[str, Any]]]:
    """Recipes with many lines, many steps, many foods in a step, many waters, foods of their own."""
    foods, steps, waters = (max(1, round(most * scale)) for most in (49, 100, 50))
    for kind in COLD:
        yield f"{kind}: all foods", recipe(kind, foods, 1, waters)
        yield f"{kind}: all steps", recipe(kind, 1, steps, waters)
        yield f"{kind}: everything", recipe(kind, foods, steps, waters)
    for kind in HOT:
        yield f"{kind}: everything", recipe(kind, foods, steps, 0)
    yield "bricks in waters", recipe("soak", foods, 2, waters, shape="brick", length_cm=9, width_cm=8)
    full = recipe("brine", foods, max(1, steps // 10), 0)
    for component in full["components"]:
        component["ingredients"] = wordy(scale, rng)[: 500 // (foods + 1)]
    yield "lines and steps", full
    yield "own foods", own_foods(scale)


def recipe(kind: str, foods: int, steps: int, waters: int, **more: Any) -> dict[str, Any]:
    """One kind of step over and over, on all foods at once, in one bath that holds every solute."""
    names = [f"f{i}" for i in range(foods)]
    bath = ["3 l water", "150 g salt", "40 g sugar", {"food": "SL0001", "grams": 9}]
    step = {"kind": kind, "food": names, "bath": "b", "duration_h": 24, "thickness_cm": 6, **more}
    return {
        "servings": 4,
        "components": [
            {"id": "b", "ingredients": bath},
            *({"id": name, "ingredients": ["1 kg pork loin"]} for name in names),
        ],
        "steps": [step | ({"water_changes": waters} if waters else {}) for _ in range(steps)],
    }


def own_foods(scale: float) -> dict[str, Any]:
    """Foods of the caller's own, and lines that name them."""
    count = max(1, round(100 * scale))
    cups = [{"label": f"{n} cup packed", "grams": n} for n in range(1, 21)]
    food = {"per_100g": {"NA": 100, "WATER": 80}, "household": cups}
    return {
        "servings": 4,
        "components": [{"id": "a", "ingredients": [f"2 cups stock {i % count}" for i in range(5 * count)]}],
        "custom_foods": [{"code": f"c{i}", "name": f"stock {i}", **food} for i in range(count)],
        "steps": [{"kind": "simmer", "food": "a", "duration_h": 1}],
    }


def junk(scale: float, rng: random.Random) -> list[str]:
    """Lines of letters and signs in no order."""
    letters = "abcdefghijklmnopqrstuvwxyz     ,-/()12½"
    return ["".join(rng.choices(letters, k=490)) for _ in range(max(1, round(500 * scale)))]


def wordy(scale: float, rng: random.Random) -> list[str]:
    """Long lines of words that mean something one by one."""
    return [" ".join(rng.choices(WORDS, k=90))[:490] for _ in range(max(1, round(500 * scale)))]


def faulty(scale: float) -> Iterator[Greedy]:
    """Bodies with as many faults as fit."""
    many = max(1, round(500 * scale))
    unknown = [{f"lin{j}x{i}": 1 for j in range(60)} for i in range(many // 2)]
    yield Greedy("unknown fields", "/v1/calculations", {"servings": 1, "ingredients": unknown})
    names = [f"no{i}" for i in range(50)]
    steps = [{"kind": "boil", "food": names} for _ in range(max(1, many // 5))]
    components = [{"id": f"c{'x' * 60}{i}", "ingredients": ["1 g salt"]} for i in range(49)]
    faults = {"servings": 1, "components": components, "steps": steps}
    yield Greedy("unknown components", "/v1/calculations", faults)
    foods = [{"food": f"none{i}"} for i in range(many)]
    yield Greedy("unknown foods", "/v1/calculations", {"servings": 1, "ingredients": foods})
