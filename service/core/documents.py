"""How ranges, assumptions and notices stand in an answer: one form for every route."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from .checked import checked_against
from .notices import Assumption, Notice
from .spread import Spread

SIGNIFICANT = 12
"""Significant digits of every figure in an answer: so many that what came in and what became of it still add
up to 1e-9 in the answer itself, and few enough that the last bits of a machine's arithmetic do not show."""


def figure(value: float, digits: int = SIGNIFICANT) -> float:
    """A number as it stands in an answer."""
    return float(f"{value:.{digits}g}")


def rounded(document: Any, digits: int = SIGNIFICANT) -> Any:
    """A document with every float in it as answers have them."""
    match document:
        case float():
            return figure(document, digits)
        case dict():
            return {key: rounded(value, digits) for key, value in document.items()}
        case list():
            return [rounded(value, digits) for value in document]
    return document


def every_food(answer: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    """The foods of an answer's lines, the further ones of a line (`parts`) behind its first, each with its
    component. Answers kept from before a line could hold several have no parts."""
    for each in answer["ingredients"]:
        yield each
        for part in each.get("parts", ()):
            yield {"component": each["component"], "eaten_fraction": each.get("eaten_fraction"), **part}


def range_document(spread: Spread) -> dict[str, float]:
    return {key: figure(value) for key, value in spread.as_dict().items()}


def assumption_document(assumption: Assumption) -> dict[str, Any]:
    value = assumption.value
    return {
        "id": assumption.id,
        "value": figure(value.likely),
        "low": figure(value.low),
        "high": figure(value.high),
        "unit": assumption.unit,
        "source": assumption.source,
        "step": assumption.step,
        "row": assumption.row or None,
        "checked_against": list(checked_against(assumption.row or "")),
    }


def notice_document(notice: Notice) -> dict[str, str]:
    return {
        "code": notice.code,
        "severity": notice.severity,
        "message": notice.message,
        "pointer": notice.pointer,
    }
