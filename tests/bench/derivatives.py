"""How nearly an answer is linear in what goes in: is the derivative enough in place of working it out again?

    python -m tests.bench.derivatives [--recipes 1000]

For every recipe the derivatives of what is eaten by the amount of each line are taken by a thousandth more of
it, in every draw. Then lines are changed, alone and all at once, and what the derivatives foretell of sodium
and of the other nutrients, likely and at the ends of the range, is held against the whole calculation. Told
apart by what the recipe does: nothing, heat and handling alone, or baths and pots, where salt moves. At last
the dataset's values of what rides along are changed instead, as another release would: there the derivatives
are by those values, and foretell what all changes at once come to.
"""

from __future__ import annotations

import argparse
import random
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from hypothesis import HealthCheck, Phase, given, seed, settings
from numpy.typing import NDArray
from saltledger.core.spread import ends
from saltledger.core.step_kinds import step_kinds
from saltledger.foods.dataset import bundled
from saltledger.foods.nutrients import NUTRIENTS
from saltledger.recipe.calculation import cook_listed
from saltledger.recipe.outcome import ResolvedIngredient
from saltledger.recipe.pool_rows import NUTRIENT_ROWS, OTHERS, ROW, SODIUM
from saltledger.recipe.variants import Variant

from ..recipe.kitchens import recipes as any_recipes

Eaten = NDArray[np.float64]
"""What is eaten, rows of a pool by draws."""

STEP = 1e-3
CHANGES = (-0.5, -0.1, 0.1, 0.5, 1.0)
MEATS = ("10060", "05062", "15015", "13000", "15018")
ROOTS, LEAVES = ("11124", "11352"), ("11109", "11457")


def canteen(count: int) -> Iterator[dict[str, Any]]:
    """Recipes as kitchens have them: meat or fish, its brine or cure, a pot with roots, a pan or an oven."""
    chance = random.Random(19)
    foods = bundled()
    meats = [code for code in MEATS if foods.get(code)]

    def grams(usual: float) -> float:
        return round(usual * chance.lognormvariate(0.0, 0.5), 1)

    def item(code: str, usual: float) -> dict[str, Any]:
        return {"food": code, "grams": grams(usual)}

    for _ in range(count):
        parts = [
            {"id": "meat", "ingredients": [item(chance.choice(meats), 1200)]},
            {"id": "bath", "ingredients": [item("14429", 2500), item("02047", 120), item("19335", 30)]},
            {"id": "pot", "ingredients": [item("14429", 3000), item("02047", 15), item("11282", 120)]},
            {"id": "roots", "ingredients": [item(chance.choice((*ROOTS, *LEAVES)), 700)]},
            {"id": "sauce", "ingredients": [item("04582", 30), item("16123", 20), item("02047", 3)]},
        ]
        chain: list[dict[str, Any]] = []
        cold = chance.choice(("brine", "soak", "marinate", None, None))
        if cold:
            times = {"duration_h": round(chance.uniform(1, 72), 1), "thickness_cm": chance.choice((2, 4, 7))}
            chain.append({"kind": cold, "food": "meat", "bath": "bath", **times})
        hot = chance.choice(("simmer", "boil", None, None))
        if hot:
            chain.append({"kind": hot, "food": ["meat", "roots"], "bath": "pot", "duration_h": 1.0})
        last = chance.choice(("roast", "fry", None))
        if last:
            chain.append({"kind": last, "food": "meat", "duration_h": 0.5})
        yield {"servings": chance.randint(2, 12), "components": parts, "steps": chain}


def arbitrary(count: int) -> list[dict[str, Any]]:
    """The recipes of the tests: any order of any steps, any amounts."""
    found: list[dict[str, Any]] = []

    @seed(19)
    @settings(
        max_examples=count,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(any_recipes())
    def take(document: dict[str, Any]) -> None:
        found.append(document)

    take()
    return found[:count]


def kind_of(document: Mapping[str, Any]) -> str:
    kinds = step_kinds()
    steps = [kinds[step["kind"]] for step in document["steps"]]
    if any(step.bath for step in steps):
        return "baths and pots"
    return "heat and handling" if steps else "no steps"


def eaten(variant: Variant) -> Eaten:
    return variant.cooked().eaten


@dataclass(frozen=True, slots=True, eq=False)
class Derived:
    """A recipe with its derivatives by the relative amount of each line, (lines, rows, draws)."""

    variant: Variant
    base: Eaten
    slopes: list[Eaten]

    @classmethod
    def of(cls, document: Mapping[str, Any]) -> Derived:
        variant = Variant.of(document, bundled())
        variant = variant.with_servings(variant.request.servings)
        base = eaten(variant)
        more = [eaten(_scaled(variant, {at: 1 + STEP})) for at in range(len(variant.listed))]
        return cls(variant, base, [(each - base) / STEP for each in more])

    def foretold(self, changes: Mapping[int, float]) -> Eaten:
        return self.base + sum(self.slopes[at] * by for at, by in changes.items())

    def worked_out(self, changes: Mapping[int, float]) -> Eaten:
        return eaten(_scaled(self.variant, {at: 1 + by for at, by in changes.items()}))


def _scaled(variant: Variant, factors: Mapping[int, float]) -> Variant:
    listed = tuple(
        _times(each, factors[at]) if at in factors else each for at, each in enumerate(variant.listed)
    )
    return replace(variant, listed=listed)


def _times(listed: ResolvedIngredient, factor: float) -> ResolvedIngredient:
    grams = listed.ingredient.grams
    if grams is None:
        return listed
    return replace(listed, ingredient=replace(listed.ingredient, grams=grams.scaled(factor)))


def off(foretold: Eaten, found: Eaten, least: Eaten) -> Eaten:
    """How far low, likely and high of each row are off, over the likely amount; least: what is nothing."""
    wanted, had = ends(foretold), ends(found)
    return np.asarray(np.abs(wanted - had) / np.maximum(found[:, :1], least[:, np.newaxis]))


def report(name: str, errors: list[float]) -> str:
    middle, most, worst = np.percentile(errors, (50, 95, 100))
    return f"{name:58}{len(errors):7}{middle:11.1e}{most:11.1e}{worst:11.1e}"


def of_releases(derived: Derived, chance: random.Random) -> float:
    """The largest error of likely amounts of what rides along, where the dataset's values of it are changed
    by up to a tenth: foretold from each food's change by itself."""
    variant = derived.variant
    codes = sorted({each.ingredient.food.code for each in variant.listed if each.ingredient.food})
    rows = np.array([row >= OTHERS.start for row in NUTRIENT_ROWS])
    changes = {code: np.where(rows, [1 + chance.uniform(-0.1, 0.1) for _ in rows], 1.0) for code in codes}

    def with_values(of: set[str]) -> Eaten:
        listed = tuple(_valued(each, changes) if _code(each) in of else each for each in variant.listed)
        return cook_listed(variant.request, listed, variant.foods).eaten

    alone = [with_values({code}) - derived.base for code in codes]
    foretold, found = derived.base + sum(alone), with_values(set(codes))
    least = _least(derived.base)
    places = NUTRIENT_ROWS[rows]
    gap = np.abs(foretold[places, 0] - found[places, 0])
    return float(np.max(gap / np.maximum(found[places, 0], least[places])))


def _code(listed: ResolvedIngredient) -> str:
    return listed.ingredient.food.code if listed.ingredient.food else ""


def _valued(listed: ResolvedIngredient, changes: Mapping[str, NDArray[np.float64]]) -> ResolvedIngredient:
    food = listed.ingredient.food
    assert food is not None
    return replace(
        listed,
        ingredient=replace(listed.ingredient, food=replace(food, values=food.values * changes[food.code])),
    )


def _least(base: Eaten) -> NDArray[np.float64]:
    """Amounts too small to matter: a millionth of what is eaten in grams, in the row's own unit."""
    return np.maximum(1e-6 * base[:, 0].max(), 1e-3) + np.zeros(len(base))


def main() -> None:
    parser = argparse.ArgumentParser(description="Hold derivatives against the whole calculation.")
    parser.add_argument("--recipes", type=int, default=1000)
    asked = parser.parse_args()
    chance = random.Random(5)
    many = asked.recipes * 6 // 10
    sodium, others, all_lines, releases = (defaultdict[str, list[float]](list) for _ in range(4))
    rows = np.array([ROW[nutrient.tag] for nutrient in NUTRIENTS if nutrient.tag != "NA"])
    for source, documents in (("kitchen", canteen(many)), ("any", arbitrary(asked.recipes - many))):
        for document in documents:
            derived = Derived.of(document)
            if derived.base[SODIUM, 0] <= 1:
                continue
            kind, least = f"{source}: {kind_of(document)}", _least(derived.base)
            line = chance.randrange(len(derived.slopes))
            for by in CHANGES:
                found = derived.worked_out({line: by})
                far = off(derived.foretold({line: by}), found, least)
                sodium[f"{kind}, one line {by:+.0%}"].append(float(far[SODIUM].max()))
                others[f"{kind}, one line {by:+.0%}"].append(float(far[rows].max()))
            changes = {at: chance.uniform(-0.1, 0.1) for at in range(len(derived.slopes))}
            far = off(derived.foretold(changes), derived.worked_out(changes), least)
            all_lines[f"{kind}, all lines by up to 10 %"].append(float(far[SODIUM].max()))
            releases[kind].append(of_releases(derived, chance))
    print(f"{'':58}{'tried':>7}{'median':>11}{'95 %':>11}{'worst':>11}")
    for what, found_in in (
        ("sodium", sodium),
        ("sodium", all_lines),
        ("worst of the other nutrients", others),
        ("another release, what rides along", releases),
    ):
        print(what)
        for name, errors in sorted(found_in.items()):
            print(report(f"  {name}", errors))


if __name__ == "__main__":
    main()
