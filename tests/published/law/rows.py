"""Every statement of this folder, and the rows of the tables they are held against."""

from saltledger.core.tables import Row

from . import KEYS, Stated, allergens, cures, heat, intakes, labels, portions

STATED: list[Stated] = [
    *allergens.STATED,
    *cures.STATED,
    *heat.STATED,
    *intakes.STATED,
    *labels.STATED,
    *portions.STATED,
]


def name_of(table: str, row: Row) -> str:
    return f"{table}:{'/'.join(row[column] for column in KEYS[table])}"


def agrees(cell: str, said: str) -> bool:
    """Whether a cell says what a source does: as numbers to a thousandth, else word for word."""
    try:
        return abs(float(cell) - float(said)) <= 1e-3 * abs(float(said))
    except ValueError:
        return cell == said
