"""Priors of what a line may hold: the words choose the row, and every row can be chosen."""

import pytest
from saltledger.core.tables import rows
from saltledger.nutrition.sodium_priors import prior_of, priors


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("Salt", "salt"),
        ("season to taste", "salt"),
        ("salt & pepper", "salt"),
        ("2 cups water", "nothing"),
        ("2 cups salted water", "brine"),
        ("1 cup starchy pasta water", "cooking water"),
        ("1 sugar thermometer", "nothing"),
        ("1 cup water with miso", "salty paste"),
        ("ice cubes", "nothing"),
        ("unsalted butter", "low-salt"),
        ("butter", "butter"),
        ("1 chicken bouillon cube", "dry stock"),
        ("chicken, cut into cubes", "meat and dairy"),
        ("vegetable stock", "stock"),
        ("olives", "pickled"),
        ("olive oil", "plain"),
        ("capers, drained", "pickled"),
        ("guanciale", "cured meat"),
        ("salt cod, soaked", "salt fish"),
        ("Emental cheese", "cheese"),
        ("light soy sauce", "soy and fish sauce"),
        ("soy milk", "meat and dairy"),
        ("spice blend of the house", "seasoning blend"),
        ("Bell pepper", "plain"),
        ("black pepper", "herb or spice"),
        ("xyzzyqwv", "unknown word"),
    ],
)
def test_the_words_of_a_line_choose_the_kind(line, kind):
    assert prior_of(line).kind == kind


def test_a_sweet_dish_takes_less_salt():
    assert prior_of("salt", "sweet").in_dish.high < prior_of("salt").in_dish.likely
    assert prior_of("xyzzyqwv", "sweet").in_dish.high < prior_of("xyzzyqwv").in_dish.high


def test_nothing_likely_is_guessed_of_a_word_that_nothing_knows():
    for dish in ("savoury", "sweet"):
        assert prior_of("xyzzyqwv", dish).in_dish.likely == 0
        assert prior_of("xyzzyqwv", dish).in_dish.high > 0


def test_every_row_says_its_source_and_is_what_food_can_be():
    for prior in priors():
        assert prior.source
        assert prior.mark in ("verified", "second hand", "memory", "common practice")
        assert 0 <= prior.per_100g.low <= prior.per_100g.likely <= prior.per_100g.high <= 39_337
        assert prior.in_dish.high <= 470, "more than 1.2 % salt in the whole dish"


def test_every_row_is_chosen_by_a_word_of_its_own():
    for prior, row in zip(priors(), rows("sodium_priors"), strict=True):
        lines = row["words"].split("|")
        dishes = ("savoury", "sweet") if prior.dish == "any" else (prior.dish,)
        assert any(prior_of(line, dish) is prior for line in lines for dish in dishes), prior.kind
