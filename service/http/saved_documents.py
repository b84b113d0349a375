"""Saved versions, and their differences, in the words of the API."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import asdict
from functools import partial
from typing import Any
from urllib.parse import quote

from ..core.documents import figure
from ..method.prose_documents import WISHES
from ..review.causes import Side, causes, explained
from ..review.difference import Difference, difference
from ..store.records import Heading, Version
from .stores import workbench


def as_sent(request: Mapping[str, Any]) -> dict[str, Any]:
    """A kept recipe in the form in which it may be sent again: one in prose in prose."""
    if "written" not in request:
        return dict(request)
    return {**request["written"], **{key: request[key] for key in WISHES if key in request}}


def version_document(version: Version) -> dict[str, Any]:
    """A version as the API gives it: only what never changes, so that its ETag always holds."""
    return {
        "key": version.key,
        "version": version.number,
        "save_id": version.save_id,
        "cause": version.cause,
        "saved_by": version.saved_by,
        "created_at": version.created_at,
        "review": review_path(version.save_id),
        "recipe": as_sent(version.request),
        "overrules": list(version.overrules),
        "calculation": version.answer,
    }


def heading_document(heading: Heading) -> dict[str, Any]:
    """A version as lists give it."""
    return {
        "key": heading.key,
        "title": heading.title,
        "version": heading.number,
        "save_id": heading.save_id,
        "calculation_id": heading.calculation_id,
        "sodium_per_serving_mg": heading.sodium_mg,
        "sodium_low_mg": heading.low_mg,
        "sodium_high_mg": heading.high_mg,
        "complete": heading.complete,
        "status": heading.status,
        "state": heading.state,
        "stops": heading.stops,
        "checks": heading.checks,
        "doubtful_mg_per_serving": heading.doubtful_mg,
        "changed_since_signing": heading.changed_since_signing,
        "stale": heading.stale,
        "cause": heading.cause,
        "saved_by": heading.saved_by,
        "created_at": heading.created_at,
        "review": review_path(heading.save_id),
    }


MOST_COMPARED = 512
_compared: OrderedDict[tuple[str, str], Difference] = OrderedDict()
"""Differences that were worked out: versions never change."""


def compare(older: Version, newer: Version) -> Difference:
    """The difference between two versions, cause by cause."""
    names = (older.save_id, newer.save_id)
    if names not in _compared:
        _compared[names] = _compare(older, newer)
        if len(_compared) > MOST_COMPARED:
            _compared.popitem(last=False)
    return _compared[names]


def _compare(older: Version, newer: Version) -> Difference:
    bench = workbench()
    steps = (older.request.get("steps", ()), newer.request.get("steps", ()))
    found = difference(older.answer, newer.answer, steps)
    data = {(each.dataset_sha256, each.factors_sha256) for each in (older, newer)}
    before, after = (Side(each.request, each.overrules, each.answer) for each in (older, newer))
    same_data = data == {(newer.dataset_sha256, bench.factors_sha256)}
    told = causes(
        before,
        after,
        partial(bench.worked_out_like, newer),
        same_data=same_data,
        as_before=partial(bench.worked_out_like, older),
    )
    return explained(found, before, after, told)


def difference_document(found: Difference) -> dict[str, Any]:
    """A difference as the API gives it, its figures cut to the digits of an answer."""
    document = {**asdict(found), "moved_mg": found.moved_mg}
    for cause in document["causes"]:
        del cause["pair"]
    return {key: _figures(value) for key, value in document.items()}


def review_path(save_id: str) -> str:
    """Where the page of a version is."""
    return f"/review/{quote(save_id)}"


def _figures(value: Any) -> Any:
    match value:
        case float():
            return figure(value)
        case dict():
            return {key: _figures(item) for key, item in value.items()}
        case list() | tuple():
            return [_figures(item) for item in value]
        case _:
            return value
