"""The gate that all input passes."""

from __future__ import annotations

import contextlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.gate.reading import MOST_FAULTS, MalformedJson, faults_of, parse_json, pointer_to


@pytest.mark.parametrize(
    ("body", "words"),
    [
        (b"", "Found nothing"),
        (b" \n", "Found nothing"),
        (b"{", "This is not JSON"),
        (b"{'a': 1}", "This is not JSON"),
        (b'{"a": 1} {"b": 2}', "Extra data, at line 1, column 10"),
        (b"\xff\xfe", "Byte 0 (0xff) is not valid UTF-8"),
        ('{"title": "Grünkohl"}'.encode("latin-1"), "Byte 13 (0xfc) is not valid UTF-8"),
        ("{}".encode("utf-16-le"), "This is not JSON"),
        (b'{"a": 1, "b": 2, "a": 3}', 'The name "a" stands twice'),
        (b'[{"x": {"y": 1, "y": 1}}]', 'The name "y" stands twice'),
        (b"[" * 200_000, "nested too deep"),
        (b'{"a":' * 100_000, "nested too deep"),
        (b"[1" + b"0" * 6_000 + b"]", "too many digits"),
        (b'["\\ud800"]', "half of a surrogate pair"),
        (b'{"\\udfff": 1}', "half of a surrogate pair"),
    ],
)
def test_what_is_no_json_document_is_refused(body: bytes, words: str) -> None:
    with pytest.raises(MalformedJson) as refused:
        parse_json(body)
    (fault,) = refused.value.faults
    assert fault.pointer == ""
    assert words in fault.message
    assert fault.message.endswith(".")


@pytest.mark.parametrize(
    ("body", "places"),
    [
        (b"NaN", {"": "NaN"}),
        (b'{"servings": NaN}', {"/servings": "NaN"}),
        (b'[1, {"a/b": [Infinity, -Infinity]}]', {"/1/a~1b/0": "Infinity", "/1/a~1b/1": "-Infinity"}),
    ],
)
def test_constants_are_refused_where_they_stand(body: bytes, places: dict[str, str]) -> None:
    with pytest.raises(MalformedJson) as refused:
        parse_json(body)
    found = {
        fault.pointer: fault.message.removeprefix("Found ").split(",")[0] for fault in refused.value.faults
    }
    assert found == places


def test_text_of_every_script_is_read() -> None:
    assert parse_json('{"a": "مرق 🧂 \\ud83e\\uddc2"}'.encode()) == {"a": "مرق 🧂 🧂"}


@settings(max_examples=100)
@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused(body: bytes) -> None:
    with contextlib.suppress(MalformedJson):
        parse_json(body)


@pytest.mark.parametrize(
    ("parts", "pointer"),
    [((), ""), (("steps", 0), "/steps/0"), (("a/b", "c~d"), "/a~1b/c~0d"), (("",), "/")],
)
def test_pointers_are_escaped(parts: tuple[str | int, ...], pointer: str) -> None:
    assert pointer_to(*parts) == pointer


def test_messages_become_faults_with_pointers() -> None:
    faults = faults_of(
        {"steps": {0: {"kind": ["one", "two"]}, 1: {"_schema": ["three"]}}, "_schema": ["four"]}
    )
    assert [(fault.pointer, fault.message) for fault in faults] == [
        ("/steps/0/kind", "one"),
        ("/steps/0/kind", "two"),
        ("/steps/1", "three"),
        ("", "four"),
    ]


def test_a_flood_of_faults_is_cut_and_counted() -> None:
    faults = faults_of({str(i): ["wrong"] for i in range(MOST_FAULTS + 7)})
    assert len(faults) == MOST_FAULTS + 1
    assert faults[-1].message == "There are 7 more faults; mend these and send again."
