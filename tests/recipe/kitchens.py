"""Arbitrary recipes for the property tests: real foods by code, any order of any steps."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st
from saltledger.core.step_kinds import step_kinds

FOODS = ("02047", "14429", "10060", "05062", "11124", "11352", "20120", "19335", "04582", "SL0001", "16034")
FOODS += ("SL0011",)
"""Salt, tap water, pork loin, chicken breast, carrots, potatoes, pasta, sugar, oil, curing salt, beans, and a
salt substitute."""

NAMES = ("meat", "brine", "pot", "roots", "coat")

_grams = st.floats(0.0, 5000.0) | st.sampled_from([0.0, 1e-6, 1.0, 1e5])
_hours = st.sampled_from([0.0, 1e-3, 0.5, 12.0, 144.0, 5000.0]) | st.floats(0.0, 300.0)
_share = st.floats(0.0, 1.0)


def _ingredients() -> st.SearchStrategy[list[dict[str, Any]]]:
    ingredient = st.fixed_dictionaries(
        {"food": st.sampled_from(FOODS), "grams": _grams}, optional={"eaten_fraction": _share}
    )
    return st.lists(ingredient, min_size=1, max_size=3)


def _measures() -> dict[str, st.SearchStrategy[Any]]:
    return {
        "duration_h": _hours,
        "thickness_cm": st.floats(0.1, 40.0),
        "temperature_c": st.floats(-2.0, 200.0),
        "shape": st.sampled_from(["sheet", "cylinder", "sphere"]),
        "absorption_factor": _share,
        "yield_fraction": st.floats(0.01, 3.0),
        "untaken_fraction": st.floats(0.0, 0.9),
        "water_changes": st.integers(0, 4),
        "sodium_after_mg_per_100g": st.floats(0.0, 5000.0),
        "rinsed": st.booleans(),
    }


_NEED_BATH = tuple(kind.name for kind in step_kinds().values() if kind.bath)
_ALONE = ("dry", "smoke", "rinse", "rest", "ferment")
_INTO = ("combine", "divide", "press", "squeeze", "skim", "sous_vide")
_OF_WHAT_IS_LEFT = ("yield_fraction", "sodium_after_mg_per_100g")
_FREE = ("simmer", "boil", "steam", "roast", "fry", "drain")


@st.composite
def steps(draw: st.DrawFn) -> dict[str, Any]:
    kind = draw(st.sampled_from([*_NEED_BATH, *_FREE, *_INTO, *_ALONE, "trim", "reduce"]))
    step = draw(st.fixed_dictionaries({}, optional=_measures()))
    places = draw(st.permutations(NAMES))
    step = {name: value for name, value in step.items() if name in step_kinds()[kind].uses}
    step |= {"kind": kind, "food": list(places[: draw(st.integers(1, 2))])}
    if kind in _NEED_BATH or ("bath" in step_kinds()[kind].uses and draw(st.booleans())):
        step["bath"] = places[2]
    if "bath" not in step:
        step.pop("absorption_factor", None)
    if kind == "ferment" and "bath" not in step:  # its brine stays with it, so nothing is measured of it
        step = {name: value for name, value in step.items() if name not in _OF_WHAT_IS_LEFT}
    if kind == "inject":
        step["pump_percent"] = draw(st.floats(0.0, 60.0))
    if kind in _INTO and (kind in ("combine", "divide") or draw(st.booleans())):
        step["into"] = places[3]
    if kind in ("divide", "combine", "skim"):
        step["share"] = draw(_share)
    if kind in ("trim", "reduce"):
        step["yield_fraction"] = draw(_share.filter(lambda share: share > 0.01))
    return step


@st.composite
def recipes(draw: st.DrawFn) -> dict[str, Any]:
    """A request document with five components and up to six steps."""
    components = [
        draw(
            st.fixed_dictionaries(
                {"id": st.just(name), "ingredients": _ingredients()}, optional={"eaten_fraction": _share}
            )
        )
        for name in NAMES
    ]
    return {
        "servings": draw(st.floats(0.5, 50.0)),
        "components": components,
        "steps": draw(st.lists(steps(), max_size=6)),
    }
