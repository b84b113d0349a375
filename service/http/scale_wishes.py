"""To what callers want recipes scaled: taken out of their queries, and told beside an answer."""

from __future__ import annotations

from typing import Any

from ..core.errors import Fault, InvalidRequest
from ..gate.problem_details import InvalidQuery
from ..recipe.scaling import Wish, scaled
from .schemas.scaling import NAMES


def asked_scale(query: dict[str, Any], media_type: str) -> Wish | None:
    """To what the caller wants a recipe scaled, taken out of the query.

    Raises InvalidQuery: another form than JSON is asked for, in which it is not told.
    """
    wish: Wish | None = query.pop("scale", None)
    if wish is not None and media_type != "application/json":
        named = [name for name in NAMES if getattr(wish, name) is not None]
        message = f"This is told in JSON and not in {media_type}; leave it out, or Accept."
        raise InvalidQuery(Fault(f"/{name}", message) for name in named)
    return wish


def scaled_too(answer: dict[str, Any], wish: Wish | None) -> dict[str, Any]:
    """An answer with the recipe scaled, where that is wanted. Raises InvalidQuery."""
    if wish is None:
        return answer
    try:
        return {**answer, "scaled": scaled(answer, wish)}
    except InvalidRequest as refused:
        raise InvalidQuery(refused.faults) from refused
