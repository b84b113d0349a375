"""Every error a caller can cause or see, below one root. Texts are built here, from stored facts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with a request.

    pointer: a JSON Pointer (RFC 6901) into the request, "" for the whole of it.
    message: what was found, what was wanted, what to do.
    """

    pointer: str
    message: str


class SaltledgerError(Exception):
    """The root of all errors that this service raises on purpose."""


class InvalidRequest(SaltledgerError):
    """A request that was understood as JSON but cannot be answered; carries every fault found."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__(self.faults)

    def __str__(self) -> str:
        return "; ".join(f"{fault.pointer or '(request)'}: {fault.message}" for fault in self.faults)


class Faults(list[Fault]):
    """The faults of a request as they are found, so that all of them are told at once."""

    def add(self, pointer: str, message: str) -> None:
        self.append(Fault(pointer, message))

    @contextmanager
    def below(self, pointer: str) -> Iterator[None]:
        """Keeps what is refused inside, each fault with its pointer below `pointer`, and goes on behind."""
        try:
            yield
        except InvalidRequest as refused:
            self.extend(Fault(pointer + fault.pointer, fault.message) for fault in refused.faults)

    def refuse(self) -> None:
        """Raises InvalidRequest with every fault, where there is one."""
        if self:
            raise InvalidRequest(self)


@contextmanager
def pointing_below(pointer: str) -> Iterator[None]:
    """Raises what is refused inside with the pointers of its faults below `pointer`."""
    faults = Faults()
    with faults.below(pointer):
        yield
    faults.refuse()


class NotFound(SaltledgerError):
    """Something named by the caller does not exist."""

    def __init__(self, kind: str, key: str) -> None:
        self.kind = kind
        self.key = key
        super().__init__(kind, key)

    def __str__(self) -> str:
        return f"There is no {self.kind} {self.key!r}."


class BrokenTable(SaltledgerError):
    """A bundled table breaks its own rules: our bug, found when it is loaded, never the caller's."""

    def __init__(self, table: str, row: int, message: str) -> None:
        self.table = table
        self.row = row
        self.message = message
        super().__init__(table, row, message)

    def __str__(self) -> str:
        return f"{self.table}, row {self.row}: {self.message}"


class StoreUnavailable(SaltledgerError):
    """The database could not be reached or stayed busy; the request may be sent again."""

    def __init__(self, reason: str) -> None:
        self.reason = reason
        super().__init__(reason)

    def __str__(self) -> str:
        return f"The store is not available just now ({self.reason}). Nothing was saved; send it again."
