"""Centres worked out from size, time and surroundings; measured cores; eggs raw, runny and cooked."""

import numpy as np
import pytest
from saltledger.core.spread import Spread
from saltledger.diffusion.geometry import Body
from saltledger.foods.dataset import bundled
from saltledger.recipe.core_temperatures import centre_courses
from saltledger.recipe.request import StepRequest
from saltledger.safety.centre import CentreCourse
from saltledger.transfer.core_heat import Heating, centre_course
from scipy.linalg import expm

from ..recipe.dishes import answered, codes, item, part, recipe, step

BEEF, CHICKEN, COD, PORK = "13023", "05062", "15015", "10060"
EGG, YOLK, OIL, SUGAR, MILK, FLOUR = "01123", "01125", "04582", "19335", "01077", "20081"
OF_CORE = {"core-not-reached", "cooked-too-short", "cooked-by-time", "core-to-be-held", "cooked-too-cool"}
OF_EGGS = {"raw-eggs-eaten", "eggs-runny", "eggs-undercooked"}


def by_cells(shape, biot, fourier, cells=400):
    """The centre's lag by finite volumes with Newton's law at the surface."""
    d = {"sheet": 1, "cylinder": 2, "sphere": 3}[shape]
    edges = np.linspace(0, 1, cells + 1)
    volumes = np.diff(edges**d) / d
    flows = edges[1:] ** (d - 1) * cells
    flows[-1] = 1 / (0.5 / cells + 1 / biot)
    rates = np.zeros((cells, cells))
    for i in range(cells):
        rates[i, i] -= flows[i] / volumes[i]
        if i + 1 < cells:
            rates[i, i + 1] += flows[i] / volumes[i]
            rates[i + 1, i] += flows[i] / volumes[i + 1]
            rates[i + 1, i + 1] -= flows[i] / volumes[i + 1]
    return (expm(rates * fourier) @ np.ones(cells))[0]


@pytest.mark.parametrize("shape", ["sheet", "cylinder", "sphere"])
@pytest.mark.parametrize(("hours", "thickness_cm"), [(0.2, 3.0), (1.0, 5.0), (3.0, 8.0)])
def test_the_centre_agrees_with_finite_volumes(shape, hours, thickness_cm):
    body, exact = Body(shape, thickness_cm), Spread.exact(thickness_cm)
    found = centre_course((Heating("sous_vide", 60.0, hours),), "beef", body, exact)
    l_m = thickness_cm / 200
    lag = by_cells(shape, 250 * l_m / 0.48, 1.3e-7 * hours * 3600 / l_m**2)
    assert found.likely_c[-1] == pytest.approx(60 - 54 * lag, abs=0.05)


@pytest.mark.parametrize(
    ("thickness_mm", "minutes"),
    [
        (5, 5),
        (10, 19),
        (15, 35),
        (20, 50),
        (25, 75),
        (30, 90),
        (35, 120),
        (40, 150),
        (50, 210),
        (60, 285),
        (70, 360),
    ],
)
def test_a_slab_in_a_warm_bath_is_warm_through_when_the_table_says(thickness_mm, minutes):
    """Baldwin, Int J Gastronomy Food Sci 1:15 (2012): minutes from 5 C to half a degree below a bath of
    60.5 C (from memory): inside the range, and not far from its slow end, for which the table is made."""
    cm = thickness_mm / 10
    found = centre_course(
        (Heating("sous_vide", 60.5, minutes / 60),), "beef", Body("sheet", cm), Spread.exact(cm)
    )
    assert found.slow_c[-1] <= 60.0 <= found.fast_c[-1]


def test_two_steps_of_heat_are_one_of_their_sum():
    def steps(*hours):
        return [
            StepRequest(index, "simmer", ("meat",), duration_h=each, temperature_c=90)
            for index, each in enumerate(hours)
        ]

    food = bundled().get(PORK)
    (once,) = centre_courses(steps(0.5), "pork", food).values()
    twice = centre_courses(steps(0.2, 0.3), "pork", food)[1]
    assert (twice.slow_c[-1], twice.fast_c[-1]) == (once.slow_c[-1], once.fast_c[-1])
    assert twice.minutes[-1] == pytest.approx(30)


def test_time_at_each_temperature_counts_by_what_is_asked_there():
    """Whole beef: 112 min at 54.4 C, 12 min at 60 C, at once from 70 C on."""

    def held(*courses):
        minutes, celsius = zip(*courses, strict=True)
        return CentreCourse(minutes, celsius, celsius, celsius).held("whole").likely

    assert held((0, 54.5), (112, 54.5)) == pytest.approx(1, rel=0.01)
    assert held((0, 54.5), (56, 54.5), (56, 60.1), (62, 60.1)) == pytest.approx(1, rel=0.01)
    assert held((0, 53), (1000, 53)) == 0
    assert held((0, 70.1), (1, 70.1)) > 100


def meat(food, kind, bath=None, grams=1000, **measures):
    pot = [part("pot", item("14429", 3000), eaten_fraction=0)] if bath else []
    document = recipe([part("meat", item(food, grams)), *pot], [step(kind, "meat", bath, **measures)])
    return {code: how for code, how in codes(answered(document)).items() if code in OF_CORE}


@pytest.mark.parametrize(
    ("food", "kind", "measures", "said"),
    [
        # Enough at the slow end, too short at the fast one, and between.
        (
            BEEF,
            "sous_vide",
            {"temperature_c": 57, "duration_h": 8, "thickness_cm": 4},
            {"cooked-by-time": "info"},
        ),
        (
            BEEF,
            "sous_vide",
            {"temperature_c": 57, "duration_h": 1.2, "thickness_cm": 8},
            {"cooked-too-short": "stop"},
        ),
        (
            BEEF,
            "sous_vide",
            {"temperature_c": 57, "duration_h": 2.6, "thickness_cm": 4},
            {"cooked-by-time": "check"},
        ),
        (
            CHICKEN,
            "sous_vide",
            {"temperature_c": 63, "duration_h": 4, "thickness_cm": 3},
            {"cooked-by-time": "info"},
        ),
        (CHICKEN, "sous_vide", {"temperature_c": 63, "duration_h": 4}, {"cooked-by-time": "check"}),
        # Hot around, but too thick for the time.
        (PORK, "simmer", {"duration_h": 0.3, "thickness_cm": 9}, {"core-not-reached": "stop"}),
        (PORK, "simmer", {"duration_h": 2.5, "thickness_cm": 9}, {}),
        (COD, "simmer", {"duration_h": 0.02, "thickness_cm": 4}, {"core-not-reached": "stop"}),
        (COD, "simmer", {"duration_h": 0.4, "thickness_cm": 2.5}, {}),
        (
            PORK,
            "roast",
            {"duration_h": 0.2, "temperature_c": 160, "thickness_cm": 9},
            {"core-not-reached": "check"},
        ),
        (PORK, "roast", {"duration_h": 2.2, "temperature_c": 180, "thickness_cm": 7}, {}),
        # Nothing is known of size or time: nothing is said.
        (PORK, "roast", {"temperature_c": 180}, {}),
        (PORK, "simmer", {"duration_h": 1}, {}),
        (BEEF, "fry", {"duration_h": 0.05}, {}),
        # A measured core goes before everything.
        (PORK, "roast", {"temperature_c": 160, "duration_h": 0.2, "core_temperature_c": 63}, {}),
        (CHICKEN, "roast", {"temperature_c": 180, "core_temperature_c": 66}, {"core-to-be-held": "check"}),
        (CHICKEN, "roast", {"temperature_c": 180, "core_temperature_c": 74}, {}),
        (CHICKEN, "roast", {"temperature_c": 180, "core_temperature_c": 50}, {"cooked-too-cool": "stop"}),
    ],
)
def test_cores_by_size_time_and_measurement(food, kind, measures, said):
    assert meat(food, kind, "pot" if kind == "simmer" else None, **measures) == said


def test_a_pot_that_is_colder_than_the_food_is_told_without_a_fault():
    boiled = [step("boil", "eggs", "pot", duration_h=0.2, temperature_c=1)]
    assert eggs("Boiled eggs", BOILED, *boiled) == {"eggs-runny": "check"}


def test_a_measured_core_needs_no_advice_to_measure():
    document = recipe([part("meat", item(PORK, 900))], [step("roast", "meat", core_temperature_c=65)])
    assert "cook-through" not in codes(answered(document))


def eggs(title, parts, *steps):
    answer = answered(recipe(parts, list(steps), title=title))
    found = {n["code"]: n["severity"] for n in answer["notices"] if n["code"] in OF_EGGS}
    assert all("Local codes" in n["message"] for n in answer["notices"] if n["code"] in OF_EGGS)
    return found


MAYONNAISE = [part("sauce", "2 egg yolks", item(OIL, 250), "1 tsp mustard")]
BOILED = [part("eggs", item(EGG, 300)), part("pot", item("14429", 2000), eaten_fraction=0)]
CUSTARD = [part("custard", item(EGG, 150), item(MILK, 500), item(SUGAR, 60))]


@pytest.mark.parametrize(
    ("title", "parts", "steps", "said"),
    [
        ("Quay mayonnaise", MAYONNAISE, [], {"raw-eggs-eaten": "check"}),
        (
            "Chocolate mousse",
            [part("mousse", item(EGG, 200), item(SUGAR, 90))],
            [],
            {"raw-eggs-eaten": "check"},
        ),
        ("Quay mayonnaise", [part("wash", "2 egg yolks", item(OIL, 250), eaten_fraction=0)], [], {}),
        ("Quay mayonnaise", [part("sauce", "2 pasteurised egg yolks", item(OIL, 250))], [], {}),
        ("Sponge", [part("batter", item(EGG, 200), item(SUGAR, 90), item(FLOUR, 120))], [], {}),
        (
            "Sponge",
            [part("batter", item(EGG, 200), item(FLOUR, 120))],
            [step("roast", "batter", duration_h=0.5)],
            {},
        ),
        ("Boiled eggs", BOILED, [step("boil", "eggs", "pot", duration_h=5 / 60)], {"eggs-runny": "check"}),
        ("Boiled eggs", BOILED, [step("boil", "eggs", "pot", duration_h=12 / 60)], {}),
        ("Soft-boiled eggs", BOILED, [step("boil", "eggs", "pot")], {"eggs-runny": "check"}),
        ("Boiled eggs", BOILED, [step("boil", "eggs", "pot")], {}),
        ("Eggs at 63", BOILED[:1], [step("sous_vide", "eggs", duration_h=0.75, temperature_c=63)], {}),
        (
            "Eggs at 58",
            BOILED[:1],
            [step("sous_vide", "eggs", duration_h=1, temperature_c=58)],
            {"eggs-undercooked": "check"},
        ),
        (
            "Eggs at 58, then in the oven",
            BOILED[:1],
            [
                step("sous_vide", "eggs", duration_h=1, temperature_c=58),
                step("roast", "eggs", duration_h=0.3, temperature_c=180),
            ],
            {},
        ),
        ("Custard", CUSTARD, [step("simmer", "custard", core_temperature_c=82)], {}),
        (
            "Custard",
            CUSTARD,
            [step("simmer", "custard", core_temperature_c=65)],
            {"eggs-undercooked": "check"},
        ),
    ],
)
def test_eggs(title, parts, steps, said):
    assert eggs(title, parts, *steps) == said
