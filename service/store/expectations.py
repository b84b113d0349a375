"""What a caller expects to find before a change, and how it is told that something else stands there."""

from __future__ import annotations

from dataclasses import dataclass

from ..core.errors import SaltledgerError
from .records import SignOff, Version


class PreconditionFailed(SaltledgerError):
    """The recipe is not in the state that the caller named; `current` is the version that stands, if any."""

    def __init__(self, key: str, current: Version | None) -> None:
        self.key = key
        self.current = current
        super().__init__(key)

    def __str__(self) -> str:
        if self.current is None:
            return f"Nothing is saved under {self.key!r}; leave If-Match out, or send If-None-Match: *."
        return (
            f"Version {self.current.number} of {self.key!r}, by {self.current.saved_by}, is newer than what "
            f'you have; its ETag is "{self.current.etag}". Read it, join your change to it, and send that.'
        )


class DecidedMeanwhile(SaltledgerError):
    """Somebody decided on the version after the caller looked at it; `last` is the newest verdict."""

    def __init__(self, last: SignOff) -> None:
        self.last = last
        super().__init__(last.verdict)

    def __str__(self) -> str:
        done = "signed off" if self.last.verdict == "signed" else "sent back"
        return f"This version was {done} meanwhile by {self.last.by.beside(self.last.name)}."


class PreconditionRequired(SaltledgerError):
    """The service was told to accept a change only from a caller who says what is changed."""

    def __str__(self) -> str:
        return "This recipe exists; send If-Match with the ETag of the version that you change."


@dataclass(frozen=True, slots=True)
class Condition:
    """What a caller expects. match: entity tags of which one must be current, "*" for any that exists;
    absent: nothing may be saved under the key yet; unlike: entity tags of which none may be current;
    required: a change must come with `match`."""

    match: frozenset[str] | None = None
    absent: bool = False
    unlike: frozenset[str] = frozenset()
    required: bool = False

    def check(self, key: str, current: Version | None) -> None:
        """Raises PreconditionFailed or PreconditionRequired."""
        if current is not None and (self.absent or current.etag in self.unlike):
            raise PreconditionFailed(key, current)
        if self.match is not None and not self._matches(current):
            raise PreconditionFailed(key, current)
        if self.required and self.match is None and current is not None:
            raise PreconditionRequired

    def _matches(self, current: Version | None) -> bool:
        return current is not None and bool(self.match) and bool({"*", current.etag} & (self.match or set()))
