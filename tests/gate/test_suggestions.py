"""A refusal that leads on: what to write instead, with the value turned into our unit."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import given
from hypothesis import strategies as st
from saltledger.core.step_kinds import step_kinds
from saltledger.gate.suggestions import by_another_word, in_another_unit

RECIPE: dict[str, Any] = {
    "title": "Quay loin",
    "servings": 4,
    "components": [{"id": "loin", "ingredients": ["1 kg pork loin"]}],
}


def faults(client: FlaskClient, **step: Any) -> dict[str, str]:
    step = {"kind": "roast", "food": "loin", **step}
    answer = client.post("/v1/calculations", json={**RECIPE, "steps": [step]})
    assert answer.status_code == 422
    return {each["pointer"]: each["message"] for each in answer.json["errors"]}


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("duration_min", 90, "write duration_h, in hours: 90 min is 1.5"),
        ("duration_days", 3, "write duration_h, in hours: 3 days is 72"),
        ("temperature_f", 350, "write temperature_c, in °C: 350 °F is 176.7"),
        ("thickness_mm", 40, "write thickness_cm, in cm: 40 mm is 4"),
        ("weight_after_kg", 1.2, "write weight_after_g, in g: 1.2 kg is 1200"),
        ("weight_after_kg", "1.2", "write weight_after_g, in g"),
    ],
)
def test_a_field_in_another_unit_is_told_with_its_value(client: FlaskClient, name, value, said) -> None:
    assert faults(client, **{name: value})[f"/steps/0/{name}"].endswith(said)


@pytest.mark.parametrize("name", ["duration_kg", "colour_min", "duration_", "_min", "temperature"])
def test_what_is_no_field_in_another_unit_gets_the_usual_hint(client: FlaskClient, name) -> None:
    message = faults(client, **{name: 90})[f"/steps/0/{name}"]
    assert message.startswith("There is no such field here; ")
    assert " is 1.5" not in message


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("serving_size", "write portion_g, in g."),
        ("serving_g", "write portion_g, in g."),
        ("Portion", "write portion_g, in g."),
        ("portions", "write servings."),
        ("yield", "write servings."),
        ("portion_kg", "write portion_g, in g: 2 kg is 2000"),
    ],
)
def test_a_field_by_another_name_is_told_the_right_one(client: FlaskClient, name: str, said: str) -> None:
    answer = client.post("/v1/calculations", json={**RECIPE, name: 2})
    (message,) = [each["message"] for each in answer.json["errors"] if each["pointer"] == f"/{name}"]
    assert message.endswith(said)


def test_a_name_is_not_led_to_a_field_that_does_not_stand_there(client: FlaskClient) -> None:
    assert "grams" not in faults(client, weight=3)["/steps/0/weight"].partition("write")[2]
    assert faults(client, minutes=90)["/steps/0/minutes"].endswith("write duration_h, in hours.")


@pytest.mark.parametrize(
    ("word", "kind"),
    [
        ("Roast", "roast"),
        ("bake", "roast"),
        ("baking", "roast"),
        ("brining", "brine"),
        ("deep fry", "fry"),
        ("Marinade", "marinate"),
        ("frying", "fry"),
        ("DRY CURE", "dry_cure"),
        ("trimming", "trim"),
        ("marinating", "marinate"),
        ("dredged", "dredge"),
    ],
)
def test_a_kind_of_step_by_another_word_is_told(client: FlaskClient, word, kind) -> None:
    assert faults(client, kind=word)["/steps/0/kind"].endswith(f'write "{kind}".')


def test_a_word_that_means_no_kind_gets_the_choice(client: FlaskClient) -> None:
    assert faults(client, kind="levitate")["/steps/0/kind"].endswith("choose one of these.")


@given(st.text(max_size=60), st.sampled_from(list(step_kinds())))
def test_a_suggested_word_is_always_one_of_the_choices(word: str, kind: str) -> None:
    assert by_another_word(word, step_kinds()) in (None, *step_kinds())
    assert by_another_word(word, (kind,)) in (None, kind)


@given(st.text(max_size=40), st.one_of(st.none(), st.floats(), st.text(max_size=5), st.booleans()))
def test_whatever_the_field_a_hint_is_given_or_none(name: str, value: Any) -> None:
    hint = in_another_unit(name, ("duration_h", "temperature_c", "weight_after_g"), value)
    assert hint is None or hint.startswith("; write ")
