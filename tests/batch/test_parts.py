"""Parts of a batch: every line once, in order, and the way on from any of them."""

from __future__ import annotations

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.batch.parts import MOST_BYTES, MOST_ITEMS, OtherInput, of_items, of_lines

texts = st.lists(
    st.binary(max_size=40).filter(lambda line: b"\n" not in line and b"\r" not in line), max_size=150
)


def stream(lines: list[bytes]) -> io.BytesIO:
    return io.BytesIO(b"".join(line + b"\n" for line in lines))


@given(texts)
def test_every_line_is_in_one_part(lines: list[bytes]) -> None:
    parts = list(of_lines(stream(lines), 1000))
    assert [line for part in parts for line in part.items] == lines
    assert [part.first for part in parts] == list(range(1, len(lines) + 1, MOST_ITEMS))


@given(texts, st.data())
def test_going_on_after_any_part_gives_the_rest(lines: list[bytes], data: st.DataObject) -> None:
    parts = list(of_lines(stream(lines), 20))
    if not parts:
        return
    at = data.draw(st.integers(0, len(parts) - 1))
    rest = list(of_lines(stream(lines), 20, parts[at].mark))
    assert [(each.first, each.items, each.mark) for each in rest] == [
        (each.first, each.items, each.mark) for each in parts[at + 1 :]
    ]


@pytest.mark.parametrize("other", [[b"a"] * 31 + [b"b"] * 9, [b"a"] * 10, []])
def test_another_input_is_refused(other: list[bytes]) -> None:
    mark = next(of_lines(stream([b"a"] * 40), 20)).mark
    with pytest.raises(OtherInput):
        list(of_lines(stream(other), 20, mark))


def test_a_line_too_long_is_none_and_the_rest_go_on() -> None:
    (part,) = of_lines(stream([b"short", b"x" * 5000, b"y" * 20, b"end"]), 20)
    assert part.items == (b"short", None, b"y" * 20, b"end")


def test_a_last_line_needs_no_end_and_carriage_returns_do_no_harm() -> None:
    (part,) = of_lines(io.BytesIO(b"one\r\ntwo"), 20)
    assert part.items == (b"one", b"two")


def test_long_lines_make_short_parts() -> None:
    lines = [b"x" * (MOST_BYTES // 2)] * 5
    assert [len(part.items) for part in of_lines(stream(lines), MOST_BYTES)] == [2, 2, 1]


def test_items_are_read_only_as_parts_are_taken() -> None:
    taken = []

    def items():
        for number in range(10 * MOST_ITEMS):
            taken.append(number)
            yield str(number)

    parts = of_items(items(), lambda item, count: {"key": item, "count": count}, 5)
    first = next(parts)
    assert (first.first, first.mark) == (5, {"key": str(MOST_ITEMS - 1), "count": MOST_ITEMS + 4})
    assert len(taken) == MOST_ITEMS


def test_a_part_comes_apart_into_its_items() -> None:
    (part,) = of_lines(stream([b"a", b"b"]), 20)
    assert [(each.first, each.items) for each in part.apart()] == [(1, (b"a",)), (2, (b"b",))]
