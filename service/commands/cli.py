"""The commands. They read input through the same gate as the HTTP edge, and refuse it in the same words."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import IO, Any

import click

from .. import __version__
from ..config import Settings, describe
from ..render.readings import reading_lines
from .admin import keys, reviewers, webhooks
from .archive import export_archive, import_archive
from .batch import batch
from .evidence import evidence
from .figures import figures
from .foods import foods
from .prune import prune
from .recalculate import recalculate
from .refusing import refusals
from .verify import verify

# Arrays here are small: more threads for each of their products cost memory and gain nothing.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# Modules that read tables or import Flask are imported by the command that needs them: `--help` stays quick.


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="saltledger")
def main() -> None:
    """Nutrients and, above all, sodium per serving of a recipe whose salt moves."""


@main.command(epilog="\b\n" + "\n".join(f"{name} ({default}): {help}" for name, default, help in describe()))
@click.option("--host", help="Address to listen on; this machine only where not stated.")
@click.option("--port", type=click.IntRange(1, 65535), help="Port to listen on; 8080 where not stated.")
@click.option("--workers", type=click.IntRange(1, 64), help="Worker processes; 2 where not stated.")
@click.option(
    "--open-to-network-without-keys",
    "open_to_all",
    is_flag=True,
    help="Let everybody who can reach it use it, without API keys.",
)
def serve(host: str | None, port: int | None, workers: int | None, open_to_all: bool) -> None:
    """Serve the API. Other settings are environment variables, listed below."""
    from ..server import run

    access = "open" if open_to_all else None
    stated = {"host": host, "port": port, "workers": workers, "access": access}
    with refusals():
        run(Settings.from_environment(), **{key: value for key, value in stated.items() if value is not None})


@main.command()
@click.argument("file", type=click.File("rb"))
@click.option("--json", "as_json", is_flag=True, help="Give the whole answer as JSON.")
def calculate(file: IO[bytes], as_json: bool) -> None:
    """Work out the recipe in FILE, JSON as for POST /v1/calculations; - reads standard input.

    Exits with 2 where the recipe has faults.
    """
    with refusals():
        answer = _answer(file.read())
    if as_json:
        echo_json(answer)
        return
    from ..render.terminal import report

    report(answer)


@main.command()
@click.option("--recipe", is_flag=True, help="Give only the recipe, as JSON.")
@click.option("--structured", is_flag=True, help="The same recipe as components and steps.")
def demo(recipe: bool, structured: bool) -> None:
    """Work out a whole invented recipe: a brine that is poured away, a pot that salts the potatoes."""
    from ..core.tables import seed_foods

    name = "demo_recipe.json" if structured else "demo_written.json"
    text = seed_foods().joinpath(name).read_text(encoding="utf-8")
    if recipe:
        click.echo(text, nl=False)
        return
    from ..render.terminal import report

    answer = _answer(text.encode())
    for line in reading_lines(answer["reading"]) if "reading" in answer else ():
        click.echo(line)
    click.echo()
    report(answer)
    click.echo(
        "\nThe same over HTTP, with `saltledger serve` running:\n"
        "  saltledger demo --recipe | curl -s http://127.0.0.1:8080/v1/calculations \\\n"
        "    -H 'Content-Type: application/json' --data-binary @-"
    )


@main.command()
@click.option(
    "--write",
    is_flag=True,
    help="Write openapi/openapi.yaml and the example answers.",
)
def openapi(write: bool) -> None:
    """Give the description of the API as OpenAPI 3.1, in YAML; it is made of the schemas."""
    from ..http.description import as_yaml

    if not write:
        click.echo(as_yaml(), nl=False)
        return
    target = Path("openapi/openapi.yaml")
    if not target.parent.is_dir():
        raise click.ClickException("There is no folder openapi here; run this at the top of a checkout.")
    # mypy sees that folder apart from the package that it is installed in.
    from ..seed_foods.derive_examples import main as derive_examples  # type: ignore[import-not-found]

    derive_examples()
    target.write_text(as_yaml(), encoding="utf-8")
    click.echo(f"Wrote {target}.")


@main.command()
@click.argument("file", type=click.File("rb"))
@click.option("--json", "as_json", is_flag=True, help="Give the reading as JSON, as POST /v1/readings does.")
def read(file: IO[bytes], as_json: bool) -> None:
    """Read the recipe in FILE: lines and method, or a schema.org/Recipe; - reads standard input.

    Exits with 2 where the recipe has faults.
    """
    with refusals():
        reading = _reading(file.read())
    if as_json:
        echo_json(reading)
        return
    for line in reading_lines(reading):
        click.echo(line)


STORE = (keys, reviewers, recalculate, verify, export_archive, import_archive, prune, webhooks)
for command in (batch, *STORE, foods, evidence, figures):
    main.add_command(command)


def echo_json(document: Any) -> None:
    """Print a document as JSON that people can read."""
    click.echo(json.dumps(document, ensure_ascii=False, allow_nan=False, indent=2))


def _answer(body: bytes) -> dict[str, Any]:
    from ..calculator import answer_recipe
    from ..gate.reading import load, parse_json
    from ..gate.recipe_schema import RecipeSchema
    from ..jobs import own_process

    with own_process.loaded(), own_process.kept_recipes():
        return answer_recipe(load(RecipeSchema(), parse_json(body)), own_process.foods())


def _reading(body: bytes) -> dict[str, Any]:
    from ..calculator import reading_answer
    from ..foods.dataset import bundled
    from ..gate.reading import load, parse_json
    from ..gate.recipe_schema import ReadableSchema

    return reading_answer(load(ReadableSchema(), parse_json(body)), bundled())
