"""One short text for everything that says the same."""

from __future__ import annotations

import hashlib
import json
from typing import Any


def fingerprint(value: Any) -> str:
    """The same for JSON values that say the same: keys in any order, 2 and 2.0 alike. 64 hex digits."""
    text = json.dumps(_alike(value), sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


def _alike(value: Any) -> Any:
    match value:
        case dict():
            return {key: _alike(item) for key, item in value.items()}
        case list() | tuple():
            return [_alike(item) for item in value]
        case float() if value.is_integer():
            return int(value)
        case _:
            return value
