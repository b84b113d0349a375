"""Allergens: what a name points to, what it only seems to, and that it is a prompt and no declaration."""

import pytest
from saltledger.foods.dataset import bundled
from saltledger.nutrition.allergens import Named, allergen_prompt, allergens, signs


def found(name, group="", certainty="contains"):
    return {sign.allergen for sign in signs(name, group) if sign.certainty == certainty}


POINTS_TO = [
    ("Noodles, egg, cooked, enriched", "2000", {"wheat", "gluten_cereals", "egg"}),
    ("Sauce, worcestershire", "0600", {"fish"}),
    ("Seeds, sesame butter, tahini, from raw kernels", "1200", {"sesame"}),
    ("Butter, salted", "0100", {"milk"}),
    ("Egg, whole, raw, fresh", "0100", {"egg"}),
    ("Nuts, almonds", "1200", {"tree_nuts"}),
    ("Nuts, pine nuts, dried", "1200", {"tree_nuts"}),
    ("Peanut butter, smooth style, with salt", "1600", {"peanuts"}),
    ("Soy sauce made from soy and wheat (shoyu)", "1600", {"soybeans", "wheat", "gluten_cereals"}),
    ("Soy sauce made from soy (tamari)", "1600", {"soybeans"}),
    ("Fish, salmon, Atlantic, wild, raw", "1500", {"fish"}),
    ("Crustaceans, shrimp, mixed species, raw", "1500", {"crustaceans"}),
    ("Mollusks, oyster, eastern, wild, raw", "1500", {"molluscs"}),
    ("Celeriac, raw", "1100", {"celery"}),
    ("Lupins, mature seeds, raw", "1600", {"lupin"}),
    ("Mustard, prepared, yellow", "0200", {"mustard"}),
    ("Alcoholic beverage, wine, table, red", "1400", {"sulphites"}),
    ("Barley, pearled, raw", "2000", {"gluten_cereals"}),
    ("Rye flour, medium", "2000", {"gluten_cereals"}),
    ("Wheat flour, white, all-purpose, enriched, bleached", "2000", {"wheat", "gluten_cereals"}),
    ("Bread, white, commercially prepared", "1800", {"wheat", "gluten_cereals"}),
]
DOES_NOT_POINT_TO = [
    ("Nuts, coconut milk, canned", "1200", {"milk", "tree_nuts"}),
    ("Spices, nutmeg, ground", "0200", {"tree_nuts"}),
    ("Buckwheat flour, whole-groat", "2000", {"wheat", "gluten_cereals"}),
    ("Rice flour, white, unenriched", "2000", {"wheat", "gluten_cereals"}),
    ("Squash, winter, butternut, raw", "1100", {"milk", "tree_nuts"}),
    ("Squash, winter, spaghetti, raw", "1100", {"wheat"}),
    ("Waterchestnuts, chinese, (matai), raw", "1100", {"tree_nuts"}),
    ("Eggplant, raw", "1100", {"egg"}),
    ("Mushrooms, oyster, raw", "1100", {"molluscs"}),
    ("Peanut butter, smooth style, with salt", "1600", {"milk", "tree_nuts"}),
    ("Crabapples, raw", "0900", {"crustaceans"}),
    ("Egg, whole, raw, fresh", "0100", {"milk"}),
    ("Leavening agents, baking soda", "1800", {"wheat", "gluten_cereals"}),
    ("Beverages, ginger ale", "1400", {"gluten_cereals"}),
    ("Oil, olive, salad or cooking", "0400", set(allergens())),
    ("Beef, brisket, flat half, separable lean only, raw", "1300", set(allergens())),
    ("Salt, table", "0200", set(allergens())),
]


@pytest.mark.parametrize(("name", "group", "wanted"), POINTS_TO)
def test_a_name_points_to(name, group, wanted):
    assert found(name, group) == wanted


@pytest.mark.parametrize(("name", "group", "unwanted"), DOES_NOT_POINT_TO)
def test_a_name_does_not_point_to(name, group, unwanted):
    assert not found(name, group) & unwanted


def test_the_lists_are_nine_and_fourteen():
    lists = [each.lists for each in allergens().values()]
    assert sum("us" in each for each in lists) == 9
    assert sum("eu" in each for each in lists) == 14


@pytest.mark.parametrize(
    ("name", "group", "asked"),
    [
        ("Oil, soybean lecithin", "0400", "soybeans"),
        ("Apricots, dried, sulfured, uncooked", "0900", "sulphites"),
        ("Soup, vegetable broth, ready to serve", "0600", "celery"),
        ("Fast foods, hamburger", "2100", "wheat"),
    ],
)
def test_what_a_maker_decides_is_asked(name, group, asked):
    assert asked in found(name, group, "may") | found(name, group)


def test_every_milk_egg_and_fish_of_the_dataset_is_found():
    """By group: dairy products but for eggs, and finfish, cannot be missed."""
    foods = bundled()
    groups = {
        "Dairy and Egg Products": {"milk", "egg"},
        "Finfish and Shellfish Products": {"fish", "crustaceans", "molluscs"},
    }
    exempt = (
        "Frog",
        "Turtle",
        "Jellyfish",
        "Mollusks, snail",
        "Seal",
        "Whale",
        "Cream substitute",
        "Dessert topping",
    )
    missed = [
        name
        for code, name in foods.names.items()
        if (wanted := groups.get(foods.get(code).group))
        and not found(name, foods.get(code).group_code) & wanted
    ]
    assert [name for name in missed if not any(word in name for word in exempt)] == []


def test_a_prompt_says_why_and_that_it_is_no_declaration():
    prompt = allergen_prompt(
        [
            Named("2 tbsp butter", "Butter, salted", "0100"),
            Named("1 cup cream", "Cream, fluid, heavy whipping", "0100"),
            Named("1 dash Worcestershire sauce"),
        ]
    )
    assert "not an allergen declaration" in prompt["statement"]
    by_id = {each["allergen"]: each for each in prompt["allergens"]}
    assert [reason["line"] for reason in by_id["milk"]["because"]] == ["2 tbsp butter", "1 cup cream"]
    assert by_id["milk"]["lists"] == ["us", "eu"]
    assert by_id["fish"]["because"][0]["food"] is None
    assert prompt["unread"] == ["1 dash Worcestershire sauce"]


def test_a_line_speaks_for_itself_where_its_food_is_plainer():
    prompt = allergen_prompt([Named("1 tsp celery salt", "Salt, table", "0200")])
    assert [each["allergen"] for each in prompt["allergens"]] == ["celery"]


def test_the_surest_sign_counts():
    prompt = allergen_prompt(
        [Named("soup", "Soup, vegetable", "0600"), Named("celery", "Celery, raw", "1100")]
    )
    celery = next(each for each in prompt["allergens"] if each["allergen"] == "celery")
    assert celery["certainty"] == "contains"
    assert {reason["certainty"] for reason in celery["because"]} == {"may", "contains"}


def test_nothing_to_flag_is_an_empty_prompt():
    prompt = allergen_prompt([Named("1 tsp salt", "Salt, table", "0200")])
    assert prompt["allergens"] == []


@pytest.mark.parametrize(
    "line",
    ["soy yogurt, plain", "custard-apple, raw", "bread and butter pickles", "oil, soybean, salad or cooking"],
)
def test_a_word_inside_another_name_does_not_count(line):
    assert found(line) & {"milk", "egg", "wheat", "gluten_cereals"} == set()


def test_refined_soybean_oil_is_asked_about():
    assert "soybeans" in found("2 tbsp soybean oil", certainty="may")
    assert "soybeans" in found("1 lb tofu in oil")
