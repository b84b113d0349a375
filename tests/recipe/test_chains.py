"""Chains of baths and pots, held draw by draw to a fine numerical solution of that draw's own physics.

The figures are the answer's assumptions, drawn again by their names, and the foods the dataset's; the balance
of solutes and water and Fick's law are written anew (`tests.transfer.numerical.together`): finite volumes,
dense exponential, no eigenmodes and no compartments. Sodium, potassium, sugar and weight of the likely case
and of a dozen draws agree within SHARE.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest
from saltledger.core.spread import draw
from saltledger.diffusion.geometry import Body
from saltledger.foods.dataset import bundled
from saltledger.foods.hand_kept import POTASSIUM_IN_KCL
from saltledger.recipe.pool_rows import ROW
from saltledger.recipe.pools import SALT_PER_SODIUM
from saltledger.recipe.steps.paces import free_shares
from saltledger.transfer.core_heat import Heating
from saltledger.transfer.food_kinds import partition_at_rest
from saltledger.transfer.pots import cooking_course
from saltledger.transfer.usual import behind_fat, usual_size, washed_out
from saltledger.transfer.warming import FLESH, warming_half_h
from saltledger.transfer.water_uptake import swelling_half_h

from tests.transfer.numerical import Lump, Steeped, together

from . import dishes
from .dishes import cooked, item, part, recipe, step

SHARE = 0.005
SOME = (0, 3, 17, 42, 60, 88, 101, 119, 140, 163, 181, 200)
MOST_FILM = 0.3
"""A film is never more than this share of a piece."""
FILM_PACE = 30.0
DRIEST = 0.05
GRAMS = {"NA": SALT_PER_SODIUM / 1000, "K": 1 / POTASSIUM_IN_KCL / 1000, "SUGAR": 1.0}
"""g that each solute weighs in its unit, sodium and potassium as chlorides."""
NAMES = {"NA": "salt", "K": "potassium", "SUGAR": "sugar"}
CELLS = {"vegetable", "dried_beans"}
"""Kinds of whose own sugar and potassium a pot does not reach all: intact_cells.csv."""


@dataclass(frozen=True)
class Food:
    """code, classes in the cold and in a pot (with its finer kind of yield), and the form of a piece."""

    code: str
    cold: str
    pot: str
    yields: str
    shape: str
    thickness_cm: float


PORK = Food(dishes.PORK, "pork", "meat", "meat/pork_loin", "sheet", 4.0)
FILLET = Food(dishes.PORK, "pork", "meat", "meat/pork_loin", "cylinder", 5.0)
CHICKEN = Food(dishes.CHICKEN, "poultry", "poultry", "poultry/meat", "sphere", 4.0)
POTATO = Food(dishes.POTATOES, "vegetable", "potato", "potato", "sheet", 2.0)
CARROT = Food(dishes.CARROTS, "vegetable", "vegetable", "vegetable", "cylinder", 2.0)
BEANS = Food("16032", "pulse", "dried_beans", "dried_beans", "sphere", 0.9)

IN_POTS = [("boil", 0.1, 1500, 30), ("simmer", 0.2, 900, 0), ("boil", 0.4, 900, 9)]
CASES: dict[str, tuple[Food, list[Any]]] = {
    "a sheet, three brines": (PORK, [("brine", 6, 2000, 200), ("brine", 30, 1500, 40), ("soak", 3, 3000, 0)]),
    "a cylinder, weak and strong in turn": (
        FILLET,
        [("brine", 0.5, 2000, 100), ("soak", 12, 2000, 0), ("brine", 1, 2000, 250), ("brine", 48, 4000, 60)],
    ),
    "spheres, little water": (CHICKEN, [("brine", 2, 900, 60), ("soak", 0.25, 900, 0), ("soak", 20, 900, 0)]),
    "brined, then two pots": (
        PORK,
        [("brine", 24, 2000, 120), ("simmer", 0.5, 2000, 0), ("boil", 1.5, 3000, 20)],
    ),
    "three pots, little water": (
        CHICKEN,
        [("simmer", 0.2, 700, 15), ("simmer", 0.5, 900, 0), ("boil", 2, 700, 5)],
    ),
    "a root in three pots": (CARROT, IN_POTS),
    "potatoes in three pots": (POTATO, IN_POTS),
    "dried beans in three pots": (
        BEANS,
        [("boil", 0.3, 4000, 0), ("simmer", 0.7, 4000, 30), ("boil", 1, 3500, 0)],
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_chain_agrees_in_every_draw(name: str) -> None:
    food, baths = CASES[name]
    parts, steps = [part("piece", item(food.code, 1000))], []
    for i, (kind, hours, water_g, salt_g) in enumerate(baths):
        salts = [item(dishes.SALT, salt_g / 2), item("SL0011", salt_g / 2)] if salt_g else []
        sugar = [item(dishes.SUGAR, 10)] if salt_g else []
        parts.append(part(f"bath{i}", item(dishes.WATER, water_g), *salts, *sugar, eaten_fraction=0))
        form = {"thickness_cm": food.thickness_cm, "shape": food.shape}
        steps.append(step(kind, "piece", f"bath{i}", duration_h=hours, **form))
    outcome = cooked(recipe(parts, steps))
    for column in SOME:
        chain = Chain(food, outcome, column)
        for i, (kind, hours, *_) in enumerate(baths):
            (chain.bathe if kind in ("brine", "soak") else chain.boil)(i, kind, hours)
        found = {tag: outcome.eaten[ROW[tag], column] for tag in (*NAMES, "WEIGHT", "WATER")}
        wanted = {tag: chain.total(tag) for tag in NAMES} | {"WEIGHT": chain.weight_g, "WATER": chain.water_g}
        assert found == pytest.approx(wanted, rel=SHARE, abs=0.02), column


class Chain:
    """One piece on its way through baths and pots, one draw. Grams, and mg of sodium and potassium."""

    def __init__(self, food: Food, outcome: Any, column: int) -> None:
        self.food, self.outcome, self.column = food, outcome, column
        self.weight_g = 1000.0
        self.water_g, self.fat_g = self._held("piece", "WATER"), self._held("piece", "FAT")
        self.film_g = self.drawn_g = self.in_g = self.gained_g = self.boiled_g = self.juice_g = 0.0
        self.kept = self.fat_kept = 1.0
        whole = {tag: self._held("piece", tag) for tag in NAMES}
        self.dry_g = self.weight_g - self.water_g - self.fat_g - self.grams(whole)
        self.cells: dict[str, Any] = whole
        self.shut, self.opened = dict.fromkeys(NAMES, 0.0), set[str]()
        self.lumps = {tag: [0.0, 0.0, 0.0] for tag in NAMES}
        """film, swelling and juice."""

    def _held(self, component: str, tag: str) -> float:
        own = [each for each in self.outcome.listed if each.component == component]
        return sum((each.ingredient.food.per_100g(tag) or 0) / 100 * each.grams for each in own)

    def figure(self, step: int, what: str, cause: str, **limits: float) -> float:
        """A draw of an assumption under the name of its cause."""
        id = f"step-{step}/piece/{what}"
        (found,) = [each for each in self.outcome.state.log if each.id == id]
        return float(draw(found.value, cause, **{"floor": 0.0, **limits})[self.column])

    @staticmethod
    def grams(amounts: dict[str, Any]) -> float:
        return sum(float(np.sum(amount)) * GRAMS[tag] for tag, amount in amounts.items())

    def total(self, tag: str) -> float:
        return float(np.sum(self.cells[tag])) + self.shut[tag] + sum(self.lumps[tag])

    @property
    def solutes_g(self) -> float:
        return sum(self.total(tag) * GRAMS[tag] for tag in NAMES)

    @property
    def fresh_g(self) -> float:
        """Solutes that no bath gave."""
        return self.solutes_g - self.gained_g

    def open(self, share: dict[str, float]) -> None:
        """Shut in what is bound or behind cells; more is opened by heat, and comes out evenly."""
        for tag in NAMES:
            if share[tag] < 1 and tag not in self.opened:
                self.opened.add(tag)
                whole = float(np.sum(self.cells[tag]))
                self.cells[tag], self.shut[tag] = whole * share[tag], whole * (1 - share[tag])

    def bath(self, step: int) -> tuple[float, dict[str, float]]:
        return self._held(f"bath{step}", "WATER"), {tag: self._held(f"bath{step}", tag) for tag in NAMES}

    def pass_solutes(
        self, step: int, *, paces: dict[str, float], water_g: float, lumps: list[Lump], bath_g: float
    ) -> float:
        """Let all solutes pass; gives the g that came in. lumps: their waters and rates."""
        _, in_bath = self.bath(step)
        before_g = self.solutes_g
        for tag in NAMES:
            piece = Steeped(self.food.shape, paces[tag], water_g, self.cells[tag])
            own = [
                Lump(each.water_g, each.rate, held) for each, held in zip(lumps, self.lumps[tag], strict=True)
            ]
            (self.cells[tag],), ended = together([piece], own, bath_g, in_bath[tag])
            self.lumps[tag] = list(ended)
        moved_g = self.solutes_g - before_g
        self.gained_g += moved_g
        return moved_g

    def bathe(self, step: int, kind: str, hours: float) -> None:
        """Stand in a cold bath."""
        food, cause = self.food, f"{self.food.cold}/{kind}"
        thickness = self.figure(step, "thickness", f"{food.cold}/thickness")
        salt = self.figure(step, "salt-diffusivity", f"{food.cold}/salt/diffusivity")
        self.open(self.free())
        lot = self.figure(step, "lot", f"{food.cold}/lot")
        at_rest = self.figure(step, "at-rest", f"{food.cold}/at-rest")
        # Trials tell what goes in at first: a higher rest goes with a slower pace.
        off = 1.0 if kind == "soak" else at_rest / partition_at_rest(food.cold).spread.likely
        at_rest *= 1 - self.behind_fat(step)
        per_m2_s = hours * lot * 3600 / (thickness / 200) ** 2 / off**2
        paces = {"NA": salt * per_m2_s}
        bath_g, in_bath = self.bath(step)
        for tag in ("K", "SUGAR"):
            is_there = self.total(tag) + in_bath[tag] > 0
            name = NAMES[tag]
            pace = (
                self.figure(step, f"{name}-diffusivity", f"{food.cold}/{name}/diffusivity")
                if is_there
                else salt
            )
            paces[tag] = pace * per_m2_s
        percent = self.figure(step, "pick-up", f"{cause}/pick-up", floor=-60.0)
        green_g = self.weight_g - self.gained_g - self.in_g
        gain_g = green_g * percent / 100
        own_g = self.water_g - self.in_g
        whole_g = self.grams(in_bath) + self.solutes_g - self.grams(self.shut)
        held_g, inside_g = self.fresh_g - self.grams(self.shut), own_g
        for _ in range(30):  # what goes in leaves the bath weaker by what water in the food holds more of
            strength = at_rest * whole_g / (bath_g + self.in_g + own_g + (at_rest - 1) * inside_g)
            inside_g = (own_g + gain_g + held_g) / (1 + strength)
        ends_g = gain_g - (strength * inside_g - held_g)
        surface = {"sheet": 2, "cylinder": 4, "sphere": 6}[food.shape] / thickness
        film_g = min(max(ends_g, 0.0), min(self.figure(step, "film", "film") * surface, MOST_FILM) * green_g)
        drawn_g = ends_g - film_g
        usual_cm = usual_size(food.cold).thickness_cm.spread.likely
        faster = self.figure(step, "swelling-pace", "swelling-pace")
        pace = np.log(2) * hours / swelling_half_h(food.cold, kind) * faster / (thickness / usual_cm) ** 2
        film_in = (film_g - self.film_g) * -np.expm1(-FILM_PACE * hours)
        drawn_in = (drawn_g - self.drawn_g) * -np.expm1(-pace)
        lumps = [
            Lump(at_rest * film_g, FILM_PACE * hours, 0),
            Lump(at_rest * max(drawn_g, 0.0), pace, 0),
            Lump(0, 0, 0),
        ]
        gained_g = self.in_g + self.gained_g
        more_g = gain_g - gained_g - (film_g - self.film_g)
        more_g = film_in + more_g * -np.expm1(-pace)
        room_g = bath_g + self.in_g - film_g - drawn_g
        water_g = at_rest * (own_g + min(drawn_g, 0.0))
        moved_g = self.pass_solutes(step, paces=paces, water_g=water_g, lumps=lumps, bath_g=room_g)
        self.film_g, self.drawn_g = self.film_g + film_in, self.drawn_g + drawn_in
        self.come_in(more_g - moved_g, moved_g)

    def behind_fat(self, step: int) -> float:
        """Share of the water that fat beyond that of lean keeps from a cold bath."""
        layers, food = behind_fat(self.food.cold), bundled().get(self.food.code)
        if layers is None:
            return 0.0
        over = ((food.per_100g("FAT") or 0.0) - layers.lean_fat) / (food.per_100g("WATER") or 1.0)
        return self.figure(step, "behind-fat", f"{self.food.cold}/behind-fat") * over if over > 0 else 0.0

    def free(self, cells: str = "") -> dict[str, float]:
        """Of each solute the share that is not bound in the food, nor held back by its cells in a pot."""
        own = 1.0
        if cells in CELLS:
            figure = washed_out(cells, hot=True)
            assert figure is not None
            own = float(draw(figure.spread, f"{cells}/cells/pot", floor=0.0, ceiling=1.0)[self.column])
        unbound, _ = free_shares(self.food.pot)
        return {t: float(unbound[ROW[t], self.column]) * (own if t != "NA" else 1.0) for t in NAMES}

    def come_in(self, water_g: float, solutes_g: float) -> None:
        self.in_g += water_g
        self.water_g += water_g
        self.weight_g += water_g + solutes_g

    def boil(self, step: int, kind: str, hours: float) -> None:
        """Stand in a pot: fat runs out, juice is pressed out, water goes in, solutes pass."""
        food = self.food
        self.open(self.free(food.pot))
        pace, fat_lost_g, to_press_g, drinks_g = self.goes(step, kind, hours)
        self.fat_g -= fat_lost_g
        self.weight_g -= fat_lost_g
        self.set_aside(to_press_g)
        pressed_g = max(to_press_g - self.grams({tag: self.lumps[tag][2] for tag in NAMES}), 0.0)
        partition = self.figure(step, "partition", f"{food.pot}/partition")
        salt = self.figure(step, "pot-time", f"{food.pot}/pot-time")
        bath_g, in_bath = self.bath(step)
        paces = {"NA": salt}
        for tag in ("K", "SUGAR"):
            is_there, name = self.total(tag) + in_bath[tag] > 0, NAMES[tag]
            paces[tag] = salt * (self.figure(step, f"{name}-pace", f"{name}/pot-pace") if is_there else 1.0)
        drawn_g = max(drinks_g - self.film_g, self.drawn_g)
        lumps = [
            Lump(partition * self.film_g, pace, 0),
            Lump(partition * max(drawn_g, 0.0), pace, 0),
            Lump(0.0, pace, 0),
        ]
        water_g = partition * (self.water_g - self.in_g + min(drawn_g, 0.0) - pressed_g)
        room_g = bath_g + self.in_g - self.film_g - drawn_g + pressed_g
        juice_g = self.grams({tag: self.lumps[tag][2] for tag in NAMES})
        moved_g = self.pass_solutes(step, paces=paces, water_g=water_g, lumps=lumps, bath_g=room_g)
        self.boiled_g += moved_g + juice_g - self.grams({tag: self.lumps[tag][2] for tag in NAMES})
        drawn_in, out_g = ((drawn_g - self.drawn_g), pressed_g)
        done = -np.expm1(-pace)
        self.drawn_g += drawn_in * done
        self.come_in((drawn_in - out_g) * done, moved_g)
        self.in_g += out_g * done
        self.juice_g = to_press_g * np.exp(-pace)

    def goes(self, step: int, kind: str, hours: float) -> tuple[float, float, float, float]:
        """pace, g of fat that run out, g of juice that are still to be pressed out, g of water it drinks."""
        course = cooking_course(self.food.yields, "pot")
        usual = draw(course.usual.weight, f"{self.food.yields}/yield", floor=0.02)[self.column]
        end = max(1 - (1 - usual) / course.far(course.usual_h), 0.02)
        fat_end = 1.0
        if course.usual.fat_kept.low < 1:
            kept = draw(course.usual.fat_kept, f"{self.food.yields}/fat-kept", floor=0.0, ceiling=1.0)[
                self.column
            ]
            fat_end = max(1 - (1 - kept) / course.far(course.usual_h), 0.0)
        half_h = course.half_h
        if self.food.pot in FLESH:
            body = Body(self.food.shape, self.food.thickness_cm)
            half_h = min(half_h, warming_half_h(body, Heating(kind, None, 0.0)))
        pace = np.log(2) * hours / half_h
        base_g = self.weight_g - self.boiled_g
        to_lose, fat_to_lose = (
            max(1 - end / self.kept, 0.0),
            float(np.clip(1 - fat_end / self.fat_kept, 0, 1)),
        )
        fat_g = self.fat_g * fat_to_lose
        stays_g = (1 + DRIEST) * self.dry_g + self.fat_g - fat_g
        whole_g = min(base_g * to_lose, max(base_g - stays_g, 0.0))
        fat_to_lose *= min(whole_g / max(fat_g, 1e-12), 1.0)
        lowest = min(self.kept * (1 - whole_g / base_g), self.kept)
        green_g = self.weight_g - self.gained_g - self.in_g
        drinks_g, juice_g = green_g * max(end - 1, 0.0), max(whole_g - self.fat_g * fat_to_lose, 0.0)
        fat_lost_g = self.fat_g * fat_to_lose * -np.expm1(-pace)
        self.kept = lowest + (self.kept - lowest) * np.exp(-pace)
        fat_lowest = min(fat_end, self.fat_kept)
        self.fat_kept = fat_lowest + (self.fat_kept - fat_lowest) * np.exp(-pace)
        return pace, fat_lost_g, juice_g, drinks_g

    def set_aside(self, juice_g: float) -> None:
        """Of all that is open a like part belongs to the juice that is still to come, or is given back."""
        more_g = juice_g - self.juice_g
        loose_g = self.water_g + self.solutes_g - self.grams(self.shut)
        share = more_g / max(loose_g - self.juice_g if more_g > 0 else self.juice_g, 1e-12)
        share = float(np.clip(share, -1, 1))
        for tag in NAMES:
            film, drawn, juice = self.lumps[tag]
            if share >= 0:
                moved = share * (film + drawn + float(np.sum(self.cells[tag])))
                self.lumps[tag] = [film * (1 - share), drawn * (1 - share), juice + moved]
                self.cells[tag] = np.asarray(self.cells[tag]) * (1 - share)
            else:
                self.lumps[tag][2] = juice * (1 + share)
                cells = np.asarray(self.cells[tag])
                self.cells[tag] = cells + (-share) * juice * _volumes(self.food.shape, cells.size)


def _volumes(shape: str, cells: int) -> Any:
    if cells == 1:
        return np.ones(1)
    edges = 1.0 - (1.0 - np.linspace(0.0, 1.0, cells + 1)) ** 2
    volumes = np.diff(edges ** {"sheet": 1, "cylinder": 2, "sphere": 3}[shape])
    return volumes / volumes.sum()
