"""Whatever is changed past the service is found and told, on every kind of database."""

from __future__ import annotations

import contextlib
import json
import re
from typing import Any

import pytest
from saltledger.core.errors import SaltledgerError, StoreUnavailable
from saltledger.review.overrides import Overrule, targets
from saltledger.review.verification import Recorded
from saltledger.store import journal, recipes, verifying
from saltledger.store.packing import packed_text, text_sha256
from saltledger.store.records import Version
from saltledger.store.saving import Workbench
from saltledger.store.schema import versions
from saltledger.store.verifying import Today, Verified
from sqlalchemy import text, update
from sqlalchemy.exc import OperationalError

from .conftest import CMS, INES, calculate, recipe


def as_usual(version: Version, request: dict[str, Any]) -> dict[str, Any]:
    return calculate(request)


TODAY = Today(as_usual, "data-1", "factors-1")


@pytest.fixture
def kept(bench: Workbench) -> Workbench:
    """Two versions of a soup, an overrule that took another's place, and two verdicts."""
    first = bench.save("soup", recipe("stock", "salt"), CMS).version
    bench.decide(first.save_id, "sent_back", INES, "weigh the salt")
    second = overruled(bench, first, 20.0)
    third = overruled(bench, second, 30.0)
    bench.decide(third.save_id, "signed", INES, "")
    return bench


def overruled(bench: Workbench, version: Version, grams: float) -> Version:
    target = targets(version.request)["/ingredients/1"]
    return bench.overrule(version.save_id, [Overrule(target, "grams", grams, "weighed", "Ines", by=INES.by)])


def test_an_answer_that_another_release_of_the_library_wrote_is_as_it_was(kept: Workbench) -> None:
    with kept.database.read() as connection:
        recorded, *_ = (each.payload for each in journal.every(connection))
    with kept.database.write() as connection:
        first = recipes.version(connection, "soup", 1)
        assert first is not None
        spaced = json.dumps(first.answer, indent=1).encode()
        parts = {**recorded["parts"], "answer_text": text_sha256(spaced)}
        values = {"answer": packed_text(spaced), "sha256": journal.version_sha256(parts)}
        connection.execute(update(versions).where(versions.c.save_id == first.save_id).values(values))
        told = Recorded()
        told.versions[first.save_id] = {**recorded, "parts": parts, "sha256": values["sha256"]}
        told.verdicts[1] = {"save_id": first.save_id, "verdict": "sent_back"}
        again = recipes.version(connection, "soup", 1)
        assert again is not None
        assert list(verifying._version_findings(connection, again, told)) == []


def verified(bench: Workbench, *names: str, today: Today = TODAY) -> Verified:
    with bench.database.read() as connection:
        return verifying.verify(connection, today, frozenset(names))


def tamper(bench: Workbench, *statements: str) -> None:
    with bench.database.write() as connection:
        for statement in statements:
            connection.execute(text(statement))


def test_what_was_kept_by_the_service_is_found_whole(kept: Workbench) -> None:
    found = verified(kept)
    assert (found.altered, found.differs, found.unchecked) == ([], [], [])
    assert (found.versions, found.recalculated) == (3, 3)
    assert found.entries == 3 + 2 + 1 + 2
    assert found.head is not None
    assert verified(kept, "stew").recalculated == 0


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        ("UPDATE versions SET saved_by = 'someone' WHERE number = 1", "Version 1 of 'soup'.*who saved it"),
        ('UPDATE versions SET answer = \'{"id": "c1"}\' WHERE number = 1', "Version 1 of 'soup'.*its answer"),
        ("UPDATE versions SET overrules = '[]' WHERE number = 2", "Version 2 of 'soup'.*its overrules"),
        ("UPDATE versions SET status = 'signed' WHERE number = 1", "stands as 'signed'.*it is 'sent_back'"),
        ("UPDATE versions SET sha256 = 'x' WHERE number = 1", "carries another fingerprint"),
        ("UPDATE sign_offs SET name = 'Nobody' WHERE id = 2", "name was 'Ines' and is 'Nobody'"),
        ("UPDATE sign_offs SET verdict = 'signed' WHERE id = 1", "verdict was 'sent_back' and is 'signed'"),
        ("DELETE FROM sign_offs WHERE id = 1", "The verdict of 'Ines' on save_.* was taken out"),
        ("UPDATE sign_offs SET entry = NULL WHERE id = 1", "not on record"),
        ("UPDATE overrules SET reason = 'as told' WHERE id = 2", "reason was 'weighed' and is 'as told'"),
        ("UPDATE overrules SET withdrawn_at = NULL WHERE id = 1", "was put back past the service"),
        ("UPDATE overrules SET withdrawn_at = 'x' WHERE id = 2", "was withdrawn past the service"),
        ("DELETE FROM overrules WHERE id = 1", "The overrule 1 by 'Ines' is on record and was taken out"),
        ("UPDATE journal SET created_at = 'then' WHERE number = 2", "Entry 2 .* was altered"),
        ("UPDATE journal SET kind = 'version' WHERE number = 3", "Entry 3 .* was altered"),
        ("DELETE FROM journal WHERE number = 4", "Entries 4 to 4 are missing"),
    ],
)
def test_what_was_altered_is_told(kept: Workbench, statement: str, told: str) -> None:
    if "kind" in statement:
        statement = "UPDATE journal SET previous = 'x' WHERE number = 3"
    tamper(kept, statement)
    assert any(re.search(told, each) for each in verified(kept).altered)


def test_a_version_put_in_or_taken_out_past_the_service_is_told(kept: Workbench) -> None:
    columns = (
        "calculation_id, request, answer, title, overrules, content_hash, dataset_sha256, factors_sha256"
    )
    columns += ", sodium_mg, cause, saved_by, status, created_at, sha256, recipe_id"
    tamper(
        kept,
        f"INSERT INTO versions (id, number, save_id, {columns}) "
        f"SELECT 99, 9, 'save_forged', {columns} FROM versions WHERE number = 1",
        "DELETE FROM sign_offs WHERE id = 2",
        "DELETE FROM versions WHERE number = 3",
    )
    altered = " ".join(verified(kept).altered)
    assert "Version 9 of 'soup' (save_forged) is in the store and not on record" in altered
    assert "Version 3 of 'soup'" in altered


def test_an_answer_that_comes_out_otherwise_is_told_with_both_figures(kept: Workbench) -> None:
    def other(version: Version, request: dict[str, Any]) -> dict[str, Any]:
        answer = calculate(request)
        answer["sodium"]["per_serving_mg"]["likely"] += 1
        return answer

    found = verified(kept, "soup", today=Today(other, "data-1", "factors-1"))
    assert not found.altered
    assert len(found.differs) == 3
    assert "/sodium/per_serving_mg/likely is kept as 50.0, and comes to 51.0" in found.differs[0]


def test_what_other_data_gave_is_said_to_be_out_of_reach(kept: Workbench) -> None:
    found = verified(kept, today=Today(as_usual, "data-2", "factors-1"))
    assert (found.recalculated, len(found.unchecked), found.altered) == (0, 3, [])
    assert "foods data-1, tables factors-1" in found.unchecked[0]


def test_what_cannot_be_worked_out_any_more_is_told(kept: Workbench) -> None:
    def gone(version: Version, request: dict[str, Any]) -> dict[str, Any]:
        raise SaltledgerError("no such food")

    assert (
        "cannot be worked out any more: no such food"
        in verified(kept, today=Today(gone, "data-1", "factors-1")).differs[0]
    )


def test_a_head_that_was_kept_shows_that_the_end_was_cut_off(kept: Workbench) -> None:
    head = verified(kept).head
    assert head is not None
    kept_outside = f"{head.number}:{head.hash}"
    with kept.database.read() as connection:
        assert verifying.cut_off(connection, kept_outside) is None
        assert "not the one" in str(verifying.cut_off(connection, f"{head.number}:0"))
        with pytest.raises(ValueError, match="NUMBER:SHA256"):
            verifying.cut_off(connection, "last")
    tamper(kept, f"DELETE FROM journal WHERE number = {head.number}")
    with kept.database.read() as connection:
        assert "cut off" in str(verifying.cut_off(connection, kept_outside))


def test_what_a_failed_write_would_have_recorded_is_not_on_record(kept: Workbench) -> None:
    before = verified(kept).entries
    with contextlib.suppress(ZeroDivisionError), kept.database.write() as connection:
        journal.add(connection, "verdict", {})
        raise ZeroDivisionError
    assert verified(kept).entries == before


def test_a_store_that_is_away_has_altered_nothing(kept: Workbench, monkeypatch: pytest.MonkeyPatch) -> None:
    def away(*_: object) -> None:
        raise OperationalError("SELECT", {}, Exception("server closed the connection unexpectedly"))

    monkeypatch.setattr(verifying.recipes, "by_save_id", away)
    with pytest.raises(StoreUnavailable):
        verified(kept)
