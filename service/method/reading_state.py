"""The kitchen while a method is read: clause by clause, what is stirred, put in liquid, drained or coated.

Only what moves salt between a food and a liquid or coating is kept; all else is one dish, eaten whole.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass, field

from .amounts_said import note_spoken, over_that_of_line
from .clause_words import DRAWS, goal, goes_out, is_denied, is_drawn, is_for_soaking, needs_no_salt
from .clauses import Clause
from .company import boils, goes_on_with_spice, keep_company
from .happenings import DRY, PROTEINS, SOLIDS, Happening, LeftOver, Mixture, Water
from .headed_foods import is_only_named, stands_alone
from .ingredients_meant import ingredients_meant, is_about_last, leading_food, main_foods, topic_of, unknown
from .listed import Index, ListedLine
from .listed_baths import baths_listed
from .mention import Mention
from .placing import ALL_BUT, share_but
from .times_and_sizes import Span
from .told_ahead import without_label
from .twins import of_amount, of_finish, of_food, of_more, of_section, of_told, of_twins, of_use, of_word

COLD, HOT = ("brine", "marinate", "soak", "dry_cure"), ("boil", "simmer")
MOST_HAPPENINGS = 40  # that are kept: more than any recipe has, so that any method is read in its length
_TOGETHER = frozenset({"rinse", "drain", "soak"})  # done to all that is named: "the anchovies and capers"
_OF_LINES = frozenset({"line", "all", "rest"})
_FOODS_SAID = _OF_LINES | {"made"}
_OVER = 1.2  # times the amount of a line, above which an amount in the method is none of it
_STIRS, _APART = frozenset({"mix", "put", "boil", "heat", "simmer"}), frozenset({"without", "except"})
_APART_OR_FROM, _APART_OR_OVER = _APART | {"from"}, _APART | {"over"}
_BEHIND = frozenset({"with", "in", "into", "to", "over", "on", "onto", "through", "around", "beside"})


@dataclass(slots=True)
class ReadingState:
    """State while reading. last_foods: what "it" means. spoken: lines spoken of, how often; last_spoken:
    in which clause (turn). taken_out: lines lifted out; thrown_out: those thrown away, and in which clause.
    simmered: lines that cooked last. section: the heading of the line spoken of last. wrapped: the paragraph
    of a pudding in a cloth. forewarned: salt for a pot to come. fats_in_depth: to fry in; fats_left: kept
    in; fats_thin: a film.
    unlisted: what only the method names, with its row of method_salty.csv. idle: what changed nothing, with
    what "it" meant; washed: what may take salt out of salty food, with that. egg_parts: of eggs, what of
    them is eaten: "yolk" or "white". blended: what cooked last was made smooth. may_be_left: lines of which
    some may not be eaten; waits: how long things stand, h."""

    index: Index
    lines: dict[int, ListedLine]
    kinds: dict[int, str] = field(init=False)
    kind: Callable[[int], str] = field(init=False)
    happened: list[Happening] = field(default_factory=list)
    named: dict[str, Mixture] = field(default_factory=dict)
    mixture: Mixture = field(default_factory=lambda: Mixture(closed=True))
    pot: Happening | None = None
    pending: Happening | None = None
    waited: Happening | None = None
    last_foods: tuple[int, ...] = ()
    last_sentence: str = ""
    last_place: int | None = None
    roast: Happening | None = None
    attention: Happening | None = None
    fat_is_hot: bool = False
    fats_in_depth: set[int] = field(default_factory=set)
    fats_left: set[int] = field(default_factory=set)
    fats_thin: set[int] = field(default_factory=set)
    dipped: set[int] = field(default_factory=set)
    last_heat: str = ""
    blended: bool = False
    floured: Mixture | None = None  # see dry_bowl of coatings
    is_soup: bool = False
    ahead: tuple[int, Span | None] = (-1, None)
    announced: tuple[int, str] = (-1, "")  # the bath that a paragraph sets out to make
    topic: tuple[int, str] = (-1, "")  # the heading of what it sets out to make
    made_in: int | None = None
    rolled_in: int | None = None
    last_dry: dict[int, float] = field(default_factory=dict)
    under_sauce: set[int] = field(default_factory=set)
    company: list[set[int]] = field(default_factory=list)
    spoken: dict[int, int] = field(default_factory=dict)
    turn: int = 0
    turn_of_it: int = -1
    taken_out: set[int] = field(default_factory=set)
    thrown_out: dict[int, int] = field(default_factory=dict)
    simmered: set[int] = field(default_factory=set)
    section: str = ""
    wrapped: int = -1
    forewarned: Water | None = None
    last_spoken: dict[int, int] = field(default_factory=dict)
    seasoned: list[tuple[Clause, str]] = field(default_factory=list)
    beside: tuple[Clause, bool] | None = None  # see seasons_beside
    thickness: dict[int, Clause] = field(default_factory=dict)
    unread: list[Clause] = field(default_factory=list)
    washed: list[tuple[Clause, tuple[int, ...]]] = field(default_factory=list)
    idle: list[tuple[Clause, tuple[int, ...]]] = field(default_factory=list)
    strewn: dict[int, set[int]] = field(default_factory=dict)  # of salt nobody measures, the food it seasons
    amounts: dict[int, list[str]] = field(default_factory=dict)
    parts: dict[int, dict[int, float]] = field(default_factory=dict)  # of lines, by the clause that says it
    left_over: list[LeftOver] = field(default_factory=list)
    unlisted: list[tuple[Clause, str, dict[str, str]]] = field(default_factory=list)
    homemade: bool = False  # the stock is
    egg_parts: dict[int, str] = field(default_factory=dict)
    bare: tuple[Clause, dict[int, float]] | None = None  # see remember_bare
    may_be_left: set[int] = field(default_factory=set)
    hints: set[str] = field(default_factory=set)
    waits: list[float] = field(default_factory=list)
    potted: tuple[int, ...] = ()  # see set_down of covered
    bowled: tuple[int, ...] = ()
    waters: frozenset[int] = frozenset()
    watered: Happening | None = None
    _read: Clause | None = None
    _watered: Clause | None = None
    _water: Mention | None = None
    _salted: Clause | None = None
    _salt: Mention | None = None
    _lines: dict[int, float] = field(default_factory=dict)
    _solid: Clause | None = None
    _pieces: dict[bool, dict[int, float]] = field(default_factory=dict)
    _compared: Clause | None = None
    _ratios: dict[tuple[Mention, int], float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.kinds = {n: line.kind for n, line in self.lines.items()}
        self.kind = self.kinds.__getitem__  # asked hundreds of times

    @classmethod
    def of(cls, index: Index) -> ReadingState:
        made = cls(index, {line.index: line for line in index.lines})
        made.waters = frozenset(index.of_kinds("water"))
        made.named = baths_listed(index)
        return made

    def lines_of(self, clause: Clause, kinds: Collection[str] | None = None) -> dict[int, float]:
        """The lines a clause speaks of with the share meant, of these kinds."""
        if _OF_LINES.isdisjoint(clause.speaks):
            return {}
        if self._read is not clause:
            self._read, self._lines = clause, self._all_lines_of(clause)
        if kinds is None:
            return dict(self._lines)
        kind = self.kind
        return {line: share for line, share in self._lines.items() if kind(line) in kinds}

    def _all_lines_of(self, clause: Clause) -> dict[int, float]:
        apart_from: set[int] = set()
        for mention in clause.mentions:
            if mention.prep in _APART:
                apart_from.update(mention.lines)
        found: dict[int, float] = {}
        apart = _APART if clause.act == "mix" else _APART_OR_FROM
        for mention in clause.mentions:
            if mention.prep in apart or (mention.i > clause.aim and goal(clause, mention)):
                continue
            if mention.amount and self.exceeds(clause, mention):
                continue
            if clause.tokens[mention.j - 1].stem == "salt" and is_denied(clause, mention):
                continue  # "plenty of water, no salt"
            for line in self._meant(mention, clause):
                if line not in apart_from:
                    found.setdefault(line, self.share(clause, mention, line))
        return found

    def share(self, clause: Clause, mention: Mention, line: int) -> float:
        """How much of a line is meant: a part in words, or an amount that is less than the line's."""
        if mention.portion is not None:  # "each with half of the salt", of two bowls
            return 1.0 if mention.portion == 0.5 and "each" in clause.words else mention.portion
        if mention.amount is None or clause.has("each", "apiece", "per"):
            return 1.0  # "1 quart over each pan"
        part = self.ratio(clause, mention, line)
        if mention.name == ALL_BUT:
            return share_but(part)
        return round(part, 4) if 0.02 < part < 0.97 else 1.0

    def ratio(self, clause: Clause, mention: Mention, line: int) -> float:
        """An amount in words over that of a line; 1 where they cannot be compared."""
        if mention.amount is None:
            return 1.0
        if self._compared is not clause:
            self._compared, self._ratios = clause, {}
        if (known := self._ratios.get((mention, line))) is None:
            known = over_that_of_line(clause, mention, self.lines[line])
            self._ratios[mention, line] = known
        return known

    def _meant(self, mention: Mention, clause: Clause) -> tuple[int, ...]:
        if mention.kind == "line":
            return self.nearest(mention, clause)
        if mention.kind in ("all", "rest"):
            topic = self.topic[1] if self.topic[0] == clause.method else ""
            return ingredients_meant(self.index, self.spoken, mention, clause, topic)
        return ()

    def nearest(self, mention: Mention, clause: Clause) -> tuple[int, ...]:
        """Of several lines of salt, the one whose amount is named; of no amount, those with no purpose."""
        lines = mention.lines
        if len(lines) < 2:
            return of_more(self, lines[0], mention, clause) or lines if mention.amount else lines
        if any(self.kind(line) != "salt" for line in lines):
            own = of_amount(self, lines, mention, clause) or of_use(self, lines, mention, clause)
            return own or of_twins(self, lines, clause)
        lines = of_word(self, lines, mention, clause) or of_finish(self, lines, mention, clause)
        if mention.amount is None and (own := of_section(self, lines, mention, clause)):
            return own
        unspoken = tuple(n for n in lines if not self.spoken.get(n))
        if mention.portion == -1.0 and unspoken:
            return unspoken
        if mention.amount is not None:
            return of_told(self, lines, mention, clause)
        if clause.act in ("boil", "simmer") or clause.vessel() == "pot":
            lines = tuple(n for n in lines if self.lines[n].purpose == "pot") or lines
            lines = tuple(n for n in lines if self.lines[n].line.amount is not None) or lines
        elif len(meant := of_food(self, lines, clause)) < len(lines):
            return meant
        free = tuple(n for n in lines if not self.lines[n].purpose) or lines
        here = tuple(n for n in free if self.lines[n].heading.lower() in ("", clause.heading.lower())) or free
        shortest = min(len(self.lines[n].words) for n in here)
        return tuple(n for n in here if len(self.lines[n].words) == shortest)

    def exceeds(self, clause: Clause, mention: Mention) -> bool:
        """Whether the method names more salt than the line it seems to speak of holds: salt of its own."""
        if mention.kind != "line" or mention.amount is None:
            return False
        return all(self.kind(n) == "salt" for n in mention.lines) and self.says_more(clause, mention)

    def says_more(self, clause: Clause, mention: Mention) -> bool:
        """Whether an amount of the method is more than any of these lines holds."""
        return all(self.ratio(clause, mention, n) > _OVER for n in mention.lines)

    def solids(self, clause: Clause, *, direct: bool = False) -> dict[int, float]:
        """The pieces of food a clause is about; direct: not those behind "in" or "with"."""
        if "line" not in clause.speaks:
            return {}
        if self._solid is not clause:
            self._solid, self._pieces = clause, {}
        known = self._pieces.get(direct)
        if known is None:
            known = self._pieces[direct] = self._find_solids(clause, direct=direct)
        return dict(known)

    def _find_solids(self, clause: Clause, *, direct: bool) -> dict[int, float]:
        found: dict[int, float] = {}
        excepts = "except" in clause.words
        apart = [n for m in clause.mentions if m.prep == "except" for n in m.lines] if excepts else ()
        for mention in clause.mentions:
            if mention.kind != "line" or mention.prep in _APART or (direct and mention.prep in _BEHIND):
                continue
            if mention.i > clause.aim and goal(clause, mention):
                continue
            lines = mention.lines
            for line in lines if len(lines) < 2 and not mention.amount else self.nearest(mention, clause):
                kind = self.kind(line)
                if line not in apart and (kind in SOLIDS or (kind == "other" and boils(self, clause, line))):
                    found.setdefault(line, 1.0 if mention.portion is None else mention.portion)
        return found

    def foods(self, clause: Clause) -> dict[int, float]:
        """The food a clause works on: named, or meant by "it", or the main piece of the recipe."""
        found = self.solids(clause, direct=True) or unknown(self.lines, clause)
        found = found or self.solids(clause, direct="it" in clause.speaks and clause.is_of_it())
        if found:
            if clause.act in _TOGETHER:
                return found
            return {line: share for line, share in found.items() if self.kind(line) in PROTEINS} or found
        if "water" in clause.speaks and goes_on_with_spice(self, clause):
            return {}
        near = self.last_place in (clause.method, clause.method + 1) or "it" in clause.speaks
        if self.last_foods and (near or not self.lines_of(clause)):
            return dict.fromkeys(self.last_foods, 1.0)
        found = self.main_foods() or dict.fromkeys(self.last_foods, 1.0)
        return found if found or self.spoken else leading_food(self.index)

    def main_foods(self) -> dict[int, float]:
        """The meat or fish of the recipe where there is one kind of it."""
        return main_foods(self.index, self.lines)

    def water_of(self, clause: Clause) -> Mention | None:
        """Where a clause speaks of water, line or none."""
        if self._watered is not clause:
            self._watered, self._water = clause, self._find_water(clause)
        return self._water

    def _find_water(self, clause: Clause) -> Mention | None:
        waters, draws = self.waters, not DRAWS.isdisjoint(clause.words)
        apart = _APART_OR_OVER if clause.act in ("mix", "heat") else _APART  # "whisk over hot water"
        for mention in clause.mentions:
            late = mention.i > clause.aim and not (mention.prep == "in" and clause.act in HOT)
            if late or mention.prep in apart or (draws and is_drawn(clause, mention)):
                continue
            if mention.kind == "water" or (mention.kind == "line" and not waters.isdisjoint(mention.lines)):
                return mention
            if mention.kind == "bath" and clause.act in ("hold", "put") and is_for_soaking(clause, mention):
                return mention
            if mention.kind in ("all", "rest") and not waters.isdisjoint(self.lines_of(clause)):
                return mention
        return None

    def salt_said(self, clause: Clause) -> Mention | None:
        """Where a clause speaks of salt that no line names."""
        if self._salted is not clause:
            self._salted, self._salt = clause, self._find_salt(clause)
        return self._salt

    def _find_salt(self, clause: Clause) -> Mention | None:
        for mention in clause.mentions:
            if mention.kind == "salt" or (mention.amount and self.exceeds(clause, mention)):
                if goal(clause, mention) or is_denied(clause, mention) or goes_out(clause, mention):
                    continue
                excess = clause.act != "season" and clause.has("excess", "rid", "desalt", "surplus")
                excess = excess and mention.prep not in ("with", "in")  # "rub with excess salt"
                return None if excess or needs_no_salt(clause) else mention
        return None

    def bath_said(self, clause: Clause) -> Mention | None:
        if "bath" not in clause.speaks:
            return None
        return next((m for m in clause.mentions if m.kind == "bath" and not goal(clause, m)), None)

    def mixture_named(self, name: str) -> Mixture:
        found = self.named.get(name)
        return found if found and (found.lines or found.water) else self.mixture

    def remember(self, clause: Clause) -> None:
        """What "it" will mean, and which lines were spoken of."""
        spoken = self.lines_of(clause)
        if topic := topic_of(self.index, clause):
            self.topic = clause.method, topic
        self._read = self._watered = self._salted = self._solid = None  # for more was spoken of
        if "line" in clause.speaks:
            note_spoken(self, clause)
        if "all" in clause.speaks and clause.act in _STIRS and len(spoken) < len(self.lines):
            for line in spoken:  # "combine all the brine ingredients"
                self.spoken.setdefault(line, 1)
        self.turn += 1
        if clause.act in {"fry", "boil", "simmer", "roast", "steam"}:
            self.last_heat, self.bowled = clause.act, ()
        keep_company(self, clause, set(spoken))
        if clause.thickness is None and _FOODS_SAID.isdisjoint(clause.speaks):
            return
        if clause.act in ("simmer", "boil") and len(spoken) > 1:
            self.simmered = set(spoken)
        if spoken:
            kinds = set(map(self.kind, spoken))
            self.last_dry = spoken if "salt" in kinds and kinds <= DRY else {}
        if "made" in clause.speaks:
            self.made_in, self.last_foods = clause.method, ()
        solids = tuple(self.solids(clause, direct=True))
        if not solids and not (self.last_foods and is_about_last(clause)):
            solids = tuple(self.solids(clause))
        if clause.act in ("put", "mix", "") and self.last_foods and "vessel" not in clause.speaks:
            if set(map(self.kind, solids)) == {"egg"} and not is_only_named(clause.tokens, clause.mentions):
                solids = ()  # "add the egg" that coats them
        if clause.base in ("fold", "stir") and any(self.kind(n) in PROTEINS for n in self.last_foods):
            solids = tuple(n for n in solids if self.kind(n) in PROTEINS)  # "fold in the beans"
        if clause.act == "discard":
            solids = ()  # the method goes on with what is left
        if solids:
            proteins = tuple([line for line in solids if self.kind(line) in PROTEINS])
            together = clause.act in _TOGETHER or len(clause.mentions) == 1  # "open the cans"
            self.last_foods = solids if together else proteins or solids
            headed = clause.opens and stands_alone(clause.tokens, clause.mentions)
            self.last_sentence, self.last_place = clause.sentence, clause.method + headed
        if clause.thickness is not None and clause.act in ("cut", "coat", ""):
            for line in solids or (() if self.lines_of(clause) else self.last_foods):
                self.thickness.setdefault(line, clause)

    def stirred_with(self, foods: Iterable[int], kinds: Collection[str]) -> set[int]:
        """The lines of these kinds that were stirred together with the food last."""
        together = self.company[-1] if self.company and self.company[-1] & set(foods) else set()
        return {n for n in together if self.kind(n) in kinds}

    def latest(self, kinds: Sequence[str], foods: Iterable[int] = ()) -> Happening | None:
        """The latest happening of these kinds, of one of the foods where any are given."""
        wanted = set(foods) if foods else ()
        for each in reversed(self.happened):
            if each.kind in kinds and (not wanted or not each.foods.keys().isdisjoint(wanted)):
                return each
        return None

    def pour_off(self, pot: Happening) -> None:
        """Its food has left a pot: its water is poured away, and nothing more goes in."""
        pot.drained = pot.closed = True
        self.pot = None if self.pot is pot else self.pot

    def begin(self, happening: Happening, timed: Clause | None = None) -> Happening:
        """Take a happening for one of the recipe's. timed: the clause whose times and temperatures it has."""
        if timed is not None:
            happening.take_time(timed)
        if happening.clause.method == self.ahead[0]:
            happening.ahead = self.ahead[1]
        self.seasoned = [each for each in self.seasoned if each[0] is not happening.clause]
        waits = self.pending
        if waits is not None and waits.kind == "brine" and happening.kind in HOT and happening.heated:
            if waits.hours is None and waits.foods.keys() <= happening.foods.keys():
                self.pending = None  # the salted water that it was put into boils
        if self.happened and happening.kind in (*HOT, *COLD):
            self.happened = without_label(self.happened, happening)
        if len(self.happened) < MOST_HAPPENINGS:
            self.happened.append(happening)
        return happening
