"""Cold enough to brine and cure in. Notices only, and never a promise of safety."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from ..core.notices import Notice, Severity, safety_notice
from ..core.numbers import shown, whole
from ..core.step_kinds import kinds_that
from .safety_limits import limit, limit_c, safe_temperature


@lru_cache(maxsize=512)
def cold_notices(
    step_kind: str, food_class: str, temperature_c: float | None, duration_h: float | None
) -> tuple[Notice, ...]:
    """What is to be said of a cold step's temperature; pointers are within the step.

    food_class: beef, pork, poultry, fish (lean or fatty); cheese, vegetables and others give none.
    """
    if step_kind not in kinds_that("cold") or safe_temperature(food_class, "whole") is None:
        return ()
    is_short = duration_h is not None and duration_h <= limit("short")
    if temperature_c is None:
        return () if is_short else (_not_stated(),)
    return tuple(_stated(temperature_c, is_short=is_short))


def _not_stated() -> Notice:
    return _notice(
        "temperature-not-stated",
        "check",
        "No temperature is given. In a brine or cure hold meat and fish below "
        f"{shown(limit_c('cure'), decimals=1)} °C (40 °F).",
    )


def _stated(temperature_c: float, *, is_short: bool) -> Iterator[Notice]:
    cure, cold = limit_c("cure"), limit_c("cold")
    if temperature_c < limit_c("ice"):
        yield _notice(
            "food-may-freeze",
            "check",
            f"At {shown(temperature_c)} °C lean meat begins to freeze, and frozen food takes up next to "
            "nothing.",
        )
    elif cold < temperature_c < limit_c("hot"):
        yield _notice(
            "held-too-warm",
            "check" if is_short else "stop",
            f"{shown(temperature_c)} °C is above {whole(cold)} °C (41 °F), in the range where "
            f"bacteria grow. Hold meat and fish below {shown(cure, decimals=1)} °C (40 °F); salt and nitrite "
            "do not make up for it, and no cure rescues meat that has begun to spoil.",
        )
    elif cure < temperature_c <= cold:
        yield _notice(
            "held-barely-cold",
            "check",
            f"{shown(temperature_c)} °C is inside cold holding ({whole(cold)} °C, 41 °F) but not "
            f"below the {shown(cure, decimals=1)} °C (40 °F) asked for curing and brining.",
        )


def _notice(code: str, severity: Severity, message: str) -> Notice:
    return safety_notice(code, severity, message, "/temperature_c")
