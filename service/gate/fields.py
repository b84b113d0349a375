"""Strict marshmallow fields: nothing is converted, and every refusal says found, wanted and the remedy.

Each field also says what it accepts as JSON Schema, next to the check itself, for the API description.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from typing import Any

from marshmallow import ValidationError, fields
from rapidfuzz.fuzz import ratio
from rapidfuzz.process import extractOne

from .suggestions import by_another_word

MOST_NAMES = 200
"""Names in one object: more than any schema has, so that a flood of unknown names is refused at once."""

Accept = Callable[[Any], Any]
"""What lets a right value through as `deserialize` does, and raises ValidationError for any other."""

_CONTROLS = "\x00-\x08\x0b\x0c\x0e-\x1f\x7f"
_PLAIN = r"^[^\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]*$"
_NOT_PLAIN = re.compile(f"[{_CONTROLS}]")


def shown(value: Any) -> str:
    """A found value in words, short enough for a message."""
    match value:
        case None | bool():
            return json.dumps(value)
        case str():
            return (
                f'the text "{value}"'
                if len(value) <= 40
                else f'the text "{value[:40]}…" ({len(value)} characters)'
            )
        case int() | float():
            return f"the number {value:.6g}" if -1e300 < value < 1e300 else "a number that is too large"
        case list():
            return f"a list of {len(value)}"
    return "an object"


def said(description: str, **more: Any) -> dict[str, Any]:
    """Metadata of a field: what it means, for the API description."""
    return {"description": description, **more}


class StrictField(fields.Field):  # type: ignore[type-arg]
    """What the fields here share: `wanted` and `remedy` complete every message."""

    wanted = "a value"
    remedy = "see the API description"
    default_error_messages = {
        "required": "This field is missing; add it: {wanted}.",
        "null": "Found null, wanted {wanted}; leave the field out where there is nothing to say.",
        "invalid": "Found {found}, wanted {wanted}; {remedy}.",
    }

    def make_error(self, key: str, **kwargs: Any) -> ValidationError:
        return super().make_error(key, **{"wanted": self.wanted, "remedy": self.remedy, **kwargs})

    def refuse(self, value: Any) -> ValidationError:
        """The error for a value that is not what is wanted."""
        return self.make_error("invalid", found=shown(value))

    def acceptor(self) -> Accept:
        """The field as a plain function."""
        if self.validators or self.allow_none:
            return self.deserialize
        check = self._deserialize
        return lambda value: check(value, None, None)

    def json_schema(self) -> dict[str, Any]:
        """What the field accepts, beyond what its base class and its metadata say."""
        return {}


def acceptor_of(field: fields.Field[Any]) -> Accept:
    """A field as a plain function; one that is not of ours as marshmallow has it."""
    return field.acceptor() if isinstance(field, StrictField) else field.deserialize


class Text(StrictField, fields.String):
    """Text of at most `most` characters, no control characters; `blank`: whether it may be empty."""

    remedy = "put it in quotation marks"
    default_error_messages = {
        "blank": "Found text with nothing in it, wanted {wanted}; write something or leave the field out.",
        "long": "Found {found} characters, wanted at most {most}; shorten it.",
        "controls": "Found the control character U+{found:04X}, wanted plain text; take it out.",
    }

    def __init__(self, *, most: int, blank: bool = False, wanted: str = "text", **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.most, self.blank, self.wanted = most, blank, wanted

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> str:
        if not isinstance(value, str):
            raise self.refuse(value)
        if len(value) > self.most:
            raise self.make_error("long", found=len(value), most=self.most)
        if not self.blank and not value.strip():
            raise self.make_error("blank")
        if control := _NOT_PLAIN.search(value):
            raise self.make_error("controls", found=ord(control[0]))
        return value

    def json_schema(self) -> dict[str, Any]:
        return {"minLength": 0 if self.blank else 1, "maxLength": self.most, "pattern": _PLAIN}


class Name(Text):
    """A short name that other parts of the document use: letters, digits and . _ - only."""

    pattern = r"^[A-Za-z0-9][A-Za-z0-9._-]*$"
    remedy = "use letters, digits, dot, underscore and hyphen, a letter or digit first"

    def __init__(self, *, most: int = 64, wanted: str = "a name", **kwargs: Any) -> None:
        super().__init__(most=most, wanted=wanted, **kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> str:
        text = super()._deserialize(value, attr, data, **kwargs)
        if not re.fullmatch(self.pattern, text):
            raise self.refuse(value)
        return text

    def json_schema(self) -> dict[str, Any]:
        return {**super().json_schema(), "pattern": self.pattern}


class Choice(StrictField, fields.String):
    """One of a few words."""

    def __init__(self, choices: tuple[str, ...], **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.choices = choices
        self.wanted = f"one of {', '.join(choices)}"
        self.remedy = "choose one of these"

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> str:
        if not isinstance(value, str) or value not in self.choices:
            raise self.refuse(value)
        return value

    def refuse(self, value: Any) -> ValidationError:
        meant = by_another_word(value[:40], self.choices) if isinstance(value, str) else None
        if meant is None:
            return super().refuse(value)
        return self.make_error("invalid", found=shown(value), remedy=f'write "{meant}"')

    def json_schema(self) -> dict[str, Any]:
        return {"enum": list(self.choices)}


class Number(StrictField, fields.Float):
    """A finite JSON number from `least` to `most`.

    A number without a fraction comes out as an int, so that 8 and 8.0 are one request.
    """

    remedy = "write it without quotation marks and inside this range"

    def __init__(self, least: float, most: float, *, unit: str = "", **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.least, self.most = least, most
        self.wanted = f"a number from {least:,g} to {most:,.10g}{unit and ' ' + unit}"

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.refuse(value)
        if not self.least <= value <= self.most:
            raise self.refuse(value)
        return int(value) if float(value).is_integer() else float(value)

    def json_schema(self) -> dict[str, Any]:
        return {"minimum": self.least, "maximum": self.most}


class Whole(StrictField, fields.Integer):
    """A whole JSON number from `least` to `most`; 3.0 is one."""

    remedy = "write a whole number without quotation marks"

    def __init__(self, least: int, most: int, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.least, self.most = least, most
        self.wanted = f"a whole number from {least} to {most}"

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> int:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.refuse(value)
        if not self.least <= value <= self.most or not float(value).is_integer():
            raise self.refuse(value)
        return int(value)

    def json_schema(self) -> dict[str, Any]:
        return {"minimum": self.least, "maximum": self.most}


class QueryWhole(Whole):
    """A whole number in a query string, in digits."""

    remedy = "write it in digits"

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> int:
        if not isinstance(value, str) or not re.fullmatch(r"[0-9]{1,9}", value):
            raise self.refuse(value)
        return super()._deserialize(int(value), attr, data, **kwargs)


class Flag(StrictField, fields.Boolean):
    """true or false, nothing that merely looks like it."""

    wanted = "true or false"
    remedy = "write it without quotation marks"

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> bool:
        if not isinstance(value, bool):
            raise self.refuse(value)
        return value


class QueryFlag(Flag):
    """true or false in a query string."""

    remedy = "write true or false in small letters"

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> bool:
        if value not in ("true", "false"):
            raise self.refuse(value)
        return bool(value == "true")


class Several(StrictField, fields.List):  # type: ignore[type-arg]
    """A list of `least` to `most`; its length is checked before its items are looked at."""

    default_error_messages = {
        "few": "Found a list of {found}, wanted at least {least}; add what is missing.",
        "many": "Found a list of {found}, wanted at most {most}; split the request.",
    }

    def __init__(self, inner: fields.Field[Any], *, least: int = 0, most: int, **kwargs: Any) -> None:
        super().__init__(inner, **kwargs)
        self.least, self.most = least, most
        self.wanted = f"a list of {least or 'at most'}{' to ' if least else ' '}{most}"
        self.remedy = "put the items in square brackets"

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> list[Any]:
        self._check(value)
        return super()._deserialize(value, attr, data, **kwargs)

    def acceptor(self) -> Accept:
        accept = acceptor_of(self.inner)

        def accept_all(value: Any) -> list[Any]:
            self._check(value)
            return [accept(each) for each in value]

        return accept_all

    def _check(self, value: Any) -> None:
        if not isinstance(value, list):
            raise self.refuse(value)
        if len(value) > self.most:
            raise self.make_error("many", found=len(value), most=self.most)
        if len(value) < self.least:
            raise self.make_error("few", found=len(value), least=self.least)

    def json_schema(self) -> dict[str, Any]:
        return {**({"minItems": self.least} if self.least else {}), "maxItems": self.most}


class Part(StrictField, fields.Nested):
    """An object with a schema of its own."""

    wanted = "an object"
    remedy = "put its fields in braces"

    def _deserialize(
        self, value: Any, attr: str | None, data: Any, partial: Any = None, **kwargs: Any
    ) -> Any:
        self._check(value)
        return super()._deserialize(value, attr, data, partial, **kwargs)

    def acceptor(self) -> Accept:
        load = self.schema.load

        def accept(value: Any) -> Any:
            self._check(value)
            return load(value)

        return accept

    def _check(self, value: Any) -> None:
        if not isinstance(value, dict):
            raise self.refuse(value)


class TextOr(StrictField):
    """Text, or else what `other` accepts: a short form and a long form of one thing."""

    def __init__(self, text: Text, other: Part | Several, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.text, self.other = text, other
        self.wanted = f"{text.wanted} or {other.wanted}"

    def _bind_to_schema(self, field_name: str, parent: Any) -> None:
        super()._bind_to_schema(field_name, parent)
        for form in (self.text, self.other):
            form._bind_to_schema(field_name, self)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if isinstance(value, str):
            return self.text.deserialize(value, attr, data, **kwargs)
        if isinstance(value, list if isinstance(self.other, Several) else dict):
            return self.other.deserialize(value, attr, data, **kwargs)
        raise self.refuse(value)

    def acceptor(self) -> Accept:
        text, other = acceptor_of(self.text), acceptor_of(self.other)
        return lambda value: text(value) if isinstance(value, str) else other(value)


class Amounts(StrictField, fields.Dict):
    """An object of numbers by a name out of a known set."""

    default_error_messages = {
        "unknown": 'There is no "{name}" here{hint}',
        "many": "Found {found} names, wanted at most {most}; send known names only.",
    }

    def __init__(self, value: Number, names: Mapping[str, str], **kwargs: Any) -> None:
        """names: each accepted name and what it means."""
        super().__init__(values=value, **kwargs)
        self.value, self.names = value, names
        self.wanted, self.remedy = "an object of numbers", "put them in braces, each behind its name"

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> dict[str, float]:
        if not isinstance(value, dict):
            raise self.refuse(value)
        if len(value) > MOST_NAMES:
            raise self.make_error("many", found=len(value), most=len(self.names))
        faults: dict[str, Any] = {}
        made = {}
        for name, amount in value.items():
            try:
                made[name] = self._one(name, amount)
            except ValidationError as fault:
                faults[name] = fault.messages
        if faults:
            raise ValidationError(faults)
        return made

    def _one(self, name: str, amount: Any) -> float:
        if name not in self.names:
            raise self.make_error("unknown", name=name[:40], hint=nearest(name, self.names))
        return float(self.value.deserialize(amount))

    def json_schema(self) -> dict[str, Any]:
        return {"propertyNames": {"enum": list(self.names)}}


def nearest(name: str, known: Mapping[str, Any]) -> str:
    """A hint, to end a message: at the known name that is most like `name`, or at the whole choice."""
    listed = list(known)
    if not listed:
        return "; take it out."
    if near := extractOne(name[:40], listed, scorer=ratio, score_cutoff=60):
        return f"; did you mean {near[0]}?"
    some = ", ".join(listed[:30]) + (", …" if len(listed) > 30 else "")
    return f"; take it out, or use one of: {some}."
