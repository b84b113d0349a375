"""An answer in the terminal: tables with low, likely and high, and the ledger as bars."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from rich.bar import Bar
from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table
from rich.text import Text

from ..core.numbers import percent, shown
from ..foods.nutrients import NUTRIENTS
from .panel import incomplete_words

SHOWN = ("ENERC", "PROCNT", "FAT", "FASAT", "CHOCDF", "SUGAR", "FIBTG", "NA", "K", "CA", "FE")
"""Nutrients in the table, by tag; `--json` gives all."""

BAR_WIDTH = 28
SEVERITIES = {"stop": "STOP", "check": "check", "info": "note"}


def report(answer: Mapping[str, Any], console: Console | None = None) -> None:
    """Print an answer for people."""
    out = console or Console(highlight=False, markup=False, emoji=False)
    out.print(Text(answer["title"] or "(no title)", style="bold"))
    servings, weight = _amount(answer["servings"]), _amount(answer["per_serving"]["weight_g"])
    what = "portions by weight," if "portion_g" in answer else "servings of"
    out.print(f"{servings} {what} {weight} g; the range holds nine times in ten\n")
    out.print(_nutrients(answer["per_serving"]["nutrients"]))
    for line in _contrast(answer["sodium"]):
        out.print(line)
    out.print(Text("\nWhere the sodium went, mg in the whole recipe", style="bold"))
    out.print(_ledger(answer["sodium"]["ledger"]))
    _findings(out, answer)


def _nutrients(nutrients: Mapping[str, Mapping[str, Any]]) -> Table:
    names = {nutrient.tag: nutrient.name for nutrient in NUTRIENTS}
    table = _table("per serving", "low", "likely", "high", "", "% DV")
    for tag in SHOWN:
        if tag in nutrients:
            entry = nutrients[tag]
            percent = entry.get("daily_value_percent")
            table.add_row(
                Text(names[tag]),
                *(_amount(entry[key]) for key in ("low", "amount", "high")),
                entry["unit"],
                "" if percent is None else _amount(percent),
                style="bold" if tag == "NA" else None,
            )
    return table


def _contrast(sodium: Mapping[str, Any]) -> Iterator[str]:
    likely, listed = sodium["per_serving_mg"]["likely"], sodium["as_listed_per_serving_mg"]
    yield from incomplete_words(sodium)
    yield f"Sodium per serving: {_amount(likely)} mg. The plain sum over the list: {_amount(listed)} mg."
    if likely > 0 and listed / likely >= 1.1:
        yield f"The list alone would be {shown(listed / likely, 2)} times too high."
    for reference in sodium["references"]:
        limit = _amount(reference["limit_mg"])
        yield f"  {_amount(reference['percent'])} % of {limit} mg ({reference['name']})"


def _ledger(ledger: list[Mapping[str, Any]]) -> Table:
    most = max((movement["mg"] for movement in ledger), default=0.0)
    table = _table("from", "to", "step", "", "mg", "low", "high", left=4)
    for movement in ledger:
        table.add_row(
            Text(movement["from"]),
            Text(_words(movement["to"])),
            "served" if movement["step"] is None else str(movement["step"]),
            Bar(most or 1.0, 0.0, movement["mg"], width=BAR_WIDTH),
            *(_amount(movement[key]) for key in ("mg", "low", "high")),
        )
    return table


def _findings(out: Console, answer: Mapping[str, Any]) -> None:
    carried = [
        (percent(each["share"]), f"{each['assumption']}: {each['measure']}")
        for each in answer["sodium"].get("carried_by", ())
    ]
    notices = [
        (SEVERITIES[notice["severity"]], f"{notice['message']} {notice['pointer']}".rstrip())
        for notice in answer["notices"]
    ]
    for head, rows in (("What carries the range", carried), ("Notices", notices)):
        if rows:
            out.print(Text(head, style="bold"))
            out.print(_listed(rows))


def _listed(rows: list[tuple[str, str]]) -> Table:
    """Rows of a mark and words, the words hanging behind the mark."""
    grid = Table.grid(padding=(0, 2))
    for mark, words in rows:
        grid.add_row(Text(f"  {mark}"), Text(words))
    return grid


def _table(*heads: str, left: int = 1) -> Table:
    """A table whose columns from the one numbered `left` on hold figures."""
    table = Table(box=SIMPLE_HEAD, pad_edge=False, header_style="")
    for place, head in enumerate(heads):
        table.add_column(head, justify="left" if place < left else "right")
    return table


def _amount(value: float) -> str:
    return shown(value, grouped=True)


def _words(place: str) -> str:
    return place.replace("_", " ")
