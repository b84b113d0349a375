"""`saltledger foods`: foods of the second source that an operator looked at and keeps."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

import click

from ..config import Settings
from ..core.errors import SaltledgerError
from .admin import opened

if TYPE_CHECKING:
    from ..foods.remote.client import FoodDataCentral
    from ..foods.remote.kept import KeptFood

FETCHED_AT_ONCE = 20


@click.group()
def foods() -> None:
    """Fetch, keep and drop foods of the second source, USDA FoodData Central.

    Kept foods are used where SALTLEDGER_REMOTE_FOODS is kept or ask; SALTLEDGER_REMOTE_FOODS_KEY is the key.
    """


@foods.command()
@click.argument("query")
@click.option("--keep", "codes", multiple=True, metavar="CODE", help="Keep this food; may be given again.")
def fetch(query: str, codes: tuple[str, ...]) -> None:
    """Show the foods that fit QUERY, and keep those that are named by --keep."""
    found = {each.code: each for each in _asked(lambda source: source.find(query))}
    for each in found.values():
        click.echo(_told(each))
    if not found:
        click.echo("FoodData Central has no food with these words that can be used.", err=True)
    if missing := [code for code in codes if code not in found]:
        raise click.ClickException(f"{', '.join(missing)} is not among what was found; nothing was kept.")
    _keep([found[code] for code in codes])


@foods.command()
@click.option("--dry-run", is_flag=True, help="Only say what would change.")
def sync(dry_run: bool) -> None:
    """Fetch every kept food anew, and keep the releases of today.

    Saved recipes stay on the releases that they rest on until they are saved again.
    """
    from ..store import second_foods

    with opened() as database, database.read() as connection:
        standing = {each.food.code: each for each in second_foods.standing(connection)}
    fresh = _asked(lambda source: _all(source, list(standing)))
    changed = [each for each in fresh if each.sha256 != standing[each.code].food.sha256]
    for each in changed:
        click.echo(_difference(standing[each.code].food, each))
    gone = [code for code in standing if code not in {each.code for each in fresh}]
    for code in gone:
        click.echo(f"{code}: no longer given, or no longer usable; the kept one stays.", err=True)
    if not dry_run:
        with opened() as database, database.write() as connection:
            for each in changed:
                second_foods.keep(connection, [each], standing[each.code].role)
    verb = "would change" if dry_run else "changed"
    click.echo(f"{len(standing)} kept, {len(changed)} {verb}, {len(gone)} not given.", err=True)


@foods.command("list")
def list_foods() -> None:
    """List the foods that are kept."""
    from ..store import second_foods

    with opened() as database, database.read() as connection:
        for each in second_foods.standing(connection):
            click.echo(f"{each.role:<8} {_told(each.food)}")


@foods.command()
@click.argument("code")
def drop(code: str) -> None:
    """Keep the food CODE no longer; recipes that rest on it keep what they have."""
    from ..store import second_foods

    with opened() as database, database.write() as connection:
        if not second_foods.drop(connection, code):
            raise click.ClickException(f"{code} is not kept; see `saltledger foods list`.")
    click.echo(f"Dropped {code}.")


def _asked(ask: Callable[[FoodDataCentral], Iterable[KeptFood]]) -> list[KeptFood]:
    """What asking the second source gives, its faults in plain words."""
    from ..jobs.second_source import make_source

    settings = Settings.from_environment()
    if not settings.remote_foods_key:
        raise click.ClickException(
            "SALTLEDGER_REMOTE_FOODS_KEY is not set; data.gov gives keys, and FoodData Central asks for one."
        )
    try:
        source = make_source(settings)
        with source.session:
            return list(ask(source))
    except SaltledgerError as fault:
        raise click.ClickException(str(fault)) from fault


def _all(source: FoodDataCentral, codes: Sequence[str]) -> Iterable[KeptFood]:
    for start in range(0, len(codes), FETCHED_AT_ONCE):
        yield from source.fetch(codes[start : start + FETCHED_AT_ONCE], anew=True)


def _keep(chosen: Sequence[KeptFood]) -> None:
    from ..store import second_foods

    if not chosen:
        return
    with opened() as database, database.write() as connection:
        second_foods.keep(connection, chosen, "matched")
    click.echo(f"Kept {', '.join(each.code for each in chosen)}.", err=True)


def _told(food: KeptFood) -> str:
    refused = f"; left out: {'; '.join(food.refused)}" if food.refused else ""
    sodium = f"{food.per_100g['NA']:g} mg sodium in 100 g"
    return f"{food.code}  {sodium}  {food.kind}, {food.published}  {food.name}{refused}"


def _difference(old: KeptFood, new: KeptFood) -> str:
    tags = sorted(old.per_100g.keys() | new.per_100g.keys())
    moved = [tag for tag in tags if old.per_100g.get(tag) != new.per_100g.get(tag)]
    figures = ", ".join(f"{tag} {old.per_100g.get(tag)} -> {new.per_100g.get(tag)}" for tag in moved[:6])
    more = f" and {len(moved) - 6} more" if len(moved) > 6 else ""
    return f"{new.code} {new.name}: {figures or 'its description or measures'}{more}"
