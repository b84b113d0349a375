"""Who holds a figure: sources kept for checking, told of each assumption; and nobody, said as it is."""

from saltledger.calculator import answer_recipe
from saltledger.core.sourced import checked_against
from saltledger.core.tables import rows

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
