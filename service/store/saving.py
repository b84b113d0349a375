"""Saving: what a save, an overrule, a verdict and a recalculation decide, each in one transaction.

The calculation is done before the write transaction, which then makes sure that nothing it stood on has
changed; where something has, it starts again, or refuses if the caller named what it expected.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from sqlalchemy import Connection

from ..core.documents import every_food
from ..core.errors import Fault, InvalidRequest, NotFound, SaltledgerError, StoreUnavailable
from ..review.chain import Actor, fingerprint
from ..review.overrides import Applied, Overrule, apply
from ..review.urgency import figures_differ, matters_above
from . import (
    event_feed,
    kept_signatures,
    listing,
    override_records,
    own_measurements,
    recipe_uses,
    recipes,
    second_foods,
)
from .drafting import Drafting
from .expectations import Condition, DecidedMeanwhile, PreconditionFailed
from .records import Draft, Kind, Signature, SignOff, Verdict, Version

Document = Mapping[str, Any]


T = TypeVar("T")

ATTEMPTS = 8

RECALCULATION = Signature(Actor("service", label="recalculation"))
LOOK_UP = Signature(Actor("service", label="look-up"))


@dataclass(frozen=True, slots=True)
class Saved:
    """What came of a save. is_new: the key held nothing before; changed: a version was added."""

    version: Version
    is_new: bool
    changed: bool


class _Moved(Exception):
    """The recipe changed between the calculation and the write."""


@dataclass(frozen=True, slots=True)
class Workbench(Drafting):
    """What every decision here needs."""

    def save(
        self,
        key: str,
        request: dict[str, Any],
        by: Actor,
        condition: Condition | None = None,
        kitchen: str | None = None,
    ) -> Saved:
        """Save a recipe under the CMS's own key, with its standing overrules laid over it.

        kitchen: whose recipe it is then; None leaves that as it is.

        A save that says what the current version says changes nothing and is fine, also where If-Match
        names an older version: it is the same save sent again (RFC 9110, 13.1.1).
        Raises InvalidRequest, PreconditionFailed, PreconditionRequired, StoreUnavailable.
        """
        expected = condition or Condition()
        return _until_settled(lambda: self._try_to_save(key, request, by, expected, kitchen))

    def _try_to_save(
        self, key: str, request: dict[str, Any], by: Actor, condition: Condition, kitchen: str | None
    ) -> Saved:
        with self.database.read() as connection:
            current = recipes.current(connection, key)
            standing = override_records.in_force(connection, key)
            stale = recipe_uses.is_stale(connection, key)
        same = current is not None and current.content_hash == fingerprint(request) and not condition.absent
        if current is not None and same and not stale:
            return Saved(current, is_new=False, changed=False)
        condition.check(key, current)
        with self.made_of(key):
            draft = self._draft(request, standing, "saved", Signature(by))
        with self.database.write() as connection:
            self._hold(connection, key, current, condition)
            written = self._add(connection, key, draft)
            self._tell(connection, "recipe.saved", written, by=by.short)
            if kitchen is not None:
                own_measurements.own(connection, key, kitchen)
        return Saved(written, is_new=current is None, changed=True)

    def _add(self, connection: Connection, key: str, draft: Draft) -> Version:
        """Write a version, and what its lines wait for; where it is an ingredient, those above are stale."""
        used = recipe_uses.is_used(connection, key)
        before = recipes.current(connection, key)
        if draft.cause != "overruled":  # a reviewer's figure is laid over what was reviewed, its parts too
            self._hold_parts(connection, draft)
        written = recipes.add_version(connection, key, draft)
        if (
            before is not None
            and before.status == "signed"
            and not figures_differ(before.answer, written.answer)
        ):
            written = kept_signatures.keep(connection, before.number, before.save_id, written)
        recipe_uses.tell_of(connection, written)
        if used and (before is None or matters_above(before.answer, written.answer)):
            recipe_uses.mark_above(connection, written, str(draft.signature))
        if self.unmapped is not None:
            second_foods.await_words(connection, key, self.unmapped(draft.answer))
        return written

    def _tell(self, connection: Connection, kind: Kind, written: Version, **more: Any) -> None:
        """Put a version that was added in the feed, what became of its figure, and a signature kept."""
        event_feed.record(connection, kind, written, **more)
        before = recipes.figure_of(connection, written.key, written.number - 1)
        event_feed.record_figure(connection, written, before, more.get("by", ""))
        if written.status == "signed":
            kept_signatures.tell(connection, written)

    def _hold(
        self, connection: Connection, key: str, seen: Version | None, condition: Condition | None = None
    ) -> None:
        """Make sure that what was decided on still stands, now that nobody else writes."""
        current = recipes.current(connection, key)
        if (current and current.save_id) == (seen and seen.save_id):
            return
        if condition is not None:
            condition.check(key, current)
        raise _Moved

    def _hold_parts(self, connection: Connection, draft: Draft) -> None:
        """Make sure that the recipes which a draft is made of still stand."""
        try:
            recipe_uses.check(connection, draft.answer)
        except recipe_uses.PartMoved as moved:
            raise _Moved from moved

    def overrule(self, save_id: str, made: Iterable[Overrule]) -> Version:
        """Remember a reviewer's overrules of the current version, and add the version they make.

        Other recipes that they reach are left to `reaching.carry`.

        Raises NotFound, PreconditionFailed (there is a newer version), InvalidRequest.
        """
        made = tuple(made)
        seen, standing = self._current_of(save_id)
        answer, previewed = self.preview(seen, standing, made)
        with self.database.write() as connection:
            self._still(connection, seen)
            for each in made:
                override_records.remember(connection, seen.key, save_id, each)
            standing = override_records.in_force(connection, seen.key)
            applied = apply(seen.request, standing, previewed.foods)
            signature = Signature(made[-1].by, made[-1].reviewer)
            draft = self._drafted(seen.request, answer, applied, "overruled", signature)
            written = self._add(connection, seen.key, draft)
            listing.set_handler(connection, seen.key, draft.signature.handle)
            self._tell(
                connection, "recipe.overruled", written, by=str(draft.signature), reason=made[-1].reason
            )
        return written

    def preview(
        self, seen: Version, standing: Iterable[Overrule], made: Iterable[Overrule]
    ) -> tuple[dict[str, Any], Applied]:
        """The answer as it would be with `made` on top of what stands; nothing is kept.

        Raises InvalidRequest: an overrule that the calculation does not take, or whose target is gone.
        """
        made = tuple(made)
        wide = {(each.target.key, each.field) for each in made if each.reach != "recipe"}
        others = [each for each in standing if (each.target.key, each.field) not in wide]
        with self.made_of(seen.key, seen):
            answer, applied = self._worked_out(seen.request, [*others, *made], self.pins(seen))
        laid = [each for each, _ in applied.applied]
        if any(each in applied.idle or (each.reach != "recipe" and each not in laid) for each in made):
            raise InvalidRequest(
                [Fault("", "The recipe no longer has what this overrules; look at it again.")]
            )
        return answer, applied

    def withdraw(self, save_id: str, overrule_id: int, signed: Signature) -> Version:
        """Take an overrule back, and add the version that stands without it.

        Raises NotFound, PreconditionFailed.
        """
        seen, standing = self._current_of(save_id)
        kept = [each for each in standing if each.id != overrule_id]
        if len(kept) == len(standing):
            raise NotFound("overrule", str(overrule_id))
        with self.made_of(seen.key, seen):
            draft = self._draft(seen.request, kept, "overruled", signed, self.pins(seen))
        with self.database.write() as connection:
            self._still(connection, seen)
            override_records.withdraw(connection, seen.key, overrule_id, signed.by)
            written = self._add(connection, seen.key, draft)
            listing.set_handler(connection, seen.key, draft.signature.handle)
            self._tell(
                connection, "recipe.overruled", written, by=str(draft.signature), withdrawn=overrule_id
            )
        return written

    def decide(
        self,
        save_id: str,
        verdict: Verdict,
        signed: Signature,
        note: str,
        confirmed: Collection[str] = (),
        *,
        seen_verdicts: int | None = None,
    ) -> SignOff:
        """Sign the current version off, or send it back.

        confirmed: pointers of all that was not counted of its sodium, which a signature needs and keeps.
        seen_verdicts: how many verdicts on it the reviewer was shown; None: whatever there are.
        Raises NotFound, PreconditionFailed, DecidedMeanwhile, InvalidRequest.
        """
        with self.database.write() as connection:
            seen = recipes.by_save_id(connection, save_id)
            if seen is None:
                raise NotFound("save", save_id)
            self._still(connection, seen)
            given = recipes.sign_offs_of(connection, save_id)
            if seen_verdicts is not None and len(given) > seen_verdicts:
                raise DecidedMeanwhile(given[0])
            uncounted = kept_signatures.confirmed_gaps(seen, confirmed) if verdict == "signed" else None
            made = recipes.add_sign_off(connection, seen, verdict, signed, note, uncounted=uncounted)
            kind: Kind = "recipe.signed" if verdict == "signed" else "recipe.sent_back"
            told = {"uncounted": uncounted} if uncounted else {}
            event_feed.record(connection, kind, seen, by=str(signed), note=note, **told)
        return made

    def recalculate(self, key: str, share: float, *, keep: bool = True) -> Recalculated:
        """Calculate a recipe again with today's dataset and factors.

        Where sodium per serving moved by more than `share` (0.05 for five percent), or is now known not to
        be complete, a version is added, open for review; where it moved less, what was signed stands. keep
        False: only say what would happen.
        """
        return _until_settled(lambda: self._try_to_recalculate(key, share, keep))

    def _try_to_recalculate(self, key: str, share: float, keep: bool) -> Recalculated:
        with self.database.read() as connection:
            seen = recipes.current(connection, key)
            standing = override_records.in_force(connection, key)
            stale = recipe_uses.is_stale(connection, key)
        if seen is None:
            raise NotFound("recipe", key)
        try:
            with self.made_of(key):
                draft = self._draft(seen.request, standing, "recalculated", RECALCULATION, self.pins(seen))
        except SaltledgerError as fault:
            return Recalculated(key, seen.sodium_mg, None, False, str(fault))
        after_mg = draft.answer["sodium"]["per_serving_mg"]["likely"]
        moved = moved_share(seen.sodium_mg, after_mg) > share or _lost_completeness(seen, draft)
        moved = moved or (stale and matters_above(seen.answer, draft.answer))
        if keep and (moved or stale):
            with self.database.write() as connection:
                self._hold(connection, key, seen)
                if moved:
                    written = self._add(connection, key, draft)
                    self._tell(connection, "recipe.recalculated", written, before_mg=seen.sodium_mg)
                else:
                    self._hold_parts(connection, draft)
                    recipe_uses.mark_fresh(connection, key)
        return Recalculated(key, seen.sodium_mg, after_mg, moved, None)

    def follow(self, key: str, signature: Signature) -> Version | None:
        """Add the version that a recipe makes on the overrules that stand now; None where it is as it was."""
        return _until_settled(lambda: self._try_to_follow(key, signature))

    def _try_to_follow(self, key: str, signature: Signature) -> Version | None:
        with self.database.read() as connection:
            seen = recipes.current(connection, key)
            standing = override_records.in_force(connection, key)
        if seen is None:
            return None
        with self.made_of(key, seen):
            draft = self._draft(seen.request, standing, "overruled", signature, self.pins(seen))
        if draft.overrules == seen.overrules:
            return None
        with self.database.write() as connection:
            self._hold(connection, key, seen)
            written = self._add(connection, key, draft)
            self._tell(connection, "recipe.overruled", written, by=str(signature))
        return written

    def learn(self, key: str, words: str) -> Version | None:
        """Work a recipe out anew that waited for words which are known by now.

        Gives the version that is added where a line found its food, None where none did, or where somebody
        else has seen to it. Raises StoreUnavailable.
        """
        return _until_settled(lambda: self._try_to_learn(key, words))

    def _try_to_learn(self, key: str, words: str) -> Version | None:
        with self.database.read() as connection:
            seen = recipes.current(connection, key)
            standing = override_records.in_force(connection, key)
        draft = None
        if seen is not None:
            try:
                with self.made_of(key):
                    draft = self._draft(seen.request, standing, "recalculated", LOOK_UP, self.pins(seen))
            except SaltledgerError:
                draft = None  # it cannot be worked out today; a save or a recalculation will say why
        with self.database.write() as connection:
            if not second_foods.stop_waiting(connection, key, words) or seen is None or draft is None:
                return None
            if _foods_of(draft.answer) == _foods_of(seen.answer):
                return None
            self._hold(connection, key, seen)
            written = self._add(connection, key, draft)
            self._tell(connection, "recipe.completed", written, words=words, before_mg=seen.sodium_mg)
        return written

    def _current_of(self, save_id: str) -> tuple[Version, list[Overrule]]:
        with self.database.read() as connection:
            seen = recipes.by_save_id(connection, save_id)
            if seen is None:
                raise NotFound("save", save_id)
            self._still(connection, seen)
            return seen, override_records.in_force(connection, seen.key)

    def _still(self, connection: Connection, seen: Version) -> None:
        current = recipes.current(connection, seen.key)
        if current is None or current.save_id != seen.save_id:
            raise PreconditionFailed(seen.key, current)


@dataclass(frozen=True, slots=True)
class Recalculated:
    """What a recalculation found, mg of sodium per serving. after_mg None: `fault` says why it failed."""

    key: str
    before_mg: float
    after_mg: float | None
    moved: bool
    fault: str | None


def moved_share(before_mg: float, after_mg: float) -> float:
    """The change as a share of what it was; infinite where something came of nothing."""
    if before_mg == after_mg:
        return 0.0
    return abs(after_mg - before_mg) / before_mg if before_mg > 0 else math.inf


def _foods_of(answer: Document) -> list[str | None]:
    return [each["food"] and each["food"]["code"] for each in every_food(answer)]


def _until_settled(attempt: Callable[[], T]) -> T:
    for _ in range(ATTEMPTS):
        try:
            return attempt()
        except _Moved:
            continue
    raise StoreUnavailable("others keep changing this recipe")


def _lost_completeness(seen: Version, draft: Draft) -> bool:
    """Whether it is only known now that not all sodium is counted."""
    now_incomplete = draft.answer["sodium"].get("complete") is False
    return now_incomplete and seen.answer["sodium"].get("complete") is not False
