"""The inverse: what weight, time or number of servings brings a serving to a wanted sodium."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.foods.dataset import bundled
from saltledger.recipe.reduction_options import lever_at, ranked_levers
from saltledger.recipe.sodium_goals import goal_of
from saltledger.recipe.target_search import crossing, target_answer
from saltledger.recipe.variants import Variant

from . import dishes
from .dishes import brined, item

SALT_LINE = "/components/1/ingredients/1"


def ask(vary: str, mg: float = 480, document: dict[str, Any] | None = None, **target: Any) -> dict[str, Any]:
    recipe = document or {**brined(), "servings": 6}
    wanted = target or {"sodium_mg_per_serving": mg}
    return target_answer({"recipe": recipe, "target": wanted, "vary": vary}, bundled())


def plate(**more: Any) -> dict[str, Any]:
    return {"servings": 1, "ingredients": [item(dishes.CHEESE, 100), item(dishes.SALT, 2)], **more}


@pytest.mark.parametrize(
    ("vary", "unit", "usual"),
    [(SALT_LINE, "g", 120), ("/steps/0/duration_h", "h", 96), ("/servings", "servings", 6)],
)
def test_a_target_in_reach_is_met(vary, unit, usual):
    answer = ask(vary)
    assert answer["reachable"]
    assert answer["unit"] == unit
    assert answer["calculation"]["sodium"]["per_serving_mg"]["likely"] == pytest.approx(480, rel=1e-3)
    assert (answer["value"] < usual) == (unit != "servings")


def test_the_value_put_back_gives_the_target():
    grams = ask(SALT_LINE)["value"]
    document = {**brined(salt_g=grams), "servings": 6}
    assert dishes.likely(document) / 6 == pytest.approx(480, rel=1e-3)


def test_desalting_is_turned_the_other_way():
    document = dishes.recipe(
        [dishes.part("cod", item(dishes.SALT_COD, 400)), dishes.part("water", item(dishes.WATER, 4000))],
        [dishes.step("soak", "cod", "water", duration_h=24, thickness_cm=1.5, temperature_c=4)],
        servings=4,
    )
    short, long = (ask("/steps/0/duration_h", mg, document)["value"] for mg in (2500, 900))
    assert short < long


def test_a_line_given_as_text_keeps_its_text():
    document = {"servings": 2, "ingredients": ["400 g carrots, raw", {"line": "10 g table salt"}]}
    answer = ask("/ingredients/1", 900, document)
    assert answer["reachable"]
    assert answer["calculation"]["ingredients"][1]["line"] == "10 g table salt"
    assert document["ingredients"][1] == {"line": "10 g table salt"}


@pytest.mark.parametrize("name", [None, "100 g sharp cheddar"])
def test_a_floor_names_what_stands_in_the_way(name):
    document = plate()
    if name:
        document["ingredients"][0]["line"] = name
    answer = ask("/ingredients/1", 480, document)
    assert not answer["reachable"]
    assert answer["floor_mg"] == pytest.approx(653)
    (notice,) = answer["notices"]
    assert notice["pointer"] == "/vary"
    assert (name or "Cheese, cheddar") in notice["message"]
    assert "653 mg" in notice["message"]


def test_more_than_can_be_is_not_reachable():
    answer = ask("/steps/0/duration_h", 50_000)
    assert not answer["reachable"]
    assert answer["ceiling_mg"] < 50_000
    assert "the most it comes to" in answer["notices"][0]["message"]


def test_percent_of_a_reference():
    assert goal_of({"reference": "fda_daily_value", "percent": 20}, None).wanted == pytest.approx(460)
    answer = ask(SALT_LINE, reference="fda_daily_value", percent=20)
    assert answer["calculation"]["sodium"]["per_serving_mg"]["likely"] == pytest.approx(460, rel=1e-3)


def test_an_unknown_reference_is_refused_with_those_known():
    with pytest.raises(InvalidRequest) as refused:
        ask(SALT_LINE, reference="moon", percent=20)
    (fault,) = refused.value.faults
    assert fault.pointer == "/target/reference"
    assert "fda_daily_value" in fault.message


@pytest.mark.parametrize(
    "vary",
    ["", "/title", "/ingredients/0", "/components/5/ingredients/0", "/components/1/ingredients/9",
     "/components/1/ingredients/-1", "/components/x/ingredients/0", "/steps/1/duration_h", "/steps/0/kind",
     "/steps/²/duration_h", "/components/1"],
)  # fmt: skip
def test_a_pointer_to_nothing_that_varies_is_refused(vary):
    with pytest.raises(InvalidRequest) as refused:
        lever_at(brined(), vary)
    assert [fault.pointer for fault in refused.value.faults] == ["/vary"]


def test_faults_of_the_recipe_point_into_the_recipe():
    document = brined()
    document["steps"][0]["bath"] = "sea"
    with pytest.raises(InvalidRequest) as refused:
        ask("/servings", document=document)
    assert [fault.pointer for fault in refused.value.faults] == ["/recipe/steps/0/bath"]


def test_levers_are_ranked_by_what_they_save():
    document = {**brined(), "servings": 6}
    found = ranked_levers(Variant.of(document, bundled()))
    assert [each["pointer"] for each in found] == [SALT_LINE, "/steps/0/duration_h"]
    saved = [each["saves_mg"] for each in found]
    assert saved == sorted(saved, reverse=True)
    halved = dishes.likely({**brined(salt_g=60), "servings": 6}) / 6
    assert saved[0] == pytest.approx(dishes.likely(document) / 6 - halved, rel=1e-3)
    assert found[0]["change"] == "Halve 'Salt, table'."


def test_asking_changes_nothing_in_the_recipe():
    document = brined()
    before = repr(document)
    ask(SALT_LINE, 900, document)
    assert repr(document) == before


def test_the_value_for_the_high_end_is_more_careful():
    answer = ask(SALT_LINE)
    assert answer["value_at_high"] < answer["value"]
    assert (answer["met_at_likely"], answer["met_at_high"]) == (True, False)
    careful = dishes.answered({**brined(salt_g=answer["value_at_high"]), "servings": 6})
    assert careful["sodium"]["per_serving_mg"]["high"] == pytest.approx(480, rel=1e-3)


@pytest.mark.parametrize("claim", ["low_sodium", "eu_low_sodium", "disclosure_level"])
def test_a_claim_is_met_at_its_limit(claim):
    answer = ask(SALT_LINE, claim=claim)
    (held,) = [each for each in answer["calculation"]["sodium"]["claims"] if each["id"] == claim]
    assert answer["met_at_likely"]
    assert held["met_at_likely"]
    assert answer["claim"]["id"] == claim
    assert held["amount_mg"]["likely"] == pytest.approx(held["limit_mg"], rel=1e-3)
    assert answer["met_at_high"] == held["met_at_high"]
    more = dishes.answered({**brined(salt_g=1.02 * answer["value"]), "servings": 6})
    assert not next(c for c in more["sodium"]["claims"] if c["id"] == claim)["met_at_likely"]


def test_a_limit_that_must_be_undercut_is_undercut():
    document = {"servings": 10, "ingredients": [item(dishes.CARROTS, 1), item(dishes.SALT, 5)]}
    answer = ask("/ingredients/1", document=document, claim="sodium_free")
    assert answer["met_at_likely"]
    assert answer["calculation"]["sodium"]["per_serving_mg"]["likely"] < 5


def test_a_claim_that_the_meat_itself_breaks_is_not_reachable():
    answer = ask(SALT_LINE, claim="very_low_sodium")
    assert not answer["reachable"]
    assert "above what the claim 'very_low_sodium' allows" in answer["notices"][0]["message"]


def test_an_unknown_claim_is_refused_with_those_known():
    with pytest.raises(InvalidRequest) as refused:
        ask(SALT_LINE, claim="healthy")
    (fault,) = refused.value.faults
    assert fault.pointer == "/target/claim"
    assert "low_sodium" in fault.message


def test_what_makes_no_difference_is_said():
    document = brined(absorption_factor=0.2)
    answer = ask("/steps/0/duration_h", 1, document)
    assert not answer["reachable"]
    assert "makes no difference" in answer["notices"][0]["message"]
    assert "leave out measured and stated values" in answer["notices"][0]["message"]


def changes(*lines: str, steps: Any = (), **more: Any) -> dict[str, dict[str, Any]]:
    """The levers of a dish of these lines, by their words."""
    document = {"servings": 4, "ingredients": list(lines), "steps": list(steps), **more}
    return {each["change"]: each for each in ranked_levers(Variant.of(document, bundled()))}


def test_an_unsalted_sibling_is_a_lever():
    found = changes("100 g salted butter", "1 litre chicken broth")
    assert "Take 'Butter, without salt' in place of 'Butter, salted'." in found
    assert any(change.startswith("Take") and "broth" in change for change in found)


def test_a_food_that_is_merely_near_is_no_sibling():
    assert not [change for change in changes("500 ml buttermilk", "1 tsp salt") if change.startswith("Take")]


def test_neither_curing_salt_nor_the_time_of_a_cure_is_a_lever():
    document = brined()
    document["components"][1]["ingredients"].append(item(dishes.CURING_SALT, 8))
    found = {each["change"] for each in ranked_levers(Variant.of(document, bundled()))}
    assert found == {"Halve 'Salt, table'. It is part of a cure: see that it stays one."}
    answer = ask("/components/1/ingredients/2", 20_000, document)
    assert answer["reachable"]
    assert "cure-nitrite-over-limit" in [notice["code"] for notice in answer["notices"]]


def test_half_the_dish_is_no_lever():
    found = changes("1 kg chicken drumsticks", "2 tsp table salt", "100 g feta")
    assert set(found) >= {"Halve '2 tsp table salt'.", "Halve '100 g feta'."}
    assert "Halve '1 kg chicken drumsticks'." not in found


def test_a_can_may_be_rinsed():
    found = changes("1 (15 oz) can chickpeas", "1 kg potatoes")
    (rinse,) = [each for change, each in found.items() if "rinse" in change.casefold()]
    assert rinse["pointer"] == "/ingredients/0"
    assert not changes("1 (15 oz) can chickpeas, drained and rinsed", "1 kg potatoes").keys() & {
        rinse["change"]
    }
    drained = {"kind": "drain", "food": "recipe"}
    again = changes("1 (15 oz) can chickpeas", steps=[drained])
    assert "Rinse 'recipe' after draining." in again
    assert not [
        c for c in changes("1 (15 oz) can chickpeas", steps=[{**drained, "rinsed": True}]) if "inse" in c
    ]


def test_a_broth_that_is_served_may_be_poured_away():
    document = dishes.recipe(
        [dishes.part("roots", item(dishes.CARROTS, 500)),
         dishes.part("broth", item(dishes.WATER, 1500), item(dishes.SALT, 20), eaten_fraction=0.5)],
        [dishes.step("boil", "roots", "broth", duration_h=0.4)],
        servings=4,
    )  # fmt: skip
    found = {each["change"]: each for each in ranked_levers(Variant.of(document, bundled()))}
    poured = found["Pour 'broth' away instead of serving it."]
    assert poured["pointer"] == "/components/1/eaten_fraction"
    document["components"][1]["eaten_fraction"] = 0
    assert poured["leaves_mg"] == pytest.approx(dishes.likely(document) / 4, rel=1e-4)


def test_salted_fish_may_soak_longer_or_in_more_waters():
    document = dishes.recipe(
        [dishes.part("cod", item(dishes.SALT_COD, 400)), dishes.part("water", item(dishes.WATER, 2000))],
        [dishes.step("soak", "cod", "water", duration_h=12, thickness_cm=2.5, temperature_c=4)],
    )
    found = {each["change"] for each in ranked_levers(Variant.of(document, bundled()))}
    assert "Change the water of 'cod' once more." in found
    assert "Soak 'cod' for 24 h, twice as long." in found


@pytest.mark.parametrize("shape", [lambda x: x - 3, lambda x: x**0.2 - 2, lambda x: 1 / (x + 1e-9) - 0.004,
                                   lambda x: 5 - x**3, lambda x: min(x, 900) - 899.9])  # fmt: skip
@pytest.mark.parametrize("start", [0.01, 1.0, 40.0, 5000.0])
def test_a_crossing_is_found_from_anywhere_in_few_turns(shape, start):
    asked = []

    def gap(value):
        asked.append(value)
        return shape(value)

    found = crossing(gap, (0.0, start, 1e6), 1e-6)
    assert abs(shape(found)) <= 1e-6
    assert len(asked) < 60


def test_no_crossing_is_none_and_a_jump_gives_the_side_below():
    assert crossing(lambda x: x + 1, (0.0, 1.0, 1e6), 1e-9) is None
    found = crossing(lambda x: -1.0 if x < 7 else 1.0, (0.0, 1.0, 1e6), 1e-9)
    assert found == pytest.approx(7)
    assert found < 7
