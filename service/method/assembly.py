"""From what happened to components and steps: which line goes where, what each step states and assumes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from ..lines import read_line
from .amounts_said import is_a_pinch
from .audit import is_done_after_all
from .bought_salty import holds_its_salt
from .egg_parts import leave_egg_parts, mean_egg_parts
from .happenings import WITHOUT_BATH, Happening, Water
from .layout import DISH, Component, Layout, Step, name_of, names_of
from .left_over import keep_left_over
from .left_to_the_cook import grams_roughly, whey_shares
from .liquids import Liquids
from .listed import ListedLine, equipment
from .meant_foods import MeantFood, ask_how_heavy
from .method_words import phrasing
from .questions import Doubts
from .reading_state import COLD, HOT, ReadingState
from .salt_by_weight import rate_of_line, weighed_food
from .seasoned_coatings import is_salted_to_taste
from .seasoning import Salting, ask_how_much, leave_behind, leave_fat, season, to_taste
from .stakes import is_salty
from .step_figures import rinse_step, state_figures
from .strewn_salt import seasoning_of
from .thick_marinades import roast_what_clings
from .thrown_out import leave_thrown_out
from .told_twice import twice_listed
from .unlisted import add_unlisted
from .unsettled import is_poured_after_all

_LEFT_OPEN = phrasing("left_to_cook")
_GUESS = 0.5
"""Confidence up to which a step is only a guess, so that a person is asked whether it is done."""
_OF_A_LINE = 0.95
"""Confidence of a can that its own line says is drained: no whey."""
_USUAL_PUMP = 10.0
"""Percent of its weight that a piece is pumped with, common practice, no source."""


_OR = phrasing("second_way")


def _is_first_way(first: Happening, other: Happening) -> bool:
    """Whether two baths of one food are ways to choose from, the other one said to be so."""
    if first is other or first.kind not in COLD:
        return False
    if first.kind == "soak" and other.kind in (*HOT, "soak") and first.foods.keys() == other.foods.keys():
        return bool(_OR.match(other.clause.sentence))  # "or, if short of time, boil it for 20 minutes"
    if other.kind not in COLD:
        return False
    apart = first.foods.keys() == other.foods.keys() and first.liquid.keys().isdisjoint(other.liquid)
    return apart and bool(first.liquid and other.liquid) and bool(_OR.search(other.clause.sentence))


_OF_DOUGH = frozenset({"flour", "salt", "egg", "milk", "water", "sweet", "oil", "spice", "herb", "cheese"})


@dataclass(slots=True)
class Assembled:
    """Components in order, steps in order, and lines that went nowhere with the reason."""

    components: list[Component]
    steps: list[Step]
    left_out: dict[int, str]


@dataclass(slots=True)
class Assembler:
    """Puts one recipe together. servings: None where the recipe does not say; meant: the food of its bath
    where no line lists it."""

    state: ReadingState
    doubts: Doubts
    servings: float | None = None
    meant: MeantFood | None = None
    layout: Layout = field(init=False)
    more_salt: list[str] = field(default_factory=list)
    also_seasons: list[int] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.layout = Layout(self.state.lines)

    def assemble(self) -> Assembled:
        """Everything that happened laid out; what nothing happened to is the dish."""
        left_out = {line.index: "not a food" for line in self.state.index.lines if equipment(line)}
        self.state.happened = [each for each in self.state.happened if self._is_done(each)]
        left_out |= self._other_ways()
        left_out |= self._told_twice()
        self._by_weight()
        mean_egg_parts(self.state, self.layout)
        if self.meant is not None:
            ask_how_heavy(self.meant, self.doubts, self.layout, self.servings)
        dish = self.layout.new(DISH, "The dish")
        keep_left_over(self.state, self.doubts, self.layout)
        foods = self._food_components(self.state.happened)
        liquids = Liquids(self.state, self.doubts, self.layout)
        for happening in self.state.happened:
            self._step(liquids, happening, [foods[line] for line in happening.foods if line in foods])
        roast_what_clings(liquids.clinging, self.steps)
        leave_behind(self.state, self.doubts, self.layout, self.servings)
        leave_fat(self.state, self.layout)
        leave_thrown_out(self.state, self.layout)
        leave_egg_parts(self.state, self.layout)
        for line in self.state.index.lines:
            if line.index not in left_out:
                self.layout.place(dish, line.index, 1.0)
        usual = Salting(self.state, self.layout, self.servings)
        ask_how_much(self.state, self.doubts, dish, self.layout.meant, usual)
        season(self.state, self.doubts, dish, usual)
        more = (seasoning_of(self.state, self.doubts, n, dish.id) for n in self.also_seasons)
        for salt in filter(None, (*self.more_salt, *more)):
            dish.add({"line": salt}, None)
        for happening, bath in liquids.made:
            if is_salted_to_taste(happening):
                to_taste(self.doubts, bath, happening.clause.sentence, usual)
        add_unlisted(self.state, self.doubts, dish)
        kept = [each for each in self.layout.components.values() if each.ingredients]
        if dish not in kept:
            for step in self.steps:
                step.body.pop("into", None)  # there is no dish that would catch it
        return Assembled(kept, self.steps, left_out)

    def _told_twice(self) -> dict[int, str]:
        """Lines that say the whole list once more in other measures: left out, unless a person says no."""
        again = twice_listed(self.state.index.lines)
        if not again:
            return {}
        text = "\n".join(self.state.lines[n].text for n in again)
        if self.doubts.ask("twice", text, "once", DISH) == "twice":
            return {}
        self.layout.placed |= dict.fromkeys(again, 1.0)
        return dict.fromkeys(again, "the same once more in other measures")

    def _by_weight(self) -> None:
        """ "2 % salt by weight of the cabbage": as much as the food that it lies on makes of it; "salt" of
        which the method alone says how much: as much as it says."""
        for index, said in self.state.amounts.items():
            line = self.state.lines[index]
            named = line.line.food_words
            name = "salt" if line.kind == "salt" and not named.lower().endswith("salt") else named
            spoken, seasons = self.state.spoken.get(index, 0), index in self.state.strewn
            vague = spoken <= 1 and line.kind == "salt" and line.line.amount is None
            besides = vague and self.state.beside is not None
            if besides:  # "season", of a line "salt, pepper": it is that line which is told of
                self.state.beside = None
            if (spoken > 1 or besides) and (pot := self._goes_into_pot(index)) is not None:
                left = list(said)
                left.remove(pot.measured[index])
                if line.kind == "salt" and left and not (seasons and all(map(is_a_pinch, left))):
                    self._means(line, left, name)  # "… and half a teaspoon in the dressing"
                continue
            if line.purpose == "pot" and self._without_pinches(said) != said:
                continue  # a pinch goes into the dish
            if seasons and all(map(is_a_pinch, said)):
                continue  # "a pinch of salt" for the onions, of a dish that is seasoned besides
            salts_pot = line.kind == "salt" and any(
                h.kind in HOT and index in h.liquid for h in self.state.happened
            )
            of_pot = self._without_pinches(said) if salts_pot and not (len(said) == 1 < spoken) else said
            in_bath = any(index in h.liquid for h in self.state.happened)
            alone = len(of_pot) == 1 and (line.kind in ("salt", "savoury") or spoken == 1)
            if alone or (len(of_pot) > 1 and line.kind == "salt" and not in_bath):
                self._means(line, of_pot, name)
        for line in self.state.index.lines:
            if line.kind == "salt" and (grams := self._of_the_weight(line)):
                self.layout.meant[line.index] = f"{grams} salt"

    def _of_the_weight(self, line: ListedLine) -> str:
        """ "2 % salt", "15 g salt per kilo" of a list: what it comes to, of the food that it lies on."""
        rate = rate_of_line(line.text)
        if rate is None:
            return ""
        under = next((h.foods for h in self.state.happened if line.index in h.liquid), None)
        foods = under or self.state.strewn.get(line.index) or weighed_food(self.state)
        return rate.of(self.state, foods)

    def _means(self, line: ListedLine, said: Sequence[str], name: str) -> None:
        """A line without an amount comes to what the method says, in all places; with what is strewn on food
        that nobody measures."""
        told = [f"{each.removesuffix(' of')} {name}" for each in said]
        if any(read_line(each).amount is None for each in told):
            return
        self.layout.meant[line.index] = told[0]
        self.more_salt += told[1:]
        if line.kind == "salt":
            self.also_seasons.append(line.index)

    def _goes_into_pot(self, index: int) -> Happening | None:
        """ "A spoonful of salt in the water", of a line that seasons the dish as well: the pot of it."""
        pot = next((h for h in self.state.happened if index in h.measured and index in h.liquid), None)
        if pot is None:
            return None
        said = pot.measured[index].removesuffix(" of")
        pot.liquid = {n: s for n, s in pot.liquid.items() if n != index}
        pot.water = pot.water or Water()
        pot.water.strength, pot.water.salt = "salted", f"{said} salt"
        return pot

    def _without_pinches(self, said: Sequence[str]) -> list[str]:
        """Amounts of a salt that a pot is salted with: a pinch is none of them and goes into the dish."""
        first, pinches = self.state.happened[0].clause, list(filter(is_a_pinch, said))
        self.state.seasoned += [(first, f"{each.removesuffix(' of')} salt") for each in pinches]
        return [each for each in said if each not in pinches]

    def _other_ways(self) -> dict[int, str]:
        """Lines of a second way to brine the same food ("or wet: …"): one of the two is done."""
        for other in self.state.happened:
            first = next((h for h in self.state.happened if _is_first_way(h, other)), None)
            if first is None:
                continue
            first_kind, second_kind = (each.kind.replace("_", " ") for each in (first, other))
            told = {"first": first_kind, "second": second_kind}
            is_first = self.doubts.ask("way", other.clause.sentence, "first", DISH, **told) == "first"
            unused = other if is_first else first
            self.state.happened = [h for h in self.state.happened if h is not unused]
            alone = unused.liquid.keys() - {n for h in self.state.happened for n in (*h.liquid, *h.foods)}
            self.layout.placed |= dict.fromkeys(alone, 1.0)
            return dict.fromkeys(alone, "of the other way")
        return {}

    def _is_done(self, happening: Happening) -> bool:
        """Whether a bath that the method leaves to the cook is made: as a person says, else it is."""
        if happening.unread:
            return is_done_after_all(self.state, self.doubts, happening)
        if happening.maybe:
            return is_poured_after_all(self.state, self.doubts, happening)
        sentence = happening.clause.sentence
        if happening.kind == "drain" and happening.guessed:
            return self._is_drained(happening)
        if happening.kind not in COLD or not (
            happening.confidence <= _GUESS or happening.left_open or _LEFT_OPEN.search(sentence)
        ):
            return True
        kind = happening.kind.replace("_", " ")
        food = names_of(self.state.lines, happening.foods)
        return self.doubts.ask("optional", sentence, "done", DISH, kind=kind, food=food) == "done"

    def _is_drained(self, can: Happening) -> bool:
        """Whether the liquid of a can goes, of which nobody says so: as a person says, else it does."""
        food = names_of(self.state.lines, can.foods)
        return self.doubts.ask("can", can.clause.sentence, "drained", DISH, food=food) == "drained"

    def _food_components(self, happened: Sequence[Happening]) -> dict[int, Component]:
        """A component for every food that something happens to; foods of one fate lie together."""
        fates: dict[int, tuple[int, ...]] = {}
        for i, happening in enumerate(happened):
            for line in happening.foods:
                fates[line] = (*fates.get(line, ()), i)
        made: dict[tuple[Any, ...], Component] = {}
        found: dict[int, Component] = {}
        doughs = self._stirred_to_dough(happened)
        for line, fate in fates.items():
            thrown = line in self.state.thrown_out
            key = (fate, "dough" if line in doughs else self.state.kind(line), thrown)
            if key not in made:
                listed = self.state.lines[line]
                named = ("dough", "Dough") if line in doughs else (name_of(listed), listed.line.food_words)
                made[key] = self.layout.new(*named)
            found[line] = made[key]
            if thrown or any(happened[i].spent for i in fate):
                made[key].eaten = 0.0
            shares = [happened[i].foods[line] for i in fate if happened[i].kind == "drain"]
            part = min(shares) if len(shares) == len(fate) else 1.0  # "drain one can of the beans"
            self.layout.place(made[key], line, part)
        return found

    def _stirred_to_dough(self, happened: Sequence[Happening]) -> set[int]:
        """What goes with flour into a pot or into fat: one food, with its salt in it."""
        kind, found = self.state.kind, set[int]()
        for each in happened:
            own = {n for n in each.foods if kind(n) in _OF_DOUGH}
            if {"flour", "salt"} <= {kind(n) for n in own}:
                found |= own
        return found

    def _step(self, liquids: Liquids, happening: Happening, foods: Sequence[Component]) -> None:
        for line, share in happening.on_food.items() if foods else ():
            self.layout.place(foods[0], line, share)  # "salt the fish, then cover with lime juice"
        names = list(dict.fromkeys(component.id for component in foods if component.ingredients))
        if not names:
            return
        body: dict[str, Any] = {"kind": happening.kind, "food": names[0] if len(names) == 1 else names}
        step = Step(body, happening.clause, happening.confidence, [], [], happening.until)
        if happening.kind == "drain":
            if happening.rinsed and all(holds_its_salt(self.state, n) for n in happening.foods):
                body["kind"] = "rinse"
            elif happening.rinsed:
                body["rinsed"] = True
            if happening.named and happening.confidence < _OF_A_LINE:
                self._whey(happening, foods[0], step)
        elif happening.caught:
            body["into"] = DISH
        elif happening.kind == "ferment" and happening.eaten == 1.0 and not self._is_lifted_out(happening):
            for line, share in happening.liquid.items():
                self.layout.place(foods[0], line, share)
        elif happening.kind not in WITHOUT_BATH:
            bath = liquids.bath(happening, step)
            if bath is None:
                return
            body["bath"] = bath.id
            if happening.kind == "inject":
                body["pump_percent"] = self._pump_percent(happening)
                step.assumed.append("pump_percent")
        state_figures(self.state, self.doubts, happening, step)
        self.steps.append(step)
        salty_soak = happening.kind == "soak" and (
            any(self.state.kind(n) in ("flour", "salt") for n in happening.liquid)
            or all(self.state.kind(n) == "salty" or is_salty(self.state.lines[n]) for n in happening.foods)
        )
        rinses = salty_soak or happening.kind in ("brine", "dry_cure", "ferment", *HOT)
        if rinses and happening.rinsing is not None:
            self.steps.append(rinse_step(happening.rinsing, body["food"], happening.confidence))

    def _is_lifted_out(self, ferment: Happening) -> bool:
        """Whether what sours in its own juice is lifted out of that: as a person says, else it is not."""
        if not ferment.liquid or all(self.state.kind(n) == "milk" for n in ferment.foods):
            return False  # it sours in a paste, or sets whole
        food = names_of(self.state.lines, ferment.foods)
        taken = self.doubts.ask("crock", ferment.clause.sentence, "eaten", DISH, food=food)
        if taken == "poured_away":
            ferment.eaten = 0.0
        return taken == "poured_away"

    def _whey(self, happening: Happening, curd: Component, step: Step) -> None:
        """How much stays in the cloth: salt that was stirred in before runs off with the whey."""
        for line, share in happening.liquid.items():
            self.layout.place(curd, line, share)
        shares = whey_shares(word for n in happening.foods for word in self.state.lines[n].words)
        taken = self.doubts.ask("whey", happening.clause.sentence, "usual", curd.id, food=curd.id, **shares)
        step.body["yield_fraction"] = shares[taken]
        step.assumed.append("yield_fraction")

    def _pump_percent(self, happening: Happening) -> float:
        """All that the list makes of the pickle goes in, unless nobody says how much that is."""
        lines = self.state.lines
        food_g = sum(grams_roughly(lines[n]) or 0.0 for n in happening.foods)
        pickle_g = sum((grams_roughly(lines[n]) or 0.0) * share for n, share in happening.liquid.items())
        return round(min(100 * pickle_g / food_g, 40.0), 1) if food_g and pickle_g else _USUAL_PUMP


__all__ = ["DISH", "Assembled", "Assembler", "Component", "Step"]
