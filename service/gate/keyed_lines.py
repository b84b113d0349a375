"""Lines of many recipes: a recipe alone, or one with the key that the caller has for it."""

from __future__ import annotations

from typing import Any

from ..core.errors import Fault, InvalidRequest
from .fields import Part, Text, said
from .reading import load
from .recipe_schema import RecipeSchema
from .strict_schema import StrictSchema

MOST_KEY_CHARACTERS = 200


class KeyedLineSchema(StrictSchema):
    """A recipe with its key."""

    key = Text(most=MOST_KEY_CHARACTERS, required=True, wanted="a key", metadata=said("Your own key."))
    recipe = Part(RecipeSchema, required=True, metadata=said("The recipe, in either form."))


_recipe, _keyed = RecipeSchema(), KeyedLineSchema()


def key_in(document: Any) -> str | None:
    """The key that a line gives, whatever else is wrong with it; None where it gives a recipe alone."""
    found = document.get("key") if isinstance(document, dict) and "recipe" in document else None
    return found if isinstance(found, str) else None


def recipe_in(document: Any) -> dict[str, Any]:
    """The recipe of a line. Raises InvalidRequest."""
    if isinstance(document, dict) and "recipe" in document:
        return dict(load(_keyed, document)["recipe"])
    return load(_recipe, document)


def check_key(key: str, pointer: str = "") -> None:
    """Raises InvalidRequest where a key cannot be kept, or no address could lead to it."""
    is_addressable = "/" not in key and key not in (".", "..")
    if not key.strip() or len(key) > MOST_KEY_CHARACTERS or not key.isprintable() or not is_addressable:
        message = (
            f"A key is 1 to {MOST_KEY_CHARACTERS} printable characters without a slash, and no point alone."
        )
        raise InvalidRequest([Fault(pointer, message)])
