"""The commands. They read input through the same gate as the HTTP edge, and refuse it in the same words."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any

import click

from .. import __version__
from ..config import BadSetting, Settings, describe
from ..core.errors import InvalidRequest, SaltledgerError
from ..render.readings import reading_lines
from .admin import kept_recipes, keys, recalculate, reviewers
from .archive import export_archive, import_archive
from .evidence import evidence
from .figures import figures
from .foods import foods
from .read import read
from .verify import verify
from .whole_files import whole_file

if TYPE_CHECKING:
    from ..foods.dataset import FoodTable

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
@click.argument("source", metavar="IN", type=click.File("rb"))
@click.argument("target", metavar="OUT", type=click.Path(dir_okay=False, allow_dash=True, path_type=Path))
def batch(source: IO[bytes], target: Path) -> None:
    """Work out many recipes: one JSON recipe a line in IN, one answer or problem a line in OUT, in order.

    OUT is put in place only when it is complete. Exits with 1 where a line had a problem.
    """
    from ..batch.stream import answer_each, as_line
    from ..calculator import answer_recipe

    with refusals():
        settings = Settings.from_environment()
        known = _foods(settings)
    count = problems = 0
    with whole_file(target) as out, kept_recipes():
        lines = _lines(source, settings.body_bytes)
        for answer in answer_each(lines, lambda recipe: answer_recipe(recipe, known)):
            count += 1
            problems += "line" in answer
            out.write(as_line(answer))
    click.echo(f"{count} recipes, {count - problems} answered, {problems} with problems.", err=True)
    sys.exit(1 if problems else 0)


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


STORE = (keys, reviewers, recalculate, verify, export_archive, import_archive)
for command in (*STORE, foods, evidence, figures, read):
    main.add_command(command)


def echo_json(document: Any) -> None:
    """Print a document as JSON that people can read."""
    click.echo(json.dumps(document, ensure_ascii=False, allow_nan=False, indent=2))


@contextmanager
def refusals() -> Iterator[None]:
    """Turn errors of ours into plain text on standard error and exit code 2."""
    try:
        yield
    except InvalidRequest as refused:
        for fault in refused.faults:
            click.echo(f"{fault.pointer or '(recipe)'}: {fault.message}", err=True)
        sys.exit(2)
    except (BadSetting, SaltledgerError) as refused:
        click.echo(str(refused), err=True)
        sys.exit(2)


def _answer(body: bytes) -> dict[str, Any]:
    from ..calculator import answer_recipe
    from ..gate.reading import load, parse_json
    from ..gate.recipe_schema import RecipeSchema

    with kept_recipes():
        return answer_recipe(load(RecipeSchema(), parse_json(body)), _foods(Settings.from_environment()))


def _foods(settings: Settings) -> FoodTable:
    """The foods to work with: the bundle, and what is kept of the second source where that is on."""
    if settings.remote_foods == "off":
        from ..foods.dataset import bundled

        return bundled()
    from ..jobs.second_source import standing_foods
    from .admin import opened

    with opened() as database:
        return standing_foods(database)


def _lines(source: IO[bytes], most_bytes: int) -> Iterator[bytes | None]:
    """The lines of a file without their ends; None for one that is too long, which is not kept in memory."""
    while line := source.readline(most_bytes + 1):
        if line.endswith(b"\n") or len(line) <= most_bytes:
            yield line.rstrip(b"\n")
            continue
        while (rest := source.readline(most_bytes)) and not rest.endswith(b"\n"):
            pass
        yield None
