"""What a food's name says of hazards, against what the food is; and no word of a rule without a food."""

import pytest
from saltledger.core.name_rules import NameRule, words_pattern
from saltledger.core.tables import rows
from saltledger.safety.dish import is_about

from .allergens import foods
from .hazards import ABOUT, OTHERS, SOURCES

RULES = [pytest.param(row, id=f"{row['hazard']}/{row['groups']}") for row in rows("hazard_foods")]


def faults(hazard):
    """Where the rules say of a food what is not so, in sentences."""
    for stated, is_so in ((ABOUT, True), (OTHERS, False)):
        for name, group in foods(stated[hazard]):
            if is_about(hazard, group, name) is not is_so:
                yield f"hazard_foods: {hazard} is {'' if is_so else 'not '}about {name!r}: {SOURCES[hazard]}"


@pytest.mark.parametrize("hazard", SOURCES)
def test_a_hazard_is_about_its_foods_and_no_others(hazard):
    wrong = list(faults(hazard))
    assert not wrong, "\n".join(wrong)


def test_every_hazard_has_its_rows_and_its_source():
    assert {row["hazard"] for row in rows("hazard_foods")} == set(ABOUT) == set(OTHERS) == set(SOURCES)


@pytest.mark.parametrize("row", RULES)
def test_every_word_group_and_exception_of_a_rule_has_a_food(row):
    """A word or a group that goes would leave its food without its hazard."""
    hazard = row["hazard"]
    in_groups = NameRule.of({"groups": row["groups"]})
    held = [(name, group) for name, group in foods(ABOUT[hazard]) if in_groups.fits("", group)]
    for word in filter(None, row["words"].split("|")):
        assert any(words_pattern(word).search(name) for name, _ in held), f"{hazard}: no food states {word!r}"
    for group in row["groups"].split():
        assert any(code.startswith(group) for _, code in held), f"{hazard}: no food of group {group}"
    others = [name for name, group in foods(OTHERS[hazard]) if in_groups.fits("", group)]
    for word in filter(None, row["unless"].split("|")):
        assert any(words_pattern(word).search(name) for name in others), f"{hazard}: no food states {word!r}"
