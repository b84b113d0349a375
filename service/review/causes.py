"""What moved the sodium of a serving between two versions, cause by cause, by working out what lies between.

From the older recipe one change after another is made: lines, parts, steps, servings, reviewers' overrules.
Each is given what the figure moves when it is made; so the causes add up to the whole change.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from ..core.errors import SaltledgerError
from ..core.numbers import shown
from .difference import Cause, Difference, Place, line_pairs
from .overrides import SHORT_FORM, Overrule, apply, at, ingredient_pointers, normalised_line, targets
from .tracing import lines

Document = Mapping[str, Any]
Calculate = Callable[[dict[str, Any]], Document]

MOST_STAGES = 8
"""Changes that are worked out one by one; what is beyond them is one cause together with the last."""
_OF_NO_FIGURE = ("title", "components", "ingredients", "steps", "servings", "portion_g")


@dataclass(frozen=True, slots=True)
class Side:
    """One version: its recipe, the overrules it tells of, its answer."""

    request: Document
    overrules: Sequence[Document]
    answer: Document


@dataclass(slots=True)
class _State:
    """A recipe on its way from one side to the other: lines by component, each with a name of its own."""

    document: dict[str, Any]
    components: dict[str, dict[str, Any]]
    lines: dict[str, dict[str, Any]]
    overrules: dict[tuple[str, str], Overrule] = field(default_factory=dict)

    @classmethod
    def of(cls, side: Side) -> _State:
        components = {each["id"]: _bare(each) for each in side.request.get("components", ())}
        listed: dict[str, dict[str, Any]] = {SHORT_FORM: {}, **{name: {} for name in components}}
        for i, pointer in enumerate(ingredient_pointers(side.request)):
            listed[_component(side.request, pointer)][f"old {i}"] = at(side.request, pointer)
        return cls(copy.deepcopy(dict(side.request)), components, listed, _spoken(side))

    def whole(self) -> dict[str, Any]:
        """The recipe as it stands, overrules laid over it."""
        made = {**self.document, "components": []}
        for name, component in self.components.items():
            made["components"].append({**component, "ingredients": list(self.lines[name].values())})
        short = list(self.lines[SHORT_FORM].values())
        for name, value in (("ingredients", short), ("components", made["components"])):
            if value:
                made[name] = value
            else:
                made.pop(name, None)
        return apply(made, self.overrules.values()).document


Stage = tuple[Cause, Callable[[_State], None]]


def causes(
    older: Side, newer: Side, calculate: Calculate, *, same_data: bool, as_before: Calculate | None = None
) -> list[Cause]:
    """The causes of the change from one side to the other; their `moved_mg` add up to it.

    calculate: as the service works a recipe out today, on the recipes that the newer side is made of.
    as_before: the same on those of the older side. same_data: both sides stand on today's data, so that the
    older figure need not be worked out anew.
    """
    state, found = _State.of(older), []
    before, end = _mg(older.answer), _mg(newer.answer)
    stages = list(_stages(older, newer))
    moved_parts = list(_moved_parts(older.answer, newer.answer))
    if not same_data or not (stages or moved_parts):
        worked_out = as_before if moved_parts and as_before else calculate
        today = _worked_out(state, worked_out) if stages or moved_parts else end
        if today is not None and today != before:
            found.append(Cause("data", "", today - before))
            before = today
    waiting: list[Cause] = []
    if moved_parts:
        cause = Cause("made_of", *_told_of(moved_parts))
        mg = _worked_out(state, calculate) if stages else end
        if mg is None:
            waiting.append(cause)
        else:
            found.append(_moving(cause, mg - before))
            before = mg
    for number, (cause, change) in enumerate(stages, 1):
        change(state)
        is_last = number == len(stages)
        mg = end if is_last else _worked_out(state, calculate) if number < MOST_STAGES else None
        if mg is None:  # what lies between cannot be worked out: it counts with the next
            waiting.append(cause)
            continue
        found += [_moving(each, 0.0) for each in waiting]
        found.append(_moving(cause, mg - before))
        before, waiting = mg, []
    return found


def _moved_parts(older: Document, newer: Document) -> Iterator[tuple[Document, Document]]:
    """The recipes that both answers are made of, at any depth, where they are other versions."""
    was = {each["key"]: each for each in _parts(older)}
    for each in {each["key"]: each for each in _parts(newer)}.values():
        before = was.get(each["key"])
        if before is not None and before["save_id"] != each["save_id"]:
            yield before, each


def _parts(answer: Document) -> Iterator[Document]:
    for each in answer.get("recipes", ()):
        yield each
        yield from _parts(each)


def _told_of(moved: Sequence[tuple[Document, Document]]) -> tuple[str, float, str, str]:
    """Which recipes are other versions, and which versions they were and are."""
    what = ", ".join(now["title"] or now["key"] for _, now in moved)
    was, now = (", ".join(f"version {each[side]['version']}" for each in moved) for side in (0, 1))
    return what, 0.0, was, now


def explained(found: Difference, older: Side, newer: Side, told: Sequence[Cause]) -> Difference:
    """A difference whose parts are those of its causes."""
    pairs = line_pairs(lines(older.answer), lines(newer.answer))
    by_pair = {cause.pair: cause.moved_mg for cause in told if cause.kind == "line"}
    changed = tuple(
        replace(line, moved_mg=by_pair.get(pair, 0.0)) for line, pair in zip(found.lines, pairs, strict=True)
    )

    def moved(*kinds: str) -> float:
        return sum(cause.moved_mg for cause in told if cause.kind in kinds)

    return replace(
        found,
        lines=changed,
        steps_moved_mg=moved("step", "part"),
        servings_moved_mg=moved("servings"),
        overrules_moved_mg=moved("override"),
        data_moved_mg=moved("data"),
        recipes_moved_mg=moved("made_of"),
        other_moved_mg=moved("recipe"),
        causes=tuple(told),
    )


def _moving(cause: Cause, mg: float) -> Cause:
    return replace(cause, moved_mg=mg)


def _worked_out(state: _State, calculate: Calculate) -> float | None:
    try:
        return _mg(calculate(state.whole()))
    except (SaltledgerError, LookupError):
        return None


def _mg(answer: Document) -> float:
    return float(answer["sodium"]["per_serving_mg"]["likely"])


def _stages(older: Side, newer: Side) -> Iterator[Stage]:
    """Every change that can move a figure, in the order in which they are made."""
    old, new = older.request, newer.request
    others = {name for name in {**old, **new} if old.get(name) != new.get(name)} - {*_OF_NO_FIGURE, "written"}
    if others:
        said = ", ".join(sorted(others))
        yield Cause("recipe", said, 0.0), lambda state: _take_over(state, new, others)
    yield from _line_stages(older, newer)
    yield from _part_stages(old, new)
    yield from _step_stages(old, new)
    served = {"servings", "portion_g"}
    if any(old.get(name) != new.get(name) for name in served):
        told = _served(older.answer), _served(newer.answer)
        yield Cause("servings", "", 0.0, *told), lambda state: _take_over(state, new, served)
    yield from _override_stages(_spoken(older), _spoken(newer), newer)


def _served(answer: Document) -> str:
    """The number of servings, or the weight of a portion, in words."""
    if "portion_g" in answer:
        return f"portions of {shown(answer['portion_g'])} g"
    return shown(answer["servings"])


def _take_over(state: _State, new: Document, names: set[str]) -> None:
    for name in names:
        if name in new:
            state.document[name] = new[name]
        else:
            state.document.pop(name, None)


def _line_stages(older: Side, newer: Side) -> Iterator[Stage]:
    places = [ingredient_pointers(each.request) for each in (older, newer)]
    for pair in line_pairs(lines(older.answer), lines(newer.answer)):
        was, now = (
            None if i is None else (_component(side.request, pointers[i]), at(side.request, pointers[i]))
            for i, side, pointers in zip(pair, (older, newer), places, strict=True)
        )
        if was and now and (was[0], _said(was[1])) == (now[0], _said(now[1])):
            continue
        words = tuple(None if each is None else _line(each[1]) for each in (was, now))
        cause = Cause("line", words[1] or words[0] or "", 0.0, words[0], words[1], pair=pair)
        yield cause, lambda state, pair=pair, was=was, now=now: _move_line(state, newer, pair, was, now)  # type: ignore[misc]


def _move_line(
    state: _State, newer: Side, pair: Place, was: tuple[str, Any] | None, now: tuple[str, Any] | None
) -> None:
    name = f"old {pair[0]}"
    if was is not None and (now is None or now[0] != was[0]):
        state.lines[was[0]].pop(name)
    if now is not None:
        component, ingredient = now
        if component != SHORT_FORM and component not in state.components:
            there = {each["id"]: each for each in newer.request["components"]}
            state.components[component] = _bare(there[component])
        state.lines.setdefault(component, {})[name if was else f"new {pair[1]}"] = ingredient


def _part_stages(old: Document, new: Document) -> Iterator[Stage]:
    was, now = ({each["id"]: _bare(each) for each in side.get("components", ())} for side in (old, new))
    for name, part in now.items():
        if name in was and _unnamed(was[name]) != _unnamed(part):
            cause = Cause("part", name, 0.0)
            yield cause, lambda state, name=name, part=part: state.components.update({name: part})  # type: ignore[misc]


def _step_stages(old: Document, new: Document) -> Iterator[Stage]:
    was, now = (list(side.get("steps", ())) for side in (old, new))
    if len(was) != len(now):
        yield Cause("step", "", 0.0), lambda state: _take_over(state, new, {"steps"})
        return
    for i, (one, other) in enumerate(zip(was, now, strict=True)):
        if one != other:
            yield Cause("step", str(i + 1), 0.0), lambda state, i=i, other=other: _set_step(state, i, other)  # type: ignore[misc]


def _set_step(state: _State, i: int, step: Any) -> None:
    steps = list(state.document["steps"])
    steps[i] = step
    state.document["steps"] = steps


Spoken = dict[tuple[str, str], Overrule]


def _override_stages(was: Spoken, now: Spoken, newer: Side) -> Iterator[Stage]:
    there = {target.key for target in targets(newer.request).values()}
    for key in {**was, **now}:
        one, other = was.get(key), now.get(key)
        if (one and one.value) == (other and other.value) or key[0] not in there:
            continue
        said = other or one
        assert said is not None
        values = [None if each is None else f"{each.value}" for each in (one, other)]
        what = f"{said.field} of {_about(said)}"
        cause = Cause("override", what, 0.0, values[0], values[1], by=said.reviewer)
        yield cause, lambda state, key=key, other=other: _set_override(state, key, other)  # type: ignore[misc]


def _set_override(state: _State, key: tuple[str, str], overrule: Overrule | None) -> None:
    if overrule is None:
        state.overrules.pop(key, None)
    else:
        state.overrules[key] = overrule


def _spoken(side: Side) -> Spoken:
    """The overrules that hold on a side, as overrules of just what they were laid over there."""
    aims = targets(side.request)
    found = {}
    for each in side.overrules:
        target = aims.get(each["pointer"] or "")
        if target is not None:
            told = Overrule(target, each["field"], each["value"], each["reason"], each["reviewer"])
            found[target.key, each["field"]] = told
    return found


def _about(overrule: Overrule) -> str:
    what = overrule.target.what
    asked = what.get("asked") or {}
    step = what.get("step") or {}
    return str(asked.get("line") or asked.get("label") or what.get("component") or step.get("kind") or "")


def _component(request: Document, pointer: str) -> str:
    parts = pointer.split("/")
    return str(request["components"][int(parts[2])]["id"]) if parts[1] == "components" else SHORT_FORM


def _bare(component: Document) -> dict[str, Any]:
    return {name: value for name, value in component.items() if name != "ingredients"}


def _unnamed(component: Document) -> dict[str, Any]:
    return {name: value for name, value in component.items() if name != "label"}


def _line(ingredient: str | Document) -> str:
    return (
        ingredient if isinstance(ingredient, str) else str(ingredient.get("line") or ingredient.get("food"))
    )


def _said(ingredient: str | Document) -> dict[str, Any]:
    """An ingredient but for the spaces and capitals of its line."""
    said = {"line": ingredient} if isinstance(ingredient, str) else dict(ingredient)
    return {**said, "line": normalised_line(said["line"])} if "line" in said else said
