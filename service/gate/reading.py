"""Strict reading of JSON, and of documents against schemas: the one gate that all input passes.

Commands use it as the HTTP edge does, so a file and a request are refused for the same reasons.
"""

from __future__ import annotations

import json
import re
from codecs import BOM_UTF8
from collections import Counter, deque
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from itertools import count
from typing import Any, cast

from marshmallow import Schema, ValidationError

from ..core.errors import Fault, InvalidRequest

MOST_FAULTS = 50
"""Faults given in one answer; beyond that a reader mends these first."""

MOST_OBJECTS = 50_000
"""Objects in one document: more than the largest that any route takes."""

_SURROGATE = re.compile(rb"\\u[dD][89a-fA-F]")


class MalformedJson(InvalidRequest):
    """Bytes that are not one JSON document in UTF-8."""


def parse_json(body: bytes) -> Any:
    """The JSON document in `body`; a byte order mark before it is let be (RFC 8259, 8.1).

    Raises MalformedJson: not UTF-8, not JSON, NaN or Infinity, a name twice in one object, half a
    surrogate pair, nesting too deep, or nothing at all.
    """
    if not body.strip():
        raise _malformed("Found nothing, wanted one JSON document; send it as the body.")
    body = body.removeprefix(BOM_UTF8)
    constants: list[_Constant] = []
    try:
        text = body.decode("utf-8")
        document = json.loads(text, object_pairs_hook=_objects(), parse_constant=_noted(constants))
    except UnicodeDecodeError as fault:
        raise _malformed(
            f"Byte {fault.start} (0x{body[fault.start]:02x}) is not valid UTF-8; encode the text as UTF-8."
        ) from fault
    except json.JSONDecodeError as fault:
        raise _malformed(
            f"This is not JSON: {fault.msg}, at line {fault.lineno}, column {fault.colno}; mend it there."
        ) from fault
    except RecursionError as fault:
        raise _malformed(
            "Objects and lists are nested too deep; send the flat document of the API."
        ) from fault
    except _Refused as fault:
        raise _malformed(str(fault)) from fault
    except ValueError as fault:
        raise _malformed("A number has too many digits; write it with at most 300.") from fault
    if constants:
        raise MalformedJson(_constant_faults(document))
    if _SURROGATE.search(body):
        _refuse_half_pairs(document)
    return document


def load(schema: Schema, document: Any) -> dict[str, Any]:
    """`document` checked and normalised by `schema`.

    Raises InvalidRequest with the faults found, each with its JSON Pointer.
    """
    try:
        return cast(dict[str, Any], schema.load(document))
    except ValidationError as error:
        raise InvalidRequest(faults_of(error.messages)) from error


def faults_of(messages: Any, pointer: str = "") -> list[Fault]:
    """The faults in a tree of schema messages, at most MOST_FAULTS and a last one that says how many more."""
    faults = list(_walk(messages, pointer))
    more = len(faults) - MOST_FAULTS
    if more <= 0:
        return faults
    return [
        *faults[:MOST_FAULTS],
        Fault(pointer, f"There are {more} more faults; mend these and send again."),
    ]


def pointer_to(*parts: str | int) -> str:
    """The JSON Pointer (RFC 6901) along `parts`."""
    return "".join(f"/{str(part).replace('~', '~0').replace('/', '~1')}" for part in parts)


def _walk(messages: Any, pointer: str) -> Iterator[Fault]:
    if isinstance(messages, Mapping):
        for key, below in messages.items():
            # "_schema" is where a rule over the whole object reports.
            yield from _walk(below, pointer if key == "_schema" else pointer + pointer_to(key))
    elif isinstance(messages, list | tuple):
        for each in messages:
            yield from _walk(each, pointer)
    else:
        yield Fault(pointer, str(messages))


class _Refused(ValueError):
    """A document that the parser reads but that means nothing certain."""


def _objects() -> Callable[[list[tuple[str, Any]]], dict[str, Any]]:
    """What makes the objects of one document, and refuses a name that stands twice, or a flood."""
    made = count()

    def make(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        if next(made) >= MOST_OBJECTS:
            raise _Refused(f"The document has more than {MOST_OBJECTS:,} objects; split the request.")
        if len(document := dict(pairs)) < len(pairs):
            names = Counter(name for name, _ in pairs)
            twice = next(name for name, times in names.items() if times > 1)
            raise _Refused(f'The name "{twice[:80]}" stands twice in one object; keep one of them.')
        return document

    return make


@dataclass(frozen=True, slots=True)
class _Constant:
    """NaN, Infinity or -Infinity where a number should stand."""

    name: str


def _noted(constants: list[_Constant]) -> Callable[[str], _Constant]:
    """What stands in for a constant, so that the fault can say where it was."""

    def note(name: str) -> _Constant:
        constants.append(_Constant(name))
        return constants[-1]

    return note


def _constant_faults(document: Any) -> list[Fault]:
    """A fault for each constant of a document, at its place; at most MOST_FAULTS."""
    faults: list[Fault] = []
    waiting: deque[tuple[str, Any]] = deque([("", document)])
    while waiting and len(faults) < MOST_FAULTS:
        pointer, each = waiting.popleft()
        if isinstance(each, _Constant):
            message = (
                f"Found {each.name}, which is not JSON; numbers are finite, leave the field out instead."
            )
            faults.append(Fault(pointer, message))
        elif isinstance(each, dict):
            waiting += [(pointer + pointer_to(key), value) for key, value in each.items()]
        elif isinstance(each, list):
            waiting += [(pointer + pointer_to(at), value) for at, value in enumerate(each)]
    return faults


def _refuse_half_pairs(document: Any) -> None:
    try:
        json.dumps(document, ensure_ascii=False).encode("utf-8")
    except UnicodeEncodeError as fault:
        raise _malformed(
            "The text holds half of a surrogate pair (\\ud800 to \\udfff), which is no character; "
            "write the character itself in UTF-8."
        ) from fault


def _malformed(message: str) -> MalformedJson:
    return MalformedJson([Fault("", message)])
