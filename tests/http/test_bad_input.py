"""Bad input: each kind is a 4xx problem with a pointer and a remedy, before anything is worked out."""

from __future__ import annotations

import json
from typing import Any

import pytest
from flask.testing import FlaskClient
from saltledger import calculator

from .problems import faults, problem

GOOD: dict[str, Any] = {"servings": 4, "ingredients": ["1 tsp salt"]}
BRINED: dict[str, Any] = {
    "servings": 4,
    "components": [
        {"id": "loin", "ingredients": ["1 kg pork loin"]},
        {"id": "brine", "ingredients": ["2 litres water", "100 g salt"]},
    ],
    "steps": [{"kind": "brine", "food": "loin", "bath": "brine", "duration_h": 12}],
}


@pytest.fixture
def no_work(monkeypatch: pytest.MonkeyPatch) -> None:
    """A refusal costs no calculation: the engine must not be reached."""

    def reached(*args: Any) -> None:
        raise AssertionError("the calculation was reached")

    monkeypatch.setattr(calculator, "calculate", reached)
    monkeypatch.setattr(calculator, "cook", reached)


def post(client: FlaskClient, body: bytes) -> Any:
    return client.post("/v1/calculations", data=body, content_type="application/json")


def refused(client: FlaskClient, **changes: Any) -> dict[str, str]:
    return faults(client.post("/v1/calculations", json={**GOOD, **changes}))


@pytest.mark.usefixtures("no_work")
class TestRefusals:
    def test_an_empty_recipe(self, client: FlaskClient) -> None:
        assert "at least one line" in refused(client, ingredients=[])[""]
        assert "at least one line" in faults(client.post("/v1/calculations", json={"servings": 2}))[""]
        components = [{"id": "a", "ingredients": []}]
        assert "at least one line" in refused(client, ingredients=[], components=components)[""]

    @pytest.mark.parametrize("servings", [0, -1, 0.0, -0.0, 1e-9, 100_001, 1e308])
    def test_servings_out_of_range(self, client: FlaskClient, servings: float) -> None:
        assert "wanted a number from 0.001 to 100,000" in refused(client, servings=servings)["/servings"]

    @pytest.mark.parametrize("servings", [b"NaN", b"Infinity", b"-Infinity"])
    def test_numbers_that_json_does_not_have(self, client: FlaskClient, servings: bytes) -> None:
        body = b'{"ingredients":["salt"],"servings":' + servings + b"}"
        assert "numbers are finite" in faults(post(client, body), 400)["/servings"]

    def test_a_number_that_overflows_to_infinity(self, client: FlaskClient) -> None:
        body = b'{"ingredients":["salt"],"servings":1e400}'
        assert "too large" in faults(post(client, body))["/servings"]

    def test_ten_megabytes(self, client: FlaskClient) -> None:
        response = post(client, b'{"title":"' + b"x" * 10_000_000 + b'"}')
        assert "more than 1,048,576 bytes" in faults(response, 413)[""]

    def test_five_thousand_lines(self, client: FlaskClient) -> None:
        message = refused(client, ingredients=["1 tsp salt"] * 5_000)["/ingredients"]
        assert message == "Found a list of 5000, wanted at most 500; split the request."

    def test_five_hundred_and_one_lines_over_two_components(self, client: FlaskClient) -> None:
        parts = [{"id": "a", "ingredients": ["salt"] * 250}, {"id": "b", "ingredients": ["salt"] * 250}]
        assert "Found 501 ingredients" in refused(client, components=parts)[""]

    def test_too_many_components_and_steps(self, client: FlaskClient) -> None:
        components = [{"id": f"c{i}", "ingredients": ["salt"]} for i in range(51)]
        steps = [{"kind": "drain", "food": "recipe"}] * 101
        messages = refused(client, components=components, steps=steps)
        assert "Found a list of 51" in messages["/components"]
        assert "Found a list of 101" in messages["/steps"]

    def test_long_lines_and_titles(self, client: FlaskClient) -> None:
        messages = refused(client, title="t" * 301, ingredients=["ok", "l" * 10_000])
        assert messages == {
            "/title": "Found 301 characters, wanted at most 300; shorten it.",
            "/ingredients/1": "Found 10000 characters, wanted at most 500; shorten it.",
        }

    def test_wrong_types_are_all_named_at_once(self, client: FlaskClient) -> None:
        messages = refused(
            client,
            title=7,
            servings="8",
            ingredients=[True, None, {"line": "salt", "grams": "12"}, {}],
            components={"id": "x"},
            steps=[{"kind": "brew", "food": [1], "rinsed": "no", "water_changes": 1.5}],
            settings={"cup": "imperial"},
        )
        assert set(messages) == {
            "/title",
            "/servings",
            "/ingredients/0",
            "/ingredients/1",
            "/ingredients/2/grams",
            "/ingredients/3",
            "/components",
            "/steps/0/kind",
            "/steps/0/food/0",
            "/steps/0/rinsed",
            "/steps/0/water_changes",
            "/settings/cup",
        }
        assert all("wanted" in message for message in messages.values())

    @pytest.mark.parametrize("body", [b"[]", b'"salt"', b"8", b"null", b"true"])
    def test_a_document_that_is_no_object(self, client: FlaskClient, body: bytes) -> None:
        assert "wanted an object" in faults(post(client, body))[""]

    def test_unknown_fields(self, client: FlaskClient) -> None:
        messages = refused(client, tilte="x", settings={"cups": "us"}, **{"a/b~c": 1})
        assert messages["/tilte"] == "There is no such field here; did you mean title?"
        assert messages["/settings/cups"] == "There is no such field here; did you mean cup?"
        assert "/a~1b~0c" in messages

    @pytest.mark.parametrize(
        ("name", "hint"), [("metod", "did you mean method?"), ("instructions", "write method.")]
    )
    def test_a_name_of_the_other_form_is_meant_by_what_is_like_it(
        self, client: FlaskClient, name: str, hint: str
    ) -> None:
        messages = refused(client, **{name: ["Roast it."]})
        assert messages[f"/{name}"] == f"There is no such field here; {hint}"

    def test_a_step_that_names_a_missing_component(self, client: FlaskClient) -> None:
        steps = [{**BRINED["steps"][0], "bath": "brien"}]
        messages = faults(client.post("/v1/calculations", json={**BRINED, "steps": steps}))
        assert "brine" in messages["/steps/0/bath"]

    def test_a_bath_that_is_its_own_food(self, client: FlaskClient) -> None:
        steps = [{**BRINED["steps"][0], "bath": "loin"}]
        messages = faults(client.post("/v1/calculations", json={**BRINED, "steps": steps}))
        assert "its own bath" in messages["/steps/0/bath"]

    def test_the_same_id_twice(self, client: FlaskClient) -> None:
        components = [BRINED["components"][0], {**BRINED["components"][1], "id": "loin"}]
        messages = faults(client.post("/v1/calculations", json={**BRINED, "components": components}))
        assert "twice" in messages["/components/1/id"]

    def test_text_that_is_not_utf_8(self, client: FlaskClient) -> None:
        body = '{"servings":1,"ingredients":["1 kg Grünkohl"]}'.encode("latin-1")
        assert "is not valid UTF-8" in faults(post(client, body), 400)[""]

    def test_another_charset_or_media_type(self, client: FlaskClient) -> None:
        body = json.dumps(GOOD)
        for media_type in ("text/plain", "application/json; charset=latin-1", "", None):
            response = client.post("/v1/calculations", data=body, content_type=media_type)
            assert "application/json" in problem(response, 415)["detail"]
        form = client.post("/v1/calculations", data={"servings": "1"})
        assert "form" in problem(form, 415)["detail"]

    @pytest.mark.parametrize("body", [b"[" * 500_000, b'{"steps":' * 100_000 + b"1" + b"}" * 100_000])
    def test_deep_nesting(self, client: FlaskClient, body: bytes) -> None:
        assert "nested too deep" in faults(post(client, body), 400)[""]

    def test_a_flood_of_unknown_fields(self, client: FlaskClient) -> None:
        flood = {f"x{i}": 1 for i in range(50_000)}
        messages = faults(client.post("/v1/calculations", json=GOOD | flood))
        assert messages == {"": "Found 50002 fields, wanted at most 200; send known fields only."}

    def test_a_flood_of_objects(self, client: FlaskClient) -> None:
        body = b'{"ingredients":[' + b"{}," * 300_000 + b"{}]}"
        assert "more than 50,000 objects" in faults(post(client, body), 400)[""]

    def test_a_control_character(self, client: FlaskClient) -> None:
        assert "U+0000" in refused(client, ingredients=["salt\x00"])["/ingredients/0"]


@pytest.mark.parametrize(
    "line", ["🧂", "١ ملعقة صغيرة ملح", "1 קורט מלח", "\u202e1 tsp salt", "\ufeff1 tsp salt"]
)
def test_text_of_any_script_is_answered_and_given_back_whole(client: FlaskClient, line: str) -> None:
    response = client.post("/v1/calculations", json={"servings": 1, "ingredients": [line]})
    assert response.status_code == 200
    assert response.get_json()["ingredients"][0]["line"] == line


def test_a_class_that_only_another_scheme_limits_is_refused(client: FlaskClient) -> None:
    steps = [{**BRINED["steps"][0], "product_class": "sterilised"}]
    messages = faults(client.post("/v1/calculations", json={**BRINED, "steps": steps}))
    assert "take one of comminuted" in messages["/steps/0/product_class"]
