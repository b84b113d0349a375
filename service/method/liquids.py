"""The liquid, salt or coating of a step as a component: what lies in it, and how much of it is eaten."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from .coating_left import coating_left
from .frying import fat_to_fry_in
from .happenings import WET, Happening, Water
from .layout import Component, Layout, Step, names_of
from .left_to_the_cook import food_grams, grams_in, grams_roughly, water_lines
from .may_be_left import in_its_juice, may_drip
from .pot_salt import UNSEASONED, pot_meant, salt_of_both, salted_pots
from .questions import Doubts
from .reading_state import HOT, ReadingState
from .salt_beside import gives_more
from .seasoned_coatings import is_salted_to_taste
from .strewn_salt import by_food, strewn
from .unsettled import may_be_eaten
from .weights_told import grams_of, per_litre_g

_LEAST_POT_SALT_G = 4.0
"""A line of salt that nothing else speaks of goes into a salted pot if it is a teaspoon or more."""
NAMES = {
    "brine": "brine", "marinate": "marinade", "soak": "soaking-water", "dry_cure": "cure",
    "inject": "injection",
    "boil": "water", "simmer": "water", "dredge": "coating", "fry": "fat", "ferment": "brine",
}  # fmt: skip
_SPLIT_WORDS = ("divided", "plus more", "plus extra", "plus", "and more", "separated")
_CRUST = 0.08
"""Salt in weights of the food above which it is taken off again."""
_ALL_GOES_IN = 0.025
"""Salt in weights of the food, up to which it is all taken in when nothing is said of its being left."""
_SPOONFUL = 0.1
"""Liquid in weights of the food, up to which it only flavours the water that the method names."""
_DRAWN = 0.2
"""Juice that salt draws out of vegetables, in weights of the food; common practice, no source."""
_MEASURED = frozenset({"brine", "ferment", "dry_cure", "marinate"})
"""Cold baths of which a stated amount may be eaten."""
_CLINGS = 0.15  # marinade in weights of the food, below which none of it is left

_PINCHES = 0.25
"""The share of a line of salt, up to which what the dish takes of it leaves the rest for the pot."""


@dataclass(slots=True)
class Liquids:
    """Makes the bath of each step. made: the happenings and their baths; clinging: of these the thick
    marinades of which only what clings is eaten."""

    state: ReadingState
    doubts: Doubts
    layout: Layout
    made: list[tuple[Happening, Component]] = field(default_factory=list)
    clinging: list[Component] = field(default_factory=list)

    def bath(self, happening: Happening, step: Step) -> Component | None:
        """The component that a step's liquid, salt or coating is; None where nothing is left for it."""
        shared = self._shared_fat(happening) or self._shared_water(happening)
        if shared is not None:
            return shared
        name = NAMES[happening.kind]
        component = self.layout.new(name, name.replace("-", " ").capitalize())
        lines = self._lines_of(happening, component)
        lines = self._without_vague_water(happening, lines, component)
        measured = {n: s for n, s in lines.items() if not self._is_by_litre(happening, lines, n)}
        for line, share in measured.items():
            if happening.kind == "fry" and not happening.eaten and self.state.lines[line].line.amount is None:
                component.add({"line": fat_to_fry_in(happening.clause, self.state.lines[line])}, line)
                self.layout.placed[line] = 1.0
            elif line not in self.layout.meant and (
                text := by_food(self.state, self.doubts, happening, line, component.id)
            ):
                component.add({"line": text}, line)
                self.layout.placed[line] = 1.0
            elif line not in happening.foods:
                self.layout.place(component, line, self._share(happening, line, share, component))
        if happening.kind == "fry" and not lines:
            component.add({"line": fat_to_fry_in(happening.clause)}, None)
        watery = "water" in map(self.state.kind, lines)
        water = happening.water
        if is_salted_to_taste(happening):
            pass  # how much is asked when the weight of the dish is known
        elif water is not None and water.strength == "dry":
            text = water.salt or strewn(self.state, self.doubts, happening, component.id)
            component.add({"line": text}, None)
        elif (
            happening.kind in ("brine", "soak", *HOT) and not watery and not self._is_liquid(happening, lines)
        ):
            self._assume_water(happening, water or Water(), component, lines, step)
        for line in lines.keys() - measured.keys():
            self._salt_by_litre(component, line)
        if not component.ingredients:
            del self.layout.components[component.id]
            return None
        self._fate(happening, component, step)
        self.made.append((happening, component))
        return component

    def _without_vague_water(
        self, happening: Happening, lines: dict[int, float], component: Component
    ) -> dict[int, float]:
        """ "Water", "a pot of water": a line that does not say how much is as much as covers the food."""
        vague = [n for n in lines if self.state.kind(n) == "water" and not grams_roughly(self.state.lines[n])]
        if not vague or happening.kind not in (*HOT, "brine", "soak"):
            return lines
        component.vague_water = vague[0]
        self.layout.placed |= dict.fromkeys(vague, 1.0)
        return {n: s for n, s in lines.items() if n not in vague}

    def _shared_water(self, happening: Happening) -> Component | None:
        """One pot of water in which several foods boil in turn; what is kept of it is kept of all."""
        found = next((c for h, c in self.made if h is happening.same_as), None)
        if found is not None and happening.kept_ml is not None:
            found.eaten = self._kept_share(happening, found)
        return found

    def _shared_fat(self, happening: Happening) -> Component | None:
        """One pot of fat in which several foods fry in turn."""
        if happening.kind != "fry":
            return None
        return next((found for line in happening.liquid if (found := self.layout.of_line("fat", line))), None)

    def _lines_of(self, happening: Happening, component: Component) -> dict[int, float]:
        lines = dict(happening.liquid)
        if happening.kind in HOT:
            return self._salt_to_taste(happening, self._salt_of_pot(happening, lines), component)
        if happening.kind in ("soak", "brine"):
            lines = self._salt_to_taste(happening, lines, component) if happening.water else lines
            for kind in ("salt", "water") if happening.kind == "soak" else ("salt",):
                own = [n.index for n in self.state.index.of_purpose("soak", kind)]
                if own:
                    lines = {n: s for n, s in lines.items() if self.state.kind(n) != kind}
                    lines |= dict.fromkeys(own, 1.0)
        return lines

    def _is_liquid(self, happening: Happening, lines: Iterable[int]) -> bool:
        """Whether lines are the liquid that food lies in; a spoonful of vinegar in its water is not."""
        found = [self.state.lines[n] for n in lines]
        wet = [line for line in found if line.kind in ("acid", "milk", "stock", "wine")]
        if happening.topped:
            return False  # "pour over the cider and top up with water"
        if happening.kind in HOT and happening.water is not None:
            spoonful = _SPOONFUL * food_grams(happening, self.state)
            wet = [line for line in wet if (grams_roughly(line) or 0.0) >= spoonful]
        return bool(wet) or any("brine" in line.words for line in found)

    def _share(self, happening: Happening, line: int, share: float, component: Component) -> float:
        """How much of a line is meant: as said, or an equal part of what is left; or as answered."""
        if share != 1.0 or happening.kind == "fry":
            apart = sum(self.state.parts.get(line, {}).values()) if share < 0.0 else 1.0
            return 1.0 - apart if apart < 1.0 else share  # of the rest some may be in the dish
        said = [s for each in self.state.happened if (s := each.liquid.get(line))]
        left = 1.0 - sum(s for s in said if 0.0 < s < 1.0)
        if (users := said.count(1.0)) > 1 or (users and 0.0 < left < 1.0):
            return (left if left > 0.0 else 1.0) / users
        return self._split(happening, line, component) if self._is_divided(line, happening) else 1.0

    def _is_divided(self, line: int, happening: Happening) -> bool:
        listed = self.state.lines[line]
        if listed.kind != "salt" or listed.line.amount is None:
            return False
        if not any(map(listed.text.lower().__contains__, _SPLIT_WORDS[:3])):
            return False
        return happening.kind not in ("dredge", "fry") and self.state.spoken.get(line, 0) > 0

    def _split(self, happening: Happening, line: int, component: Component) -> float:
        told = {"line": self.state.lines[line].text, "name": component.id.replace("-", " ")}
        shared = self.state.spoken.get(line, 0) > 1 and not gives_more(self.state.lines[line])
        likely = "half" if shared else "all"
        return self.doubts.figure("split", happening.clause.sentence, likely, component.id, **told)

    # The salt and the water of a pot

    def _salt_of_pot(self, pot: Happening, lines: dict[int, float]) -> dict[int, float]:
        """Which salt line goes into a pot: the one said to, or one that nothing else speaks of."""
        state = self.state
        own = [n.index for n in state.index.lines if n.purpose == "pot" and pot is pot_meant(state, n)]
        if own:
            if "salt" in map(state.kind, own):
                lines = {n: s for n, s in lines.items() if state.kind(n) != "salt"}
            return {**lines, **dict.fromkeys(own, 1.0)}
        salts = [n for n in lines if state.kind(n) == "salt"]
        if salts and lines[salts[0]] == 1.0:
            if not self._salt_kept(salts):
                lines = {n: s for n, s in lines.items() if n not in salts}
                pot.water = pot.water or Water()
                pot.water.strength = pot.water.strength or "salted"
        elif not salts and pot.water and pot.water.strength and not pot.water.salt:
            unspoken = [
                n
                for n in state.index.of_kinds("salt")
                if self._is_left_for_pots(n)
                and n not in pot.foods
                and (
                    grams_in(state, (n,)) >= _LEAST_POT_SALT_G
                    or (UNSEASONED in state.hints and self._measures(n))
                )
                and not state.lines[n].purpose
                and state.lines[n].heading in {"", *(state.lines[food].heading for food in pot.foods)}
                and not state.seasoned
            ]
            if unspoken:
                left = 1.0 - sum(state.parts.get(unspoken[0], {}).values())
                lines = {**lines, unspoken[0]: round(left / salted_pots(state), 6)}
        return lines

    def _is_left_for_pots(self, salt: int) -> bool:
        """Whether a line of salt was not spoken of, but for a pinch that the dish takes of it."""
        parts = self.state.parts.get(salt, {})
        return self.state.spoken.get(salt, 0) == len(parts) and sum(parts.values()) <= _PINCHES

    def _salt_kept(self, salts: Sequence[int]) -> bool:
        """Whether a salt line that the pot and the dish both name goes into the pot whole."""
        line = self.state.lines[salts[0]]
        once = self.state.spoken.get(line.index, 0) <= 1
        if once and not self.state.seasoned:
            return True
        return line.line.amount is not None and (gives_more(line) or (not line.line.joined and once))

    def _salt_to_taste(
        self, pot: Happening, lines: dict[int, float], component: Component
    ) -> dict[int, float]:
        """Salt for a pot that gives no amount is as much as pots are salted with, not as dishes are."""
        state = self.state
        vague = [
            n
            for n in lines
            if state.kind(n) == "salt" and state.lines[n].line.amount is None and n not in self.layout.meant
        ]
        if not vague and pot.water and pot.water.strength and "salt" not in map(state.kind, lines):
            component.vague = salt_of_both(state)
        if not vague or "water" in map(state.kind, lines):
            return lines
        pot.water = pot.water or Water()
        pot.water.strength = pot.water.strength or "salted"
        component.vague = vague[0]
        self.layout.placed |= dict.fromkeys(vague, 1.0)
        return {n: s for n, s in lines.items() if n not in vague}

    def _salt_by_litre(self, component: Component, line: int) -> None:
        """ "10 g salt per litre": as much as the water of the component makes of it."""
        salt = self.state.lines[line]
        grams = per_litre_g(salt.text)
        if asked := salt.strength or ("" if grams else "usual"):
            brine = next(h.clause for h in self.state.happened if line in h.liquid)
            grams = self.doubts.figure("brine_salt", brine.sentence, asked, component.id)
        litres = sum(filter(None, map(grams_of, component.texts()))) / 1000
        component.add({"line": f"{(grams or 0.0) * (litres or 1.0):.3g} g salt"}, line)
        self.layout.placed[line] = 1.0

    def _is_by_litre(self, happening: Happening, lines: Iterable[int], line: int) -> bool:
        """Whether salt is told by the litre, or nobody says how much of it goes into measured water."""
        listed = self.state.lines[line]
        if listed.kind != "salt" or line in self.layout.meant:
            return False
        vague = happening.kind == "brine" and listed.line.amount is None and happening.hours is not None
        wet = vague and any(self.state.kind(n) == "water" for n in lines)
        return wet or per_litre_g(listed.text) is not None

    def _assume_water(
        self, happening: Happening, water: Water, component: Component, lines: dict[int, float], step: Step
    ) -> None:
        strength = water.strength
        salted = "salt" in map(self.state.kind, lines)
        measured_line = any(per_litre_g(self.state.lines[n].text) is None for n in lines if self._measures(n))
        if salted and (measured_line or not self.layout.meant.keys().isdisjoint(lines)):
            water = replace(water, salt="")  # the method's amount is that of the line
        unsaid = happening.kind in HOT or (happening.kind in ("brine", "soak") and bool(water.strength))
        if unsaid and not (salted or water.salt or (water.said_plain and not strength)):
            strength = self._strength(happening, water, component)
        times = 1.0
        measured = salted or water.salt or happening.kept_ml is not None
        if measured and not water.amount and per_litre_g(water.salt) is None:
            times = self._how_much_water(happening, component)
        for text in water_lines(happening, water, self.state, "" if salted else strength, times):
            source = component.vague if text.endswith(" salt") else component.vague_water
            component.add({"line": text}, source)
        step.assumed.append("water")

    def _measures(self, line: int) -> bool:
        return self.state.kind(line) == "salt" and self.state.lines[line].line.amount is not None

    def _how_much_water(self, happening: Happening, component: Component) -> float:
        """Water that nobody measures thins salt that is measured."""
        food = names_of(self.state.lines, happening.foods)
        return self.doubts.figure("water", happening.clause.sentence, "usual", component.id, food=food)

    def _strength(self, happening: Happening, water: Water, component: Component) -> str:
        """How salty a pot is that only the method names."""
        food = names_of(self.state.lines, happening.foods)
        told = {"water": "cooking water of" if happening.kind in HOT else "water around", "food": food}
        likely = water.strength or "plain"
        taken = self.doubts.ask("pot_salt", happening.clause.sentence, likely, component.id, **told)
        return "" if taken == "plain" else taken

    # What becomes of it

    def _fate(self, happening: Happening, component: Component, step: Step) -> None:
        stated = happening.eaten is not None and not happening.guessed
        taken_out = happening.drained and not happening.lifted
        if happening.guessed and happening.kind != "dry_cure" and not taken_out and self._clings(happening):
            happening.eaten = 1.0
        measured = happening.kind in _MEASURED and happening.kept_ml is not None
        if measured or happening.kind in (*HOT, "soak"):
            component.eaten = self._kept_share(happening, component)
            open_fate = happening.lifted or (happening.kind in HOT and may_be_eaten(self.state, happening))
            if open_fate and happening.eaten is None and happening.kept_ml is None:
                component.eaten = self._asked_fate(happening, component, 0.0, sure=False)
        elif happening.kind in ("brine", "ferment"):
            usual = happening.eaten or 0.0
            component.eaten = self._asked_fate(happening, component, usual, sure=not happening.guessed)
        elif happening.kind == "fry":
            component.eaten = happening.eaten or 0.0
        elif happening.kind == "dredge":
            component.eaten = coating_left(self.state, self.doubts, happening, component.id)
        elif happening.kind == "dry_cure":
            usual = 1.0 if happening.eaten is None and not happening.rinsed else happening.eaten or 0.0
            crusted = happening.eaten is None and self._is_crust(happening)
            usual = 0.0 if happening.rinsed or crusted else usual
            sure = stated or (usual == 1.0 and self._is_seasoning(happening))
            sure = sure or self._salt_share(happening) > 3 * _CRUST
            sure = sure and not in_its_juice(self.state, happening)
            component.eaten = self._asked_fate(happening, component, usual, sure=sure)
        elif happening.kind == "inject":
            component.eaten = 1.0  # what does not drip out again is in the food
        else:
            left = 0.0 if self._is_left(happening) else 1.0
            usual = left if happening.eaten is None else happening.eaten
            sure = stated and not (usual == 1.0 and may_drip(self.state, happening))
            if happening.clings and not usual:
                component.eaten = self._clinging_share(happening, component, thrown=stated)
                self.clinging.append(component)
            else:
                component.eaten = self._asked_fate(happening, component, usual, sure=sure)
        if stated or happening.drained or happening.rinsed:
            step.stated.append("eaten_fraction")
        else:
            step.assumed.append("eaten_fraction")

    def _is_left(self, happening: Happening) -> bool:
        """Whether a marinade that nobody speaks of again stays behind: food was taken out of it, or eggs and
        vegetables lay in a thin one."""
        kinds = set(map(self.state.kind, happening.foods))
        stirred = set(map(self.state.kind, happening.liquid))
        if "flour" in stirred and stirred.isdisjoint(("milk", "water")):
            return False  # starch holds the soy sauce on the meat
        thin = happening.water is not None or "water" in map(self.state.kind, happening.liquid)
        return happening.drained or (thin and kinds <= {"egg", "vegetable"})

    def _clings(self, happening: Happening) -> bool:
        """Whether a marinade is so little that it all hangs on the food."""
        lines = self.state.lines
        liquid_g = sum(grams_roughly(lines[n]) or 0.0 for n in happening.liquid if lines[n].kind in WET)
        return liquid_g < _CLINGS * sum(grams_roughly(lines[n]) or 0.0 for n in happening.foods)

    def _is_crust(self, happening: Happening) -> bool:
        """Whether there is so much salt that it is taken off again, said or not."""
        return self._salt_share(happening) > _CRUST

    def _is_seasoning(self, happening: Happening) -> bool:
        """Whether there is so little salt that it all goes in, as of a joint salted the night before."""
        return 0 < self._salt_share(happening) <= _ALL_GOES_IN and not happening.drained

    def _salt_share(self, happening: Happening) -> float:
        """Salt in weights of the food it lies on; 0 where either is not known."""
        salts = (n for n in happening.liquid if self.state.kind(n) == "salt")
        salt_g = grams_in(self.state, (n for n in salts if not self._is_divided(n, happening)))
        food_g = grams_in(self.state, happening.foods)
        return salt_g / food_g if food_g else 0.0

    def _kept_share(self, happening: Happening, component: Component) -> float:
        if happening.kept_ml is None:
            return happening.eaten or 0.0
        cans = grams_in(self.state, happening.liquid, ("stock",))
        known = max(sum(filter(None, map(grams_of, component.texts()))), cans)
        if happening.kind == "dry_cure":
            known = _DRAWN * food_grams(happening, self.state)
        return round(min(happening.kept_ml / max(known, happening.kept_ml), 1.0), 4)

    def _clinging_share(self, marinade: Happening, component: Component, *, thrown: bool) -> float:
        """The share of a thick marinade that stays on the food. thrown: the method throws the rest away."""
        where = marinade.clause.sentence, marinade.clings, component.id, "all" if thrown else ""
        food = names_of(self.state.lines, marinade.foods)
        return self.doubts.figure("clinging", *where, food=food)

    def _asked_fate(self, happening: Happening, component: Component, usual: float, *, sure: bool) -> float:
        if 0.0 < usual < 1.0 or sure:
            return usual
        name, without = component.id.replace("-", " "), "" if happening.kind == "marinate" else "half"
        where = happening.clause.sentence, "eaten" if usual else "poured_away", component.id, without
        return self.doubts.figure("fate", *where, name=name)
