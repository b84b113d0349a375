"""What the page that changes something shows of it: what it is now, and what it could be."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ...foods.dataset import FoodTable
from ...foods.food import Food
from ...lines import read_line
from ...review.chain import fingerprint
from ...review.overrides import Overrule, at, ingredient_pointers
from ...store.records import Version
from .review_forms import foods_of
from .trade_words import WORDS, component_words, spoken

Document = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Thing:
    """What is changed. present: what is in force now, by field of the form, as it is written there.

    asked: the ingredient as the answer has it, None for a component or step. assumptions: of a step.
    """

    name: str
    present: Mapping[str, str]
    asked: Document | None = None
    assumptions: tuple[Document, ...] = ()


@dataclass(frozen=True, slots=True)
class Choice:
    """A food that can be chosen; sodium_mg: in 100 g, None where it is not known."""

    code: str
    name: str
    sodium_mg: float | None


def sight_of(made: Iterable[Overrule]) -> str:
    """The same for the same changes: what was looked at before it is kept."""
    return fingerprint([[each.target.key, each.field, each.value, each.reach] for each in made])


def thing_at(version: Version, pointer: str) -> Thing:
    """What stands at a pointer of a version's recipe."""
    sent = at(version.request, pointer)
    if "/ingredients/" in pointer:
        asked = version.answer["ingredients"][ingredient_pointers(version.request).index(pointer)]
        return Thing(asked["line"] or asked["food"]["name"], _of_ingredient(asked), asked)
    told = {each["field"]: each["value"] for each in version.overrules if each["pointer"] == pointer}
    words = component_words(version.request)
    if pointer.startswith("/components/"):
        return Thing(words[sent["id"]], {"eaten_fraction": _percent(_eaten(version, sent, told))})
    index = int(pointer.split("/")[2])
    food = [sent["food"]] if isinstance(sent["food"], str) else sent["food"]
    mine = tuple(each for each in version.answer["assumptions"] if each["step"] == index)
    name = f"{spoken(sent['kind'])} {', '.join(words[each] for each in food)}"
    return Thing(name, _of_step({**sent, **told}, index, version.answer, mine), assumptions=mine)


def _of_ingredient(asked: Document) -> dict[str, str]:
    eaten = asked.get("eaten_fraction")
    found = {"eaten_fraction": _percent(1.0 if eaten is None else eaten)}
    if asked["grams"] is not None:
        found["grams"] = f"{asked['grams']:.5g}"
    packet = asked.get("packet_per_100g") or {}
    for name in WORDS["packet"]:
        if not isinstance(packet.get(name, {}), Mapping):
            found[f"packet_{name}"] = f"{packet[name]:.6g}"
    return found


def _eaten(version: Version, component: Document, told: Document) -> float:
    """The share of a component that is eaten: as somebody said, or as a bath and other parts are taken."""
    is_bath = component["id"] in {step.get("bath") for step in version.request.get("steps", ())}
    stated = told.get("eaten_fraction", component.get("eaten_fraction"))
    return float(stated) if stated is not None else 0.0 if is_bath else 1.0


def _of_step(step: Document, index: int, answer: Document, assumptions: Sequence[Document]) -> dict[str, str]:
    found: dict[str, str] = {}
    taken = step.get("absorption_factor", _taken_up(step, index, answer))
    left = [each["value"] for each in assumptions if each["id"].endswith("/yield")]
    weight = step.get("yield_fraction", left[0] if len(left) == 1 else None)
    if taken is not None:
        found["absorption_factor"] = _percent(taken)
    if weight is not None:
        found["yield_fraction"] = _percent(weight)
    if step.get("sodium_after_mg_per_100g") is not None:
        found["sodium_after_mg_per_100g"] = f"{step['sodium_after_mg_per_100g']:g}"
    return found


def _taken_up(step: Document, index: int, answer: Document) -> float | None:
    """The share of a bath's sodium that left it in a step, by the ledger; None where there was none."""
    bath = step.get("bath")
    held = sum(each["sodium_mg"] or 0.0 for each in answer["ingredients"] if each["component"] == bath)
    taken = 0.0
    for entry in answer["sodium"]["ledger"]:
        if entry["step"] is None or entry["step"] > index:
            break
        if entry["step"] == index and entry["from"] == bath:
            taken += entry["mg"]
        elif entry["step"] < index:
            held += (entry["to"] == bath) * entry["mg"] - (entry["from"] == bath) * entry["mg"]
    return min(taken / held, 1.0) if held > 0 else None


def _percent(share: float) -> str:
    return f"{100 * share:.4g}"


def candidates(version: Version, pointer: str, chosen: str, found: Sequence[Food]) -> list[Choice]:
    """The foods that a line could be, besides the one that it is taken as.

    The one chosen, what it was nearly mapped to, the recipe's own foods, those that were searched for, and
    those that the second source was found to have.
    """
    if "/ingredients/" not in pointer:
        return []
    foods = foods_of(version)
    asked = thing_at(version, pointer).asked or {}
    sent = at(version.request, pointer)
    line = sent if isinstance(sent, str) else sent.get("line", "")
    codes = [
        chosen,
        *(each["code"] for each in asked["alternatives"]),
        *(each["code"] for each in version.request.get("custom_foods", ())),
        *(each.code for each in found),
        *(foods.second.offered(read_line(line).food_words) if line else ()),
    ]
    now = asked["food"]["code"] if asked["food"] else None
    return [_choice(foods, code) for code in dict.fromkeys(codes) if code in foods and code != now]


def _choice(foods: FoodTable, code: str) -> Choice:
    food = foods.get(code)
    return Choice(code, food.name, food.per_100g("NA"))
