"""Which rows and columns of seed_foods are read while requests are answered; run as a process of its own.

    python -m tests.reading_tables FOLDER

prints {"asked": statuses, "columns": {table: [unread]}, "rows": {table: [unread]}} as JSON; FOLDER is for a
store.

Rows are dicts that note which of their cells are asked for. What a row was made into notes it too: a
dataclass when one of its fields is asked for, a rule over names when it fits. Everything is asked twice: the
first time fills the caches, so that what is noted the second time was looked up for an answer and not while a
table was laid out.
"""

from __future__ import annotations

import csv
import gc
import json
import sys
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from functools import _lru_cache_wrapper, cache
from itertools import product
from pathlib import Path
from typing import Any, TypeVar, get_args

from saltledger.core import tables

T = TypeVar("T")
Place = tuple[str, int]

cells_read: dict[str, set[str]] = defaultdict(set)
rows_read: set[Place] = set()
made_of: dict[int, Place] = {}
kept_alive: list[Any] = []
watched_types: set[type] = set()


class Watched(dict[str, str]):
    """A row that notes which of its cells are asked for."""

    def __init__(self, table: str, row: tables.Row) -> None:
        super().__init__(row)
        self.table = table

    def __getitem__(self, column: str) -> str:
        cells_read[self.table].add(column)
        return super().__getitem__(column)

    def get(self, column: str, default: Any = None) -> Any:
        cells_read[self.table].add(column)
        return super().get(column, default)

    def __iter__(self) -> Iterator[str]:  # so that ** asks for every cell
        return super().__iter__()

    def keys(self) -> Any:
        return list(super().keys())

    def items(self) -> Any:
        return [(column, self[column]) for column in self]

    def values(self) -> Any:
        return [self[column] for column in self]


def watch_cells() -> None:
    bundled = tables.rows

    @cache
    def rows(name: str) -> tuple[tables.Row, ...]:
        return tuple(Watched(name, row) for row in bundled(name))

    def load(name: str, make: Callable[[tables.Row], T]) -> tuple[T, ...]:
        made = tuple(make(row) for row in tables.rows(name))
        for number, each in enumerate(made, 1):
            remember(each, (name, number))
        return made

    tables.rows = rows  # type: ignore[assignment]
    tables.load = load


def remember(made: Any, place: Place) -> None:
    """Note everything that a row was made into, however deep."""
    if isinstance(made, tuple | list):
        for each in made:
            remember(each, place)
    elif is_dataclass(made) and not isinstance(made, type):
        made_of[id(made)] = place
        kept_alive.append(made)
        for field in fields(made):
            remember(getattr(made, field.name), place)
        watch_fields(type(made))


def watch_fields(kind: type) -> None:
    """Let the fields of a dataclass note that they are asked for; of a rule over names `watch_rules` does."""
    if kind in watched_types or kind.__name__ == "NameRule":
        return
    watched_types.add(kind)
    for field in fields(kind):
        slot = kind.__dict__.get(field.name)
        if slot is not None and hasattr(slot, "__get__"):
            setattr(
                kind,
                field.name,
                property(_noting(slot), lambda self, value, slot=slot: slot.__set__(self, value)),
            )


def _noting(slot: Any) -> Callable[[Any], Any]:
    def get(self: Any) -> Any:
        if (place := made_of.get(id(self))) is not None:
            rows_read.add(place)
        return slot.__get__(self, type(self))

    return get


def watch_rules() -> None:
    from saltledger.core import name_rules  # noqa: PLC0415  # once the reader of tables is watched

    fits = name_rules.NameRule.fits

    def noting(self: name_rules.NameRule, name: str, group_code: str = "") -> bool:
        found = fits(self, name, group_code)
        if found and (place := made_of.get(id(self))) is not None:
            rows_read.add(place)
        return found

    name_rules.NameRule.fits = noting  # type: ignore[method-assign]


def forget_answers() -> None:
    """Empty the caches that hold answers, and leave those that hold tables."""
    from saltledger.core.remembered import Remembered  # noqa: PLC0415
    from saltledger.foods.dataset import MOST_LINES, MOST_MATCHES, bundled  # noqa: PLC0415

    bundled().lines, bundled().matches = Remembered(MOST_LINES), Remembered(MOST_MATCHES)
    for each in gc.get_objects():
        if isinstance(each, _lru_cache_wrapper) and each.cache_parameters()["maxsize"] is not None:
            each.cache_clear()


FORMS = ("application/json", "text/csv", "application/ld+json", "text/html")
HEAT = ("simmer", "boil", "steam", "roast", "fry", "sous_vide")
COLD = ("brine", "marinate", "soak", "dry_cure", "rinse", "rest", "dry", "smoke")
BATHED = ("boil", "brine", "marinate", "soak", "dry_cure", "inject")
BY_HAND = ("skim", "press", "squeeze", "trim", "reduce", "drain", "inject", "ferment")
AIR, HOURS = ("rest", "dry", "smoke", "rinse", "sous_vide"), 5
SALT, WATER, OIL, FLOUR, SHRIMP = "02047", "14429", "04582", "20081", "15149"


Request = tuple[str, str, Any, str]


def cook(parts: list[Any], *steps: dict[str, Any]) -> Request:
    """A recipe of components and steps."""
    body = {"servings": 2, "components": parts, "steps": list(steps)}
    return "POST", "/v1/calculations", body, FORMS[0]


def cook_lines(*lines: Any, **more: Any) -> Request:
    return "POST", "/v1/calculations", {"servings": 2, "ingredients": list(lines), **more}, FORMS[0]


def requests() -> Iterator[Request]:
    """Method, address, body and media type of everything that is asked."""
    from saltledger.curing.agents import curing_salts  # noqa: PLC0415
    from saltledger.curing.curing_limits import product_classes, schemes  # noqa: PLC0415
    from saltledger.nutrition.dietary_references import audiences  # noqa: PLC0415
    from saltledger.nutrition.label_schemes import label_schemes  # noqa: PLC0415
    from saltledger.nutrition.reference_amounts import reference_amounts  # noqa: PLC0415

    here = Path(__file__).parent
    for line in (here.parent / "seed_foods/golden/recipes.jsonl").read_text(encoding="utf-8").splitlines():
        asked = json.loads(line)
        yield "POST", asked["path"], asked["body"], FORMS[0]
    dish = {"title": "Tern Quay plate", "servings": 2, "ingredients": ["300 g carrots", "4 g salt", "1 egg"]}
    for scheme, form in product(label_schemes(), FORMS):
        yield "POST", f"/v1/calculations?label={scheme}&explain=true", dish, form
    for dish_class in reference_amounts():
        yield "POST", "/v1/calculations?label=fda", {**dish, "dish_class": dish_class}, FORMS[0]
    for audience in audiences():
        yield "POST", "/v1/calculations?label=fda", {**dish, "audience": audience}, FORMS[0]
        yield "GET", f"/v1/reference-values?audience={audience}", None, FORMS[0]
    for scheme in schemes():
        for product_class, salt in product(product_classes(scheme), curing_salts()):
            yield "POST", "/v1/baths", bath(scheme, product_class, salt), FORMS[0]
    yield from plain_baths()
    yield from steps()
    yield from held_warm()
    yield from own_foods()
    yield from by_words()
    yield from of_tables()
    yield from lines(here)


def bath(scheme: str, product_class: str, salt: str) -> dict[str, Any]:
    food = {"class": "pork", "weight_g": 1000, "shape": "sheet", "thickness_cm": 4}
    mixed = {"water_g": 1000, "salt_g": 60, "curing_salt": salt, "curing_salt_g": 20}
    stated = {"scheme": scheme, "product_class": product_class, "temperature_c": 3, "duration_h": 72}
    return {"food": food, "bath": mixed, "pick_up_percent": 8, **stated}


def plain_baths() -> Iterator[Request]:
    """Each class of food in weak and strong brine, its water not stated; in acid; hung and shaped."""
    for row, salt_g in product(tables.rows("bath_foods"), (20, 100, 200, 300, 357)):
        food = {"class": row["food_class"], "weight_g": 500, "shape": "sheet", "thickness_cm": 2}
        mixed = {"water_g": 1000, "salt_g": salt_g, "sugar_g": 30}
        body = {"food": food, "bath": mixed, "temperature_c": 4, "duration_h": 24}
        yield "POST", "/v1/baths", body, FORMS[0]
    for row in tables.rows("diffusivities"):
        if row["water_percent"]:
            moist = {"class": row["of_class"], "water_fraction": float(row["water_percent"]) / 100}
            food = {**moist, "weight_g": 500, "shape": "sheet", "thickness_cm": 2}
            yield "POST", "/v1/baths", {"food": food, "bath": {"water_g": 1000, "salt_g": 200}}, FORMS[0]
    for code, salt_g in product(("05062", "15015", "11205", "10060"), (4, 12, 40, 150)):
        parts = [{"id": "food", "ingredients": [{"food": code, "grams": 500}]}]
        parts.append({"id": "bath", "ingredients": [{"food": "02047", "grams": salt_g}]})
        yield cook(parts, {"kind": "dry_cure", "food": "food", "bath": "bath", "duration_h": 24})
    for row in tables.rows("water_uptake"):
        if row["words"]:
            share = float(row["brine_percent"]) / 100
            bath = [{"food": "14429", "grams": 1000 * (1 - share)}, {"food": "02047", "grams": 1000 * share}]
            parts = [{"id": "food", "ingredients": [{"food": "10005", "grams": 500}]}]
            parts.append({"id": "bath", "ingredients": [each for each in bath if each["grams"]]})
            yield cook(parts, {"kind": "brine", "food": "food", "bath": "bath", "duration_h": 24})


def held_warm() -> Iterator[Request]:
    """Flesh held at each temperature of the tables of times."""
    for row, code in product(tables.rows("lethality_times"), ("10060", "05062", "05165")):
        warmth = (float(row["temperature_f"]) - 32) / 1.8
        step = {
            "kind": "sous_vide",
            "food": "food",
            "duration_h": 1.5,
            "temperature_c": round(warmth + 0.01, 2),
        }
        lean = {"per_100g": {"FAT": 0.8}} if row["table"].endswith("_lean") else {}
        part = {"id": "food", "ingredients": [{"food": code, "grams": 500, **lean}]}
        yield cook([part], step)


def of_tables() -> Iterator[Request]:
    """Salts, skins, stock bones, salted leaves and warm centres: what each row of their tables is about."""
    water = {"id": "bath", "ingredients": [{"food": WATER, "grams": 1500}]}
    for row in tables.rows("chlorides"):
        yield cook_lines({"food": row["code"], "grams": 5})
    for row in tables.rows("faces"):
        name = {"fish": "salmon fillets", "pork": "pork belly"}[row["food_class"]]
        part = {"id": "food", "ingredients": [f"1 kg {name}, {row['words'].split('|')[1]}"]}
        yield cook([part, water], {"kind": "brine", "food": "food", "bath": "bath", "duration_h": 5})
    for code in ("SL0170", "SL0173", "SL0174"):
        part = {"id": "food", "ingredients": [{"food": code, "grams": 900}]}
        yield cook([part, water], {"kind": "simmer", "food": "food", "bath": "bath", "duration_h": 4})
    for code in ("11109", "11205"):
        part = {"id": "food", "ingredients": [{"food": code, "grams": 900}, {"food": SALT, "grams": 20}]}
        yield cook([part, water], {"kind": "ferment", "food": "food", "into": "bath", "duration_h": 90})
    for code, kind in product(("10060", "01123"), ("simmer", "boil", "steam", "sous_vide", "roast", "smoke")):
        step: dict[str, Any] = {"kind": kind, "food": "food", "duration_h": 0.5, "thickness_cm": 4}
        step |= {"temperature_c": 90} if kind in ("sous_vide", "roast", "smoke") else {}
        yield cook([{"id": "food", "ingredients": [{"food": code, "grams": 300}]}], step)
    for warmth in (62.8, 65.6, 68.4, 70.1):
        eggs = {"id": "food", "ingredients": [{"food": "01123", "grams": 300}]}
        yield cook([eggs], {"kind": "simmer", "food": "food", "core_temperature_c": warmth})
    for title in ("mayonnaise", "mousse"):
        yield cook_lines("2 egg yolks", "2 pasteurised egg yolks", title=title)


def by_words() -> Iterator[Request]:
    """Lines and components in the words of the rows that look for words."""
    said: list[str] = []
    for row in tables.rows("densities"):
        said += [f"1 cup {row['form']} {food}" for food in row["foods"].split("|")[:2]]
    said += [f"{row['word']} eggs" for row in tables.rows("number_words")]
    said += [f"{row['word']} 2 cups milk" for row in tables.rows("amount_words")]
    said += [f"2 {row['spellings'].split('|')[-1]} milk" for row in tables.rows("unit_names")]
    for row in tables.rows("edible_shares"):
        said += [f"500 g {row['foods'].split('|')[0]}, {row['words'].split('|')[0]}"]
    said += [f"2 broccoli {row['unit']}s" for row in tables.rows("unit_after_food")]
    said += [f"{row['unit']} of {row['foods'].split('|')[0]}" for row in tables.rows("no_quantity_defaults")]
    for start in range(0, len(said), 100):
        yield "POST", "/v1/lines", {"lines": said[start : start + 100]}, FORMS[0]
    for row in tables.rows("sodium_priors"):
        for word in row["words"].split("|"):
            lines = [f"some xyzzy {word}", "500 g sugar" if row["dish"] == "sweet" else "500 g carrots"]
            yield cook_lines(*lines)
    for row in tables.rows("liquid_words"):
        word = row["words"].split("|")[0]
        liquid = {"id": "liquid", "label": word, "ingredients": ["2 l water", "60 g salt"]}
        parts = [{"id": "food", "ingredients": ["1 kg potatoes"]}, liquid]
        yield cook(parts)
        lines = ["1 kg potatoes", f"2 l water {word}", f"60 g salt {word}"]
        yield cook_lines(*lines)
    every = [
        "50 g almonds",
        "50 g peanuts",
        "50 g lupin flour",
        "20 g sesame seeds",
        "50 g celery",
        "10 g mustard",
    ]
    every += [
        "100 g shrimp",
        "100 g mussels",
        "100 ml wine",
        "100 g tofu",
        "100 g tahini",
        "200 g wheat flour",
    ]
    yield cook_lines(*every)
    for figures in (
        *({row["tag"]: {"amount": 4, "unit": "mmol"}} for row in tables.rows("molar_masses")),
        {"NA": 50000},
        {"ENERC": 950},
        {"FAT": 60, "PROCNT": 60},
    ):
        own = [{"code": "own", "name": "own", "per_100g": figures}]
        yield cook_lines({"food": "own", "grams": 10}, custom_foods=own)
    for row in tables.rows("field_words"):
        yield cook_lines("1 egg", **{row["word"]: 1})
    for row in tables.rows("step_words"):
        step = {"kind": row["word"], "food": "a"}
        part = {"id": "a", "ingredients": ["1 egg"]}
        yield cook([part], step)


def own_foods() -> Iterator[Request]:
    """Foods of a kitchen's own in a pot, which only their names sort."""
    pot = {"id": "pot", "ingredients": [{"food": WATER, "grams": 1500}], "eaten_fraction": 0}
    for name in ("hand-made noodles", "mugwort leaves"):
        own = {"code": "own", "name": name, "per_100g": {"WATER": 40, "NA": 900, "K": 200}}
        food = {"id": "food", "ingredients": [{"food": "own", "grams": 300}]}
        method, path, body, form = cook([food, pot], {"kind": "boil", "food": "food", "bath": "pot"})
        yield method, path, {**body, "custom_foods": [own]}, form


def steps() -> Iterator[Request]:
    """The steps that a food may go through by the tables that know its kind, with and without a time."""
    for code, purposes in of_each_kind().items():
        part = {"id": "food", "ingredients": [{"food": code, "grams": 500}]}
        liquid = [{"food": WATER, "grams": 1500}, {"food": SALT, "grams": 60}, {"food": OIL, "grams": 20}]
        kinds = (*HEAT, *BY_HAND) if purposes & {"pot", "yield", "retention"} else ()
        for kind in (*kinds, *(COLD if "bath" in purposes else ())):
            step: dict[str, Any] = {"kind": kind, "food": "food"}
            step |= {"bath": "liquid"} if kind in BATHED else {"duration_h": HOURS} if kind in AIR else {}
            step |= {"pump_percent": 10} if kind == "inject" else {}
            step |= {"yield_fraction": 0.8} if kind in ("trim", "reduce") else {}
            yield cook([part, {"id": "liquid", "ingredients": liquid}], step)
        if "fryer" in purposes:
            coat = {"id": "coat", "ingredients": [{"food": FLOUR, "grams": 80}]}
            fat = {"id": "fat", "ingredients": [{"food": OIL, "grams": 900}]}
            fried = {"kind": "fry", "food": "food", "bath": "fat", "duration_h": 0.1}
            yield cook([part, fat], fried)
            yield cook(
                [part, coat, fat],
                {"kind": "dredge", "food": "food", "bath": "coat", "thickness_cm": 2},
                fried,
            )
        if "coating" in purposes:
            bird = {"id": "bird", "ingredients": [{"food": "05062", "grams": 500}]}
            yield cook([bird, part], {"kind": "dredge", "food": "bird", "bath": "food", "thickness_cm": 2})
            mixed = [{"food": FLOUR, "grams": 80}, {"food": "01077", "grams": 120}]
            batter = {"id": "batter", "ingredients": mixed}
            yield cook(
                [bird, batter], {"kind": "dredge", "food": "bird", "bath": "batter", "thickness_cm": 2}
            )
        if "can" in purposes:
            for rinsed in (True, False):
                yield cook([part], {"kind": "drain", "food": "food", "rinsed": rinsed})


def of_each_kind() -> dict[str, set[str]]:
    """Codes of one food for each kind that tables sort foods into, and the purposes that it was taken for."""
    from saltledger.foods.dataset import bundled  # noqa: PLC0415
    from saltledger.recipe.steps.heat_losses import retention_kind  # noqa: PLC0415
    from saltledger.transfer.food_kinds import Purpose, kind_of  # noqa: PLC0415

    first: dict[tuple[str, str | None], str] = {("pot", "shrimp"): SHRIMP}
    for food in map(bundled().get, bundled().codes):
        for purpose in get_args(Purpose):
            first.setdefault((purpose, kind_of(purpose, food)), food.code)
        finer = kind_of("yield", food)  # so that a kind's own yields are read, too
        first.setdefault(("pot", f"{kind_of('pot', food)} {finer}"), food.code)
        first.setdefault(("retention", retention_kind(food)), food.code)
    found: dict[str, set[str]] = defaultdict(set)
    for (purpose, _), code in first.items():
        found[code].add(purpose)
    return found


def names_of_foods() -> None:
    """Sort every food of the dataset by its name in all ways, as a recipe that names it would."""
    from saltledger.foods.dataset import bundled  # noqa: PLC0415
    from saltledger.nutrition.added_sugars import how_added  # noqa: PLC0415
    from saltledger.nutrition.allergens import signs  # noqa: PLC0415
    from saltledger.nutrition.retention import cooking_state  # noqa: PLC0415
    from saltledger.safety.dish import is_about  # noqa: PLC0415
    from saltledger.transfer.food_kinds import Purpose, kind_of  # noqa: PLC0415
    from saltledger.transfer.handling_figures import rinse_rate_per_min  # noqa: PLC0415
    from saltledger.transfer.usual import usual_size  # noqa: PLC0415

    for food in map(bundled().get, bundled().codes):
        for purpose in get_args(Purpose):
            kind_of(purpose, food)
        how_added(food.name, food.group_code)
        signs(food.name, food.group_code)
        cooking_state(food.name, food.group_code)
        is_about("", food.group_code, food.name)
        rinse_rate_per_min(food)
        for treated in ("", "salted", "desalted"):
            usual_size(kind_of("bath", food) or "any", food.name, treated)


def lines(here: Path) -> Iterator[Request]:
    """Lines of the bench, and one of the words of each row that weighs a food."""
    texts = []
    for name in ("lines_tuning", "lines_held_out", "lines_many_hands", "lines_two_hands"):
        text = (here / f"bench/{name}.csv").read_text(encoding="utf-8").splitlines()
        texts += [row["line"] for row in csv.DictReader(line for line in text if not line.startswith("#"))]
    for start in range(0, len(texts), 100):
        yield "POST", "/v1/lines", {"lines": texts[start : start + 100]}, FORMS[0]


def main() -> None:
    watch_cells()
    watch_rules()
    from saltledger.app import create_app  # noqa: PLC0415  # once the reader of tables is watched
    from saltledger.config import Settings  # noqa: PLC0415

    store = f"sqlite:///{sys.argv[1]}/store.sqlite3"
    client = create_app(Settings(database_url=store, answers_bytes=0)).test_client()
    asked = list(requests())
    statuses: dict[int, int] = defaultdict(int)
    for _ in ("tables are laid out", "answers are looked up"):
        rows_read.clear()
        forget_answers()
        names_of_foods()
        for method, address, body, form in asked:
            answer = client.open(address, method=method, json=body, headers={"Accept": form})
            statuses[answer.status_code] += 1
    read_by_commands()
    print(json.dumps({"asked": dict(statuses), "columns": unread_columns(), "rows": unread_rows()}))


def read_by_commands() -> None:
    """What `saltledger evidence`, look-ups of the second source and the builders of tables read."""
    from saltledger.evidence.cases import cases, sources  # noqa: PLC0415
    from saltledger.evidence.coverage import is_kept, kinds  # noqa: PLC0415
    from saltledger.foods.dataset import bundled  # noqa: PLC0415
    from saltledger.seed_foods import derive_factors  # noqa: PLC0415

    cases(), sources(), kinds(), is_kept([])
    derive_factors.pairs(bundled())


def unread_columns() -> dict[str, list[str]]:
    names = sorted(file.name[:-4] for file in tables.seed_foods().iterdir() if file.name.endswith(".csv"))
    every = {name: list(super(Watched, tables.rows(name)[0]).keys()) for name in names}
    return {name: left for name in names if (left := [c for c in every[name] if c not in cells_read[name]])}


def unread_rows() -> dict[str, list[str]]:
    """Rows of the tables whose rows were made into something that can note it, and did not."""
    found: dict[str, list[str]] = defaultdict(list)
    for table, number in sorted(set(made_of.values()) - rows_read):
        found[table].append("/".join(dict.values(tables.rows(table)[number - 1]))[:70])
    return found


if __name__ == "__main__":
    sys.exit(main())
