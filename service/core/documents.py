"""How ranges, assumptions and notices stand in an answer: one form for every route."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

import numpy as np
import orjson
from numpy.typing import NDArray

from .checked import publications_by_row
from .notices import Assumption, Notice
from .spread import Spread
from .tables import row_of

SIGNIFICANT = 12
"""Significant digits of every figure in an answer: so many that what came in and what became of it still add
up to 1e-9 in the answer itself, and few enough that the last bits of a machine's arithmetic do not show."""


_EXACT = 22
"""The largest power of ten that is a float without loss."""

_LEAST = 10.0 ** (SIGNIFICANT - 1 - _EXACT)
"""Below it all has the same number of decimals."""

_POWERS = np.array([10.0**power for power in range(_EXACT + 1)])


def figure(value: float, digits: int = SIGNIFICANT) -> float:
    """A number as it stands in an answer. Raises ValueError unless it is finite."""
    if not math.isfinite(value):
        raise ValueError(f"a figure must be finite, got {value}")
    return float(f"{value:.{digits}g}")


def figures(values: NDArray[np.float64]) -> NDArray[np.float64]:
    """The same for many numbers at once, of any shape; below 1e-10 to 22 decimals.

    Exactly between two figures it may take the other one than `figure` does.
    """
    if not np.isfinite(values).all():
        raise ValueError("a figure must be finite")
    size = np.floor(np.log10(np.maximum(np.abs(values), _LEAST)))
    decimals = np.minimum(SIGNIFICANT - 1 - size, _EXACT).astype(np.intp)
    if not decimals.size or decimals.min() >= 0:  # as nearly always
        up, down = _POWERS[decimals], 1.0
    else:
        decimals = np.maximum(decimals, -_EXACT)
        up, down = _POWERS[np.maximum(decimals, 0)], _POWERS[np.maximum(-decimals, 0)]
    made: NDArray[np.float64] = np.rint(values * up / down) * down / up
    return made


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


def assumption_documents(assumptions: Iterable[Assumption]) -> list[dict[str, Any]]:
    """Assumptions as answers list them."""
    listed, checked = list(assumptions), publications_by_row()
    ends = figures(np.array([(a.value.likely, a.value.low, a.value.high) for a in listed], dtype=float))
    return [
        {
            "id": id,
            "value": likely,
            "low": low,
            "high": high,
            "unit": unit,
            "source": source,
            "step": step,
            "row": (row := row_of(source)) or None,
            "checked_against": [*checked.get(row, ())],
        }
        for (id, _, unit, source, step), (likely, low, high) in zip(listed, ends.tolist(), strict=True)
    ]


def notice_document(notice: Notice) -> dict[str, str]:
    return {
        "code": notice.code,
        "severity": notice.severity,
        "message": notice.message,
        "pointer": notice.pointer,
    }


def json_bytes(document: Any) -> bytes:
    """A document as JSON. A figure in it must be finite (`documents.figure` sees to that): NaN would become
    null.

    Raises orjson.JSONEncodeError (a TypeError): something in it is no JSON.
    """
    return orjson.dumps(document, option=orjson.OPT_SERIALIZE_NUMPY)


def json_line(document: Any) -> bytes:
    """The same with a line end behind it: the body of an answer, or a line of newline-delimited JSON."""
    return orjson.dumps(document, option=orjson.OPT_SERIALIZE_NUMPY | orjson.OPT_APPEND_NEWLINE)
