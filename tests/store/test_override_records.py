"""What reviewers said is remembered for the recipe, offered to others, and never stretched."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.core.errors import InvalidRequest, NotFound
from saltledger.review.overrides import Overrule, line_key, targets
from saltledger.store import event_feed, override_records, recipes
from saltledger.store.expectations import PreconditionFailed
from saltledger.store.records import Version
from saltledger.store.saving import Workbench

from .conftest import CMS, INES, calculate, recipe


def on(version: Version, pointer: str, field: str, value: Any, reason: str = "weighed") -> Overrule:
    return Overrule(targets(version.request)[pointer], field, value, reason, "Ines", by=INES.by)


def save(bench: Workbench, *ingredients: Any, key: str = "soup") -> Version:
    return bench.save(key, recipe(*ingredients), CMS).version


def test_an_overrule_makes_a_version_that_stands_on_it(bench: Workbench) -> None:
    first = save(bench, "stock", "salt")
    second = bench.overrule(first.save_id, [on(first, "/ingredients/1", "grams", 20)])
    assert (second.number, second.cause, second.saved_by) == (2, "overruled", "Ines (login ines)")
    assert second.request == first.request
    assert second.sodium_mg == 30
    (told,) = second.overrules
    assert (told["pointer"], told["field"], told["value"], told["reason"], told["reviewer"]) == (
        "/ingredients/1",
        "grams",
        20,
        "weighed",
        "Ines",
    )
    with bench.database.read() as connection:
        assert [each.id for each in override_records.standing(connection, "soup")] == [told["id"]]
        assert event_feed.after(connection, 1, 10)[0].kind == "recipe.overruled"


def test_a_later_save_of_the_same_line_keeps_it(bench: Workbench) -> None:
    first = save(bench, "stock", "salt")
    bench.overrule(first.save_id, [on(first, "/ingredients/1", "grams", 20)])
    third = save(bench, "more stock", "stock", {"line": "  SALT. "})
    assert third.sodium_mg == 55
    assert third.overrules[0]["pointer"] == "/ingredients/2"


def test_a_line_that_was_changed_loses_it_and_says_so(bench: Workbench) -> None:
    first = save(bench, "stock", "salt")
    bench.overrule(first.save_id, [on(first, "/ingredients/1", "grams", 20)])
    third = save(bench, "stock", "2 tsp salt")
    assert third.sodium_mg == 50
    assert third.overrules[0]["pointer"] is None
    assert save(bench, "stock", "salt").sodium_mg == 30


def test_the_same_content_after_an_overrule_is_still_the_same(bench: Workbench) -> None:
    first = save(bench, "stock", "salt")
    second = bench.overrule(first.save_id, [on(first, "/ingredients/1", "grams", 20)])
    assert save(bench, "stock", "salt") == second


def test_a_second_overrule_takes_the_place_of_the_first(bench: Workbench) -> None:
    first = save(bench, "stock", "salt")
    second = bench.overrule(first.save_id, [on(first, "/ingredients/1", "grams", 20)])
    third = bench.overrule(second.save_id, [on(second, "/ingredients/1", "grams", 60)])
    assert third.sodium_mg == 40
    assert len(third.overrules) == 1


def test_an_overrule_is_withdrawn(bench: Workbench) -> None:
    first = save(bench, "stock", "salt")
    second = bench.overrule(first.save_id, [on(first, "/ingredients/1", "grams", 20)])
    third = bench.withdraw(second.save_id, second.overrules[0]["id"], INES)
    assert (third.sodium_mg, third.overrules) == (50, ())
    with pytest.raises(NotFound, match="no overrule"):
        bench.withdraw(third.save_id, second.overrules[0]["id"], INES)
    with bench.database.read() as connection:
        assert override_records.standing(connection, "soup") == []
    with bench.database.write() as connection:
        assert not override_records.withdraw(connection, "soup", second.overrules[0]["id"], INES.by)


def test_only_the_version_that_was_looked_at_is_overruled(bench: Workbench) -> None:
    first = save(bench, "stock", "salt")
    aimed = on(first, "/ingredients/1", "grams", 20)
    save(bench, "stock", "salt", "fish")
    with pytest.raises(PreconditionFailed, match="Version 2"):
        bench.overrule(first.save_id, [aimed])
    with pytest.raises(NotFound):
        bench.overrule("save_none", [aimed])


def test_an_overrule_that_the_calculation_refuses_is_not_kept(bench: Workbench) -> None:
    first = save(bench, "stock", "salt")
    with pytest.raises(InvalidRequest, match="no food 'gone'"):
        bench.overrule(first.save_id, [on(first, "/ingredients/1", "food", "gone")])
    with bench.database.read() as connection:
        assert override_records.standing(connection, "soup") == []
        assert recipes.current(connection, "soup") == first


def test_an_overrule_that_went_bad_does_not_stand_in_the_way_of_a_save(bench: Workbench) -> None:
    first = save(bench, "stock", "salt")
    bench.overrule(first.save_id, [on(first, "/ingredients/1", "food", "02047")])

    def without_that_food(request: dict[str, Any], **_: Any) -> dict[str, Any]:
        if "02047" in str(request):
            raise NotFound("food", "02047")
        return calculate(request)

    later = Workbench(bench.database, without_that_food, "factors-2")
    saved = later.save("soup", recipe("stock", "salt", "fish"), CMS).version
    assert saved.overrules[0]["pointer"] is None


def test_other_recipes_are_offered_it_and_nothing_more(bench: Workbench) -> None:
    first = save(bench, "stock", "salt")
    bench.overrule(first.save_id, [on(first, "/ingredients/1", "grams", 20)])
    other = save(bench, "Salt", "fish", key="broth")
    assert (other.sodium_mg, other.overrules) == (50, ())
    wanted = [line_key("salt"), line_key("fish")]
    with bench.database.read() as connection:
        found = override_records.offers(connection, "broth", wanted)
        assert override_records.offers(connection, "soup", wanted) == {}
    ((offer,),) = found.values()
    assert (offer.key, offer.overrule.field, offer.overrule.value) == ("soup", "grams", 20)


def test_a_preview_keeps_nothing(bench: Workbench) -> None:
    first = save(bench, "stock", "salt")
    answer, applied = bench.preview(first, [], [on(first, "/ingredients/1", "grams", 20)])
    assert answer["sodium"]["per_serving_mg"]["likely"] == 30
    assert applied.applied[0][1] == "/ingredients/1"
    with bench.database.read() as connection:
        assert recipes.current(connection, "soup") == first
    other = save(bench, "fish", key="broth")
    with pytest.raises(InvalidRequest, match="no longer has"):
        bench.preview(other, [], [on(first, "/ingredients/1", "grams", 20)])
