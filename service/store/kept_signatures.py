"""Signatures: what must be confirmed to give one, and which go on standing for the next version."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from typing import Any

from sqlalchemy import Connection

from ..core.errors import Fault, InvalidRequest
from ..review.chain import Actor
from . import event_feed, recipes
from .records import Signature, Version

SIGNATURE_KEPT = Actor("service", label="signature kept")


def keep(connection: Connection, number: int, save_id: str, written: Version) -> Version:
    """Let the signature under a version stand for the next one, which gives the same figures, and say so.

    number, save_id: of the version that was signed.
    """
    given = recipes.sign_offs_of(connection, save_id)
    signed = next(each for each in given if each.verdict == "signed")
    day = signed.created_at[:10]
    who = signed.by.beside(signed.name)
    note = f"Signed as version {number} on {day} by {who}; no figure has moved since."
    by = Signature(SIGNATURE_KEPT, signed.name)
    uncounted = confirmed_gaps(written, {gap["pointer"] for gap in written.uncounted})
    recipes.add_sign_off(connection, written, "signed", by, note, uncounted=uncounted)
    return replace(written, status="signed")


def tell(connection: Connection, written: Version) -> None:
    """Put in the feed that the signature was kept."""
    kept = recipes.sign_offs_of(connection, written.save_id)[0]
    by = kept.by.beside(kept.name)
    event_feed.record(connection, "recipe.signed", written, by=by, note=kept.note, kept=True)


def confirmed_gaps(version: Version, confirmed: Collection[str]) -> list[dict[str, Any]] | None:
    """What was not counted in a version, for its signature to keep; None where all was.

    confirmed: the pointers that the signer names. Raises InvalidRequest where one is missing, or is no gap.
    """
    gaps = version.uncounted
    missing = [gap for gap in gaps if gap["pointer"] not in confirmed]
    if missing:
        named = "; ".join(f"{gap['pointer'] or '(recipe)'}: {gap['line']} ({gap['why']})" for gap in missing)
        message = (
            "The sodium is incomplete. To sign it as it is, confirm what was not counted by naming each "
            "pointer "
            f"here: {named}."
        )
        raise InvalidRequest([Fault("/confirmed_uncounted", message)])
    if unknown := sorted(set(confirmed) - {gap["pointer"] for gap in gaps}):
        message = f"Nothing is uncounted at {', '.join(unknown)[:200]}; leave it out."
        raise InvalidRequest([Fault("/confirmed_uncounted", message)])
    kept = ("pointer", "line", "reason", "why", "low_mg", "high_mg")
    return [{name: gap[name] for name in kept} for gap in gaps] or None
