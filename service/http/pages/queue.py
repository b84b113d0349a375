"""The list of the review pages as its query string asks for it: filters, order and place, read strictly.

What a filter says goes along to the pages of single recipes (`list` in their addresses), so that one comes
back to the same list, and goes on to the next recipe of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, get_args
from urllib.parse import parse_qsl, urlencode

from werkzeug.datastructures import MultiDict

from ...core.errors import Fault, InvalidRequest
from ...gate.problem_details import InvalidQuery
from ...store.records import Order, Place, Status, Wanted
from ..routes.saves import place_of
from .review_forms import number_of
from .trade_words import WORDS

ALL = "all"

MOST_SEARCHED = 200
PLACES = ("after", "before")
SAID = ("done", "was")
"""What a page is told by the one before: what was done, and to which version."""


@dataclass(frozen=True, slots=True)
class Queue:
    """A list as it was asked for, each part as it was written; `faults` says what of it cannot stand."""

    search: str = ""
    status: str = "open"
    only: tuple[str, ...] = ()
    above_mg: str = ""
    order: str = "urgency"
    faults: tuple[Fault, ...] = ()

    @property
    def asked(self) -> dict[str, Any]:
        """What differs from the plain list, as the query string has it."""
        plain = Queue()
        names = ("search", "status", "only", "above_mg", "order")
        return {
            name: value for name in names if (value := getattr(self, name)) != getattr(plain, name) and value
        }

    @property
    def words(self) -> list[str]:
        """What it is narrowed to and how it is ordered, for people who do not see the form."""
        shown = WORDS["status"].get(self.status, "All")
        only = [WORDS["only"][each] for each in self.only if each in WORDS["only"]]
        above = [f"Over {self.above_mg} mg"] if self.above_mg else []
        order = [WORDS["order"][self.order]] if self.order in WORDS["order"] else []
        return [shown, *only, *above, *order]

    @property
    def text(self) -> str:
        """The same as one text, for the addresses of other pages."""
        return urlencode(self.asked, doseq=True)

    def wanted(self, handle: str = "") -> Wanted:
        """What the store is asked. handle: whose recipes are "mine"."""
        order: Order = self.order if self.order in get_args(Order) else "urgency"  # type: ignore[assignment]
        status: Status | None = self.status if self.status in WORDS["status"] else None  # type: ignore[assignment]
        return Wanted(
            status=status,
            above_mg=number_of(self.above_mg),
            order=order,
            complete=False if "incomplete" in self.only else None,
            stops="stop" in self.only,
            checks="check" in self.only,
            doubtful="unsure" in self.only,
            changed_since_signing="changed" in self.only,
            stale="stale" in self.only,
            handled_by=(handle or "nobody") if "mine" in self.only else "",
            search=self.search,
        )


def queue_of(given: MultiDict[str, str]) -> Queue:
    """The list that a query string asks for."""
    faults = list(_unknown(given))
    status, order = given.get("status") or "open", given.get("order") or "urgency"
    only = tuple(dict.fromkeys(each for each in given.getlist("only") if each))
    search, above = given.get("search", "").strip(), given.get("above_mg", "").strip()
    if status not in WORDS["status"] and status != ALL:
        faults.append(_no_choice("status", status, [*WORDS["status"].values(), "All"]))
    if order not in WORDS["order"]:
        faults.append(_no_choice("order", order, WORDS["order"].values()))
    faults += [_no_choice("only", each, WORDS["only"].values()) for each in only if each not in WORDS["only"]]
    if above and number_of(above) is None:
        faults.append(Fault("above_mg", f"Found {above[:20]!r}; write a number of mg, such as 600."))
    if len(search) > MOST_SEARCHED:
        faults.append(Fault("search", f"Search for at most {MOST_SEARCHED} characters."))
    return Queue(search[:MOST_SEARCHED], status, only, above[:20], order, tuple(faults))


def queue_in(text: str) -> Queue:
    """The list that the address of another page speaks of; the plain one where it is none of ours."""
    found = queue_of(MultiDict(parse_qsl(text[:2000], keep_blank_values=True, max_num_fields=40)))
    return Queue() if found.faults else found


def place_in(given: Mapping[str, str], wanted: Wanted) -> tuple[Place | None, bool]:
    """Where a page of the list begins, and whether it goes back from there. Raises InvalidRequest."""
    asked = [name for name in PLACES if given.get(name)]
    try:
        return (place_of(given[asked[0]], wanted) if asked else None), asked == ["before"]
    except InvalidQuery as fault:
        message = "This place in the list is not known; begin at the first page."
        raise InvalidRequest([Fault("place", message)]) from fault


def _unknown(given: Iterable[str]) -> Iterable[Fault]:
    known = ("search", "status", "only", "above_mg", "order", *PLACES, *SAID)
    for name in given:
        if name not in known:
            yield Fault("filter", f"There is no filter {name[:40]!r}; use those of the form.")


def _no_choice(field: str, found: str, choices: Iterable[str]) -> Fault:
    return Fault(field, f"Found {found[:40]!r}; choose one of: {', '.join(choices)}.")
