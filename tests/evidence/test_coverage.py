"""Measurements held against ranges: inside or not, and the command that prints how many are."""

from __future__ import annotations

from dataclasses import replace
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner
from saltledger.commands.cli import main
from saltledger.core.spread import Spread
from saltledger.core.tables import rows
from saltledger.evidence.cases import Case, Source, cases, recipe
from saltledger.evidence.coverage import (
    Held,
    coverages,
    explained,
    fallen,
    hold,
    hold_all,
    kinds,
    measured,
    why,
    whys,
)
from saltledger.evidence.places import NoSuchPlace
from saltledger.render.evidence_drawing import evidence_svg

from tests.recipe.dishes import answered

SOURCE = Source("a", "checking", "verified", "somewhere")
CASE = Case("one", "pots", SOURCE, recipe("11352", 300, "boil bath=water:1500 duration_h=0.2"), "kept K", 0.8)


def held(published: float, part: str = "checking") -> Held:
    source = replace(SOURCE, part=part)
    return Held(replace(CASE, published=published, source=source), Spread(0.5, 0.7, 1.0))


def test_a_measurement_lies_inside_its_range_or_not() -> None:
    assert held(0.5).inside
    assert held(0.998).inside
    assert not held(0.49).inside
    assert held(0.7).width == pytest.approx(2.0)


def test_coverage_is_counted_by_kind_and_part() -> None:
    checking, fitting = coverages([held(0.6), held(0.2), held(0.7, "fitting")])
    assert (checking.inside, checking.of, checking.share) == (1, 2, 0.5)
    assert checking.bias == pytest.approx((0.7 / 0.6 + 0.7 / 0.2) / 2)
    assert (fitting.inside, fitting.of) == (1, 1)


def test_only_the_part_for_checking_can_fall_under_the_floor() -> None:
    low = [held(0.01)] * 9
    assert [each.part for each in fallen(coverages([*low, held(0.01, "fitting")]))] == ["checking"]


def test_a_case_is_worked_out() -> None:
    found = hold(CASE)
    assert 0 < found.range.low < found.range.likely < found.range.high <= 1


def test_a_place_that_is_none_is_refused() -> None:
    with pytest.raises(NoSuchPlace):
        hold(replace(CASE, place="nowhere"))
    with pytest.raises(NoSuchPlace):
        hold(replace(CASE, place="figure nowhere"))


def test_every_published_measurement_outside_its_range_has_a_reason_and_every_reason_a_measurement() -> None:
    missed = explained(hold_all(case for case in cases() if not case.source.id.startswith("sr28")))
    assert [each.case.id for each, reason in missed if reason is None] == []
    used = {why(each.case) for each, _ in missed}
    assert [each.cases for each in whys() if each not in used] == []


def test_the_picture_is_sound_and_says_how_many_lie_inside() -> None:
    root = ElementTree.fromstring(evidence_svg(measured([held(0.6), held(0.2)])))
    assert "1 of 2" in "".join(root.itertext())


def test_the_command_prints_every_kind_and_holds_the_floors(tmp_path) -> None:
    told = CliRunner().invoke(main, ["evidence", "--missed", "--plot", str(tmp_path / "plot.svg")])
    assert told.exit_code == 0, told.output
    for kind in {each.kind for each in cases()}:
        assert kind in told.output
    ElementTree.parse(tmp_path / "plot.svg")


def test_the_command_refuses_a_kind_that_is_none() -> None:
    assert "There is no kind" in CliRunner().invoke(main, ["evidence", "--kind", "nothing"]).output


def test_an_answer_says_how_often_measurements_of_its_kind_held() -> None:
    counted = {
        row["kind"]: (int(row["inside"]), int(row["of"]))
        for row in rows("evidence_coverage")
        if row["part"] == "checking"
    }
    boiled = {"kind": "boil", "food": "f", "bath": "p", "duration_h": 0.2}
    pot = [{"food": "14429", "grams": 1500}, {"food": "02047", "grams": 15}]
    parts = [{"id": "f", "ingredients": [{"food": "11352", "grams": 300}]}, {"id": "p", "ingredients": pot}]
    found = answered({"servings": 1, "components": parts, "steps": [boiled]})["sodium"]["evidence"]
    assert (found["kind"], found["label"]) == ("pots", kinds()["pots"].label)
    assert (found["inside"], found["of"]) == counted["pots"]


def test_an_answer_without_steps_is_held_to_the_foods() -> None:
    found = answered(
        {"servings": 1, "components": [{"id": "f", "ingredients": [{"food": "11124", "grams": 9}]}]}
    )
    assert found["sodium"]["evidence"]["kind"] == "dataset"


def test_the_kept_counts_are_those_that_come_out() -> None:
    told = CliRunner().invoke(main, ["evidence", "--check"])
    assert told.exit_code == 0, told.output
