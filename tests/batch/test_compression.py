"""Compressed lines: told apart by their beginning, in parts that stand alone, and never cut off unseen."""

from __future__ import annotations

import io

import pytest
from saltledger.batch.compression import BrokenInput, Compression, packed, reading, told

TEXT = b"".join(b"line %d\n" % number for number in range(20_000))
KINDS: tuple[Compression, ...] = ("none", "gzip", "zstd")


def unpacked(data: bytes) -> bytes:
    with told():
        return reading(io.BytesIO(data)).read()


@pytest.mark.parametrize("how", KINDS)
def test_parts_one_after_another_are_one_file(how: Compression) -> None:
    assert unpacked(packed(TEXT, how) + packed(b"more\n", how)) == TEXT + b"more\n"


@pytest.mark.parametrize("how", KINDS)
def test_nothing_is_nothing(how: Compression) -> None:
    assert unpacked(packed(b"", how)) == b""
    assert unpacked(b"") == b""


@pytest.mark.parametrize("how", ["gzip", "zstd"])
@pytest.mark.parametrize("left", [1, 5, 30])
def test_what_breaks_off_is_said(how: Compression, left: int) -> None:
    whole = packed(TEXT, how)
    with pytest.raises(BrokenInput):
        unpacked(whole + whole[:-left])


@pytest.mark.parametrize("how", ["gzip", "zstd"])
def test_what_was_altered_is_said(how: Compression) -> None:
    whole = bytearray(packed(TEXT, how))
    whole[len(whole) // 2] ^= 0x55
    with pytest.raises(BrokenInput):
        unpacked(bytes(whole))


@pytest.mark.parametrize("how", ["gzip", "zstd"])
def test_lines_can_be_read_one_by_one(how: Compression) -> None:
    assert sum(1 for _ in reading(io.BytesIO(packed(TEXT, how) * 3))) == 60_000
