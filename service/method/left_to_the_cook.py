"""Figures that a method leaves to the cook: how much water, how much salt in it, how thick a piece."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable
from functools import cache, lru_cache
from itertools import chain

from ..core.tables import rows
from ..lines import read_line
from ..units.kitchen_units import dimension, find, to_grams, to_millilitres
from .happenings import LIQUIDS, WET, Happening, Water
from .listed import ListedLine
from .prose_tokens import stems_of, tokenize, words_of
from .reading_state import ReadingState
from .sizes_and_heat import cut_cm, has_sizes, thickness_cm
from .weights_told import grams_of, per_litre_g

_PIECES = frozenset({"head", "piece", "bunch", "fillet", "whole"})
_PASTE = 0.5
"""Liquid in weights of the salt up to which salt with a little liquid is a dry cure."""
_SALTED = ("salted", "very")


_JOINT_G, _SLICE_G = 400.0, 110.0
"""A piece, g, from which on it is cut in slices, and what one of these weighs (piece_weights.csv)."""


@lru_cache(maxsize=1 << 12)
def grams_roughly(line: ListedLine) -> float | None:
    """The weight of a line, good enough to say how much water covers it; None where it gives none."""
    amount, unit = line.line.amount, line.line.unit
    if amount is None:
        return None
    each = line.line.package
    size = (to_grams(each.unit) or to_millilitres(each.unit)) if each is not None and each.unit else None
    if each is not None and size:
        return amount.likely * each.amount.likely * size
    if unit is None or unit in _PIECES or dimension(unit) == "count":
        if (said := _mass_said(line.text)) is not None:
            return said
        row = _row_of(line)
        piece_g = float(row["piece_g"]) if row and row["piece_g"] else 0.0
        if unit == "slice" and piece_g > _JOINT_G:
            piece_g = _SLICE_G
        return amount.likely * piece_g or None
    grams = to_grams(unit)
    if grams:
        return amount.likely * grams
    millilitres = to_millilitres(unit)
    density = 1.0 if line.kind in LIQUIDS else 0.7
    return amount.likely * millilitres * density if millilitres else None


_MASS = re.compile(
    r"(\d+(?:[.,]\d+)?(?: \d/\d)?)\s*(?:(?:-|–|to)\s*(\d+(?:[.,]\d+)?(?: \d/\d)?)\s*)?(?:-\s*)?"
    r"(kg|kilos?|g|lbs?|pounds?|oz|ounces?)\b( each)?",
    re.IGNORECASE,
)


@lru_cache(maxsize=4096)
def _mass_said(text: str) -> float | None:
    """The weight in "1 gammon, 2.5 kg", "2 trout (300 g each)"; None where a counted line gives none."""
    found = _MASS.search(text)
    unit = find(found[3].lower()) if found else None
    if found is None or unit is None:
        return None
    low, high = map(_number, (found[1], found[2] or found[1]))
    count = read_line(text).amount if found[4] else None
    return (low + high) / 2 * (to_grams(unit) or 0.0) * (count.likely if count else 1.0)


def _number(text: str) -> float:
    """The number in "2.5", "2,5", "5 1/2"."""
    whole, _, part = text.replace(",", ".").partition(" ")
    above, _, below = part.partition("/")
    return float(whole) + (float(above) / float(below or 1) if above else 0.0)


def grams_in(state: ReadingState, lines: Iterable[int], kinds: Container[str] | None = None) -> float:
    """What lines weigh together, those of these kinds, as far as they say."""
    return sum(
        [grams_roughly(state.lines[n]) or 0.0 for n in lines if kinds is None or state.kind(n) in kinds]
    )


@cache
def _salted_water() -> dict[str, dict[str, str]]:
    return {row["kind"]: row for row in rows("salted_water")}


def food_grams(happening: Happening, state: ReadingState) -> float:
    """What the food of a happening weighs, the usual weight where its lines do not say."""
    lines = [state.lines[line] for line in happening.foods]
    known = [grams * _curd_share(state, line) for line in lines if (grams := grams_roughly(line))]
    if known:
        return sum(known)
    kind = lines[0].kind if lines else "any"
    return float(_salted_water().get(kind, _salted_water()["any"])["usual_food_g"])


def _curd_share(state: ReadingState, line: ListedLine) -> float:
    """How much of milk or yoghurt is left when it has lost its whey; 1 of all else."""
    set_now = line.kind == "milk" and state.kind(line.index) == "cheese"
    return whey_shares(line.words)["usual"] if set_now else 1.0


_SPLASH_G = 20.0
"""What is taken for a liquid of a rub or marinade whose line gives no amount; common practice, no source."""


def salty_paste(state: ReadingState, lines: Iterable[int]) -> bool:
    """Whether salt with a spoon of vodka or an egg white is a dry cure all the same."""
    found = [state.lines[n] for n in lines]
    salt_g = sum(grams_roughly(line) or 0.0 for line in found if line.kind in ("salt", "sweet"))
    wet_g = sum(grams_roughly(line) or _SPLASH_G for line in found if line.kind in WET or line.kind == "egg")
    return wet_g < _PASTE * salt_g


_BOWL_L = (0.25, 0.75)
"""The least water that something soaks in, l; common practice, no source."""
_COLD_WATER = {True: (2.0, 4.5), False: (1.2, 3.0)}
"""Water around a food in weights of it, soaking and else; common practice."""


_COVERED = (1.0, 1.6)
"""All liquid that just covers food, in weights of it; common practice, no source."""
_TOPPED_G = 100.0


def water_lines(
    happening: Happening, water: Water, state: ReadingState, strength: str, times: float = 1.0
) -> list[str]:
    """The lines of water that only the method names: how much, times the usual, and the salt in it."""
    kind = state.lines[next(iter(happening.foods))].kind if happening.foods else "any"
    row = _salted_water().get(kind, _salted_water()["any"])
    food_g = food_grams(happening, state)
    low, high = _pot_litres(happening, state)
    if happening.kind not in ("boil", "simmer"):
        soaks = happening.kind == "soak" or happening.clause.base == "soak"
        low, high = (ratio * food_g / 1000 for ratio in _COLD_WATER[soaks])
        low, high = (max(low, _BOWL_L[0]), max(high, _BOWL_L[1])) if soaks else (low, high)
    wet_g = grams_in(state, happening.liquid, WET)
    if happening.topped and wet_g:  # "the milk, with enough water to cover"
        low, high = (max(ratio * food_g - wet_g, _TOPPED_G) / 1000 for ratio in _COVERED)
    low, high = low * times, high * times
    found = [water.amount or f"{_short(low)} to {_short(high)} l water"]
    if water.amount and (said := grams_of(water.amount)):
        low = high = said / 1000
    if water.salt and (by_litre := per_litre_g(water.salt)):
        found.append(f"{by_litre * low:.3g} to {by_litre * high:.3g} g salt")
    elif water.salt and strength != "plain":
        found.append(water.salt if "salt" in water.salt else f"{water.salt} salt")
    elif strength in _SALTED:
        salts = _salted_water()["very"] if strength == "very" else row
        litres = (low + high) / 2
        least, most = (float(salts[f"salt_{end}"]) * litres for end in ("low", "high"))
        found.append(f"{_short(least)} to {_short(most)} g salt")
    return found


def _pot_litres(happening: Happening, state: ReadingState) -> tuple[float, float]:
    """The least and the most water that a pot of these foods holds, l: what the thirstiest of them needs, and
    as much as covers the others."""
    table = _salted_water()
    grams: dict[str, float] = {}
    for line in happening.foods:
        kind = state.lines[line].kind
        grams[kind] = grams.get(kind, 0.0) + (grams_roughly(state.lines[line]) or 0.0)
    whole = food_grams(happening, state)
    if len(grams) < 2 or not any(grams.values()):
        grams = {next(iter(grams), "any"): whole}
    needs = [(table.get(kind, table["any"]), g / 1000) for kind, g in grams.items()]
    row, kg = max(needs, key=lambda need: float(need[0]["water_high"]) * need[1])
    others = _COVERS * (whole / 1000 - kg)
    return float(row["water_low"]) * kg + others, float(row["water_high"]) * kg + others


_COVERS = 1.0
"""Water that covers food beside other food in a pot, in weights of it; common practice, no source."""


def _short(figure: float) -> str:
    """A figure to two digits, which is as much as a guess is worth."""
    return f"{float(f'{figure:.2g}'):g}"


def whey_shares(words: Iterable[str]) -> dict[str, float]:
    """Of what was hung up, the share of its weight that stays: "firm", "usual" and "soft"."""
    said = set(words)
    row = next(r for r in rows("method_whey") if r["words"] == "*" or said & set(r["words"].split("|")))
    return {name: float(row[name]) for name in ("firm", "usual", "soft")}


def thickness_of(lines: Iterable[ListedLine]) -> float | None:
    """How thick the thickest of these pieces is: as their lines say, else as is usual, in cm."""
    pieces = list(lines)
    stated = [cm for line in pieces if (cm := _stated(line)) is not None]
    found = stated or [cm for line in pieces if (cm := _usual(line)) is not None]
    return max(found) if found else None


def joint_cm(line: ListedLine) -> float | None:
    """How thick a joint or a whole bird is that a line names, in cm; None for pieces of meat and all else."""
    row = _row_of(line)
    if (
        row is None
        or not row["grows"]
        or line.kind not in _JOINTED
        or (grams_roughly(line) or 0.0) < _LEAST_JOINT_G
    ):
        return None
    return _stated(line) or _usual(line)


_JOINTED = frozenset({"meat", "poultry"})
_MOST_CM = 20.0
"""From this length on it is none of a piece's thickness."""
_LEAST_JOINT_G = 700.0
"""Weight from which on meat of that kind is one piece."""


def stated_cm(line: ListedLine) -> float | None:
    """The thickness of a piece that a line gives in figures, in cm."""
    said = thickness_cm(tokenize(line.text)) if has_sizes(stems_of(line.text)) else None
    return said if said is not None and said < _MOST_CM else None


def _stated(line: ListedLine) -> float | None:
    if (said := stated_cm(line)) is not None:
        return said
    return cut_cm(tokenize(line.text)) if line.kind in ("vegetable", "potato") else None


def _usual(line: ListedLine) -> float | None:
    row = _row_of(line)
    return float(row["cm"]) * _growth(line, row) if row else None


_GROWS = (0.8, 2.5)
"""The most that a piece is thinner or thicker than usual for its weight."""


def _growth(line: ListedLine, row: dict[str, str]) -> float:
    """How much thicker than usual a piece is that weighs more: by its cube root, as bodies of one shape."""
    amount, grams = line.line.amount, grams_roughly(line)
    counted = amount is not None and (line.line.unit is None or dimension(line.line.unit) == "count")
    if not row["grows"] or not grams or amount is None or not (counted or row["grows"] == "joint"):
        return 1.0
    pieces = amount.likely if counted else 1.0
    thicker: float = (grams / pieces / float(row["piece_g"])) ** (1 / 3)
    return min(max(thicker, _GROWS[0]), _GROWS[1])


@lru_cache(maxsize=1 << 12)
def _row_of(line: ListedLine) -> dict[str, str] | None:
    """The row of usual_thickness.csv that a line falls under."""
    sizes = _sizes().get(line.kind, ())
    if len(sizes) == 1 and sizes[0][0] is None:
        return sizes[0][1]
    said = set(chain.from_iterable(words_of(line.text)))
    return next((row for words, row in sizes if words is None or not words.isdisjoint(said)), None)


@cache
def _sizes() -> dict[str, tuple[tuple[frozenset[str] | None, dict[str, str]], ...]]:
    """The rows of usual_thickness.csv by class, each with its words; None for any."""
    found: dict[str, list[tuple[frozenset[str] | None, dict[str, str]]]] = {}
    for row in rows("usual_thickness"):
        words = None if row["words"] == "*" else frozenset(row["words"].split("|"))
        found.setdefault(row["kind"], []).append((words, row))
    return {kind: tuple(each) for kind, each in found.items()}
