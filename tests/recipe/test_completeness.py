"""No claim on salt that was not counted, and no figure that passes for a whole one."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.recipe.completeness import WORDS
from saltledger.recipe.may_hold import WORTH_COUNTING_MG

from . import dishes
from .dishes import answered, item, part, recipe, step

READ = ("500 g chicken breast", "200 g carrots", "1 tbsp olive oil", "300 g potatoes", "2 tbsp brown sugar")
UNREADABLE = ("xyzzyqwv", "as my aunt has it: the usual", "???", "2 slabs of grumblewort")
UNMAPPED = ("300 g xyzzyqwv", "2 tbsp plinthian cheese", "1 kg salted quorble", "40 g ham of the grumble")
UNWEIGHED = ("salt to taste", "soy sauce", "capers", "feta", "stock", "Salt and pepper", "3 splodges of miso")


def plain(*lines, servings=4, **more):
    return answered({"servings": servings, "ingredients": list(lines), **more})


def gaps(answer):
    return {gap["line"]: gap for gap in answer["sodium"]["uncounted"]}


def is_said(answer):
    """Whether an answer says of itself everywhere that it is incomplete."""
    sodium = answer["sodium"]
    judged = {claim["met"] for claim in sodium["claims"]} | {
        claim["met_at_high"] for claim in sodium["claims"]
    }
    return not sodium["complete"] and sodium["uncounted"] and judged <= {None}


def test_a_recipe_that_was_read_whole_is_complete_and_judged():
    sodium = plain("500 g chicken breast", "1 tsp table salt")["sodium"]
    assert sodium["complete"] is True
    assert sodium["uncounted"] == []
    assert sodium["counted_per_serving_mg"] == sodium["per_serving_mg"]["likely"]
    assert {claim["judgement"] for claim in sodium["claims"]} <= {"met", "not met"}


@pytest.mark.parametrize("line", [*UNREADABLE, *UNMAPPED, *UNWEIGHED])
def test_one_line_that_was_not_counted_is_enough(line):
    answer = plain(*READ, line)
    assert is_said(answer)
    assert {claim["judgement"] for claim in answer["sodium"]["claims"]} == {"cannot be assessed"}
    assert "incomplete" in {notice["code"] for notice in answer["notices"]}


def test_salt_to_taste_is_counted_by_its_prior_and_bounded_by_the_dish():
    small, large = plain("500 g carrots", "salt"), plain("5 kg carrots", "salt", servings=40)
    salty = gaps(small)["salt"]
    assert salty["reason"] == "no_amount"
    assert 0 < salty["low_mg"] < salty["likely_mg"] < salty["high_mg"]
    assert gaps(large)["salt"]["high_mg"] < 0.005 * 10_000 * 1000
    assert gaps(large)["salt"]["high_mg"] > 5 * salty["high_mg"]


def test_likely_is_what_was_counted_and_the_likely_of_the_priors():
    answer = plain("500 g chicken breast", "soy sauce", "100 g plinthian cheese", servings=2)
    sodium, found = answer["sodium"], gaps(answer).values()
    each = {end: sum(gap[f"{end}_mg"] for gap in found) / 2 for end in ("low", "likely", "high")}
    counted = sodium["counted_per_serving_mg"]
    assert sodium["per_serving_mg"]["likely"] == pytest.approx(counted + each["likely"])
    assert sodium["per_serving_mg"]["low"] <= counted + each["low"] + 1e-6
    assert sodium["per_serving_mg"]["high"] >= counted + each["high"] - 1e-6
    assert answer["per_serving"]["nutrients"]["NA"]["high"] == sodium["per_serving_mg"]["high"]


def test_nothing_known_is_no_zero():
    sodium = plain("xyzzyqwv", "a handful of grumblewort")["sodium"]
    assert sodium["per_serving_mg"]["high"] > 100
    assert sodium["counted_per_serving_mg"] == 0


def test_nothing_counted_is_no_zero_however_little_it_may_be():
    sodium = plain("Wheat flour", "Water", servings=1)["sodium"]
    assert not sodium["complete"]
    assert sodium["per_serving_mg"]["high"] > 0


def test_left_out_as_asked_is_not_counted_either():
    answer = plain("500 g carrots", "salt", settings={"no_quantity": "leave_out"})
    assert gaps(answer)["salt"]["reason"] == "left_out"
    assert answer["sodium"]["per_serving_mg"]["likely"] == answer["sodium"]["counted_per_serving_mg"]
    assert is_said(answer)


def test_plus_more_to_taste_may_be_more():
    answer = plain("500 g carrots", "1 tsp table salt, plus more to taste")
    assert next(iter(gaps(answer).values()))["reason"] == "more_to_taste"


def test_a_food_of_unknown_sodium_is_not_free_of_it():
    own = {"code": "own", "name": "Own", "per_100g": {"ENERC": 100}}
    answer = answered({"servings": 1, "ingredients": [item("own", 100)], "custom_foods": [own]})
    assert answer["sodium"]["uncounted"][0]["reason"] == "sodium_not_known"
    assert "NA" not in answer["per_serving"]["nutrients"]


def test_what_is_not_eaten_need_not_be_known():
    assert plain("500 g carrots", {"line": "rock salt", "eaten_fraction": 0})["sodium"]["complete"]


def test_tools_and_water_are_let_be():
    assert plain("500 g carrots", "1 cheesecloth", "water", "ice cubes")["sodium"]["complete"]


def test_the_least_lines_are_let_be_only_while_they_are_insignificant_together():
    herbs = ["fresh parsley", "thyme", "bay leaves"]
    answer = plain("500 g carrots", *herbs)
    assert answer["sodium"]["complete"]
    many = plain("500 g carrots", *(["0.1 g xyzzyqwv"] * 40), servings=1)
    dropped = 40 - len(many["sodium"]["uncounted"])
    assert 0 < dropped * 1.3 <= WORTH_COUNTING_MG


def test_the_uncounted_go_where_their_component_goes():
    """Salt without an amount in a brine that is poured away is not eaten whole."""

    def brined(*bath):
        parts = [part("loin", item(dishes.PORK, 1000)), part("brine", item(dishes.WATER, 2000), *bath)]
        return answered(
            recipe(parts, [step("brine", "loin", "brine", duration_h=24, thickness_cm=5, temperature_c=3)])
        )

    answer = brined("salt")
    gap = answer["sodium"]["uncounted"][0]
    bare = brined()["sodium"]["per_serving_mg"]["likely"]
    assert answer["sodium"]["counted_per_serving_mg"] == pytest.approx(bare)
    assert bare < answer["sodium"]["per_serving_mg"]["likely"] < bare + 0.5 * gap["likely_mg"]


def test_a_pot_of_unknown_fate_is_not_complete():
    parts = [
        part("loin", item(dishes.PORK, 1000)),
        part("pot", item(dishes.WATER, 3000), item(dishes.SALT, 30)),
    ]
    steps = [step("simmer", "loin", "pot", duration_h=1.5, thickness_cm=6)]
    sodium = answered(recipe(parts, steps))["sodium"]
    assert [(gap["pointer"], gap["reason"]) for gap in sodium["uncounted"]] == [
        ("/components/1", "fate_not_known")
    ]
    assert sodium["per_serving_mg"]["high"] >= 11_000
    parts[1]["eaten_fraction"] = 0
    assert answered(recipe(parts, steps))["sodium"]["complete"]


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.sampled_from(READ), max_size=4),
    st.sampled_from([*UNREADABLE, *UNMAPPED, *UNWEIGHED]),
    st.integers(0, 4),
    st.sampled_from(("short form", "food", "pot", "plain part")),
    st.sampled_from((1, 4, 50)),
)
def test_no_claim_is_met_beside_a_line_that_was_not_counted(read, line, at, where, servings):
    lines = [*read[:at], line, *read[at:]]
    if where == "short form":
        document = {"servings": servings, "ingredients": lines}
    else:
        parts = {"food": [item(dishes.PORK, 900)], "pot": [item(dishes.WATER, 3000)], "plain part": []}
        components = [
            part(name, *own, *(lines if name == where else ["50 g carrots"])) for name, own in parts.items()
        ]
        components[1]["eaten_fraction"] = 1
        pot = step("simmer", "food", "pot", duration_h=1, thickness_cm=4)
        document = recipe(components, [pot]) | {"servings": servings}
    answer = answered(document)
    assert is_said(answer)
    assert answer["sodium"]["per_serving_mg"]["high"] > answer["sodium"]["counted_per_serving_mg"]
    assert all(gap["reason"] in WORDS and gap["high_mg"] > 0 for gap in answer["sodium"]["uncounted"])


@pytest.mark.parametrize(("line", "most_mg"), [("1 pinch moonshade", 250), ("1 tsp moonshade", 2600)])
def test_what_nobody_knows_holds_no_more_than_its_measure_of_salt(line: str, most_mg: float) -> None:
    from saltledger.calculator import answer_recipe  # noqa: PLC0415

    recipe = {"title": "Pot", "servings": 4, "ingredients": ["3 kg potatoes", line]}
    (gap,) = answer_recipe(recipe)["sodium"]["uncounted"]
    assert 0 < gap["high_mg"] <= most_mg


def test_what_stands_in_for_an_amount_names_its_rows():
    answer = plain("500 g potatoes", "salt", "soy sauce", "cheese", "sugar")
    rows = {each["id"]: each["row"] for each in answer["assumptions"]}
    for at, kind in ((1, "salt"), (2, "soy and fish sauce"), (3, "cheese")):
        told = [rows.get(f"{what}:/ingredients/{at}") for what in ("uncounted", "weight")]
        assert any((row or "").startswith(f"sodium_priors:{kind}") for row in told), (at, told)
    assert rows["weight:/ingredients/4"].startswith("no_quantity_defaults:")
    assert rows["usual/serving_g"] == "usual_amounts:serving_g"
    assert rows["usual/share_of_dish"] == "usual_amounts:share_of_dish"


def test_salt_to_taste_changes_by_little_where_a_dish_turns_sweet():
    def likely(sugar):
        answer = plain(f"{1000 - sugar} g onions", f"{sugar + 1e-3} g sugar", "salt to taste")
        return answer["sodium"]["per_serving_mg"]["likely"]

    taken = [likely(grams) for grams in range(0, 140, 5)]
    assert max(abs(one - other) for one, other in pairwise(taken)) < 0.12 * taken[0]
    assert taken[-1] < 0.4 * taken[0]


def test_salt_to_taste_tops_up_what_the_other_lines_bring():
    def taken(stock_ml):
        answer = plain("1 kg potatoes", f"{1000 - stock_ml} ml water", f"{stock_ml} ml chicken broth", "salt")
        return gaps(answer)["salt"]["likely_mg"]

    by_stock = [taken(ml) for ml in range(0, 1001, 50)]
    assert all(1.01 * more >= less for more, less in pairwise(by_stock))
    assert max(more - less for more, less in pairwise(by_stock)) < 0.08 * by_stock[0]
    assert 0.3 * by_stock[0] < by_stock[-1] < 0.5 * by_stock[0]


def test_salt_to_taste_goes_in_beside_what_else_without_an_amount_is_salty():
    food = ("1 kg chicken thighs", "500 g rice")
    alone = gaps(plain(*food, "salt"))["salt"]["likely_mg"]
    beside = gaps(plain(*food, "soy sauce", "salt"))["salt"]["likely_mg"]
    assert beside < 0.7 * alone
    # What is handed round at the table is not in the pot when it is salted.
    served = gaps(plain(*food, "grated parmesan, to serve", "salt"))["salt"]["likely_mg"]
    assert served == pytest.approx(alone)


@pytest.mark.parametrize(
    "lines",
    [
        ["cheddar cheese", "gruyere"],
        ["soy sauce", "fish sauce", "oyster sauce"],
        ["salt", "sea salt"],
    ],
)
def test_several_lines_of_a_kind_share_what_a_dish_takes_of_it(lines):
    food = ("1 kg potatoes", "500 g leeks")
    first = gaps(plain(*food, lines[0]))[lines[0]]
    together = gaps(plain(*food, *lines))
    assert sum(each["likely_mg"] for each in together.values()) == pytest.approx(first["likely_mg"], rel=0.05)
    assert len(together) == len(lines)


def test_salt_to_taste_goes_by_what_stays_of_a_can():
    def salt_mg(line, *, drains):
        dish = {"id": "dish", "ingredients": [{"line": "800 g chicken thighs"}, {"line": "salt, to taste"}]}
        document = {
            "servings": 4,
            "components": [dish, {"id": "beans", "ingredients": [{"line": line}]}],
            "steps": [{"kind": "drain", "food": "beans"}] if drains else [],
        }
        return gaps(answered(document))["salt, to taste"]["likely_mg"]

    cans = "3 x 400 g cans white beans"
    once = salt_mg(cans, drains=True)
    assert salt_mg(f"{cans}, drained", drains=True) == pytest.approx(once, rel=0.02)
    # Unsalted beans take as much more salt as they bring less, not more than a salted can would have given.
    unsalted = salt_mg("720 g white beans, boiled without salt", drains=False)
    assert once < unsalted < once + 1.1 * 720 * 3.06


def to_taste_mg(bath, **step):
    """What "salt, to taste" of a sauce brings, mg, beside pasta that goes through a bath."""
    sauce = {"id": "sauce", "ingredients": [{"line": "500 g tomatoes"}, {"line": "salt, to taste"}]}
    document = {
        "servings": 4,
        "components": [
            sauce,
            {"id": "pasta", "ingredients": [{"line": "400 g spaghetti"}]},
            {"id": "bath", "ingredients": [{"line": line} for line in bath], "eaten_fraction": 0},
        ],
        "steps": [{"kind": "boil", "food": "pasta", "bath": "bath", "duration_h": 0.15} | step],
    }
    return gaps(answered(document))["salt, to taste"]["likely_mg"]


def test_what_boils_in_salted_water_takes_less_salt_to_taste():
    alone = gaps(plain("500 g tomatoes", "salt, to taste", servings=1))["salt, to taste"]["likely_mg"]
    plain_water, salted = to_taste_mg(["4 l water"]), to_taste_mg(["4 l water", "40 g salt"])
    weakly = to_taste_mg(["4 l water", "20 g salt"])
    assert alone < salted < weakly < plain_water
    assert plain_water > 1.3 * salted
    assert to_taste_mg(["4 l water", "400 g salt"]) == pytest.approx(salted)


def test_a_salted_coat_only_clings():
    coat = ["200 g wheat flour", "4 g salt"]
    assert to_taste_mg(coat, kind="dredge", duration_h=None) > to_taste_mg(["4 l water", "40 g salt"])


def test_foods_that_are_no_saltier_than_the_dish_do_not_share():
    food = ("1 kg potatoes", "500 g leeks")
    both = gaps(plain(*food, "some chicken", "some prawns"))
    alone = gaps(plain(*food, "some chicken"))
    assert both["some chicken"]["likely_mg"] == pytest.approx(alone["some chicken"]["likely_mg"])


@pytest.mark.parametrize(("servings", "lines"), [(45, ["salt"]), (12, ["black pepper", "salt to taste"])])
def test_small_servings_that_are_weighed_whole_are_not_salted_as_plates(servings, lines):
    many = plain("500 g potatoes", "400 g flour", *lines, servings=servings)
    few = plain("500 g potatoes", "400 g flour", *lines, servings=3)
    assert gaps(many)[lines[-1]]["likely_mg"] == pytest.approx(gaps(few)[lines[-1]]["likely_mg"])


@pytest.mark.parametrize(
    "line",
    [
        "2 cups grumble beans, soaked overnight with a tbsp of salt",
        "400 g grumblewort (boiled with 1 tsp salt)",
        "2 cups dry beans, soaked overnight with baking soda",
    ],
)
def test_food_that_lay_in_salt_or_soda_is_not_taken_for_it(line):
    gap = gaps(plain(*READ, line))[line]
    assert gap["kind"] not in {"salt", "leavening"}
    assert gap["likely_mg"] < 1000


SIDE_DISH = ("300 g courgettes", "1 tbsp olive oil", "1 onion", "salt to taste")


@pytest.mark.parametrize(
    "line",
    ["parsley", "chives", "coriander leaves", "garlic", "olive oil", "rice to serve", "flour for dusting"],
)
def test_what_goes_in_by_the_little_does_not_make_a_small_dish_a_plate(line):
    plate, with_line = (
        plain(*lines)["sodium"]["per_serving_mg"]["likely"] for lines in (SIDE_DISH, (*SIDE_DISH, line))
    )
    assert with_line == pytest.approx(plate, rel=0.1)


def test_food_that_no_row_fits_takes_up_the_salt_it_lies_in():
    def brined(food):
        return answered(
            recipe(
                [part("food", food), part("brine", "2 l water", "120 g salt", eaten_fraction=0)],
                [step("brine", "food", "brine", duration_h=48, thickness_cm=2, temperature_c=4)],
            )
        )["sodium"]

    unknown, known = brined("500 g moonshade"), brined("500 g pork loin")
    low, likely, high = (unknown["per_serving_mg"][end] for end in ("low", "likely", "high"))
    assert not unknown["complete"]
    assert low <= known["per_serving_mg"]["likely"] <= high
    assert likely > known["per_serving_mg"]["likely"] / 2


def test_pulses_are_salted_by_what_they_weigh_as_they_are_eaten():
    dry = recipe(
        [
            part("beans", "300 g dried black beans"),
            part("water", "2 l water", eaten_fraction=0),
            part("rest", "salt"),
        ],
        [step("soak", "beans", "water", duration_h=12)],
    )
    cooked = recipe([part("beans", "780 g cooked black beans"), part("rest", "salt")], [])
    swollen, weighed = (answered(each)["sodium"]["per_serving_mg"]["likely"] for each in (dry, cooked))
    assert swollen == pytest.approx(weighed, rel=0.1)


def test_salt_to_taste_goes_by_the_weight_of_what_no_row_is_known_of_too():
    known, unknown = (
        plain(line, "1 kg carrots", "salt to taste", servings=12)["sodium"]["per_serving_mg"]["likely"]
        for line in ("1 kg potatoes", "1 kg moonshade")
    )
    assert unknown == pytest.approx(known, rel=0.15)


@pytest.mark.parametrize("line", ["parmesan, to serve", "grated cheese for sprinkling", "feta to garnish"])
def test_what_is_strewn_on_at_the_table_does_not_grow_with_the_pot(line):
    small, soup = plain("1 kg carrots", line), plain("1 kg carrots", "2.5 kg potatoes", line)
    canteen = plain("40 kg carrots", line, servings=150)
    one, other, many = (gaps(each)[line]["likely_mg"] for each in (small, soup, canteen))
    assert one < 700
    assert other < 3 * one
    assert many > 10 * one
