"""The one way a notice of safety is put: what is wrong, what to do, and who has the last word."""

from __future__ import annotations

from ..core.notices import Notice, Severity

DEFER = "Local codes and licensed practice come first."
"""How every notice of safety ends: none is a clearance, and the rules held here are not everybody's."""


def safety_notice(code: str, severity: Severity, message: str, pointer: str = "") -> Notice:
    """A notice that ends by deferring to local codes and licensed practice."""
    return Notice(code, severity, f"{message} {DEFER}", pointer)
