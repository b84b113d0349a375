"""What a food's name says of allergens, against what the food is; and no word of a rule without a food."""

from itertools import chain

import pytest
from saltledger.core.name_rules import NameRule, words_pattern
from saltledger.core.tables import rows
from saltledger.nutrition.allergens import signs

from .allergens import CONTAINS, FREE, MAY, NOT_SURE, ON_ALL_LISTS, ON_SOME_LISTS, foods

EXPECTED = (
    (CONTAINS, "contains", ("contains",)),
    (MAY, "may contain", ("may",)),
    (FREE, "is free of", (None,)),
    (NOT_SURE, "is not sure to contain", ("may", None)),
)


def certainty(allergen, name, group):
    return next((sign.certainty for sign in signs(name, group) if sign.allergen == allergen), None)


def faults(allergen):
    """Where the rules say of a food what is not so, in sentences."""
    for stated, said, right in EXPECTED:
        for name, group in foods(stated.get(allergen, "")):
            found = certainty(allergen, name, group)
            if found not in right:
                yield f"allergen_rules: {name!r} ({group or 'any group'}) {said} {allergen}, found: {found}"
    for stated, is_so in ((ON_SOME_LISTS, True), (ON_ALL_LISTS, False)):
        for name, group in foods(stated.get(allergen, "")):
            (note,) = (sign.note for sign in signs(name, group) if sign.allergen == allergen)
            if ("some lists only" in note) is not is_so:
                yield f"allergen_rules: of {name!r} ({allergen}) it is said: {note!r}"


@pytest.mark.parametrize("allergen", [row["allergen"] for row in rows("allergens")])
def test_a_food_has_the_allergens_that_it_is_made_of(allergen):
    wrong = list(faults(allergen))
    assert not wrong, "\n".join(wrong)


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
