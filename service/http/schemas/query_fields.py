"""Fields of query strings: numbers, flags and moments, which come as text."""

from __future__ import annotations

import math
import re
from datetime import UTC, datetime
from typing import Any

from ...gate.fields import Choice, Number, Text, shown


class QueryNumber(Number):
    """A number in a query string."""

    remedy = "write it in digits, inside this range"

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> float:
        if not isinstance(value, str) or not re.fullmatch(r"[0-9]{1,12}(\.[0-9]{1,12})?", value):
            raise self.refuse(value)
        found = float(value)
        if not math.isfinite(found):
            raise self.refuse(value)
        return super()._deserialize(found, attr, data, **kwargs)


class QueryFlag(Choice):
    """true or false in a query string."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(("true", "false"), **kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        return super()._deserialize(value, attr, data, **kwargs) == "true"


class QueryMoment(Text):
    """A moment in a query string, with its offset from UTC; it comes out as the store writes moments."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(most=40, wanted="a moment as in 2026-11-25T08:00:00Z", **kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> str:
        text = super()._deserialize(value, attr, data, **kwargs)
        try:
            moment = datetime.fromisoformat(text)
        except ValueError:
            raise self.refuse(value) from None
        if moment.tzinfo is None:
            raise self.make_error("invalid", found=shown(value), remedy="add Z or an offset from UTC")
        return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")
