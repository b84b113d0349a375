"""The text by which an answer is kept, and its fingerprint taken: the same for ever."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.store.packing import packed, text_of, text_sha256, unpacked

VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=12,
)


def test_a_library_that_wrote_otherwise_would_be_noticed() -> None:
    """Versions are on record by this text: another writing of it would make all of them look altered."""
    document = {"b": [0.1, 1e-7, 1.5e4, 2.0, -0.0, 12, None, True], "a": 'salt — ½ \x7f " \\ / \n'}
    text = '{"b":[0.1,1e-7,15000.0,2.0,-0.0,12,null,true],"a":"salt — ½ \x7f \\" \\\\ / \\n"}'
    assert text_of(document) == text.encode()
    assert text_sha256(b"{}") == "44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a"


@given(st.dictionaries(st.text(), VALUES, max_size=4))
def test_what_is_packed_comes_back_with_the_same_text(document: dict[str, Any]) -> None:
    assert text_of(unpacked(packed(document))) == text_of(document)


@pytest.mark.parametrize("document", [{"a": 2**70}, {1: "one"}])
def test_so_does_what_the_library_does_not_take(document: dict[Any, Any]) -> None:
    assert text_of(unpacked(packed(document))) == text_of(document)
