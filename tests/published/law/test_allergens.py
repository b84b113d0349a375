"""What a food's name says of allergens, against what the food is; and no word of a rule without a food."""

from itertools import chain

import pytest
from saltledger.core.name_rules import NameRule, words_pattern
from saltledger.core.tables import rows
from saltledger.nutrition.allergens import signs

from .allergens import CONTAINS, FREE, MAY, NOT_SURE, foods


def certainty(allergen, name, group):
    return next((sign.certainty for sign in signs(name, group) if sign.allergen == allergen), None)


def cases(stated):
    return [(allergen, name, group) for allergen, listed in stated.items() for name, group in foods(listed)]


@pytest.mark.parametrize(("allergen", "name", "group"), cases(CONTAINS))
def test_a_food_contains(allergen, name, group):
    assert certainty(allergen, name, group) == "contains"


@pytest.mark.parametrize(("allergen", "name", "group"), cases(MAY))
def test_a_food_may_contain(allergen, name, group):
    assert certainty(allergen, name, group) == "may"


@pytest.mark.parametrize(("allergen", "name", "group"), cases(FREE))
def test_a_food_is_free(allergen, name, group):
    assert certainty(allergen, name, group) is None


@pytest.mark.parametrize(("allergen", "name", "group"), cases(NOT_SURE))
def test_a_food_is_not_sure_to_contain(allergen, name, group):
    assert certainty(allergen, name, group) != "contains"


STATED = {"contains": (CONTAINS,), "may": (MAY,), "not": (FREE, NOT_SURE)}


def stated_foods(kind, allergen):
    return list(chain.from_iterable(foods(listed.get(allergen, "")) for listed in STATED[kind]))


RULES = [
    pytest.param(row, id=f"{row['allergen']}/{row['certainty']}/{row['groups']}/{row['words'][:20]}")
    for row in rows("allergen_rules")
]


@pytest.mark.parametrize("row", RULES)
def test_every_word_and_group_of_a_rule_has_a_food(row):
    """A rule, a word or a group that goes would leave its food without its allergen."""
    known = stated_foods(row["certainty"], row["allergen"])
    held = [
        (name.lower(), group)
        for name, group in known
        if NameRule.of({"groups": row["groups"]}).fits("", group)
    ]
    for word in filter(None, row["words"].split("|")):
        assert any(words_pattern(word).search(name) for name, _ in held), (
            f"{row['allergen']}: no food states {word!r}"
        )
    for group in row["groups"].split():
        assert any(code.startswith(group) for _, code in held), f"{row['allergen']}: no food of group {group}"


@pytest.mark.parametrize(
    "row", [rule for rule in RULES if rule.values[0]["but_for"] or rule.values[0]["unless"]]
)
def test_every_exception_of_a_rule_has_a_food(row):
    known = [name for name, _ in stated_foods("not", row["allergen"])]
    if row["certainty"] == "may":
        known += [name for name, _ in stated_foods("contains", row["allergen"])]
    for word in filter(None, (row["but_for"] + "|" + row["unless"]).split("|")):
        assert any(words_pattern(word).search(name) for name in known), (
            f"{row['allergen']}: no food states {word!r}"
        )
