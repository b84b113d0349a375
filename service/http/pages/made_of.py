"""What a review page shows of recipes in recipes: those that one is made of, those made of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ... import store as kept
from ...store.records import Heading, Version
from .trade_words import Below, Inner, component_words

if TYPE_CHECKING:
    from sqlalchemy import Connection

Document = Mapping[str, Any]

MOST_USERS = 50
"""Of the recipes that are made of one, how many its page names."""


@dataclass(frozen=True, slots=True)
class Used:
    """A recipe that is an ingredient, or an ingredient of one. told: what the answer tells of the portion.

    used: the version that was worked in, None where it is no longer kept; now: the recipe as it stands, None
    where it was deleted. depth: 0 for an ingredient of the page's own recipe.
    """

    told: Document
    used: Version | None
    now: Heading | None
    depth: int

    @property
    def title(self) -> str:
        return str(self.told["title"] or self.told["key"])

    @property
    def has_moved(self) -> bool:
        """Whether it is another by now than what was worked in."""
        return self.now is None or self.now.save_id != self.told["save_id"]

    @property
    def words(self) -> dict[str, str]:
        """What its parts are called."""
        return component_words(self.used.request if self.used else {})


def used_by_page(connection: Connection, version: Version) -> tuple[Used, ...]:
    """The recipes that a version is made of, each before those that it is made of in turn."""
    return tuple(_used(connection, version.answer.get("recipes", ()), 0))


def _used(connection: Connection, portions: Iterable[Document], depth: int) -> Iterator[Used]:
    for told in portions:
        used = kept.recipes.by_save_id(connection, told["save_id"])
        # A recipe may have another key by now; its versions went along.
        key = used.key if used else told["key"]
        now = next(iter(kept.recipes.history(connection, key, limit=1)), None)
        yield Used(told, used, now if now and now.state != "deleted" else None, depth)
        yield from _used(connection, told["recipes"], depth + 1)


def below(found: Iterable[Used]) -> Below:
    """The recipes by their keys, for the words of what is assumed in them."""
    return {
        each.told["key"]: Inner(each.title, each.used.request if each.used else {}, each.told["save_id"])
        for each in found
    }


def made_of_this(connection: Connection, key: str) -> tuple[Heading, ...]:
    """The recipes that have this one as an ingredient, by key."""
    keys = kept.recipe_uses.users_of(connection, key)[:MOST_USERS]
    return tuple(kept.recipes.history(connection, each, limit=1)[0] for each in keys)
