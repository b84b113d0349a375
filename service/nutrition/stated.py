"""What a caller states of a food, as a packet has it: amounts by tag or printed name, made into the
dataset's own.

Salt becomes sodium, kJ kcal, and carbohydrate without fibre carbohydrate by difference. What is not stated
is not known, added sugars among it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from ..core.errors import Fault, Faults
from ..core.numbers import shown
from ..core.tables import load
from ..units.nutrient_amounts import Stated, UnitRefused, in_own_unit, own_units
from .energy import KJ_PER_KCAL, SALT_PER_SODIUM

AGREE = 0.1
"""How far two statements of one thing (salt and sodium, kJ and kcal) may differ, as a share: rounding on
packets."""


@dataclass(frozen=True, slots=True)
class StatedFood:
    """Amounts in 100 g by tag of nutrients.csv; added_sugars_g: in 100 g, None where not stated."""

    per_100g: Mapping[str, float]
    added_sugars_g: float | None


@cache
def packet_names() -> dict[str, str]:
    """The tag of each name that packets print."""
    return dict(load("packet_names", lambda row: (row["name"], row["tag"])))


@cache
def accepted_names() -> dict[str, str]:
    """Every name that may stand in a statement, and the tag that it means."""
    return {tag: tag for tag in own_units()} | packet_names()


def stated_food(stated: Mapping[str, Stated], *, of_g: float = 100.0, pointer: str = "") -> StatedFood:
    """What is stated of `of_g` g of a food, in 100 g.

    Raises InvalidRequest, each fault at its name below `pointer`: an unknown name, a unit that does not
    fit, two statements that do not agree, parts that are more than their whole.
    """
    amounts, faults = _by_tag(stated, 100.0 / of_g, pointer)
    named = {accepted_names()[name]: name for name in stated if name in accepted_names()}
    faults += [Fault(f"{pointer}/{named[tag]}", message) for tag, message in _disagreements(amounts)]
    Faults(faults).refuse()
    return StatedFood(_as_nutrients(amounts), amounts.get("ADDED_SUGARS"))


def _by_tag(
    stated: Mapping[str, Stated], factor: float, pointer: str
) -> tuple[dict[str, float], list[Fault]]:
    amounts: dict[str, float] = {}
    faults = []
    for name, value in stated.items():
        tag = accepted_names().get(name)
        if tag is None:
            faults.append(
                Fault(f"{pointer}/{name}", f"{name[:40]!r} is not a nutrient tag or a packet's name.")
            )
        elif tag in amounts:
            faults.append(Fault(f"{pointer}/{name}", f"{tag} is stated twice; keep one of them."))
        else:
            try:
                amounts[tag] = in_own_unit(tag, value) * factor
            except UnitRefused as refused:
                faults.append(Fault(f"{pointer}/{name}/unit", f"{refused}."))
    return amounts, faults


_TWICE = (("NA", "SALT", 1000 / SALT_PER_SODIUM), ("ENERC", "ENERC_KJ", 1 / KJ_PER_KCAL))
_WHOLES = (("ADDED_SUGARS", "SUGAR"), ("FASAT", "FAT"), ("SUGAR", "CHOCDF"))


def _disagreements(amounts: Mapping[str, float]) -> Iterator[tuple[str, str]]:
    """What does not agree with another statement: its tag, and how."""
    for tag, other, factor in _TWICE:
        if tag in amounts and other in amounts:
            same = amounts[other] * factor
            if abs(same - amounts[tag]) > AGREE * max(same, amounts[tag]):
                message = (
                    f"{other} would be {shown(same, 4)} of {tag}, which is stated as "
                    f"{shown(amounts[tag], 4)}; keep one."
                )
                yield other, message
    for part, whole in _WHOLES:
        if part in amounts and whole in amounts and amounts[part] > 1.02 * amounts[whole] + 0.5:
            figures = f"{shown(amounts[part], 4)} g, more than the {shown(amounts[whole], 4)} g"
            message = f"{part} is {figures} of {whole}."
            yield part, message


def _as_nutrients(amounts: Mapping[str, float]) -> dict[str, float]:
    """The stated amounts as nutrients of the dataset."""
    made = {
        tag: amount
        for tag, amount in amounts.items()
        if tag not in ("SALT", "ENERC_KJ", "CHOAVL", "ADDED_SUGARS")
    }
    for tag, other, factor in _TWICE:
        if other in amounts:
            made.setdefault(tag, amounts[other] * factor)
    if "CHOAVL" in amounts:
        # Fibre that is not stated is not known; the carbohydrate is then at least what is stated.
        made.setdefault("CHOCDF", amounts["CHOAVL"] + amounts.get("FIBTG", 0.0))
    return made
