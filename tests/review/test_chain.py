from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.review.chain import UNKNOWN, Actor, Entry, breaks, exact_sha256, hash_of, next_entry

JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=6,
)


def chain(payloads) -> list[Entry]:
    made: list[Entry] = []
    for payload in payloads:
        made.append(next_entry(made[-1] if made else None, "verdict", {"of": payload}, "now"))
    return made


@given(st.lists(JSON, max_size=6))
def test_what_was_only_added_to_is_whole(payloads):
    assert list(breaks(chain(payloads))) == []


@given(st.lists(st.integers(), min_size=2, max_size=6, unique=True), st.data())
def test_any_change_inside_shows(payloads, data):
    entries = chain(payloads)
    at = data.draw(st.integers(0, len(entries) - 1))
    changed = data.draw(
        st.sampled_from(
            [{"payload": {"of": "other"}}, {"created_at": "then"}, {"kind": "version"}, {"hash": "0"}]
        )
    )
    entries[at] = replace(entries[at], **changed)
    assert list(breaks(entries))


@given(st.lists(st.integers(), min_size=3, max_size=6), st.data())
def test_an_entry_taken_out_or_written_anew_inside_shows(payloads, data):
    entries = chain(payloads)
    at = data.draw(st.integers(0, len(entries) - 2))
    assert list(breaks(entries[:at] + entries[at + 1 :]))
    forged = replace(entries[at], payload={"of": "forged"})
    sound = hash_of(forged.number, forged.kind, forged.payload, forged.created_at, forged.previous)
    entries[at] = replace(forged, hash=sound)
    (found,) = breaks(entries)
    assert f"Entry {at + 2} does not follow" in found


def test_the_end_can_be_cut_off_unseen_and_so_is_told_outside():
    assert list(breaks(chain([1, 2, 3])[:2])) == []


@pytest.mark.parametrize("other", [{"a": 2.0}, {"a": "2"}, {"a": [2]}, {"b": 2}])
def test_a_fingerprint_is_of_the_value_as_it_is(other):
    assert exact_sha256({"a": 2, "b": 1}) == exact_sha256({"b": 1, "a": 2})
    assert exact_sha256({"a": 2}) != exact_sha256(other)


@pytest.mark.parametrize(
    ("actor", "words"),
    [
        (Actor("key", "ab12", "CMS west"), "Ines (key CMS west)"),
        (Actor("login", "ines", "Ines Ware"), "Ines (login ines)"),
        (Actor("local"), "Ines (this machine, without a key)"),
        (UNKNOWN, "Ines (not recorded)"),
    ],
)
def test_a_name_never_stands_alone(actor, words):
    assert actor.beside("Ines") == words
    assert Actor.of(actor.document) == actor
