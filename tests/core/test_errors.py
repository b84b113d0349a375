"""Faults are gathered, each below its place, and told together."""

import pytest
from saltledger.core.errors import Fault, Faults, InvalidRequest, pointing_below


def test_every_fault_is_told_at_its_place() -> None:
    faults = Faults()
    for i in range(2):
        with faults.below(f"/lines/{i}"):
            raise InvalidRequest([Fault("/food", f"fault {i}")])
    faults.add("", "another")
    with pytest.raises(InvalidRequest) as refused:
        faults.refuse()
    assert [fault.pointer for fault in refused.value.faults] == ["/lines/0/food", "/lines/1/food", ""]


def test_nothing_is_refused_without_a_fault() -> None:
    faults = Faults()
    with faults.below("/a"):
        pass
    faults.refuse()


def test_other_errors_pass() -> None:
    with pytest.raises(ZeroDivisionError), Faults().below("/a"):
        _ = 1 / 0


def test_a_refusal_points_below() -> None:
    with pytest.raises(InvalidRequest) as refused, pointing_below("/recipe"):
        raise InvalidRequest([Fault("/servings", "none")])
    assert refused.value.faults == (Fault("/recipe/servings", "none"),)
