"""Tokens of forms: never twice the same on a page, and known again."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.http.pages.form_tokens import is_masked, masked

tokens = st.text("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_", min_size=8, max_size=60)


@given(tokens, tokens)
def test_a_masked_token_is_known_again_and_no_other(token: str, other: str) -> None:
    assert is_masked(masked(token), token)
    assert is_masked(masked(token), other) == (token == other)
    assert masked(token) != masked(token)
    assert token not in masked(token)


@pytest.mark.parametrize("given_", [None, "", "x", "é", "====", "a" * 7, "AAAA"])
def test_what_is_no_token_is_none(given_: str | None) -> None:
    assert not is_masked(given_, "token-of-this-session")
    assert not is_masked(masked("token"), None)
