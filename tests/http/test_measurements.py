"""A kitchen's own measurements over HTTP: kept, used, told of, taken back, and seen by nobody else."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from flask import Flask
from saltledger import store as kept
from saltledger.commands.cli import main

from ..databases import KINDS
from .kept import BRINED, kept_app
from .problems import faults


@pytest.fixture(params=KINDS)
def app(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Flask]:
    with kept_app(request.param, tmp_path) as made:
        yield made


def key(app: Flask, kitchen: str | None = None) -> dict[str, str]:
    with app.extensions["saltledger-store"].database.write() as connection:
        _, text = kept.keys.create(connection, "a cook", ["calculate", "save"], kitchen)
    return {"Authorization": f"Bearer {text}"}


def measure(app: Flask, who: dict[str, str], amount: float = 700, **more: Any) -> Any:
    sent = {"recipe": BRINED, "what": "sodium_mg_per_100g", "amount": amount, "measured_by": "Dock Lab"}
    sent = {name: value for name, value in (sent | more).items() if value is not None}
    return app.test_client().post("/v1/measurements", json=sent, headers=who)


def sodium(app: Flask, who: dict[str, str]) -> dict[str, float]:
    answer = app.test_client().post("/v1/calculations", json=BRINED, headers=who).get_json()
    entry: dict[str, float] = answer["per_100g"]["nutrients"]["NA"]
    return entry


def width(found: dict[str, float]) -> float:
    return found["high"] - found["low"]


def test_a_measurement_narrows_the_range_of_its_own_kitchen_alone(app: Flask) -> None:
    ours, also_ours = key(app, "Tern Quay"), key(app, "Tern Quay")
    theirs, nobodys = key(app, "Gull Wharf"), key(app)
    before = sodium(app, ours)
    wanted = before["amount"] * 1.1
    for _ in range(3):
        told = measure(app, ours, wanted)
        assert told.status_code == 201
    assert width(sodium(app, ours)) <= width(before) / 2
    assert sodium(app, ours)["amount"] == pytest.approx(wanted, rel=0.05)
    assert sodium(app, also_ours) == sodium(app, ours)
    assert sodium(app, theirs) == sodium(app, nobodys) == before
    listed = app.test_client().get("/v1/measurements", headers=also_ours).get_json()["measurements"]
    assert len(listed) == 3
    for stranger in (theirs, nobodys):
        found = app.test_client().get("/v1/measurements", headers=stranger).get_json()
        assert found == {"measurements": []}
        gone = app.test_client().delete(f"/v1/measurements/{listed[0]['id']}", headers=stranger)
        assert gone.status_code == 404


def test_what_is_taken_back_is_as_if_it_had_never_been(app: Flask) -> None:
    ours = key(app, "Tern Quay")
    before = sodium(app, ours)
    number = measure(app, ours, before["amount"]).get_json()["id"]
    assert sodium(app, ours) != before
    assert app.test_client().delete(f"/v1/measurements/{number}", headers=ours).status_code == 204
    assert sodium(app, ours) == before
    assert app.test_client().delete(f"/v1/measurements/{number}", headers=ours).status_code == 404


def test_it_says_what_it_moved(app: Flask) -> None:
    ours = key(app)
    told = measure(app, ours, sodium(app, ours)["amount"]).get_json()
    assert told["used"]
    assert not told["contradicts"]
    assert told["notices"] == []
    assert width(told["after"]) < width(told["before"])
    assert "diffusivities:poultry" in [each["row"] for each in told["figures"]]
    assert told["title"] == BRINED["title"]


def test_one_that_contradicts_is_a_check_and_is_not_used_until_confirmed(app: Flask) -> None:
    ours = key(app)
    before = sodium(app, ours)
    told = measure(app, ours, before["high"] * 5).get_json()
    assert [(each["code"], each["severity"]) for each in told["notices"]] == [
        ("measurement-contradicts", "check")
    ]
    assert not told["used"]
    assert sodium(app, ours) == before
    assert measure(app, ours, before["high"] * 5, confirm=True).get_json()["used"]
    assert sodium(app, ours)["amount"] > before["amount"]


def test_a_weight_on_the_way_is_a_measurement(app: Flask) -> None:
    ours = key(app)
    told = measure(app, ours, 1300, what="weight_g", component="legs", after_step=0).get_json()
    assert told["component"] == "legs"
    assert told["before"]["low"] < told["before"]["likely"] < told["before"]["high"]


def test_a_saved_version_can_be_measured(app: Flask) -> None:
    ours = key(app)
    saved = app.test_client().put("/v1/recipes/legs", json=BRINED, headers=ours).get_json()
    told = measure(app, ours, 700, recipe=None, save_id=saved["save_id"]).get_json()
    assert told["save_id"] == saved["save_id"]
    assert measure(app, ours, 700, recipe=None, save_id="nothing").status_code == 404


def test_the_command_works_recipes_out_again_on_their_kitchens_figures(
    app: Flask, monkeypatch: pytest.MonkeyPatch
) -> None:
    ours, database = key(app, "Tern Quay"), app.extensions["saltledger-store"].database
    for _ in range(3):
        measure(app, ours, sodium(app, ours)["amount"] * 1.3, confirm=True)
    saved = app.test_client().put("/v1/recipes/legs", json=BRINED, headers=ours).get_json()
    url = database._engine.url.render_as_string(hide_password=False)
    monkeypatch.setenv("SALTLEDGER_DATABASE_URL", url)
    done = CliRunner().invoke(main, ["recalculate", "--moved-by", "0.01"])
    assert (done.exit_code, done.stdout) == (0, ""), done.output
    now = app.test_client().get("/v1/recipes/legs", headers=ours).get_json()
    assert now["save_id"] == saved["save_id"]


BAD: list[tuple[dict[str, Any], str]] = [
    ({"amount": -1}, "/amount"),
    ({"amount": 0}, "/amount"),
    ({"recipe": None}, ""),
    ({"save_id": "s1"}, ""),
    ({"component": "nothing"}, "/component"),
    ({"after_step": 0}, "/after_step"),
    ({"component": "legs", "after_step": 7}, "/after_step"),
    ({"what": "weight_g"}, "/component"),
    ({"what": "colour"}, "/what"),
    ({"uncertainty_percent": 99}, "/uncertainty_percent"),
    ({"measured_by": None}, "/measured_by"),
    ({"measured_on": "yesterday"}, "/measured_on"),
]


@pytest.mark.parametrize(("wrong", "pointer"), BAD)
def test_what_cannot_be_is_refused_by_name(tmp_path: Path, wrong: dict[str, Any], pointer: str) -> None:
    with kept_app("sqlite", tmp_path) as app:
        response = measure(app, key(app), **wrong)
        assert pointer in faults(response)
        assert app.test_client().get("/v1/measurements", headers=key(app)).get_json()["measurements"] == []


def test_a_key_that_may_only_calculate_keeps_nothing(app: Flask) -> None:
    with app.extensions["saltledger-store"].database.write() as connection:
        _, text = kept.keys.create(connection, "a reader", ["calculate"])
    assert measure(app, {"Authorization": f"Bearer {text}"}).status_code == 403


def test_an_amount_may_have_any_unit_that_fits(app: Flask) -> None:
    plain = measure(app, key(app), 700).get_json()
    for stated in ({"amount": 0.7, "unit": "g"}, {"amount": 700 / 22.98977, "unit": "mmol"}):
        told = measure(app, key(app), stated).get_json()
        assert told["amount"] == pytest.approx(plain["amount"])
    refused = measure(app, key(app), {"amount": 1, "unit": "floz"})  # type: ignore[arg-type]
    assert refused.status_code == 422
    assert "/amount/unit" in faults(refused)
