"""`saltledger read`: a recipe as it is written, its method marked with what each phrase became."""

from __future__ import annotations

from typing import IO, Any

import click


@click.command()
@click.argument("file", type=click.File("rb"))
@click.option("--json", "as_json", is_flag=True, help="Give the reading as JSON, as POST /v1/readings does.")
def read(file: IO[bytes], as_json: bool) -> None:
    """Read the recipe in FILE: lines and method, or a schema.org/Recipe; - reads standard input.

    Exits with 2 where the recipe has faults.
    """
    from ..render.readings import reading_lines
    from .cli import echo_json
    from .refusing import refusals

    with refusals():
        reading = _reading(file.read())
    if as_json:
        echo_json(reading)
        return
    for line in reading_lines(reading):
        click.echo(line)


def _reading(body: bytes) -> dict[str, Any]:
    from ..calculator import reading_answer
    from ..foods.dataset import bundled
    from ..gate.reading import load, parse_json
    from ..gate.recipe_schema import ReadableSchema

    return reading_answer(load(ReadableSchema(), parse_json(body)), bundled())
