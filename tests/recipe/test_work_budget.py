from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.calculator import costs_of
from saltledger.config import Settings
from saltledger.core.checkpoint import watched
from saltledger.core.errors import InvalidRequest
from saltledger.core.tables import seed_foods
from saltledger.foods.dataset import bundled
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read
from saltledger.method.prose_documents import as_written
from saltledger.recipe import target_search
from saltledger.recipe.calculation import cook
from saltledger.recipe.reduction_options import MOST_TRIED
from saltledger.recipe.request import RecipeRequest
from saltledger.recipe.work_budget import allow, of_comparison, of_lines, of_prose, of_recipe, of_target

from ..adversary.greedy import TARGET, own_foods, recipe
from .kitchens import recipes

LIMIT_MS = Settings().work_ms


def milliseconds(costs) -> float:
    return sum(cost.ms for cost in costs)


def refusal(costs):
    with pytest.raises(InvalidRequest) as refused:
        allow(costs, LIMIT_MS)
    (fault,) = refused.value.faults
    return fault


@pytest.mark.parametrize(
    ("asked", "pointer", "remedy"),
    [
        (recipe("soak", 30, 2, 50), "/steps", "fewer of either"),
        (recipe("soak", 49, 1, 50), "/steps/0/water_changes", "49 foods in each of 51 waters"),
        (recipe("roast", 40, 99, 0), "/steps", "fewer steps"),
        ({"servings": 1, "ingredients": ["x" * 500] * 2000}, "/ingredients", "fewer or shorter"),
    ],
)
def test_what_asks_for_too_much_is_told_where_and_what_to_do(asked, pointer, remedy):
    fault = refusal(of_recipe(asked))
    assert fault.pointer == pointer
    assert remedy in fault.message


def test_a_choice_of_prose_costs_less_than_an_answer():
    soaked = recipe("soak", 2, 3, 4)
    answer, whole = milliseconds(of_recipe(soaked)), milliseconds(of_prose(soaked, 10))
    assert answer == pytest.approx(milliseconds(of_prose(soaked, 0)))
    assert answer < whole < 11 * answer
    assert refusal(of_prose(soaked, 500)).message.startswith("The request asks for")


def test_a_supper_with_six_questions_is_answered():
    written = {
        "title": "Lamb and salt cod, Tern Quay",
        "servings": 6,
        "ingredients": [
            "1 kg lamb, in cubes",
            "300 g thick yogurt",
            "2 tsp salt",
            "500 g salt cod",
            "800 g potatoes",
        ],
        "method": [
            "Stir the yogurt and salt. Add the lamb and chill overnight.",
            "Soak the cod in cold water for 24 hours, changing the water three times. Drain.",
            "Shake the marinade off the lamb and grill it. Boil the potatoes in salted water and drain.",
            "Flake the cod over the potatoes. Salt to taste.",
        ],
    }
    reading = read(written_of(written))
    assert len(reading.questions) >= 5
    allow(costs_of({**reading.recipe, "written": as_written(reading.written)}), LIMIT_MS)


def test_pointers_go_down_into_targets_comparisons_and_lines():
    large = recipe("soak", 49, 1, 50)
    found = refusal(of_target({"recipe": large, "target": TARGET, "vary": "/servings"}))
    assert found.pointer == "/recipe/steps/0/water_changes"
    versions = [{"label": "a", "recipe": recipe("soak", 1, 1, 0)}, {"label": "b", "recipe": large}]
    assert (
        refusal(of_comparison({"versions": versions})).pointer == "/versions/1/recipe/steps/0/water_changes"
    )
    assert refusal([of_lines(["x" * 500] * 2000)]).pointer == "/lines"


def test_what_kitchens_ask_for_is_far_below_the_limit():
    demo = json.loads(seed_foods().joinpath("demo_recipe.json").read_text("utf-8"))
    assert milliseconds(of_recipe(demo)) < LIMIT_MS / 10
    assert milliseconds(of_target({"recipe": demo, "target": TARGET, "vary": "/servings"})) < LIMIT_MS
    allow(of_comparison({"versions": [{"label": "v", "recipe": demo}] * 10}), LIMIT_MS)
    allow(
        of_recipe({"servings": 1, "ingredients": ["2 tbsp olive oil, and a little more to finish"] * 500}),
        800,
    )


@given(recipes(), st.sampled_from(["steps", "components"]))
def test_more_of_anything_costs_more(document, part):
    more = {**document, part: [*document[part], *document[part]]}
    assert milliseconds(of_recipe(document)) <= milliseconds(of_recipe(more))


def checkpoints(request) -> int:
    passed = []
    with watched(lambda: passed.append(1)):
        cook(RecipeRequest.from_document(request), bundled())
    return len(passed)


@pytest.mark.parametrize("kind", ["soak", "brine", "simmer"])
def test_work_can_be_stopped_at_every_line_step_and_water(kind):
    waters = 4 if kind in ("soak", "brine") else 0
    lines, steps = 4 + 2, 3
    assert checkpoints(recipe(kind, 2, steps, waters)) >= lines + steps + (steps * waters)


def test_a_search_works_out_no_more_trials_than_it_is_charged_for(monkeypatch):
    tried = []
    once = target_search.Variant.cooked
    monkeypatch.setattr(
        target_search.Variant, "cooked", lambda self, **how: tried.append(1) or once(self, **how)
    )
    document = recipe("soak", 1, 20, 1)
    target_search.target_answer(
        {"recipe": document, "target": TARGET, "vary": "/components/0/ingredients/1"}, bundled()
    )
    assert len(tried) <= target_search.MOST_TRIALS + MOST_TRIED + 2


def test_foods_of_ones_own_cost_by_lines_that_may_name_them():
    own = own_foods(1)
    none = {**own, "custom_foods": []}
    assert milliseconds(of_recipe(own)) > 1.2 * milliseconds(of_recipe(none))
