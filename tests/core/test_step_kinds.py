"""One row a kind of step: what it needs, uses and is."""

from __future__ import annotations

from dataclasses import fields, replace

import pytest
from saltledger.core import step_kinds as module
from saltledger.core.errors import BrokenTable
from saltledger.core.step_kinds import kinds_that, step_kinds
from saltledger.curing.curing_limits import product_classes
from saltledger.nutrition.retention import treatments
from saltledger.recipe.request import StepRequest
from saltledger.recipe.steps import dispatch


@pytest.mark.parametrize("kind", step_kinds().values(), ids=list(step_kinds()))
def test_a_row_names_what_there_is(kind: module.StepKind) -> None:
    known = {field.name for field in fields(StepRequest)}
    assert kind.uses <= known
    assert set(kind.needs) <= kind.uses
    assert not kind.bath or "bath" in kind.uses
    assert kind.treatment in ("", *treatments())
    assert kind.product_class in ("", *product_classes("us"))


def test_kinds_by_what_they_are() -> None:
    assert kinds_that("pot") == {"simmer", "boil"}
    assert kinds_that("pot") < kinds_that("heat")
    assert not kinds_that("heat") & kinds_that("cold")


def test_a_trait_that_is_none_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "TRAITS", module.TRAITS - {"pot"})
    with pytest.raises(BrokenTable, match=r"step_kinds.csv.*no kind can be pot"):
        module.step_kinds.__wrapped__()


@pytest.mark.parametrize("work", ["cold.bathes", "nowhere.bathe", ""])
def test_a_kind_without_its_work_is_an_error_at_the_start(work: str) -> None:
    with pytest.raises(BrokenTable, match=r"step_kinds.csv.*recipe.steps has no"):
        dispatch._work(replace(step_kinds()["brine"], work=work))
