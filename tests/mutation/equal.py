"""Mutants that change nothing anybody could notice, each with the reason: equal.csv."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

Place = tuple[str, str, str]
"""File from the top, the function, and what becomes what."""


@cache
def equal() -> dict[Place, str]:
    """Why each of them changes nothing."""
    text = Path(__file__).with_name("equal.csv").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    return {(row["file"], row["within"], row["mutant"]): row["reason"] for row in csv.DictReader(lines)}
