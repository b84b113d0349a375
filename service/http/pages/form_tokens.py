"""Tokens of forms as pages carry them: never twice the same, so that a compressed page gives none away.

Who can have a page made with words of their own in it, and sees how long it becomes, could guess what else
stands in it again and again, were it always the same (BREACH).
"""

from __future__ import annotations

import hmac
import secrets
from base64 import urlsafe_b64decode, urlsafe_b64encode
from binascii import Error


def masked(token: str) -> str:
    """A token behind a mask of its own."""
    plain = token.encode()
    mask = secrets.token_bytes(len(plain))
    return urlsafe_b64encode(mask + _mixed(plain, mask)).decode()


def is_masked(given: str | None, token: str | None) -> bool:
    """Whether what a form brought is this token behind a mask."""
    if not given or not token:
        return False
    try:
        both = urlsafe_b64decode(given)
    except (Error, ValueError):
        return False
    half = len(both) // 2
    return hmac.compare_digest(_mixed(both[half:], both[:half]), token.encode())


def _mixed(text: bytes, mask: bytes) -> bytes:
    return bytes(one ^ other for one, other in zip(text, mask, strict=False))
