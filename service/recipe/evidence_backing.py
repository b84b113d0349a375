"""How often published measurements lay inside ranges like the one of an answer.

The counts are those of `saltledger evidence`, kept in evidence_coverage.csv; here they are only looked up, by
the kind of step whose figure carries most of the answer's range.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from ..core.notices import Assumption
from ..core.tables import rows
from .request import RecipeRequest

OF_FOODS = "dataset"
"""The kind of measurement that tells of ranges which no step carries: what foods hold."""


def evidence_document(request: RecipeRequest, carrier: Assumption | None) -> dict[str, Any] | None:
    """`{"kind", "label", "inside", "of"}` of the kind of step that `carrier` belongs to; None without any."""
    kind = OF_FOODS
    if carrier is not None and carrier.step is not None:
        kind = _kind_by_step().get(request.steps[carrier.step].kind, OF_FOODS)
    found = _counted().get(kind)
    if found is None:
        return None
    return {"kind": kind, "label": _labels()[kind], "inside": found[0], "of": found[1]}


@cache
def _kind_by_step() -> dict[str, str]:
    return {step: row["kind"] for row in rows("evidence_kinds") for step in row["steps"].split("|") if step}


@cache
def _labels() -> dict[str, str]:
    return {row["kind"]: row["label"] for row in rows("evidence_kinds")}


@cache
def _counted() -> dict[str, tuple[int, int]]:
    """Inside and of, by kind: of the measurements kept apart for checking, where there are any."""
    found: dict[str, tuple[int, int]] = {}
    for row in sorted(rows("evidence_coverage"), key=lambda row: row["part"], reverse=True):
        found[row["kind"]] = (int(row["inside"]), int(row["of"]))  # checking comes last and stands
    return found
