"""Ordinary things of a kitchen, each said in many ways: said_in_many_ways.yaml."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml
from saltledger.method.method_reading import Reading

from .test_method_reading import reading

SAID = yaml.safe_load((Path(__file__).parent / "said_in_many_ways.yaml").read_text(encoding="utf-8"))
_NO_SALT_MOVES = {"roast", "rest", "reduce"}
_SAME = {"simmer": "boil"}


def _steps(found: Reading) -> list[str]:
    components = {each["id"]: each for each in found.recipe["components"]}
    return sorted(
        _told(step, components)
        for step in found.recipe.get("steps", ())
        if step["kind"] not in _NO_SALT_MOVES
    )


def _told(step: dict[str, Any], components: dict[str, Any]) -> str:
    kind = _SAME.get(step["kind"], step["kind"])
    if "bath" not in step or kind == "dredge":
        return str(kind)
    eaten = components[step["bath"]].get("eaten_fraction", 1)
    return f"{kind}{'~' if eaten < 0.2 else '=' if eaten > 0.9 else '%'}"


@pytest.mark.parametrize(
    ("lines", "wanted", "said"),
    [(each["lines"], each["steps"], said) for each in SAID for said in each["said"]],
)
def test_it_comes_to_the_same_steps(lines: list[str], wanted: list[str], said: str) -> None:
    assert _steps(reading(lines, *said.split(" / "))) == sorted(wanted)
