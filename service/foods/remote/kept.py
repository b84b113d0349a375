"""A food of the second source as it is kept: what was given, when, and of which release.

A kept food never changes; a newer release of it is another one, with another fingerprint.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ..food import Food, Household
from ..hand_kept import values_of

PREFIX = "fdc:"
"""What the codes of the second source begin with; the number behind it is FoodData Central's own."""

SOURCE = "USDA FoodData Central"


@dataclass(frozen=True, slots=True)
class KeptFood:
    """One food of the second source.

    per_100g: amounts by tag in the units of nutrients.csv, of 100 g of its edible part; a tag that is missing
    is not known. household: label and grams. published, retrieved: ISO dates. kind: the source's own kind of
    food ("Foundation", "SR Legacy" …). refused: figures that could not be taken, and why.
    """

    code: str
    name: str
    group: str
    kind: str
    published: str
    retrieved: str
    per_100g: Mapping[str, float]
    household: tuple[tuple[str, float], ...]
    refused: tuple[str, ...] = ()

    @property
    def sha256(self) -> str:
        """The fingerprint of what it says: when it was fetched does not count."""
        told = {key: value for key, value in self.document().items() if key != "retrieved"}
        text = json.dumps(told, sort_keys=True, ensure_ascii=True, separators=(",", ":"))
        return hashlib.sha256(text.encode()).hexdigest()

    @property
    def identity(self) -> dict[str, str]:
        """What an answer that rests on it says of it."""
        return {
            "name": SOURCE,
            "release": self.published,
            "sha256": self.sha256,
            "food": self.code,
            "retrieved": self.retrieved,
        }

    def document(self) -> dict[str, Any]:
        """As it is kept in the store; `from_document` reads it again."""
        return {
            "code": self.code,
            "name": self.name,
            "group": self.group,
            "kind": self.kind,
            "published": self.published,
            "retrieved": self.retrieved,
            "per_100g": dict(self.per_100g),
            "household": [[label, grams] for label, grams in self.household],
            "refused": list(self.refused),
        }

    @classmethod
    def from_document(cls, document: Mapping[str, Any]) -> KeptFood:
        household = tuple((label, grams) for label, grams in document["household"])
        return cls(**{**document, "household": household, "refused": tuple(document["refused"])})

    @property
    def source(self) -> str:
        """Where it comes from, in the words that answers give."""
        number = self.code.removeprefix(PREFIX)
        published = f", published {self.published}" if self.published else ""
        return f"{SOURCE}, FDC {number} ({self.kind}{published}), retrieved {self.retrieved}"

    def food(self) -> Food:
        """The food as calculations take it."""
        return Food(
            code=self.code,
            name=self.name,
            group=self.group,
            group_code="",
            values=values_of({"NITRI": 0.0, "NITRA": 0.0} | dict(self.per_100g)),
            household=tuple(Household(label, grams) for label, grams in self.household),
            refuse_percent=0.0,
            source=self.source,
        )
