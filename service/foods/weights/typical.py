"""Typical weights, kept by hand: pieces, densities, salts, cans, edible shares, lines without quantity.

Every row says its source; these tables are asked after the dataset's own household weights.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Literal, get_args

from ...core.sourced import SourcedFigure
from ...core.spread import Spread
from ...core.tables import Row, load, rows, with_words
from ...units.kitchen_units import units
from ..matching.folding import fold
from ..matching.headwords import HeadTable, Phrase

Rule = Literal["taken", "stated", "open", "never"]

_SIZED = ("small", "medium", "large", "extra_large")
"""Columns of piece_weights.csv."""

_UNSURE = 1.15
"""How much wider a range grows where a size is reckoned, not listed."""


def size_share(size: str) -> float:
    """What a thing of that size weighs or holds, as a share of the usual one; 1 for one of no stated size."""
    return _size_shares().get(size, 1.0)


@cache
def _size_shares() -> dict[str, float]:
    return dict(load("size_shares", lambda row: (row["size"], float(row["share"]))))


@dataclass(frozen=True, slots=True)
class Piece:
    """What one piece of a food weighs. sizes: g by size word; reach: range as shares of it."""

    unit: str | None
    usual_g: float
    sizes: dict[str, float]
    reach: Spread
    source: str

    def weight(self, size: str) -> SourcedFigure:
        """One piece of `size` ("" for one of no stated size)."""
        known = self.usual_g if not size else self.sizes.get(size)
        grams = known if known is not None else self.usual_g * _size_shares()[size]
        widen = 1.0 if known is not None else _UNSURE
        spread = Spread(grams * self.reach.low / widen, grams, grams * self.reach.high * widen)
        return SourcedFigure(spread, self.source)


@dataclass(frozen=True, slots=True)
class Filling:
    """What a US cup of a food holds, in one form or in any ("")."""

    form: str
    figure: SourcedFigure


@dataclass(frozen=True, slots=True)
class Salt:
    """A kind of salt. words: what names it; teaspoon: g in a US teaspoon."""

    words: frozenset[str]
    teaspoon: SourcedFigure


@dataclass(frozen=True, slots=True)
class Edible:
    """Edible share of a food as bought. stated_by: words that must be in the line; () = as it is sold."""

    share: SourcedFigure
    stated_by: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RefusePart:
    """When a part of the refuse is taken off (see refuse_parts.csv)."""

    part: str
    rule: Rule
    stated_by: tuple[str, ...]
    denied_by: tuple[str, ...]


@cache
def _short() -> dict[str, str]:
    return {row["short"]: row["words"] for row in rows("weight_sources")}


def source_words(text: str) -> str:
    """A source column's text in full."""
    if text.startswith("SR28 ") and text[5:].isdigit():
        return with_words(text, f"USDA {text[:4]}, NDB {text[5:]}")
    return with_words(text, _short().get(text, text))


def _listed(text: str) -> tuple[str, ...]:
    return tuple(word for word in text.split("|") if word)


def _figure(row: Row) -> SourcedFigure:
    return SourcedFigure(Spread.from_mapping(row), source_words(row["source"]))


def _piece(row: Row) -> tuple[str, Piece]:
    if row["unit"] and row["unit"] not in units():
        raise ValueError(f"{row['unit']!r} is not a unit of unit_names.csv")
    sizes = {size.replace("_", " "): float(row[size]) for size in _SIZED if row[size]}
    reach = Spread(float(row["low"]), 1.0, float(row["high"]))
    usual = float(row["usual"])
    return row["foods"], Piece(row["unit"] or None, usual, sizes, reach, source_words(row["source"]))


@cache
def _pieces() -> dict[str | None, HeadTable[Piece]]:
    by_unit: dict[str | None, list[tuple[str, Piece]]] = {}
    for names, piece in load("piece_weights", _piece):
        by_unit.setdefault(piece.unit, []).append((names, piece))
    return {unit: HeadTable(keyed) for unit, keyed in by_unit.items()}


@cache
def _pieces_of_any_food() -> dict[str | None, Piece]:
    return {piece.unit: piece for names, piece in load("piece_weights", _piece) if names == "*"}


def piece(phrase: Phrase, unit: str | None) -> Piece | None:
    """The weight of one `unit` of the food (None: of one of the food itself)."""
    table = _pieces().get(unit)
    return table.best(phrase) if table else None


def closer_piece(phrase: Phrase, unit: str | None, name: Phrase) -> Piece | None:
    """The same, where it is kept under a word that the food's `name` in the dataset lacks ("baby", "heart").

    It then is nearer to what the line means than the dataset's own weights are.
    """
    table = _pieces().get(unit)
    found = table.best_fit(phrase) if table else None
    return found.row if found and not found.key <= name.named else None


def piece_of_any_food(unit: str | None) -> Piece | None:
    """What one `unit` weighs whatever it is of: a broad range; None for most."""
    return _pieces_of_any_food().get(unit)


@cache
def _fillings() -> HeadTable[Filling]:
    return HeadTable(load("densities", lambda row: (row["foods"], Filling(row["form"], _figure(row)))))


@cache
def _group_fillings() -> dict[str, SourcedFigure]:
    grouped = (row for row in rows("densities") if row["foods"].startswith("group "))
    return {row["foods"].removeprefix("group "): _figure(row) for row in grouped}


def filling(phrase: Phrase, forms: Collection[str]) -> Filling | None:
    """What a cup of the food holds in one of `forms`, or in any."""
    fits = [fit for fit in _fillings().fits(phrase) if not fit.row.form or fit.row.form in forms]
    best = max(fits, key=lambda fit: (fit.words, bool(fit.row.form)), default=None)
    return best.row if best else None


def group_filling(group_code: str) -> SourcedFigure | None:
    """What a cup of most foods of a group holds: a broad range."""
    return _group_fillings().get(group_code)


@cache
def _forms() -> dict[str, str]:
    return {word: row["form"] for row in rows("weight_forms") for word in row["words"].split("|")}


def forms_in(words: Collection[str]) -> frozenset[str]:
    """The forms that `words` (as written, lower case) name."""
    table = _forms()
    found = frozenset(table[word] for word in words if word in table)
    return found - {"packed"} if "loose" in found else found  # "loosely packed"


@cache
def _salts() -> tuple[Salt, ...]:
    def make(row: Row) -> list[Salt]:
        return [Salt(frozenset(fold(kind)), _figure(row)) for kind in row["kinds"].split("|")]

    return tuple(salt for group in load("salt_kinds", make) for salt in group)


def salt(words: Collection[str]) -> Salt:
    """The kind of salt that folded `words` name; that of no named kind where they name none."""
    present = frozenset(words)
    fitting = [each for each in _salts() if each.words <= present]
    return max(fitting, key=lambda each: len(each.words), default=_salts()[0])


@dataclass(frozen=True, slots=True)
class Limit:
    """The most that one line can mean by a measure, in g; codes: of the foods it holds for, none for any."""

    measure: str
    codes: frozenset[str]
    most_g: float
    reason: str


@cache
def line_limits() -> tuple[Limit, ...]:
    """What one line can mean at the most (line_limits.csv)."""

    def make(row: Row) -> Limit:
        codes = frozenset() if row["codes"] == "*" else frozenset(row["codes"].split("|"))
        return Limit(row["measure"], codes, float(row["most_g"]), row["reason"])

    return load("line_limits", make)


@cache
def _drained() -> tuple[HeadTable[SourcedFigure], SourcedFigure]:
    listed = load("drained_shares", lambda row: (row["foods"], _figure(row)))
    return HeadTable(listed), dict(listed)["*"]


def drained_share(phrase: Phrase) -> SourcedFigure:
    """Share of a can's weight that stays when it is drained."""
    table, other = _drained()
    return table.best(phrase) or other


@cache
def _edible() -> HeadTable[Edible]:
    return HeadTable(
        load("edible_shares", lambda row: (row["foods"], Edible(_figure(row), _listed(row["words"]))))
    )


def edible(phrase: Phrase) -> Edible | None:
    """Edible share of a food as bought, where the dataset's refuse does not say."""
    return _edible().best(phrase)


@cache
def _refuse_parts() -> tuple[RefusePart, ...]:
    def make(row: Row) -> RefusePart:
        if row["rule"] not in get_args(Rule):
            raise ValueError(f"{row['rule']!r} is not one of {get_args(Rule)}")
        return RefusePart(row["part"], row["rule"], _listed(row["if"]), _listed(row["unless"]))  # type: ignore[arg-type]

    return load("refuse_parts", make)


def refuse_part(description: str) -> RefusePart:
    """How a part of the refuse is treated; `description` in lower case."""
    return next(each for each in _refuse_parts() if each.part in description)


@dataclass(frozen=True, slots=True)
class Default:
    """What is taken for a food without quantity. amount: g, or pieces of the food where in_pieces."""

    purpose: str
    foods: HeadTable[None] | None
    groups: frozenset[str]
    amount: Spread
    in_pieces: bool
    source: str

    def fits(self, flags: Collection[str], phrase: Phrase, group_code: str) -> bool:
        """Whether it is for a food of that name and group, used for what the flags say."""
        if self.purpose != "any" and self.purpose not in flags:
            return False
        if self.groups and group_code not in self.groups:
            return False
        return self.foods is None or any(self.foods.fits(phrase))


@cache
def _defaults() -> tuple[Default, ...]:
    def make(row: Row) -> Default:
        if row["unit"] not in {"g", "piece"}:
            raise ValueError(f"unit is {row['unit']!r}, not g or piece")
        foods = None if row["foods"] == "*" else HeadTable([(row["foods"], None)])
        groups = frozenset() if row["groups"] == "*" else frozenset(row["groups"].split("|"))
        return Default(
            row["purpose"],
            foods,
            groups,
            Spread.from_mapping(row),
            row["unit"] == "piece",
            source_words(row["source"]),
        )

    return load("no_quantity_defaults", make)


def defaults(flags: Collection[str], phrases: Sequence[Phrase], group_code: str) -> Iterator[Default]:
    """What may be taken for a food without quantity, by what it is for; the first that can be weighed counts.

    phrases: the food as named, the line's words first. group_code: of the food, "" where it is not known.
    """
    return (each for each in _defaults() if any(each.fits(flags, name, group_code) for name in phrases))
