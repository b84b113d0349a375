"""What is offered to bring sodium down: the changes, what each saves, and what is never offered."""

import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.foods.dataset import bundled
from saltledger.recipe.reduction_options import MOST_LEVERS, WORTH_SAYING, lever_at, ranked_levers
from saltledger.recipe.variants import Variant

from .dishes import CARROTS, CURING_SALT, PORK, SALT, SALT_COD, WATER, brined, item, part, recipe, step

SALTED = {"servings": 4, "ingredients": ["500 g carrots", "2 tsp salt", "30 g salted butter"]}


def levers(document):
    return ranked_levers(Variant.of(document, bundled()))


def changes(document):
    return {each["change"]: each for each in levers(document)}


def sodium(document):
    return float(Variant.of(document, bundled()).cooked().sodium_per_serving_mg[0])


def test_each_change_saves_what_it_leaves_less_the_most_first():
    found = levers(SALTED)
    before = sodium(SALTED)
    assert found
    for each in found:
        assert each["saves_mg"] + each["leaves_mg"] == pytest.approx(before, rel=2e-3)
        assert each["saves_mg"] > WORTH_SAYING * before
    assert [each["saves_mg"] for each in found] == sorted((each["saves_mg"] for each in found), reverse=True)


def test_the_saltiest_line_is_halved_and_saves_half_of_itself():
    halved = changes(SALTED)["Halve '2 tsp salt'."]
    assert halved["pointer"] == "/ingredients/1"
    without = sodium({**SALTED, "ingredients": ["500 g carrots", "30 g salted butter"]})
    assert halved["saves_mg"] == pytest.approx((sodium(SALTED) - without) / 2, rel=2e-3)


def test_the_unsalted_food_of_the_same_name_is_offered_and_salt_itself_has_none():
    found = changes(SALTED)
    (butter,) = [change for change in found if change.startswith("Take ")]
    assert "without salt" in butter
    assert found[butter]["pointer"] == "/ingredients/2"
    assert not any("Take" in change and "Salt, table" in change.split(" in place of ")[1] for change in found)


def test_a_line_that_lists_next_to_nothing_is_no_lever():
    assert "Halve '500 g carrots'." not in changes(SALTED)


def test_most_of_the_dish_is_not_halved():
    """Half of the ham on a plate of ham is half a plate."""
    plate = {"servings": 2, "ingredients": ["500 g ham", "100 g carrots"]}
    assert not any(change.startswith("Halve '500 g ham'") for change in changes(plate))
    stew = {"servings": 2, "ingredients": ["200 g ham", "900 g carrots"]}
    assert any(change.startswith("Halve '200 g ham'") for change in changes(stew))


def test_canned_food_that_goes_in_as_it_is_can_be_drained_and_rinsed():
    stew = {"servings": 4, "ingredients": ["1 (400 g) can kidney beans", "500 g carrots"]}
    assert any(change.startswith("Drain and rinse") for change in changes(stew))
    done = {"servings": 4, "ingredients": ["1 (400 g) can kidney beans, drained and rinsed", "500 g carrots"]}
    assert not any(change.startswith(("Drain and rinse", "Rinse")) for change in changes(done))


def soaked(**more):
    return recipe(
        [part("cod", item(SALT_COD, 500)), part("water", item(WATER, 3000))],
        [step("soak", "cod", "water", duration_h=12, thickness_cm=2, temperature_c=3, **more)],
    )


def test_a_soak_is_made_longer_or_its_water_changed_once_more():
    found = changes(soaked(water_changes=1))
    assert found["Change the water of 'cod' once more."]["pointer"] == "/steps/0/water_changes"
    assert found["Soak 'cod' for 24 h, twice as long."]["pointer"] == "/steps/0/duration_h"
    assert not any("half as long" in change for change in found)


def test_a_brine_is_made_shorter():
    found = changes(brined())
    shorter = found["Leave 'loin' in 'brine' for 48 h, half as long."]
    assert shorter["pointer"] == "/steps/0/duration_h"


def test_a_pump_is_halved():
    pumped = recipe(
        [
            part("loin", item(PORK, 1000)),
            part("pickle", item(WATER, 1000), item(SALT, 100), eaten_fraction=0),
        ],
        [step("inject", "loin", "pickle", pump_percent=12)],
    )
    found = changes(pumped)["Pump 'loin' with 6 % of 'pickle', half as much."]
    assert found["pointer"] == "/steps/0/pump_percent"
    assert found["saves_mg"] > 0


def test_a_liquid_that_is_served_can_be_poured_away():
    served = brined()
    served["components"][1]["eaten_fraction"] = 0.5
    assert changes(served)["Pour 'brine' away instead of serving it."]["pointer"] == (
        "/components/1/eaten_fraction"
    )
    assert "Pour 'brine' away instead of serving it." not in changes(brined())


def test_a_cure_is_never_shortened_nor_its_agent_halved_and_its_salt_with_a_caution():
    cure = brined()
    cure["components"][1]["ingredients"].append(item(CURING_SALT, 6))
    found = changes(cure)
    assert not any("half as long" in change for change in found)
    halved = [change for change in found if change.startswith("Halve")]
    assert halved
    assert all(change.endswith("It is part of a cure: see that it stays one.") for change in halved)
    assert not any(found[change]["pointer"].endswith("/ingredients/2") for change in halved)
    assert not any("part of a cure" in change for change in changes(brined()))


def test_no_more_than_a_handful_is_told():
    many = {"servings": 4, "ingredients": [f"{n} g soy sauce" for n in range(40, 60)]}
    assert len(levers(many)) == MOST_LEVERS


NESTED = recipe(
    [part("a", item(CARROTS, 100), "5 g salt"), part("b", item(WATER, 900), item(SALT, 9))],
    [step("soak", "a", "b", duration_h=2)],
)


@pytest.mark.parametrize(
    ("pointer", "unit", "place"),
    [
        ("/servings", "servings", lambda document: document["servings"]),
        ("/steps/0/duration_h", "h", lambda document: document["steps"][0]["duration_h"]),
        ("/components/0/ingredients/1", "g", lambda document: document["components"][0]["ingredients"][1]),
        ("/components/1/ingredients/1", "g", lambda document: document["components"][1]["ingredients"][1]),
    ],
)
def test_a_lever_writes_its_value_into_a_copy(pointer, unit, place):
    lever = lever_at(NESTED, pointer)
    before = place(NESTED)
    changed = place(lever.applied(NESTED, 3.5))
    assert lever.unit == unit
    assert (changed["grams"] if unit == "g" else changed) == 3.5
    assert place(NESTED) == before
    if before == "5 g salt":
        assert changed["line"] == "5 g salt"


@pytest.mark.parametrize(
    "pointer",
    [
        "",
        "/title",
        "/steps/1/duration_h",
        "/steps/0/temperature_c",
        "/ingredients/0",
        "/components/2/ingredients/0",
        "/components/0/ingredients/2",
        "/components/0/ingredients/01",
        "/components/0/ingredients/-1",
    ],
)
def test_what_names_no_lever_is_refused_by_name(pointer):
    with pytest.raises(InvalidRequest) as fault:
        lever_at(NESTED, pointer)
    assert fault.value.faults[0].pointer == "/vary"
    assert repr(pointer) in fault.value.faults[0].message
