"""The panel of an answer: rows and words; nothing that is not known is shown as nought."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.render.panel import UNKNOWN, panel_of


def entry(amount: float, unit: str, **more: Any) -> dict[str, Any]:
    return {"amount": amount, "low": amount * 0.9, "high": amount * 1.1, "unit": unit, **more}


def answer(**more: Any) -> dict[str, Any]:
    return {
        "title": "Tern Quay broth",
        "servings": 4.0,
        "per_serving": {
            "weight_g": 251.26,
            "nutrients": {
                "NA": entry(512.34, "mg", daily_value_percent=22),
                "K": entry(100, "mg", coverage=0.8),
                "FAT": {**entry(2.0, "g"), "low": 2.0, "high": 2.0},
            },
        },
        "per_100g": {"nutrients": {"NA": entry(204.1, "mg")}},
        "sodium": {"as_listed_per_serving_mg": 3000.0, "per_serving_mg": {"likely": 512.34}},
        "notices": [],
        **more,
    }


def row(panel: Any, name: str) -> Any:
    return next(each for each in panel.rows if each.name == name)


def test_rows_stand_in_the_order_of_a_label_and_only_where_known() -> None:
    assert [each.name for each in panel_of(answer()).rows] == ["Fat", "Sodium", "Potassium"]


def test_a_row_has_amount_range_per_100_g_and_percent() -> None:
    assert row(panel_of(answer()), "Sodium").cells == ("512 mg", "461 to 564 mg", "204 mg", "22 %")
    assert row(panel_of(answer()), "Fat").cells == ("2 g", "2 g", UNKNOWN, "")


def test_every_row_fills_every_column() -> None:
    panel = panel_of(answer())
    assert {len(each.cells) + 1 for each in panel.rows} == {len(panel.head)}


def test_partial_knowledge_is_said_in_the_row() -> None:
    assert row(panel_of(answer()), "Potassium").note == "known for 80 % of the weight listed"


def test_the_contrast_to_the_list_is_told_where_there_is_one() -> None:
    assert any("3000 mg" in note for note in panel_of(answer()).notes)
    near = {"as_listed_per_serving_mg": 513.0, "per_serving_mg": {"likely": 512.34}}
    assert not any("513" in note for note in panel_of(answer(sodium=near)).notes)


@pytest.mark.parametrize(
    ("severities", "words"),
    [
        (["check"], "1 notice asks"),
        (["check", "check"], "2 notices ask"),
        (["check", "stop"], "Do not publish"),
    ],
)
def test_what_is_unchecked_is_said(severities: list[str], words: str) -> None:
    panel = panel_of(answer(notices=[{"severity": severity} for severity in severities]))
    assert words in panel.notes[-1]


def test_nothing_to_check_is_not_spoken_of() -> None:
    assert len(panel_of(answer(notices=[{"severity": "info"}])).notes) == 2
