"""Deleted, archived, restored, renamed: nothing is lost, and each is on record and told."""

from __future__ import annotations

import pytest
from saltledger.core.errors import InvalidRequest, NotFound
from saltledger.review.chain import Actor
from saltledger.store import event_feed, journal, lifecycle, listing, override_records, recipes
from saltledger.store.database import Database
from saltledger.store.expectations import Condition, PreconditionFailed
from saltledger.store.records import Wanted
from saltledger.store.saving import Workbench

from tests.store.test_override_records import on

from .conftest import recipe

BY = Actor("key", "k1", "newsroom")


def keys(database: Database, **wanted) -> list[str]:
    with database.read() as connection:
        return [each.key for each in listing.page(connection, Wanted(**wanted), None, 10)]


def told(database: Database) -> list[str]:
    with database.read() as connection:
        return [each.kind for each in event_feed.after(connection, 0, 100)]


def test_a_deleted_recipe_is_gone_from_lists_and_kept_as_history(bench: Workbench) -> None:
    database = bench.database
    bench.save("soup", recipe(), BY)
    lifecycle.delete(database, "soup", BY)
    assert keys(database) == []
    assert keys(database, state="deleted") == ["soup"]
    with database.read() as connection:
        assert recipes.current(connection, "soup") is None
        assert [each.number for each in recipes.history(connection, "soup")] == [1]
        assert listing.count_by_status(connection) == {}
    assert told(database) == ["recipe.saved", "recipe.deleted"]


def test_the_key_of_a_deleted_recipe_may_be_used_again(bench: Workbench) -> None:
    bench.save("soup", recipe(), BY)
    lifecycle.delete(bench.database, "soup", BY)
    saved = bench.save("soup", recipe(), BY, Condition(absent=True))
    assert (saved.is_new, saved.version.number) == (True, 2)
    assert keys(bench.database) == ["soup"]


def test_overrules_of_a_deleted_recipe_bind_no_later_one(bench: Workbench) -> None:
    version = bench.save("soup", recipe("stock", "salt"), BY).version
    bench.overrule(version.save_id, [on(version, "/ingredients/1", "grams", 20)])
    lifecycle.delete(bench.database, "soup", BY)
    with bench.database.read() as connection:
        assert override_records.standing(connection, "soup") == []


def test_deleting_heeds_conditions_and_says_what_is_not_there(bench: Workbench) -> None:
    bench.save("soup", recipe(), BY)
    with pytest.raises(PreconditionFailed):
        lifecycle.delete(bench.database, "soup", BY, Condition(match=frozenset({"save_other"})))
    lifecycle.delete(bench.database, "soup", BY)
    for act in (lifecycle.delete, lifecycle.archive):
        with pytest.raises(NotFound):
            act(bench.database, "soup", BY)
    with pytest.raises(NotFound):
        lifecycle.restore(bench.database, "stew", BY)


@pytest.mark.parametrize("act", [lifecycle.delete, lifecycle.archive])
def test_what_was_put_away_is_restored_as_it_was(bench: Workbench, act) -> None:
    before = bench.save("soup", recipe(), BY).version
    act(bench.database, "soup", BY)
    assert keys(bench.database) == []
    assert lifecycle.restore(bench.database, "soup", BY) == before
    assert keys(bench.database) == ["soup"]
    lifecycle.restore(bench.database, "soup", BY)
    assert told(bench.database)[-1] == "recipe.restored"
    assert told(bench.database).count("recipe.restored") == 1


def test_saving_brings_an_archived_recipe_back(bench: Workbench) -> None:
    bench.save("soup", recipe(), BY)
    lifecycle.archive(bench.database, "soup", BY)
    assert keys(bench.database, state="archived") == ["soup"]
    saved = bench.save("soup", recipe(title="Quay soup, hot"), BY)
    assert not saved.is_new
    assert keys(bench.database) == ["soup"]


def test_a_renamed_recipe_takes_all_with_it(bench: Workbench) -> None:
    database = bench.database
    first = bench.save("soup", recipe(), BY).version
    bench.save("soup", recipe(title="Another"), BY)
    renamed = lifecycle.rename(database, "soup", "broth", BY)
    assert (renamed.key, renamed.number) == ("broth", 2)
    with database.read() as connection:
        assert recipes.current(connection, "soup") is None
        assert [each.number for each in recipes.history(connection, "broth")] == [2, 1]
        old = recipes.by_save_id(connection, first.save_id)
        assert old is not None
        # What is on record of a version still holds.
        assert journal.version_sha256(journal.parts_of(old)) == old.sha256
    assert keys(database, search="broth") == ["broth"]
    assert keys(database, search="soup") == []
    assert bench.save("soup", recipe(), BY).is_new


def test_a_key_that_is_in_use_is_refused(bench: Workbench) -> None:
    for key in ("soup", "stew", "gone"):
        bench.save(key, recipe(), BY)
    lifecycle.delete(bench.database, "gone", BY)
    for taken in ("stew", "gone"):
        with pytest.raises(InvalidRequest, match=taken):
            lifecycle.rename(bench.database, "soup", taken, BY)
    assert lifecycle.rename(bench.database, "soup", "soup", BY).key == "soup"


def test_every_act_is_on_record(bench: Workbench) -> None:
    bench.save("soup", recipe(), BY)
    lifecycle.rename(bench.database, "soup", "broth", BY)
    lifecycle.archive(bench.database, "broth", BY)
    lifecycle.restore(bench.database, "broth", BY)
    lifecycle.delete(bench.database, "broth", BY)
    with bench.database.read() as connection:
        kinds = [each.kind for each in journal.every(connection)]
    assert kinds == ["version", "renaming", "archiving", "restoring", "deletion"]
