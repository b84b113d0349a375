"""What the plain functions of a schema accept is what marshmallow accepts, and becomes the same; whatever is
wrong is said by marshmallow. Held for every schema that a route takes or asks by."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest
from flask import Flask
from hypothesis import given, settings
from hypothesis import strategies as st
from marshmallow import Schema, ValidationError
from saltledger.app import create_app
from saltledger.core.errors import InvalidRequest
from saltledger.gate.strict_schema import StrictSchema
from saltledger.http import examples


def taken(app: Flask) -> dict[str, StrictSchema]:
    """Schemas of bodies and of query strings, by name."""
    found: dict[str, StrictSchema] = {}
    for view in app.view_functions.values():
        for schema in (getattr(view, "takes_body", None), getattr(view, "asks_for", None)):
            if schema is not None:
                found[type(schema).__name__] = schema
    return found


SCHEMAS = taken(create_app())
FULL: dict[str, Any] = {
    "title": "",
    "servings": 8.0,
    "ingredients": [
        "1 tsp salt",
        {"line": "2 tbsp mustard", "per_100g": {"sodium": {"amount": 1.2, "unit": "g"}}, "share": 0.5},
        {"line": "stock", "per_serving": {"weight_g": 15, "nutrients": {"NA": 300}}, "eaten_fraction": 1},
        {"recipe": "quay-stock", "fraction": 0.5},
    ],
    "components": [{"id": "a", "label": "A", "ingredients": ["1 kg pork"], "eaten_fraction": 0}],
    "steps": [{"kind": "roast", "food": ["a"], "duration_h": 1, "rinsed": True, "water_changes": 3.0}],
    "settings": {"cup": "metric"},
    "custom_foods": [
        {
            "code": "x",
            "name": "X",
            "per_100g": {"NA": 3},
            "household": [{"label": "1 cup", "grams": {"amount": 1, "unit": "kg"}}],
        }
    ],
    "figures": [{"row": "drip:meat/roast", "likely": 0.1}],
    "own_limits": [{"id": "r", "sodium_mg": 400, "per": "day"}],
    "audience": "adult",
}
BODIES = [
    FULL,
    examples.recipe_example(),
    examples.LINES,
    examples.BATH,
    examples.TARGET,
    examples.OVERRULES,
    examples.SIGN_OFF,
    examples.MEASUREMENT,
    examples.COMPARISON,
    examples.WRITTEN,
    {"key": "quay-soup"},
    {"reviewer": "Ines Ware, RD"},
    {"servings": "120", "portion_g": "250", "label": "fda", "explain": "NA,K"},
    {"query": "salt", "limit": "3"},
    {"after": "3", "wait": "0", "limit": "5"},
    {"order": "sodium", "limit": "10", "needs": "review"},
    {"from": "1", "to": "2"},
    {},
]

odd = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-5, 10**12),
    st.floats(allow_nan=False),
    st.text(max_size=4),
    st.sampled_from(["1", "brine", "\x00", " ", "é", "true", "x" * 600]),
    st.lists(st.integers(), max_size=2),
    st.dictionaries(st.sampled_from(["amount", "unit", "line", "odd"]), st.integers(), max_size=2),
)


def places(document: Any) -> list[tuple[Any, Any]]:
    """Every container in a document with each of its keys or places."""
    if isinstance(document, dict | list):
        keys = list(document) if isinstance(document, dict) else list(range(len(document)))
        return [(document, key) for key in keys] + [place for key in keys for place in places(document[key])]
    return []


@st.composite
def documents(draw: st.DrawFn) -> Any:
    """An example as it is, or with a few values replaced, taken out or put in."""
    document = deepcopy(draw(st.sampled_from(BODIES)))
    for _ in range(draw(st.integers(0, 3))):
        found = places(document)
        if not found:
            break
        held, key = draw(st.sampled_from(found))
        change = draw(st.sampled_from(["replace", "remove", "add"]))
        if change == "replace":
            held[key] = draw(odd)
        elif change == "remove":
            del held[key]
        elif isinstance(held, dict):
            held[draw(st.sampled_from(["odd", "line", "grams", "share", "bath", "into"]))] = draw(odd)
        else:
            held.append(draw(odd))
    return document


def outcome(load: Any, document: Any) -> Any:
    try:
        loaded = load(deepcopy(document))
    except ValidationError as error:
        return ("refused", error.messages)
    except InvalidRequest as error:
        return ("refused", error.faults)
    return ("accepted", _told(loaded))


def _told(loaded: Any) -> Any:
    """With types and orders, which equality would pass over: 8 and 8.0, and where a key stands."""
    if isinstance(loaded, dict):
        return [(key, _told(value)) for key, value in loaded.items()]
    if isinstance(loaded, list):
        return [_told(value) for value in loaded]
    return (type(loaded), loaded)


@pytest.mark.parametrize("name", SCHEMAS)
@given(document=documents())
@settings(max_examples=60, deadline=None)
def test_plain_functions_and_marshmallow_agree(name: str, document: Any) -> None:
    schema = SCHEMAS[name]
    slow = type(schema)()
    slow._accept = None
    assert outcome(schema.load, document) == outcome(slow.load, document)
    if type(schema).load is StrictSchema.load:
        assert outcome(schema.load, document) == outcome(lambda data: Schema.load(slow, data), document)


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_schema_has_its_plain_function(name: str) -> None:
    assert SCHEMAS[name]._accept is not None


def test_every_schema_accepts_one_of_the_examples() -> None:
    accepting = {
        name
        for name, schema in SCHEMAS.items()
        for document in BODIES
        if outcome(schema.load, document)[0] == "accepted"
    }
    assert accepting == set(SCHEMAS)
