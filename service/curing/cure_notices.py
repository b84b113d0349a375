"""What is said about a cure: the cautions, over the limit, too weak, other rules of the class.

The words only: `assessment` does the counting. They never promise safety and leave the last word to local
codes and licensed practice. Their pointers name parts that a bath's request and a recipe's step both have.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol

from ..core.notices import Notice, safety_notice
from ..core.numbers import shown, whole
from ..safety.safety_limits import limit


class Rule(Protocol):
    """The part of a limit that the words need."""

    @property
    def scheme(self) -> str: ...
    @property
    def product_class(self) -> str: ...
    @property
    def agent(self) -> str: ...
    @property
    def method(self) -> str: ...
    @property
    def limit_ppm(self) -> float: ...
    @property
    def lowest_ppm(self) -> float | None: ...
    @property
    def source(self) -> str: ...


_COUNTED_ON = {
    "comminuted": "all of it counted on green weight",
    "dry": "all of it counted on green weight",
    "pumped": "counted by the pickle pumped in",
    "immersion": "the higher of pick-up (method one) and equilibrium (method two)",
}


def caution(nitrite_g: float, nitrate_g: float = 0.0) -> Iterator[Notice]:
    """The standing cautions, wherever there is nitrite or nitrate."""
    if nitrite_g > 0:
        yield from _nitrite_caution(nitrite_g)
    if nitrate_g > 0:
        yield safety_notice(
            "nitrate-caution",
            "info",
            f"This cure holds {shown(nitrate_g)} g of sodium nitrate or its like. It turns into nitrite as "
            "it stands and is handled with the same care: weighed, labelled, kept from children.",
        )
    if nitrite_g > 0 or nitrate_g > 0:
        yield safety_notice(
            "cure-no-guarantee",
            "info",
            "The figures are arithmetic on what was stated. Neither a limit kept nor a time passed shows "
            "that meat is safe: keep it cold, cook it through, and have a process checked.",
        )


def _nitrite_caution(nitrite_g: float) -> Iterator[Notice]:
    yield safety_notice(
        "nitrite-caution",
        "info",
        f"This cure holds {shown(nitrite_g)} g of sodium nitrite, which is poisonous in small amounts (1 to "
        "2 g can kill an adult; from memory). Weigh it, never measure it by spoon. Curing salt is coloured "
        "so that it is not taken for table salt; never put one in place of the other, nor pink mineral salt "
        "in place of curing salt. Keep it labelled and out of the reach of children.",
    )


def class_notices(is_stated: bool, rule: Rule, food_class: str) -> Iterator[Notice]:
    """What the class of product, or the food, asks for besides the limit."""
    if not is_stated:
        yield safety_notice(
            "cure-class-assumed",
            "check",
            f"No product_class was given; {rule.product_class} is assumed. Bacon, dry-cured and comminuted "
            "products have limits of their own: name the class.",
            "/product_class",
        )
    if rule.scheme == "eu":
        yield safety_notice(
            "cure-scheme-eu",
            "check",
            "The EU limit here is on nitrite added (Regulation (EU) 2023/2108, seen second hand, as NaNO2). "
            "Residual limits and traditional products are not held: look them up.",
        )
    if food_class not in {"beef", "pork", "poultry"}:
        yield safety_notice(
            "cure-food-not-meat",
            "check",
            f"The limits are for meat and poultry. Nitrite in {food_class} is allowed for few products or "
            "none: find the rule that allows it before using it.",
            "/food",
        )
    if rule.product_class.startswith("bacon_pumped"):
        yield safety_notice(
            "cure-bacon-ascorbate",
            "check",
            "Pumped bacon must hold 550 ppm sodium erythorbate or ascorbate beside its nitrite "
            "(9 CFR 424.22(b)(1)).",
            "/product_class",
        )
    if rule.method == "dry" and rule.scheme == "us":
        yield safety_notice(
            "cure-dry-finished",
            "info",
            "Besides the ingoing limit, a finished product may hold at most 200 ppm nitrite "
            "(9 CFR 424.21(c)); a dry-cured ham or shoulder must reach 4 % salt inside (9 CFR 319.106(c)). "
            "Both are measured, not computed.",
        )


def limit_notices(judged_ppm: float, rule: Rule, remedy: str) -> Iterator[Notice]:
    """A `stop` over the limit, a `check` under what the rule itself asks for."""
    figure = f"Ingoing {rule.agent} is {whole(judged_ppm)} ppm ({_COUNTED_ON[rule.method]})"
    if judged_ppm > rule.limit_ppm * (1 + 1e-9):
        allowed = (
            f"over the limit of {shown(rule.limit_ppm)} ppm" if rule.limit_ppm else "and none is allowed"
        )
        yield safety_notice(
            f"cure-{rule.agent}-over-limit",
            "stop",
            f"{figure}, {allowed} for {rule.product_class} ({rule.source}). Do not use this cure: {remedy}.",
            "/bath",
        )
    elif rule.lowest_ppm is not None and judged_ppm < rule.lowest_ppm:
        yield safety_notice(
            f"cure-{rule.agent}-under-rule",
            "check",
            f"{figure}; {rule.product_class} is to hold {shown(rule.limit_ppm)} ppm, less at most a fifth "
            f"({rule.source}).",
            "/bath",
        )


def weakness_notices(judged_ppm: float, pick_up_ppm: float, rule: Rule) -> Iterator[Notice]:
    """A `check` when the cure is too weak to count as one."""
    pointer = "/bath"
    useful_ppm, asked_ppm = limit("cure_useful"), limit("cure_kept_cold")
    if judged_ppm <= 0:
        return
    if judged_ppm < useful_ppm:
        yield safety_notice(
            "cure-not-useful",
            "check",
            f"At {whole(judged_ppm)} ppm this does not count as a cure: nitrite is useful from "
            f"{shown(useful_ppm)} ppm (FSIS Directive 7620.3). Treat the meat as uncured.",
            pointer,
        )
    elif judged_ppm < min(asked_ppm, rule.limit_ppm) * (1 - 1e-9):
        yield safety_notice(
            "cure-weak",
            "check",
            f"At {whole(judged_ppm)} ppm this is under the {shown(asked_ppm)} ppm that cured "
            "products kept under refrigeration are asked to have (FSIS Directive 7620.3).",
            pointer,
        )
    if rule.method == "immersion" and pick_up_ppm < useful_ppm <= judged_ppm:
        yield safety_notice(
            "cure-methods-differ",
            "info",
            f"By pick-up alone (method one) only {whole(pick_up_ppm)} ppm goes in; the higher figure holds "
            "only if the meat stays in the pickle until both come to rest. Weigh the meat before and after.",
            pointer,
        )


def nitrate_notices(nitrite_g: float, rule: Rule, *, has_rule: bool) -> Iterator[Notice]:
    """Nitrate by itself cures slowly if at all; and a scheme may hold no rule for it."""
    if nitrite_g <= 0:
        yield safety_notice(
            "cure-nitrate-alone",
            "check",
            "This cure holds nitrate and no nitrite. Nitrate cures only as bacteria turn it into nitrite, "
            "over weeks and by no sure amount: it is no cure for meat that is cooked within days.",
            "/bath",
        )
    if not has_rule:
        yield safety_notice(
            "cure-nitrate-no-rule",
            "check",
            f"The cure holds nitrate; no limit for it is held here for {rule.product_class} in scheme "
            f"{rule.scheme}. Look up the rule that binds you.",
        )
