"""Objects in requests: unknown fields refused by name, right ones accepted without further ado.

marshmallow goes over a schema anew for each document, ready to say of all of it what is wrong. Here documents
pass through plain functions, made once of the very fields and rules; at the first fault marshmallow takes
over and names them all. What is no field or rule of ours is marshmallow's from the start.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import Any

from marshmallow import RAISE, Schema, ValidationError, missing, pre_load
from marshmallow.decorators import POST_LOAD, PRE_LOAD, VALIDATES, VALIDATES_SCHEMA

from .fields import MOST_NAMES, Accept, acceptor_of, nearest, shown
from .suggestions import by_another_name, in_another_unit

_FLOOD = "not_a_flood"


class StrictSchema(Schema):
    """An object whose unknown fields are refused by name. forms: schemas of other forms that it may have; an
    unknown name may mean one of theirs."""

    forms: tuple[type[StrictSchema], ...] = ()

    class Meta:
        unknown = RAISE

    error_messages = {"type": "Found something else, wanted an object; put the fields in braces."}

    @pre_load
    def not_a_flood(self, data: Any, **kwargs: Any) -> Any:
        """Refuse at once what has more names than any schema knows."""
        if isinstance(data, Mapping) and len(data) > MOST_NAMES:
            raise ValidationError(
                f"Found {len(data)} fields, wanted at most {MOST_NAMES}; send known fields only."
            )
        return data

    def handle_error(self, error: ValidationError, data: Any, *, many: bool, **kwargs: Any) -> None:
        """Say which names are known, and put the faults in a steady order: the schema's, then the data's."""
        if not isinstance(data, Mapping):
            error.messages = [f"Found {shown(data)}, wanted an object; put the fields in braces."]
            return
        messages = error.normalized_messages()  # type: ignore[no-untyped-call]
        of_forms = {name: None for form in self.forms for name in form().known_names}
        may_be = {**self.known_names, **of_forms}
        ordered = {name: messages[name] for name in (*self.known_names, "_schema") if name in messages}
        for name in data:
            if name in messages and name not in self.known_names:
                hint = (
                    by_another_name(name, may_be)
                    or in_another_unit(name, may_be, data[name])
                    or nearest(name, may_be)
                )
                ordered[name] = [f"There is no such field here{hint}"]
        error.messages = ordered

    def load(self, data: Any, **kwargs: Any) -> Any:
        """As marshmallow does, and quicker where nothing is wrong. Raises ValidationError."""
        if self._accept is not None and not kwargs and type(data) is dict:
            try:
                return self._accept(data)
            except ValidationError:
                pass
        return super().load(data, **kwargs)

    @cached_property
    def _accept(self) -> Accept | None:
        return _acceptor(self)

    @property
    def known_names(self) -> dict[str, Any]:
        return {each.data_key or name: each for name, each in self.load_fields.items()}


def _acceptor(schema: StrictSchema) -> Accept | None:
    """A schema as a plain function; None where it has hooks that see more than what was read."""
    hooks = schema._hooks
    own = [*hooks[VALIDATES_SCHEMA], *hooks[POST_LOAD]]
    others = [name for name, *_ in (*hooks[PRE_LOAD], *hooks[VALIDATES]) if name != _FLOOD]
    if others or any(many or options.get("pass_original") for _, many, options in own):
        return None
    fields = [
        (each.data_key or name, each.attribute or name, acceptor_of(each), each.required, each.load_default)
        for name, each in schema.load_fields.items()
    ]
    rules = [getattr(schema, name) for name, *_ in hooks[VALIDATES_SCHEMA]]
    endings = [getattr(schema, name) for name, *_ in hooks[POST_LOAD]]

    def accept(data: dict[str, Any]) -> Any:
        made, left = {}, len(data)
        for name, attribute, take, required, default in fields:
            if name in data:
                made[attribute] = take(data[name])
                left -= 1
            elif required:
                raise ValidationError("")
            elif default is not missing:
                made[attribute] = default
        if left:
            raise ValidationError("")
        for rule in rules:
            rule(made)
        result: Any = made
        for ending in endings:
            result = ending(result)
        return result

    return accept
