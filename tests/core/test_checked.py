"""Who holds a figure: sources kept for checking, told of each assumption; texts of law, told of claims and
references; and nobody, said as it is."""

from saltledger.calculator import answer_recipe, calculated
from saltledger.core.checked import HELD, checked_against, stated_by
from saltledger.core.tables import rows
from saltledger.foods.dataset import bundled

SOURCES = {row["id"]: row for row in rows("evidence_sources")}


def test_only_sources_that_made_no_figure_check_one():
    told = {id for row in rows("evidence_rows") for id in checked_against(row["row"])}
    assert told
    assert {SOURCES[id]["part"] for id in told} <= {"checking", "by id"}


def test_a_row_that_nothing_was_held_against_is_held_by_nobody():
    assert checked_against("moss:by the quay") == ()
    assert checked_against("") == ()


def test_every_assumption_says_who_holds_its_figure():
    answer = answer_recipe(
        {
            "servings": 4,
            "components": [
                {"id": "pot", "ingredients": ["3 l water", "30 g salt"], "eaten_fraction": 0},
                {"id": "roots", "ingredients": ["800 g potatoes"]},
            ],
            "steps": [{"kind": "boil", "food": "roots", "bath": "pot", "duration_h": 0.4}],
        }
    )
    by_row = {each["row"]: each["checked_against"] for each in answer["assumptions"]}
    assert by_row[None] == []
    assert all(set(ids) <= set(SOURCES) for ids in by_row.values())
    assert any(by_row.values())


def test_a_row_of_law_is_stated_by_a_text_that_was_seen_or_by_nobody():
    by_seen = {row["seen"]: row for row in rows("law_statements")}
    for seen, words in HELD.items():
        row = by_seen[seen]
        assert stated_by(row["row"]) == (f"{row['again']} ({words})",)
    assert stated_by(by_seen["memory"]["row"]) == ()
    assert stated_by("claims:of the quay") == ()


def test_every_claim_and_reference_says_who_states_its_row():
    known = {row["row"]: row for row in rows("law_statements")}
    wish = {"dish_class": "soup", "own_limits": [{"id": "ward", "sodium_mg": 600, "per": "serving"}]}
    recipe = {"servings": 2, "ingredients": ["1 l water", "4 g salt"], **wish}
    answer = calculated(recipe, bundled(), label="fda").document
    own = answer["sodium"]["references"].pop()
    assert (own["row"], own["checked_against"]) == (None, [])
    amount = answer["label"]["serving"]["reference_amount"]
    told = [amount, *answer["sodium"]["claims"], *answer["sodium"]["references"]]
    assert {each["row"].partition(":")[0] for each in told} == {
        "claims",
        "reference_values",
        "reference_amounts",
    }
    for each in told:
        assert each["checked_against"] == list(stated_by(each["row"]))
        assert bool(each["checked_against"]) is (known[each["row"]]["seen"] in HELD)
    assert any(each["checked_against"] for each in told)
