"""`saltledger evidence`: every published measurement against what the service works out."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from ..evidence.coverage import Coverage, Held


@click.command()
@click.option("--plot", type=click.Path(dir_okay=False, path_type=Path), help="Write the picture, SVG, here.")
@click.option("--missed", is_flag=True, help="List the measurements outside their range, with why.")
@click.option("--cross", is_flag=True, help="Leave every source out in turn, and say how many lie inside.")
@click.option("--kind", help="Work out this kind alone.")
@click.option("--write", is_flag=True, help="Write the tables of counts in seed_foods/ of the checkout.")
@click.option("--check", is_flag=True, help="Exit with 1 as well where that table is not what comes out.")
def evidence(
    *, plot: Path | None, missed: bool, cross: bool, kind: str | None, write: bool, check: bool
) -> None:
    """Hold published measurements against the ranges: how many lie inside, and how wide the ranges are.

    Exits with 1 where a kind falls under its stated floor on the part kept for checking.
    """
    from ..evidence.cases import cases
    from ..evidence.coverage import (
        coverage_csv,
        coverages,
        fallen,
        hold_all,
        is_kept,
        kinds,
        measured,
        rows_csv,
    )
    from ..render.evidence_drawing import evidence_svg

    if kind is not None and kind not in kinds():
        raise click.BadParameter(f"There is no kind {kind!r}; there are {', '.join(kinds())}.")
    held = hold_all(case for case in cases() if kind in (None, case.kind))
    found = coverages(held)
    _print_table(found)
    if cross:
        _print_cross_validated(held)
    if missed:
        _print_missed(held)
    if plot is not None:
        plot.write_text(evidence_svg(measured(held)), encoding="utf-8")
        click.echo(f"Wrote {plot}.")
    if write:
        Path("seed_foods/evidence_coverage.csv").write_text(coverage_csv(found), encoding="utf-8")
        Path("seed_foods/evidence_rows.csv").write_text(rows_csv(held), encoding="utf-8")
    if check and not is_kept(found):
        click.echo("evidence_coverage.csv is not what comes out; run with --write.", err=True)
        sys.exit(1)
    if under := fallen(found):
        click.echo(f"Under the floor: {', '.join(each.kind for each in under)}.", err=True)
        sys.exit(1)


_ROW = "{:<14} {:<9} {:>6} {:>5} {:>6} {:>6} {:>16}"


def _print_table(found: list[Coverage]) -> None:
    click.echo(_ROW.format("kind", "part", "inside", "of", "share", "width", "likely/measured"))
    for each in found:
        width, bias = (format(value, ".2f") if value else "" for value in (each.width, each.bias))
        click.echo(_ROW.format(each.kind, each.part, each.inside, each.of, f"{each.share:.0%}", width, bias))


def _print_cross_validated(held: list[Held]) -> None:
    from ..evidence.cross_validation import cross_validated

    click.echo("\nEvery source left out in turn; stretch: what the others ask of the ranges")
    row = "{:<14} {:>7} {:>6} {:>5} {:>6} {:>8} {:>6}"
    click.echo(row.format("kind", "sources", "inside", "of", "share", "stretch", "width"))
    for each in cross_validated(held):
        width = "" if each.width is None else f"{each.width:.2f}"
        share, stretch = f"{each.inside / each.of:.0%}", f"{each.stretch:.2f}"
        click.echo(row.format(each.kind, each.sources, each.inside, each.of, share, stretch, width))


def _print_missed(held: list[Held]) -> None:
    from ..evidence.coverage import why

    for each in held:
        if not each.inside:
            low, likely, high = each.range.low, each.range.likely, each.range.high
            click.echo(
                f"{each.case.kind:<13} {each.case.id:<26} {each.case.place:<14} "
                f"measured {each.case.published:<8.4g} range {low:.4g} {likely:.4g} {high:.4g}  "
                f"{each.case.note[:60]}"
            )
            if (reason := why(each.case)) is not None:
                click.echo(f"{'':<13} {reason.verdict}: {reason.words}")
