"""The hand-kept table of everyday names: every name stands once and for a food that exists."""

import re
import unicodedata
from collections import Counter

import pytest
from saltledger.core.tables import rows
from saltledger.foods.dataset import bundled


def names() -> list[tuple[str, str]]:
    return [(name, row["code"]) for row in rows("common_names") for name in row["names"].split("|")]


def plainly_spelled(name: str) -> str:
    """A name without accents, hyphens, apostrophes and doubled spaces."""
    decomposed = unicodedata.normalize("NFKD", name.replace("'", "").replace("-", " "))
    return " ".join("".join(c for c in decomposed if not unicodedata.combining(c)).split())


def test_every_code_is_a_food_of_the_dataset():
    foods = bundled()
    assert [(name, code) for name, code in names() if code not in foods] == []


def test_every_row_has_its_three_columns():
    assert [
        row for row in rows("common_names") if list(row) != ["names", "code", "note"] or None in row.values()
    ] == []


def test_no_name_stands_twice():
    counts = Counter(plainly_spelled(name) for name, _ in names())
    assert [name for name, count in counts.items() if count > 1] == []


def test_no_name_is_empty_or_padded_or_in_capitals():
    assert [name for name, _ in names() if not name or name != name.strip().lower()] == []


def test_names_hold_no_brackets_and_no_trade_marks():
    assert [name for name, _ in names() if re.search(r"[()\[\]{}\"®™]", name)] == []


def test_the_table_covers_the_kitchen():
    assert len(names()) >= 1000
    assert len(rows("common_names")) >= 650


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("butter", "01001"),
        ("unsalted butter", "01145"),
        ("milk", "01077"),
        ("egg", "01123"),
        ("flour", "20081"),
        ("wholemeal flour", "20080"),
        ("water", "14411"),
        ("double cream", "01053"),
        ("aubergine", "11209"),
        ("canned chickpea", "16058"),
        ("chickpea", "16056"),
        ("cooked rice", "20045"),
        ("dried thyme", "02042"),
        ("thyme", "02049"),
        ("90% lean ground beef", "23562"),
        ("corned beef", "13346"),
        ("brisket", "13803"),
        ("icing sugar", "19336"),
    ],
)
def test_a_plain_name_stands_for_the_plain_food(name, code):
    assert dict(names())[name] == code


@pytest.mark.parametrize("name", ["salt", "kosher salt", "sea salt", "pickling salt", "himalayan salt"])
def test_salts_of_the_table_are_table_salt(name):
    assert dict(names())[name] == "02047"


@pytest.mark.parametrize(
    ("name", "kind"),
    [("curing salt", "SL0001"), ("pink curing salt", "SL0001"), ("cure #2", "SL0002"), ("msg", "SL0010")],
)
def test_curing_salts_are_never_table_salt(name, kind):
    assert dict(names())[name] == kind


@pytest.mark.parametrize(
    ("salted", "less"),
    [
        ("butter", "unsalted butter"),
        ("soy sauce", "low-sodium soy sauce"),
        ("chicken broth", "reduced-sodium chicken broth"),
        ("reduced-sodium chicken broth", "low-sodium chicken broth"),
        ("beef broth", "low-sodium beef broth"),
        ("canned black bean", "low-sodium black bean"),
        ("canned tomato", "no-salt-added canned tomato"),
        ("tomato sauce", "no-salt-added tomato sauce"),
        ("canned tuna", "no-salt-added tuna"),
        ("peanut butter", "unsalted peanut butter"),
        ("salted peanut", "roasted peanut"),
        ("salt", "reduced-sodium salt"),
        ("ketchup", "low-sodium ketchup"),
        ("white bread", "low-sodium bread"),
    ],
)
def test_a_name_that_promises_less_sodium_has_less(salted, less):
    foods, code = bundled(), dict(names())
    assert foods.get(code[less]).per_100g("NA") < foods.get(code[salted]).per_100g("NA")


@pytest.mark.parametrize("name", ["brine", "pasta water", "mole sauce", "hollandaise", "vanilla bean"])
def test_a_food_the_dataset_lacks_stands_nowhere(name):
    assert name not in dict(names())
