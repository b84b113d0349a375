"""What heat destroys in a food: the part that neither juice nor pot carried off."""

from __future__ import annotations

from .bench import Bench
from .request import StepRequest


def lose_to_heat(step: StepRequest, bench: Bench, name: str) -> None:
    pass
