"""From what happened to components and steps: which line goes where, what each step states and assumes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

from .happenings import PROTEINS, Happening, Water
from .left_to_the_cook import food_grams, grams_roughly, water_lines
from .listed import ListedLine, equipment
from .questions import Choice, Doubts
from .reading_state import HOT, ReadingState
from .step_figures import DISH, Component, Step, rinse_step, state_figures

_LEAST_POT_SALT_G = 4.0
"""A line of salt that nothing else speaks of goes into a salted pot if it is a teaspoon or more."""
_BATH_NAMES = {
    "brine": "brine", "marinate": "marinade", "soak": "soaking-water", "dry_cure": "cure",
    "boil": "water", "simmer": "water", "dredge": "coating", "fry": "fat",
}  # fmt: skip
_POURED, _EATEN = Choice("poured_away", "It is poured away."), Choice("eaten", "It is eaten with the dish.")
_NO_ID = re.compile(r"[^a-z0-9]+")


@dataclass(slots=True)
class Assembled:
    """Components in order, steps in order, and lines that went nowhere with the reason."""

    components: list[Component]
    steps: list[Step]
    left_out: dict[int, str]


@dataclass(slots=True)
class Assembler:
    """Puts one recipe together. placed: of each line, the share that already lies in a component."""

    state: ReadingState
    doubts: Doubts
    components: dict[str, Component] = field(default_factory=dict)
    placed: dict[int, float] = field(default_factory=dict)
    steps: list[Step] = field(default_factory=list)

    def assemble(self) -> Assembled:
        """Everything that happened laid out; what nothing happened to is the dish."""
        left_out = {line.index: "not a food" for line in self.state.index.lines if equipment(line)}
        happened = self.state.happened
        dish = self._new(DISH, "The dish")
        foods = self._food_components(happened)
        for happening in happened:
            self._step(happening, [foods[line] for line in happening.foods if line in foods])
        for line in self.state.index.lines:
            if line.index not in left_out:
                self._place(dish, line.index, 1.0)
        self._season(dish)
        kept = [each for each in self.components.values() if each.ingredients]
        return Assembled(kept, self.steps, left_out)

    def _new(self, name: str, label: str) -> Component:
        identity, n = name, 2
        while identity in self.components:
            identity, n = f"{name}-{n}", n + 1
        self.components[identity] = Component(identity, label)
        return self.components[identity]

    def _place(self, component: Component, line: int, share: float) -> None:
        """Put a share of a line into a component, as far as there is any left of it."""
        left = 1.0 - self.placed.get(line, 0.0)
        share = left if share < 0 else min(share, left)
        if share < 1e-6:
            return
        self.placed[line] = self.placed.get(line, 0.0) + share
        text = self.state.lines[line].text
        component.add(text if share > 1 - 1e-6 else {"line": text, "share": round(share, 6)}, line)

    def _food_components(self, happened: Sequence[Happening]) -> dict[int, Component]:
        """A component for every food that something happens to; foods of one fate lie together."""
        fates: dict[int, tuple[int, ...]] = {}
        for i, happening in enumerate(happened):
            for line in happening.foods:
                fates[line] = (*fates.get(line, ()), i)
        made: dict[tuple[Any, ...], Component] = {}
        found: dict[int, Component] = {}
        for line, fate in fates.items():
            key = (fate, self.state.kind(line))
            if key not in made:
                made[key] = self._new(_name(self.state.lines[line]), self.state.lines[line].line.food_words)
            found[line] = made[key]
            self._place(made[key], line, 1.0)
        return found

    def _step(self, happening: Happening, foods: Sequence[Component]) -> None:
        names = list(dict.fromkeys(component.id for component in foods if component.ingredients))
        if not names:
            return
        body: dict[str, Any] = {"kind": happening.kind, "food": names[0] if len(names) == 1 else names}
        step = Step(body, happening.clause, happening.confidence, [], [])
        if happening.kind == "drain":
            if happening.rinsed:
                body["rinsed"] = True
        elif happening.kind != "roast":
            bath = self._bath(happening, step)
            if bath is None:
                return
            body["bath"] = bath.id
        state_figures(self.state, self.doubts, happening, step)
        self.steps.append(step)
        if happening.kind in ("brine", "dry_cure") and happening.rinsing is not None:
            self.steps.append(rinse_step(happening.rinsing, body["food"], happening.confidence))

    # The liquid or coating of a step

    def _bath(self, happening: Happening, step: Step) -> Component | None:
        component = self._new(
            _BATH_NAMES[happening.kind], f"{_BATH_NAMES[happening.kind].replace('-', ' ').capitalize()}"
        )
        lines = dict(happening.liquid)
        if happening.kind in HOT:
            lines = self._salt_of_pot(happening, lines, component)
        elif happening.kind in ("soak", "brine"):
            own = [n.index for n in self.state.index.lines if n.purpose == "soak" and n.kind == "salt"]
            if own:
                lines = {n: s for n, s in lines.items() if self.state.kind(n) != "salt"}
                lines |= dict.fromkeys(own, 1.0)
        if happening.kind in HOT:
            lines = self._salt_to_taste(happening, lines, component)
        for line, share in lines.items():
            if line not in happening.foods:
                self._place(component, line, self._share(happening, line, share))
        watery = any(self.state.kind(line) == "water" for line in lines)
        water = happening.water
        if water is not None and water.strength == "dry":
            component.add({"line": water.salt or "salt"}, None)
        elif happening.kind in ("brine", "soak", *HOT) and not watery and not self._is_liquid(lines):
            self._assume_water(happening, water or Water(), component, lines, step)
        if not component.ingredients:
            del self.components[component.id]
            return None
        self._fate(happening, component, step)
        return component

    def _is_liquid(self, lines: Iterable[int]) -> bool:
        wet = ("acid", "milk", "stock", "wine")
        return any(self.state.kind(n) in wet or "brine" in self.state.lines[n].words for n in lines)

    def _share(self, happening: Happening, line: int, share: float) -> float:
        """How much of a line is meant: as said; of one that several baths name, an equal part each."""
        if share not in (1.0,):
            return share
        users = [each for each in self.state.happened if line in each.liquid and each.liquid[line] == 1.0]
        return 1.0 / len(users) if len(users) > 1 else 1.0

    def _salt_of_pot(self, pot: Happening, lines: dict[int, float], component: Component) -> dict[int, float]:
        """Which salt line goes into a pot: the one said to, or one that nothing else speaks of."""
        state = self.state
        own = [n.index for n in state.index.lines if n.purpose == "pot"]
        if own and pot is next((h for h in state.happened if h.kind in HOT), None):
            return {
                **{n: s for n, s in lines.items() if state.kind(n) != "salt"},
                **dict.fromkeys(own, 1.0),
            }
        salts = [n for n in lines if state.kind(n) == "salt"]
        if salts and lines[salts[0]] == 1.0:
            kept = self._salt_kept(pot, salts)
            if not kept:
                lines = {n: s for n, s in lines.items() if n not in salts}
                pot.water = pot.water or Water()
                pot.water.strength = pot.water.strength or "salted"
        elif not salts and pot.water and pot.water.strength and not pot.water.salt:
            unspoken = [
                n
                for n in state.index.of_kinds("salt")
                if not state.spoken.get(n)
                and (grams_roughly(state.lines[n]) or 0.0) >= _LEAST_POT_SALT_G
                and not state.lines[n].purpose
                and not _seasons(state)
            ]
            if unspoken:
                lines = {**lines, unspoken[0]: 1.0}
        return lines

    def _salt_to_taste(
        self, pot: Happening, lines: dict[int, float], component: Component
    ) -> dict[int, float]:
        """Salt for a pot that gives no amount is as much as pots are salted with, not as dishes are."""
        state = self.state
        vague = [n for n in lines if state.kind(n) == "salt" and state.lines[n].line.amount is None]
        if not vague or any(state.kind(n) == "water" for n in lines):
            return lines
        pot.water = pot.water or Water()
        pot.water.strength = pot.water.strength or "salted"
        component.vague = vague[0]
        self.placed |= dict.fromkeys(vague, 1.0)
        return {n: s for n, s in lines.items() if n not in vague}

    def _salt_kept(self, pot: Happening, salts: Sequence[int]) -> bool:
        """Whether a salt line that the pot and the dish both name goes into the pot whole."""
        line = self.state.lines[salts[0]]
        if self.state.spoken.get(line.index, 0) <= 1 and not _seasons(self.state):
            return True
        return (
            line.line.amount is not None
            and not line.line.joined
            and self.state.spoken.get(line.index, 0) <= 1
        )

    def _assume_water(
        self, happening: Happening, water: Water, component: Component, lines: dict[int, float], step: Step
    ) -> None:
        strength = water.strength
        salted = any(self.state.kind(line) == "salt" for line in lines)
        if happening.kind in HOT and not salted and not water.salt:
            strength = self._strength(happening, water, component)
        for text in water_lines(happening, water, self.state, "" if salted else strength):
            component.add({"line": text}, component.vague if text.endswith(" salt") else None)
        step.assumed.append("water")

    def _strength(self, happening: Happening, water: Water, component: Component) -> str:
        """How salty a pot is that only the method names."""
        said = water.strength
        choices = (
            Choice("plain", "No salt goes into the water."),
            Choice("salted", "It is salted as usual, about 7 g a litre."),
            Choice("very", "It is salted well, about 20 g a litre."),
        )
        food = " and ".join(_name(self.state.lines[line]) for line in list(happening.foods)[:2])
        message = f"How salty is the cooking water of the {food}? The method gives no amount."
        taken = self.doubts.settle(
            "pot-salt",
            happening.clause.sentence,
            message,
            choices,
            said or "plain",
            component.id,
            "ingredients",
        )
        return "" if taken == "plain" else taken

    def _fate(self, happening: Happening, component: Component, step: Step) -> None:
        if happening.kind in HOT or happening.kind == "soak":
            component.eaten = self._kept_share(happening)
        elif happening.kind == "brine":
            component.eaten = self._asked_fate(happening, component, happening.eaten or 0.0, sure=True)
        elif happening.kind in ("dredge", "fry"):
            component.eaten = 0.0
        elif happening.kind == "dry_cure":
            component.eaten = (
                1.0 if happening.eaten is None and not happening.rinsed else happening.eaten or 0.0
            )
            if happening.rinsed:
                component.eaten = 0.0
            component.eaten = self._asked_fate(
                happening, component, component.eaten, sure=happening.eaten is not None
            )
        else:
            usual = happening.eaten if happening.eaten is not None else self._usual_fate(happening)
            component.eaten = self._asked_fate(happening, component, usual, sure=happening.eaten is not None)
        if happening.eaten is not None or happening.drained or happening.rinsed:
            step.stated.append("eaten_fraction")
        else:
            step.assumed.append("eaten_fraction")

    def _kept_share(self, happening: Happening) -> float:
        if happening.kept_ml is not None:
            total_ml = food_grams(happening, self.state) * (10 if happening.kind in HOT else 2)
            return round(min(happening.kept_ml / max(total_ml, happening.kept_ml), 1.0), 4)
        return happening.eaten or 0.0

    def _usual_fate(self, happening: Happening) -> float:
        """A marinade that nobody speaks of again: eaten where it is a paste or goes into a sauce."""
        return 0.0 if happening.drained else 1.0

    def _asked_fate(self, happening: Happening, component: Component, usual: float, *, sure: bool) -> float:
        if 0.0 < usual < 1.0:
            return usual
        message = f"What becomes of the {component.id.replace('-', ' ')} that is left?"
        likely = "eaten" if usual else "poured_away"
        if sure:
            return usual
        taken = self.doubts.settle(
            "fate",
            happening.clause.sentence,
            message,
            (_POURED, _EATEN),
            likely,
            component.id,
            "eaten_fraction",
        )
        return 1.0 if taken == "eaten" else 0.0

    # Salt that no line names

    def _season(self, dish: Component) -> None:
        state = self.state
        amounts = [text for _, text in state.seasoned if text]
        for text in amounts:
            dish.add({"line": text}, None)
        vague = [clause for clause, text in state.seasoned if not text]
        if amounts:
            vague = [
                clause for clause in vague if clause.base in ("season", "salt") and not clause.has("more")
            ]
        salted = any(line.kind == "salt" for line in state.index.lines)
        if vague and not salted:
            self._season_to_taste(dish, vague[0].sentence)

    def _season_to_taste(self, dish: Component, sentence: str) -> None:
        choices = (
            Choice("none", "No salt is added there."),
            Choice("usual", "As cooks usually do, from a pinch to two teaspoons in all."),
            Choice("well", "Well: about two teaspoons in all."),
        )
        message = "How much salt goes in where the method only says to season?"
        taken = self.doubts.settle("seasoning", sentence, message, choices, "usual", dish.id, "ingredients")
        if taken != "none":
            dish.add({"line": "salt, to taste" if taken == "usual" else "2 tsp salt"}, None)


def _seasons(state: ReadingState) -> bool:
    return bool(state.seasoned)


def _name(line: ListedLine) -> str:
    named = line.line.food_words.split(" in ")[0]
    words = [word for word in named.split() if word.isascii()] or list(line.words) or ["food"]
    joined = _NO_ID.sub("-", "-".join(words[-2:]).lower()).strip("-")
    return joined[:40] or "food"


__all__ = ["PROTEINS", "Assembled", "Assembler", "Component", "Step"]
