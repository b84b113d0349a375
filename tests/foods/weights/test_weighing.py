"""Weighing: which way is taken, what it comes to, what is said of it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.core.spread import Spread, product
from saltledger.foods.dataset import bundled
from saltledger.foods.food import Food, Household
from saltledger.foods.nutrients import NUTRIENTS
from saltledger.foods.weights.weighing import weigh
from saltledger.lines import read_line

SALT, FLOUR, SUGAR, ONION, BUTTER, EGG = "02047", "20081", "19335", "11282", "01145", "01123"
CHICKEN, BANANA, CHICKPEAS, MILK, OLIVE_OIL, BRISKET = "05006", "09040", "16358", "01077", "04053", "13595"


def weight(text, code=None, **settings):
    return weigh(read_line(text), bundled().get(code) if code else None, **settings)


def made(name="Something, raw", **fields):
    values = np.full(len(NUTRIENTS), np.nan)
    return Food(code="X1", name=name, group="Custom food", group_code="", values=values, **fields)


@pytest.mark.parametrize(
    ("text", "code", "grams", "basis"),
    [
        ("250 g flour", FLOUR, 250, "weight in the line, 250 gram"),
        ("1 lb 2 oz flour", FLOUR, 510.29, "weight in the line, 1.13 pound"),
        ("4 ounces (1 cup) flour", FLOUR, 113.4, "weight in the line, 4 ounce"),
        ("1 cup (120 g) flour", FLOUR, 120, "weight in the line, 120 gram"),
        ("2 (8-ounce) packages sugar", SUGAR, 453.59, "weight in the line, 16 ounce"),
        (
            "2 cups flour",
            FLOUR,
            250,
            "2 × 125 g per cup, household weight of Wheat flour, white, all-purpose, enriched, bleached "
            "(1 cup = 125 g)",
        ),
        (
            "1 cup sugar",
            SUGAR,
            201.6,
            "1 × 202 g per cup, by household weight of Sugars, granulated (1 tsp = 4.2 g)",
        ),
        (
            "1 cup chopped onion",
            ONION,
            160,
            "1 × 160 g per cup, household weight of Onions, raw (1 cup, chopped = 160 g)",
        ),
        (
            "1 cup sliced onion",
            ONION,
            115,
            "1 × 115 g per cup, household weight of Onions, raw (1 cup, sliced = 115 g)",
        ),
        (
            "2 large eggs",
            EGG,
            100,
            "2 × 50 g each, household weight of Egg, whole, raw, fresh (1 large = 50 g)",
        ),
        ("2 eggs", EGG, 100, "2 × 50 g each, usual piece"),
        ("1 stick butter", BUTTER, 113.4, "1 × 113 g per stick, usual piece"),
        ("2 large onions", ONION, 300, "2 × 150 g each, usual large piece"),
    ],
)
def test_the_way_taken_and_what_it_comes_to(text, code, grams, basis):
    found = weight(text, code)
    assert found.grams.likely == pytest.approx(grams, abs=0.01)
    assert found.basis == basis
    assert found.source


@pytest.mark.parametrize("code", [ONION, "14411"])
def test_nothing_of_a_food_weighs_nothing_at_most(code):
    found = weight("0 ml water", code)
    assert found.grams is None or found.grams.likely == 0


def test_a_weight_in_the_line_is_exact_unless_it_says_about():
    assert weight("250 g sugar", SUGAR).grams.is_exact
    about = weight("about 250 g sugar", SUGAR).grams
    assert (about.low, about.high) == pytest.approx((225, 275))


def test_a_range_in_the_line_is_the_range_of_the_weight():
    found = weight("200 to 300 g sugar", SUGAR).grams
    assert (found.low, found.likely, found.high) == (200, 250, 300)


def test_the_cup_setting_reaches_the_weight():
    us, metric = (weight("1 cup milk", MILK, cup=cup).grams.likely for cup in ("us", "metric"))
    assert metric / us == pytest.approx(250 / 236.5882365)


def test_a_form_the_household_weights_lack_comes_from_the_density_table():
    found = weight("1 cup sifted flour", FLOUR)
    assert found.basis == "1 × 115 g per cup, usual density of such food"
    assert found.source == "common practice, no source"


def test_without_a_food_the_words_alone_are_weighed():
    assert weight("2 aubergines").grams.likely == pytest.approx(800)
    assert weight("1 cup honey").grams.likely == pytest.approx(332)


def test_a_food_of_the_callers_own_is_weighed_by_its_own_household_weights():
    stock = made("House stock", household=(Household("1 cup", 250.0), Household("1 tub", 900.0)))
    assert weigh(read_line("2 cups house stock"), stock).grams.likely == pytest.approx(500)


class TestSalt:
    @pytest.mark.parametrize(
        ("text", "low", "likely", "high"),
        [
            ("1 tsp salt", 2.8, 6.0, 6.4),
            ("1 tsp table salt", 5.9, 6.0, 6.4),
            ("1 tsp fine sea salt", 5.0, 5.7, 6.4),
            ("1 tsp kosher salt", 2.8, 4.0, 6.0),
            ("1 tsp coarse kosher salt", 2.8, 4.4, 5.2),
            ("1 tsp flaky salt", 2.8, 3.7, 4.7),
            ("1 tbsp salt", 8.4, 18.0, 19.2),
        ],
    )
    def test_each_kind_has_its_own_bulk(self, text, low, likely, high):
        grams = weight(text, SALT).grams
        assert (grams.low, grams.likely, grams.high) == pytest.approx((low, likely, high))

    def test_a_kind_that_is_not_named_is_asked_for_where_it_matters(self):
        (notice,) = weight("1 tbsp salt", SALT).notices
        assert (notice.code, notice.severity) == ("salt-kind", "info")
        assert notice.message == (
            "A teaspoon of salt weighs 2.8 to 6.4 g by its kind; this line was taken as 18 g "
            "(8.4 to 19.2 g). Weigh the salt and give grams, or name its kind."
        )
        assert weight("a pinch of salt", SALT).notices == ()
        assert weight("1 tbsp table salt", SALT).notices == ()
        assert weight("18 g salt", SALT).notices == ()

    def test_foods_that_only_hold_salt_are_weighed_as_others_are(self):
        cure = weight("1 tsp pink curing salt", "SL0001")
        assert cure.grams.likely == 6
        assert "household weight of Curing salt" in cure.basis


class TestAsBought:
    def test_peel_comes_off_fruit_by_weight_but_not_by_count(self):
        kilo = weight("1 kg bananas", BANANA)
        assert kilo.grams.likely == pytest.approx(640)
        assert kilo.basis == "weight in the line, 1 kilogram, 64 % of it eaten"
        assert kilo.source == "USDA SR28, NDB 09040: refuse 36 % (Skin)"
        assert weight("2 bananas", BANANA).grams.likely == pytest.approx(236)

    def test_what_is_peeled_before_it_is_weighed_stays_whole(self):
        assert weight("1 kg peeled bananas", BANANA).grams.is_exact

    @pytest.mark.parametrize(
        "text", ["1 (4-pound) chicken", "1 whole chicken (4 pounds)", "4 lb chicken, cut up"]
    )
    def test_bones_come_off_a_whole_bird(self, text):
        assert weight(text, CHICKEN).grams.likely == pytest.approx(4 * 453.59237 * 0.68)

    def test_bones_come_off_where_they_are_named(self):
        thighs = weight("1 kg bone-in chicken thighs", "05091").grams
        assert thighs.likely == pytest.approx(800)
        assert thighs.low < 800 < thighs.high < 1000
        assert weight("1 kg boneless chicken thighs", "05091").grams.is_exact

    def test_shells_come_off_what_is_sold_in_them(self):
        assert weight("1 kg mussels", "15164").grams.likely == pytest.approx(250)
        assert weight("200 g cooked mussel meat", "15164").grams.is_exact

    @pytest.mark.parametrize("container", ["can", "jar"])
    def test_a_drained_can_loses_its_liquid(self, container):
        found = weight(f"1 (15-ounce) {container} chickpeas, drained and rinsed", CHICKPEAS)
        assert found.grams.likely == pytest.approx(15 * 28.349523125 * 0.6)
        assert found.basis == "weight in the line, 15 ounce, drained: 60 % of it"
        assert weight("1 (15-ounce) can chickpeas", "16058").grams.is_exact


class TestWithoutQuantity:
    @pytest.mark.parametrize(
        ("text", "code", "grams"),
        [
            ("salt to taste", SALT, (0.5, 3, 9)),
            ("olive oil for frying", OLIVE_OIL, (10, 30, 120)),
            ("butter, for greasing", BUTTER, (2, 7, 20)),
            ("flour for dusting", FLOUR, (4, 15, 40)),
        ],
    )
    def test_a_stated_default_with_a_wide_range(self, text, code, grams):
        found = weight(text, code)
        assert (found.grams.low, found.grams.likely, found.grams.high) == grams
        assert found.source == "common practice, no source"
        assert [(notice.code, notice.severity) for notice in found.notices] == [("default-quantity", "info")]

    def test_a_food_of_no_purpose_has_no_default(self):
        found = weight("chicken", CHICKEN)
        assert found.grams is None
        assert [(notice.code, notice.severity) for notice in found.notices] == [("no-quantity", "check")]


def test_what_cannot_be_weighed_is_said_to_be_so():
    found = weigh(read_line("3 wheels something"), made())
    assert found.grams is None
    (notice,) = found.notices
    assert (notice.code, notice.severity) == ("no-weight", "check")
    assert notice.message == (
        "It is not known what a wheel of something weighs, so it is not counted. Give grams."
    )


def test_a_broad_weight_says_so():
    assert [notice.code for notice in weight("1 can tomatoes").notices] == []
    assert [notice.code for notice in weight("1 jar pickles").notices] == ["rough-weight"]
    assert [notice.code for notice in weight("1 chunk ginger").notices] == ["rough-weight"]


def test_independent_ranges_add_in_quadrature():
    both = product(Spread(0.5, 1, 2), Spread(0.5, 1, 2))
    assert both.likely == 1
    assert both.low == pytest.approx(2 ** -(2**0.5))
    assert product(Spread.exact(2), Spread(1, 2, 3)) == Spread(2, 4, 6)
    assert product(Spread.exact(0), Spread(1, 2, 3)).likely == 0


FOODS = ("salt", "flour", "chopped onion", "butter", "honey", "milk", "parsley", "kosher salt", "rice")
UNITS = ("cup", "tbsp", "tsp", "g", "oz", "lb", "quart", "pinch", "can", "bunch")


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(UNITS), st.sampled_from(FOODS), st.integers(2, 40))
def test_many_of_a_thing_weigh_as_many_times_one(unit, food, count):
    one, many = (weigh(read_line(f"{n} {unit} {food}"), None).grams for n in (1, count))
    if one is None:
        assert many is None
    else:
        for part in ("low", "likely", "high"):
            assert getattr(many, part) == pytest.approx(count * getattr(one, part))


QUANTITIES = ("2 cups ", "3 large ", "1 (8 oz) can ", "500 g ", "")
CODES = (SALT, FLOUR, ONION, CHICKEN, BANANA, MILK, "15164", "11215", "18338")


@settings(max_examples=100, deadline=None)
@given(st.text(max_size=60), st.sampled_from(QUANTITIES), st.sampled_from(CODES))
def test_any_line_is_weighed_or_said_not_to_be(text, quantity, code):
    found = weight(quantity + text, code)
    assert (found.grams is not None and found.grams.low >= 0) or found.notices


def test_a_can_that_the_dataset_weighs_drained_is_not_drained_twice():
    found = weight("1 can kidney beans, drained", "16145")
    assert found.grams.likely == 266
    assert "drained solids = 266 g" in found.basis


def test_a_piece_of_stated_length_is_weighed_by_the_inch():
    assert weight("1 (2-inch) piece ginger", "11216").grams.likely == pytest.approx(22)
    assert weight("5 cm piece ginger", "11216").grams.likely == pytest.approx(11 * 50 / 25.4)


class TestImpossibleWeights:
    @pytest.mark.parametrize(
        ("text", "code"), [("900 tomatoes", "11529"), ("2 litres bouillon cubes", "06081")]
    )
    def test_what_no_line_can_mean_stops(self, text, code):
        found = weight(text, code)
        assert ("impossible-weight", "stop") in [(each.code, each.severity) for each in found.notices]
        assert "give grams" in found.notices[-1].message

    @pytest.mark.parametrize(
        ("text", "code"),
        [("100 kg tomatoes", "11529"), ("40 tomatoes", "11529"), ("3 tbsp bouillon cubes", "06081")],
    )
    def test_a_stated_weight_or_a_large_kitchen_does_not(self, text, code):
        assert "impossible-weight" not in [notice.code for notice in weight(text, code).notices]

    def test_a_misspelt_unit_is_no_count(self):
        assert weight("tomatoes (800 gramms)", "11529").grams.likely < 800
        assert (
            weight("tomatoes (800 grmsz)", "11529").basis
            == "no quantity in the line: a default for such a line"
        )


@pytest.mark.parametrize(
    ("text", "code", "low", "high"),
    [
        ("2 heads baby bok choy", "11116", 120, 300),  # the dataset weighs heads of the grown plant
        ("4 sirloin steaks", "13929", 700, 1300),  # and steaks as the packer cuts them
        ("10 cornichons", "11937", 40, 100),
        ("1 cup almond flour", "12062", 85, 115),
        ("1 tsp dried basil", "02003", 0.5, 0.9),
        ("500 ml vegetable broth", "06700", 490, 515),
        ("400 g cherry tomatoes", "11529", 400, 400),
    ],
)
def test_what_the_line_names_closer_than_the_dataset_is_weighed_by_that(text, code, low, high):
    assert low <= weight(text, code).grams.likely <= high


def test_a_canned_food_that_is_weighed_without_its_liquid_is_not_drained_again():
    assert weight("1 can corn, drained", "11172").grams.likely == pytest.approx(211)


@pytest.mark.parametrize("unit", ["glass of water", "handful of spinach", "pinch of salt"])
def test_small_and_large_measures_of_no_fixed_size_hold_less_and_more(unit):
    code = {"water": "14411", "spinach": "11457", "salt": SALT}[unit.rpartition(" ")[2]]
    small, usual, large = (weight(f"1 {size} {unit}", code).grams.likely for size in ("small", "", "large"))
    assert small < usual < large


def test_an_amount_for_one_of_something_is_a_guess():
    assert weight("2 tomatoes per person", "11529").guessed
    assert not weight("2 tomatoes", "11529").guessed


def test_a_can_whose_row_is_drained_is_weighed_drained_unless_the_liquid_is_kept():
    """The row's values are of the drained solids: the liquid that is poured away brings none of them."""
    green_beans = "11056"
    silent, kept = (
        weight("1 can green beans", green_beans),
        weight("1 can green beans, undrained", green_beans),
    )
    assert silent.grams.likely == pytest.approx(0.6 * kept.grams.likely, rel=0.05)
    assert silent.grams.high > 0.9 * kept.grams.high
    stated = weight("1 (400 g) can green beans", green_beans)
    assert stated.grams.likely == pytest.approx(
        weight("1 (400 g) can green beans, drained", green_beans).grams.likely
    )


@pytest.mark.parametrize(
    ("text", "least", "most"),
    [
        ("1 sprinkle of sea salt", 0.3, 1.5),
        ("salt, a generous sprinkling", 0.3, 1.5),
        ("1 pinch of salt", 0.1, 1.0),
    ],
)
def test_a_sprinkle_of_salt_is_no_spoonful(text, least, most):
    assert least < weight(text, SALT).grams.likely < most


@pytest.mark.parametrize(
    ("text", "usual"),
    [
        ("1 package gyoza wrappers", 340),
        ("2 packages shredded mozzarella", 454),
        ("1 pack pepperoni", 170),
        ("1 package cheese tortellini", 255),
        ("1 package hamburger buns", 350),
    ],
)
def test_a_package_of_no_size_holds_what_such_packages_hold(text, usual):
    found = weight(text).grams
    assert found.low < usual < found.high
    assert found.likely == pytest.approx(usual, rel=0.25)
