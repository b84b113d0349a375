"""Every kind of step is told in the API description, with an example that works."""

from __future__ import annotations

import json

import pytest
from flask.testing import FlaskClient
from saltledger.core.step_kinds import step_kinds

EXAMPLES = {kind.name: json.loads(kind.example) for kind in step_kinds().values()}

LARDER = [
    {"id": "loin", "ingredients": ["1.4 kg boneless pork loin"]},
    {"id": "pickle", "ingredients": ["2 l water", "120 g salt"], "eaten_fraction": 0},
    {"id": "roots", "ingredients": ["800 g carrots"]},
    {"id": "pot", "ingredients": ["2 l chicken stock"]},
    {"id": "flour", "ingredients": ["200 g plain flour", "10 g salt"], "eaten_fraction": 0},
    {"id": "gravy", "ingredients": ["50 ml water"]},
]


def test_every_kind_has_its_words_and_an_example_of_it() -> None:
    assert set(EXAMPLES) == set(step_kinds())
    assert all(example["kind"] == kind for kind, example in EXAMPLES.items())


@pytest.mark.parametrize("kind", EXAMPLES)
def test_the_example_is_accepted_and_does_something(client: FlaskClient, kind: str) -> None:
    plain = {"title": "Tern Quay", "servings": 8, "components": LARDER}
    before, after = (
        client.post("/v1/calculations", json=plain | {"steps": steps}) for steps in ([], [EXAMPLES[kind]])
    )
    assert after.status_code == 200, after.get_json()
    then, now = before.get_json(), after.get_json()
    moved = now["sodium"]["ledger"] != then["sodium"]["ledger"]
    assert moved or now["per_serving"] != then["per_serving"] or kind == "rest"
    assert now["sodium"]["fates"]["eaten_mg"] > 0
