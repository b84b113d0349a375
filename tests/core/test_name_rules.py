"""Rules over food names: each column on its own, and none of them where it is blank."""

from __future__ import annotations

import pytest
from saltledger.core import tables
from saltledger.core.name_rules import NameRule, NameRules


@pytest.mark.parametrize(
    ("row", "name", "group", "fits"),
    [
        ({}, "anything", "", True),
        ({"groups": "05 07"}, "chicken", "0500", True),
        ({"groups": "05 07"}, "chicken", "1000", False),
        ({"groups": "05"}, "chicken", "", False),
        ({"words": "egg|soy sauce"}, "soy sauces, light", "", True),
        ({"words": "egg"}, "eggplant, raw", "", False),
        ({"words": "radish"}, "radishes, raw", "", True),
        ({"words": "butter", "but_for": "peanut butter"}, "peanut butter", "", False),
        ({"words": "butter", "but_for": "peanut butter"}, "peanut butter with butter", "", True),
        ({"words": "milk", "unless": "coconut"}, "coconut milk", "", False),
        ({"unless": "coconut"}, "milk", "", True),
        ({"words": "s&p"}, "s&p", "", True),
    ],
)
def test_a_rule(row: dict[str, str], name: str, group: str, fits: bool) -> None:
    assert NameRule.of(row).fits(name, group) is fits


def test_the_first_row_that_fits_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    table = ({"words": "ham", "kind": "cured"}, {"words": "", "kind": "meat"})
    monkeypatch.setattr(tables, "rows", lambda name: table)
    rules = NameRules.of("meats", lambda row: row["kind"])
    assert (rules.first("HAM, sliced"), rules.first("Pork")) == ("cured", "meat")
    assert list(rules.all("Ham")) == ["cured", "meat"]


def test_names_that_differ_in_their_numbers_alone_are_looked_through_once() -> None:
    rules = NameRules(((NameRule.of({"words": "egg"}), "egg"), (NameRule.of({"unless": "egg"}), "other")))
    found = [
        rules.all(name) for name in ("3 eggs", "4 Eggs", "1 1/2 eggs", "12,5 eggs", "e220 in 2 egg7", "5")
    ]
    assert found == [("egg",), ("egg",), ("egg",), ("egg",), ("other",), ("other",)]
    assert len(rules._fitting) == 4


def test_numbers_count_where_a_rule_has_figures() -> None:
    rules = NameRules(((NameRule.of({"words": "80 lean"}), "fat"),))
    assert [rules.first(name) for name in ("beef, 80 lean", "beef, 90 lean")] == ["fat", None]
