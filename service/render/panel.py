"""The nutrition panel of an answer as what a page shows: a caption, columns, rows of words, notes.

Without a label it is ours: likely amounts, ranges and per 100 g. With one it is the label's own columns, in
its order and wording (label_schemes.csv). Escaping and markup are the page's business.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ..core.numbers import shown
from ..foods.nutrients import NUTRIENTS
from ..nutrition.label_schemes import LabelScheme, label_schemes
from ..nutrition.labels import INCOMPLETE

Document = Mapping[str, Any]

UNKNOWN = "not known"

NAMED = 5
"""How many lines that were not counted are named."""

_OURS = (
    ("ENERC", "Energy", 0),
    ("ENERC_KJ", "Energy in kJ", 0),
    ("FAT", "Fat", 0),
    ("FASAT", "of which saturated", 1),
    ("CHOCDF", "Carbohydrate with fibre", 0),
    ("FIBTG", "of which fibre", 1),
    ("SUGAR", "of which sugars", 1),
    ("ADDED_SUGARS", "of which added", 2),
    ("PROCNT", "Protein", 0),
    ("NA", "Sodium", 0),
    ("SALT", "as salt (sodium × 2.5)", 1),
    ("K", "Potassium", 0),
    ("CA", "Calcium", 0),
    ("FE", "Iron", 0),
    ("VITD", "Vitamin D", 0),
)
"""Rows of our own panel: tag, name and depth. Anything else is in the JSON answer."""

_BASES = {
    "per_serving": "Per serving",
    "per_100g": "Per 100 g",
    "per_reference_amount": "Per reference amount ({weight} g)",
}


@dataclass(frozen=True, slots=True)
class PanelRow:
    """name: in words; depth: 0, or 1 and 2 for a part of the row above; cells: one a column."""

    name: str
    depth: int
    cells: tuple[str, ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class Panel:
    """A panel.

    scheme: "own", or the id of a label scheme. lead: lines under the caption. head: over the names, then the
    cells.
    """

    scheme: str
    caption: str
    lead: tuple[str, ...]
    head: tuple[str, ...]
    rows: tuple[PanelRow, ...]
    notes: tuple[str, ...]


def panel_of(answer: Document) -> Panel:
    """The panel of an answer to a recipe: as its label has it, where it holds one."""
    return _label_panel(answer, answer["label"]) if "label" in answer else _own_panel(answer)


def _own_panel(answer: Document) -> Panel:
    serving, hundred = answer["per_serving"]["nutrients"], answer["per_100g"]["nutrients"]
    title = answer["title"]
    return Panel(
        scheme="own",
        caption=f"Nutrition of {title}" if title else "Nutrition",
        lead=(_servings(answer),),
        head=("", "Per serving", "Range", "Per 100 g", "% daily value"),
        rows=tuple(
            PanelRow(name, depth, _own_cells(serving[tag], hundred.get(tag)), _own_note(answer, tag))
            for tag, name, depth in _OURS
            if tag in serving
        ),
        notes=tuple(_own_notes(answer)),
    )


def _servings(answer: Document) -> str:
    weight = shown(answer["per_serving"]["weight_g"])
    if "portion_g" in answer:
        made = shown(answer["servings"])
        return f"A portion, here called a serving, weighs {weight} g; the dish makes {made}."
    return f"Serves {shown(answer['servings'])}; a serving weighs about {weight} g."


def _own_cells(serving: Document, hundred: Document | None) -> tuple[str, ...]:
    unit, percent = serving["unit"], serving.get("daily_value_percent")
    low, high = shown(serving["low"]), shown(serving["high"])
    return (
        f"{shown(serving['amount'])} {unit}",
        f"{low} {unit}" if low == high else f"{low} to {high} {unit}",
        UNKNOWN if hundred is None else f"{shown(hundred['amount'])} {unit}",
        "" if percent is None else f"{percent} %",
    )


def _own_note(answer: Document, tag: str) -> str:
    if tag in ("NA", "SALT") and not is_complete(answer):
        return "incomplete"
    return _coverage_note(answer["per_serving"]["nutrients"][tag])


def _coverage_note(entry: Document) -> str:
    share = entry.get("coverage", 1.0)
    return "" if share >= 0.995 else f"known for {round(100 * share)} % of the weight listed"


def _own_notes(answer: Document) -> Iterator[str]:
    yield "The range is meant to hold the true value nine times in ten. Daily values are those of the US FDA."
    sodium = answer["sodium"]
    listed, eaten = sodium["as_listed_per_serving_mg"], sodium["per_serving_mg"]["likely"]
    if abs(listed - eaten) > 0.05 * max(listed, eaten):
        yield (
            f"The ingredient list alone would come to {shown(listed)} mg of sodium a serving; not all of "
            "that is eaten."
        )
    yield from _unchecked(answer)


def _unchecked(answer: Document) -> Iterator[str]:
    """What a reader must know before a panel is published: what is missing, and that nobody looked at it
    yet."""
    yield from incomplete_words(answer["sodium"])
    severities = [notice["severity"] for notice in answer["notices"]]
    if "stop" in severities:
        yield "Do not publish or cook this as it stands: see the notices of the calculation."
    elif count := severities.count("check"):
        yield f"A person should look first: {count} notice{'s ask' if count > 1 else ' asks'} for a check."


def is_complete(answer: Document) -> bool:
    """Whether all sodium of an answer was counted; so too for answers from before this was told."""
    return answer.get("sodium", {}).get("complete") is not False


def incomplete_words(sodium: Document) -> Iterator[str]:
    """A sentence that says what sodium was not counted; none where all was."""
    if sodium.get("complete", True):
        return
    named = [f"{gap['line'][:60]} ({gap['why']})" for gap in sodium["uncounted"]]
    more = f"; and {len(named) - NAMED} more" if len(named) > NAMED else ""
    counted = shown(sodium["counted_per_serving_mg"])
    yield (
        f"Incomplete: only {counted} mg of sodium a serving were counted, and no claim can be judged. "
        f"Not counted: {'; '.join(named[:NAMED])}{more}."
    )


def _label_panel(answer: Document, label: Document) -> Panel:
    scheme, columns = label_schemes()[label["scheme"]], label["columns"]
    count, weight = shown(answer["servings"]), shown(answer["per_serving"]["weight_g"])
    facts = {"servings": count, "s": "" if count == "1" else "s", "weight": weight}
    return Panel(
        scheme=scheme.scheme,
        caption=scheme.caption,
        lead=tuple(line.format(**facts) for line in scheme.lead),
        head=(scheme.first_head, *_label_head(scheme, columns)),
        rows=tuple(_label_rows(scheme, columns)),
        notes=(*_label_notes(scheme, label), *_unchecked(answer)),
    )


def _label_head(scheme: LabelScheme, columns: Sequence[Document]) -> Iterator[str]:
    for column in columns:
        yield _BASES[column["basis"]].format(weight=shown(column["weight_g"]))
        if _has_percent(column):
            yield scheme.percent_head


def _has_percent(column: Document) -> bool:
    return any(row["percent"] is not None for row in column["rows"])


def _label_rows(scheme: LabelScheme, columns: Sequence[Document]) -> Iterator[PanelRow]:
    by_tag = [{row["tag"]: row for row in column["rows"]} for column in columns]
    printed = {row.tag: row.printed_name for row in scheme.rows}
    for tag, row in max(by_tag, key=len).items():
        cells = [
            cell
            for column, rows in zip(columns, by_tag, strict=True)
            for cell in _label_cells(rows.get(tag), has_percent=_has_percent(column))
        ]
        within = row["declared"] if "{}" in printed[tag] and len(columns) == 1 else None
        name = " ".join(printed[tag].format(within or "").split())
        yield PanelRow(name, row["depth"], ("", *cells[1:]) if within else tuple(cells))


def _label_cells(row: Document | None, *, has_percent: bool) -> Iterator[str]:
    if row is None:
        yield from ("",) * (1 + has_percent)
        return
    missing = INCOMPLETE if row.get("note") == INCOMPLETE else UNKNOWN
    yield missing if row["declared"] is None else row["declared"]
    if has_percent:
        yield "" if row["percent"] is None else f"{row['percent']}%"


def _label_notes(scheme: LabelScheme, label: Document) -> Iterator[str]:
    yield f"*{label['statement']}" if scheme.percent_head.endswith("*") else label["statement"]
    unknown = dict.fromkeys(
        row["name"]
        for column in label["columns"]
        for row in column["rows"]
        if row["declared"] is None and row.get("note") != INCOMPLETE
    )
    if unknown:
        yield f"Not known from the ingredients; find out before this is printed: {', '.join(unknown)}."
    names = {nutrient.tag: nutrient.name for nutrient in NUTRIENTS}
    floors = [names.get(each["tag"], each["tag"]) for each in label["incomplete"] if each["coverage"] > 0]
    if floors:
        yield f"Known for a part of the weight only, so that more may be in it: {'; '.join(floors)}."
