"""Chains of cold baths, held draw by draw to a fine numerical solution of that draw's own physics.

The figures are the answer's assumptions, drawn again by their names, and the foods the dataset's; the balance
of salt and water and Fick's law are written anew (`tests.transfer.numerical.together`): finite volumes, dense
exponential, no eigenmodes and no compartments. The likely case and a dozen draws agree within SHARE.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pytest
from saltledger.core.spread import draw
from saltledger.recipe.pools import SALT_PER_SODIUM

from tests.transfer.numerical import Lump, Steeped, together

from . import dishes
from .dishes import cooked, item, part, recipe, step

SHARE = 0.005
SOME = (0, 3, 17, 42, 60, 88, 101, 119, 140, 163, 181, 200)
DENSITY_FREE_FILM = 0.3
"""A film is never more than this share of a piece."""


def figure(outcome, id, cause, **limits):
    """The draws of an assumption under the name of its cause."""
    (found,) = [each for each in outcome.state.log if each.id == id]
    return draw(found.value, cause, **{"floor": 0.0, **limits})


def held(outcome, component, tag):
    """What a component's ingredients hold, likely; all weights here are stated."""
    own = [each for each in outcome.listed if each.component == component]
    per_g = [1.0 if tag == "WEIGHT" else (each.ingredient.food.per_100g(tag) or 0) / 100 for each in own]
    return sum(g * each.grams for g, each in zip(per_g, own, strict=True))


@dataclass
class Chain:
    """One piece on its way through baths, one draw. Grams and mg."""

    kind: str
    piece_g: float
    water_g: float
    cells: Any
    film: Lump = field(default_factory=lambda: Lump(0.0, 0.0, 0.0))
    drawn: Lump = field(default_factory=lambda: Lump(0.0, 0.0, 0.0))
    film_g: float = 0.0
    drawn_g: float = 0.0
    in_g: float = 0.0
    """Water that baths gave."""

    @property
    def sodium_mg(self):
        return float(np.sum(self.cells) + self.film.held + self.drawn.held)

    @property
    def gained_g(self):
        """Solutes beyond those of the fresh piece."""
        return (self.sodium_mg - self.fresh_mg) / 1000 * SALT_PER_SODIUM

    fresh_mg: float = 0.0

    def bathe(self, hours, bath_g, bath_mg, *, figures, shape):
        """Stand in a bath."""
        ends_g = self.ends_g(bath_g, bath_mg, figures["pick_up"])
        surface = {"sheet": 2, "cylinder": 4, "sphere": 6}[shape] / figures["thickness_cm"]
        film_g = min(max(ends_g, 0.0), min(figures["film_cm"] * surface, DENSITY_FREE_FILM) * self.piece_g)
        drawn_g = ends_g - film_g
        pace = np.log(2) * hours / figures["half_h"]
        film_in, drawn_in = (
            (film_g - self.film_g) * -np.expm1(-30 * hours),
            (drawn_g - self.drawn_g) * -np.expm1(-pace),
        )
        room_g = bath_g + self.in_g - film_g - drawn_g
        fourier = figures["diffusivity"] * hours * 3600 / (figures["thickness_cm"] / 200) ** 2
        at_rest = figures["at_rest"]
        piece = Steeped(shape, fourier, at_rest * (self.water_g + min(drawn_g, 0.0)), self.cells)
        lumps = [
            Lump(at_rest * film_g, 30 * hours, self.film.held),
            Lump(at_rest * max(drawn_g, 0.0), pace, self.drawn.held),
        ]
        before, gained_g = self.sodium_mg, self.in_g + self.gained_g
        more_g = self.piece_g * figures["pick_up"] / 100 - gained_g - (film_g - self.film_g)
        more_g = film_in + more_g * -np.expm1(-pace)
        (self.cells,), ended = together([piece], lumps, room_g, bath_mg)
        self.film, self.drawn = Lump(0, 0, ended[0]), Lump(0, 0, ended[1])
        self.film_g, self.drawn_g = self.film_g + film_in, self.drawn_g + drawn_in
        self.in_g += more_g - (self.sodium_mg - before) / 1000 * SALT_PER_SODIUM

    def ends_g(self, bath_g, bath_mg, percent):
        """Water drawn in by the end of time: the gain in weight, less the solutes that come with it."""
        gain_g, gained_g = self.piece_g * percent / 100, self.gained_g
        whole_g = (bath_mg + self.sodium_mg) / 1000 * SALT_PER_SODIUM
        strength = whole_g / (bath_g + self.in_g + self.water_g)
        fresh_g = self.sodium_mg / 1000 * SALT_PER_SODIUM - gained_g
        return gain_g - (strength * (self.water_g + gain_g + fresh_g) / (1 + strength) - fresh_g)


CASES = {
    "a sheet through three baths": (
        dishes.PORK, "pork", "sheet", 4.0,
        [("brine", 6, 2000, 200), ("brine", 30, 1500, 40), ("soak", 3, 3000, 0)],
    ),
    "a cylinder, weak and strong in turn": (
        dishes.PORK, "pork", "cylinder", 5.0,
        [("brine", 0.5, 2000, 100), ("soak", 12, 2000, 0), ("brine", 1, 2000, 250), ("brine", 48, 4000, 60)],
    ),
    "chicken as spheres, little water": (
        dishes.CHICKEN, "poultry", "sphere", 4.0,
        [("brine", 2, 900, 60), ("soak", 0.25, 900, 0), ("soak", 20, 900, 0)],
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_a_chain_agrees_in_every_draw(name):
    code, kind, shape, thickness_cm, baths = CASES[name]
    parts = [part("piece", item(code, 1000))]
    steps = []
    for i, (step_kind, hours, water_g, salt_g) in enumerate(baths):
        salt = [item(dishes.SALT, salt_g)] if salt_g else []
        parts.append(part(f"bath{i}", item(dishes.WATER, water_g), *salt))
        measures = {"duration_h": hours, "thickness_cm": thickness_cm, "shape": shape, "temperature_c": 4}
        steps.append(step(step_kind, "piece", f"bath{i}", **measures))
    outcome = cooked(recipe(parts, steps))
    eaten = outcome.sodium_per_serving_mg
    for column in SOME:
        expected = expected_mg(outcome, kind, shape, baths, column)
        assert eaten[column] == pytest.approx(expected, rel=SHARE), column


def expected_mg(outcome, kind, shape, baths, column):
    chain = Chain(kind, 1000.0, held(outcome, "piece", "WATER"), held(outcome, "piece", "NA"))
    chain.fresh_mg = chain.sodium_mg
    usual_cm = {"pork": 5.0, "poultry": 2.6}[kind] if kind == "poultry" else 5.5
    for i, (step_kind, hours, *_) in enumerate(baths):
        figures = {
            "diffusivity": figure(outcome, f"step-{i}/piece/salt-diffusivity", f"{kind}/salt/diffusivity"),
            "thickness_cm": figure(outcome, f"step-{i}/piece/thickness", f"{kind}/thickness"),
            "film_cm": figure(outcome, f"step-{i}/piece/film", "film"),
            "pick_up": figure(outcome, f"step-{i}/piece/pick-up", f"{kind}/{step_kind}/pick-up", floor=-60.0),
            "at_rest": figure(outcome, f"step-{i}/piece/at-rest", f"{kind}/at-rest"),
        }
        figures = {name: float(draws[column]) for name, draws in figures.items()}
        half_h = {("pork", "brine"): 3, ("poultry", "brine"): 2}.get((kind, step_kind), 4)
        figures["half_h"] = half_h * (figures["thickness_cm"] / usual_cm) ** 2
        bath = held(outcome, f"bath{i}", "WATER"), held(outcome, f"bath{i}", "NA")
        chain.bathe(hours, *bath, figures=figures, shape=shape)
    return chain.sodium_mg
