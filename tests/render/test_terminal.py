"""What the terminal prints of an answer: figures, the contrast with the list, movements, notices."""

import io

import pytest
from rich.console import Console
from saltledger.render.terminal import report

from ..recipe.dishes import CARROTS, PORK, SALT, WATER, answered, brined, item, part, recipe


def printed(answer):
    out = io.StringIO()
    report(answer, Console(file=out, width=160, highlight=False, markup=False, emoji=False))
    return out.getvalue()


def row(text, first):
    """The cells of the one row of a table that begins so."""
    line = next(line for line in text.splitlines() if line.lstrip().startswith(first))
    return line.split()


@pytest.fixture(scope="module")
def loin():
    return answered(brined() | {"title": "Loin of Tern Quay", "servings": 8})


def test_the_title_the_servings_and_the_sodium_with_its_range(loin):
    text = printed(loin)
    assert text.startswith("Loin of Tern Quay\n")
    assert text.splitlines()[1].startswith("8 servings of ")
    sodium = loin["per_serving"]["nutrients"]["NA"]
    cells = row(text, "Sodium ")
    figures = [float(cell.replace(",", "")) for cell in cells[1:4]]
    assert figures == pytest.approx([sodium[key] for key in ("low", "amount", "high")], rel=0.01)
    assert cells[4] == "mg"
    assert float(cells[5]) == pytest.approx(sodium["daily_value_percent"], rel=0.01)


def test_a_dish_without_a_title_says_so():
    assert printed(answered(recipe([part("a", item(CARROTS, 100))], []))).startswith("(no title)")


def test_how_many_times_too_high_the_list_would_be_is_said_where_it_is(loin):
    sodium = loin["sodium"]
    times = sodium["as_listed_per_serving_mg"] / sodium["per_serving_mg"]["likely"]
    assert times > 2
    (said,) = [line for line in printed(loin).splitlines() if "times too high" in line]
    assert float(said.split()[5]) == pytest.approx(times, rel=0.01)
    plain = answered(recipe([part("a", item(CARROTS, 100), item(SALT, 1))], []))
    assert "times too high" not in printed(plain)


@pytest.mark.parametrize(("listed", "is_said"), [(109.0, False), (110.0, True)])
def test_a_tenth_more_on_the_list_is_worth_saying(loin, listed, is_said):
    sodium = {**loin["sodium"], "as_listed_per_serving_mg": listed}
    sodium["per_serving_mg"] = {"low": 90.0, "likely": 100.0, "high": 120.0}
    assert ("times too high" in printed({**loin, "sodium": sodium})) is is_said


def test_nothing_is_divided_by_a_dish_without_sodium():
    text = printed(answered(recipe([part("a", item(WATER, 0.0))], [])))
    assert "times too high" not in text


def test_every_reference_has_its_share(loin):
    text = printed(loin)
    for reference in loin["sodium"]["references"]:
        assert f"% of {reference['limit_mg']:,.0f} mg ({reference.get('name', reference['id'])})" in text


def test_every_movement_is_a_row_and_what_is_served_has_no_step(loin):
    text = printed(loin)
    table = text.split("Where the sodium went")[1]
    assert "brine" in table
    assert "served" in table
    for movement in loin["sodium"]["ledger"]:
        assert f"{movement['mg']:,.0f}"[:3] in table


def test_an_incomplete_sum_and_grave_notices_are_said_first_hand():
    dish = recipe([part("a", {"line": "1 jar of zzyzx relish"}, item(PORK, 500))], [])
    answer = answered(dish)
    text = printed(answer)
    assert answer["sodium"]["complete"] is False
    assert "ncomplete" in text
    assert "Notices" in text
    for notice in answer["notices"]:
        assert notice["message"][:40] in text


def test_severities_have_their_words(loin):
    told = [
        {"severity": each, "message": f"of {each}", "pointer": "/x"} for each in ("stop", "check", "info")
    ]
    lines = [line.split() for line in printed({**loin, "notices": told}).splitlines() if " of " in line]
    marks = {
        words[2]: words[0] for words in lines if words[1] == "of" and words[2] in {"stop", "check", "info"}
    }
    assert marks == {"stop": "STOP", "check": "check", "info": "note"}


def test_what_carries_the_range_has_its_share(loin):
    told = [{"assumption": "pork/thickness", "share": 0.42, "measure": "Measure it.", "pointer": ""}]
    text = printed({**loin, "sodium": {**loin["sodium"], "carried_by": told}})
    assert "What carries the range" in text
    assert "42 %" in text
    assert "pork/thickness: Measure it." in text
    assert "What carries the range" not in printed({**loin, "sodium": {**loin["sodium"], "carried_by": []}})
