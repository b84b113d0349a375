"""Priors of what a line may hold: the words choose the row, and every row can be chosen."""

from itertools import pairwise

import pytest
from saltledger.core.tables import row_of, rows
from saltledger.nutrition.sodium_priors import prior_of, priors, sweetness


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("Salt", "salt"),
        ("season to taste", "salt"),
        ("salt & pepper", "salt"),
        ("2 cups water", "nothing, of tools and water"),
        ("2 cups salted water", "brine"),
        ("1 cup starchy pasta water", "cooking water"),
        ("1 sugar thermometer", "nothing, of tools and water"),
        ("1 cup water with miso", "salty paste"),
        ("ice cubes", "nothing, of tools and water"),
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
        ("2 salt herrings", "salt fish"),
        ("salt mutton", "salt meat"),
        ("salt butter, a lump", "butter"),
        ("salt, butter", "salt"),
    ],
)
def test_the_words_of_a_line_choose_the_kind(line, kind):
    assert prior_of(line).kind == kind


def test_a_sweet_dish_takes_less_salt():
    assert prior_of("salt", 1.0).in_dish.high < prior_of("salt").in_dish.likely
    assert prior_of("xyzzyqwv", 1.0).in_dish.high < prior_of("xyzzyqwv").in_dish.high


def test_nothing_likely_is_guessed_of_a_word_that_nothing_knows():
    for sweet in (0.0, 1.0):
        assert prior_of("xyzzyqwv", sweet).in_dish.likely == 0
        assert prior_of("xyzzyqwv", sweet).in_dish.high > 0


def test_every_row_says_its_source_and_is_what_food_can_be():
    for prior in priors():
        assert prior.source
        assert prior.mark in ("verified", "second hand", "memory", "common practice")
        assert 0 <= prior.per_100g.low <= prior.per_100g.likely <= prior.per_100g.high <= 39_337
        assert prior.in_dish.high <= 470, "more than 1.2 % salt in the whole dish"


def test_every_row_is_chosen_by_a_word_of_its_own():
    for prior, row in zip(priors(), rows("sodium_priors"), strict=True):
        lines = row["words"].split("|")
        sweet = 1.0 if prior.dish == "sweet" else 0.0
        assert any(prior_of(line, sweet) is prior for line in lines), prior.kind


def test_between_savoury_and_sweet_salt_to_taste_changes_by_little():
    shares = [0.001 * step for step in range(200)]
    likely = [prior_of("salt", sweetness(share)).in_dish.likely for share in shares]
    steps = [before - after for before, after in pairwise(likely)]
    assert min(steps) >= 0
    assert max(steps) < 0.02 * likely[0]
    assert (likely[0], likely[-1]) == (
        prior_of("salt").in_dish.likely,
        prior_of("salt", 1.0).in_dish.likely,
    )


def test_a_prior_names_its_row():
    assert all(row_of(prior.source).startswith("sodium_priors:") for prior in priors())
