"""What happens in a recipe that moves salt: one food, one liquid or coating, and what becomes of that."""

from __future__ import annotations

from dataclasses import dataclass, field

from .clauses import Clause
from .method_words import FLESH
from .times_and_sizes import Span

PROTEINS = FLESH
SOLIDS = PROTEINS | frozenset(
    {"pasta", "grain", "legume", "potato", "vegetable", "cheese", "salty", "egg", "fruit", "nut", "bread"}
)
LIQUIDS = frozenset({"water", "acid", "savoury", "wine", "milk", "stock"})
SALTING = frozenset({"salt", "curing"})
WET = frozenset({"acid", "savoury", "wine", "milk", "oil", "stock", "water"})
DRY = frozenset({"salt", "curing", "sweet", "spice", "herb", "aromatic", "flour"})
SALTABLE = PROTEINS | {"vegetable", "cheese", "egg", "potato", "salty", "fruit"}
"""Foods that a bath or salt may change by itself."""
SHORT_H = 0.2
"""Hours that count as standing."""
WITHOUT_BATH = frozenset({"drain", "roast", "smoke", "squeeze", "press", "dry", "rest", "steam", "rinse"})
"""Kinds that no liquid or coating belongs to."""
_HEATED = frozenset({"boil", "simmer", "fry", "roast", "steam"})
_LEAST_HEAT_C = 40.0
_WHOLE = 0.97
"""Share of a line from which on it counts as all of it."""
_BESIDE = 12
"""Characters between two clauses that are marked as one phrase."""
POURED_WITHOUT_WORD = frozenset({"pasta", "potato", "vegetable", "egg"})
"""Foods whose boiling water nobody eats, so that recipes do not say so."""


@dataclass(slots=True)
class Water:
    """Water that only the method names. strength: "" for plain, "salted", or "very" for "like the sea".
    salt, amount: how much salt and how much water in the method's own words, "" where it does not say.
    said_plain: the method says that no salt goes in. salted_at: where a clause does no more than salt it."""

    strength: str = ""
    salt: str = ""
    amount: str = ""
    said_plain: bool = False
    salted_at: tuple[int, int] | None = None

    @property
    def is_salted(self) -> bool:
        return bool(self.strength or self.salt)


@dataclass(slots=True)
class Happening:
    """One step in the making: a kind of seed_foods/step_kinds.csv.

    foods, liquid: lines and the share of each that is meant (1.0: all; -1: what is left). water: water that
    only the method names. eaten: share of the liquid that is eaten, None while nothing is said; guessed: no
    word says so; put_up: it stays in jars. caught: its drippings go into the dish. lifted: food was taken
    out, and nothing was said of what it lay in. awaits: the food that its water is heated for. strained_at:
    the clause at which its liquid was strained off; spent: so that its food is not eaten. kept_ml: as much of
    the liquid as is kept; used_ml: as much as clauses took of it so far, used_in the last of them. same_as:
    the one whose liquid this food lies in too; since: hours that it boiled before. late: lines that came once
    its time had been told; later: those of them that have a time. until: where the clause ends that gives its
    time, 0 where that is far away. on_food: lines that clung to it before. maybe: its liquid is taken to be
    eaten, and a person is asked. measured: of lines of salt without an amount, how much the method puts in
    here. unread: no sentence was understood to say it. left_open: the method says that it may be left out.
    topped: water was poured on to its liquid. timed: the clause whose time it took last. clings: how much of
    a thick marinade stays on the food, a choice of the question "clinging".
    """

    kind: str
    clause: Clause
    foods: dict[int, float] = field(default_factory=dict)
    liquid: dict[int, float] = field(default_factory=dict)
    water: Water | None = None
    hours: Span | None = None
    celsius: float | None = None
    thickness: float | None = None
    water_changes: int = 0
    rinsed: bool = False
    rinsing: Clause | None = None
    drained: bool = False
    lifted: bool = False
    eaten: float | None = None
    caught: bool = False
    strained_at: int = -1
    spent: bool = False
    kept_ml: float | None = None
    used_ml: float = 0.0
    used_in: str = ""
    extra: set[int] = field(default_factory=set)
    named: bool = False
    closed: bool = False
    heated: bool = False
    absorbed: bool = False
    confidence: float = 0.9
    ahead: Span | None = None
    guessed: bool = False
    put_up: bool = False
    awaits: set[int] = field(default_factory=set)
    same_as: Happening | None = None
    since: float | None = None
    late: set[int] = field(default_factory=set)
    later: list[tuple[frozenset[int], Span, Clause]] = field(default_factory=list)
    until: int = 0
    on_food: dict[int, float] = field(default_factory=dict)
    maybe: bool = False
    measured: dict[int, str] = field(default_factory=dict)
    unread: bool = False
    left_open: bool = False
    topped: bool = False
    timed: Clause | None = None
    clings: str = ""

    def take_time(self, clause: Clause, *, more: bool = False) -> None:
        """The times and temperatures of a clause, where none is known yet; more: further time is added."""
        if clause.hours and (self.hours is None or (more and clause is not self.timed)):
            self.timed = clause
            told = clause.hours[0]
            if clause.has("then"):  # "20 minutes at 220 °C, then 1 hour at 170 °C"
                places = [i for i, token in enumerate(clause.tokens) if token.text == "then"]
                then = next((i for i in places if i > told.i), len(clause.tokens))
                for later in clause.hours[1:]:
                    told = told.with_more(later) if then < later.i else told
            self.hours = told.with_more(self.hours) if self.hours is not None else told
            if clause.method == self.clause.method and 0 <= clause.start - self.clause.end <= _BESIDE:
                self.until = clause.end
        if clause.celsius is not None and self.celsius is None and not self._is_too_cold(clause.celsius):
            self.celsius = clause.celsius
        if clause.thickness is not None and self.thickness is None:
            self.thickness = clause.thickness

    def _is_too_cold(self, celsius: float) -> bool:
        """ "Used oil keeps in the fridge": a temperature that nothing fries or boils at."""
        return self.kind in _HEATED and celsius < _LEAST_HEAT_C


@dataclass(slots=True)
class Mixture:
    """What was stirred together: lines with their shares, water or salt that only the method names. taken:
    the share of it that is not held back for something else. part: the heading it was begun under."""

    lines: dict[int, float] = field(default_factory=dict)
    water: Water | None = None
    salt: str = ""
    name: str = ""
    sentence: str = ""
    closed: bool = False
    taken: float = 1.0
    heated: bool = False
    part: str = ""

    def shares(self, part: float = 1.0) -> dict[int, float]:
        """The lines with the share of each that food lies in, of all or a part, less what was held back."""
        part *= self.taken
        if part >= 1.0:
            return dict(self.lines)
        return {n: round(s * part, 4) if s > 0 else s for n, s in self.lines.items()}

    def add(self, lines: dict[int, float]) -> None:
        for line, share in lines.items():
            before = self.lines.get(line, 0.0)
            whole = before + share > _WHOLE or (share < 0 and before)
            self.lines[line] = 1.0 if whole else before + share


@dataclass(frozen=True, slots=True)
class LeftOver:
    """Lines that are made into something of which not all is eaten. share: what is eaten, 0 to 1; 0 where the
    method does not say how much that is. thrown: the rest is thrown away, and kept for no other day."""

    clause: Clause
    lines: tuple[int, ...]
    share: float
    thrown: bool = False


def with_salt(happening: Happening, mixture: Mixture) -> None:
    """Salt that only the method names goes with the water that only the method names."""
    if mixture.salt and happening.water is not None:
        amount = mixture.salt if mixture.salt != "salt" else happening.water.salt
        happening.water = Water("salted", amount, happening.water.amount)
