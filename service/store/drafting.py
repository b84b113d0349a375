"""Drafts of versions: a recipe's answer with overrules laid over it, on the foods and recipes it names."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from typing import Any, Protocol

from ..core.errors import NotFound, SaltledgerError
from ..foods.remote.kept import KeptFood
from ..recipe.sub_recipes import cookbook
from ..review.chain import Actor
from ..review.overrides import Applied, Overrule, apply, foods_at
from . import override_records, recipe_uses, recipes, second_foods
from .database import Database
from .records import Cause, Draft, Signature, Version

Document = Mapping[str, Any]

SERVICE = Signature(Actor("service"))


class Calculate(Protocol):
    """From a schema-checked recipe to the contract's answer."""

    def __call__(self, document: dict[str, Any], *, pins: Sequence[KeptFood] = ()) -> dict[str, Any]:
        """pins: releases of foods of the second source to use in place of those that are kept today.

        Raises InvalidRequest.
        """


@dataclass(frozen=True, slots=True)
class Drafting:
    """What a version is worked out from: the store, the calculation, and what its factors are.

    unmapped: from an answer to the words that no food fits and that somebody asks for; None: nobody does.
    """

    database: Database
    calculate: Calculate
    factors_sha256: str
    unmapped: Callable[[Document], list[str]] | None = None

    def made_of(self, key: str, seen: Version | None = None) -> AbstractContextManager[None]:
        """While it is open, the recipe of a key may name saved recipes: as they are, or as in `seen`."""
        pinned = recipe_uses.pinned_in(seen.answer) if seen is not None else {}
        return cookbook(recipe_uses.finder(self.database, pinned), own=key)

    def pins(self, seen: Version) -> list[KeptFood]:
        """The foods of the second source that a version rests on, in the releases that it rests on."""
        sha256s = [each["sha256"] for each in seen.answer.get("sources", ()) if "food" in each]
        if not sha256s:
            return []
        with self.database.read() as connection:
            return second_foods.with_sha256(connection, sha256s)

    def worked_out_like(self, seen: Version, document: dict[str, Any]) -> dict[str, Any]:
        """The answer to a document on the foods and recipes that a version stands on."""
        with self.made_of(seen.key, seen):
            return self.calculate(document, pins=self.pins(seen))

    def with_overrules(self, seen: Version, overrules: list[Overrule]) -> dict[str, Any]:
        """The answer to a version's recipe on other overrules; nothing is kept."""
        with self.made_of(seen.key, seen):
            return self._worked_out(seen.request, overrules, self.pins(seen))[0]

    def plain_draft(self, request: dict[str, Any], overrules: list[Overrule], by: Actor) -> Draft:
        """The version that a recipe makes which names no other, worked out and not written.

        overrules: that hold in it. Raises InvalidRequest.
        """
        return self._draft(request, overrules, "saved", Signature(by))

    def worked_out_today(self, key: str) -> dict[str, Any]:
        """The answer to the recipe that stands under a key, with the overrules and recipes that stand.

        Nothing is kept. Raises NotFound, SaltledgerError."""
        with self.database.read() as connection:
            seen = recipes.current(connection, key)
            standing = override_records.in_force(connection, key)
        if seen is None:
            raise NotFound("recipe", key)
        with self.made_of(key):
            return self._draft(seen.request, standing, seen.cause, SERVICE, self.pins(seen)).answer

    def _worked_out(
        self, request: dict[str, Any], overrules: list[Overrule], pins: Sequence[KeptFood]
    ) -> tuple[dict[str, Any], Applied]:
        """The answer to a request with overrules laid over it, those of foods by what it is mapped to."""
        applied = apply(request, overrules)
        answer = self.calculate(applied.document, pins=pins)
        of_foods = {each.food_code for each in overrules if each.reach == "food"}
        foods = foods_at(request, answer) if of_foods else {}
        if of_foods.isdisjoint(foods.values()):
            return answer, applied
        applied = apply(request, overrules, foods)
        return self.calculate(applied.document, pins=pins), applied

    def _draft(
        self,
        request: dict[str, Any],
        standing: list[Overrule],
        cause: Cause,
        signed: Signature,
        pins: Sequence[KeptFood] = (),
    ) -> Draft:
        """The version that a request makes with the overrules that stand.

        An overrule must never stand in the way of an author's save: where the calculation takes the
        request but not the overrules (a food that a new dataset no longer has), they are left idle.
        """
        try:
            answer, applied = self._worked_out(request, standing, pins)
        except SaltledgerError:
            applied = apply(request, standing)
            if not applied.applied:
                raise
            answer = self.calculate(request, pins=pins)
            own = (each for each, _ in applied.applied if each.reach == "recipe")
            applied = Applied(request, (), tuple(own) + applied.idle)
        return self._drafted(request, answer, applied, cause, signed)

    def _drafted(
        self,
        request: dict[str, Any],
        answer: dict[str, Any],
        applied: Applied,
        cause: Cause,
        signed: Signature,
    ) -> Draft:
        told = [_told(each, pointer) for each, pointer in applied.applied]
        told += [_told(each, None) for each in applied.idle]
        return Draft(request, answer, tuple(told), self.factors_sha256, cause, signed)


def _told(overrule: Overrule, pointer: str | None) -> dict[str, Any]:
    """An overrule as a version shows it; pointer null: idle, since its target has changed."""
    return {
        "id": overrule.id,
        "kind": overrule.target.kind,
        "pointer": pointer,
        "field": overrule.field,
        "value": overrule.value,
        "reason": overrule.reason,
        "reviewer": overrule.reviewer,
        "by": overrule.by.document,
        "created_at": overrule.created_at,
        "reach": overrule.reach,
        "food_code": overrule.food_code,
    }
