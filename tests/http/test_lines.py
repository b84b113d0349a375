"""POST /v1/lines: one ingredient a line, in order."""

from __future__ import annotations

from flask.testing import FlaskClient

from .problems import faults


def test_each_line_is_read_in_order(client: FlaskClient) -> None:
    lines = ["1 tsp table salt", "zzyzx dust", "flour"]
    answer = client.post("/v1/lines", json={"lines": lines}).get_json()
    salt, unknown, unweighed = answer["ingredients"]
    assert [each["line"] for each in answer["ingredients"]] == lines
    assert salt["food"]["code"] == "02047"
    assert salt["grams"] == 6
    assert unknown["food"] is None
    assert unweighed["amount"] is None


def test_notices_point_at_their_line(client: FlaskClient) -> None:
    answer = client.post("/v1/lines", json={"lines": ["1 tsp table salt", "zzyzx dust"]}).get_json()
    assert "/lines/1" in {notice["pointer"] for notice in answer["notices"]}


def test_settings_are_heeded(client: FlaskClient) -> None:
    def grams(cup: str) -> float:
        sent = {"lines": ["1 cup water"], "settings": {"cup": cup}}
        weight: float = client.post("/v1/lines", json=sent).get_json()["ingredients"][0]["grams"]
        return weight

    assert grams("metric") > grams("us")


def test_no_lines_or_too_many_are_refused(client: FlaskClient) -> None:
    assert "at least 1" in faults(client.post("/v1/lines", json={"lines": []}))["/lines"]
    many = client.post("/v1/lines", json={"lines": ["salt"] * 501})
    assert "Found a list of 501" in faults(many)["/lines"]
    objects = client.post("/v1/lines", json={"lines": [{"line": "salt"}]})
    assert "wanted an ingredient line" in faults(objects)["/lines/0"]
