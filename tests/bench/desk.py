"""The review desk with a full archive: how long its pages, lists, searches and saves take.

    python -m tests.bench.desk [--recipes 100000] [--few 1000] [--url postgresql://postgres@127.0.0.1:5432/test]

Fills an empty store twice, with few recipes and with many, and times the same requests on both, in process,
no network. The last column is how much longer the many take; the desk is built so that it stays near 1. Exits
with 1 where a list takes more than `MOST_TIMES` as long, by processor's time on SQLite, which is in process.
Without a URL a SQLite file in a temporary folder is used. The database that a URL names is filled in a schema
of its own, which is dropped in the end.
"""

from __future__ import annotations

import argparse
import contextlib
import random
import re
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path
from typing import Any

from flask.testing import FlaskClient
from saltledger.app import create_app
from saltledger.config import Settings
from saltledger.store.listing import words_of
from saltledger.store.schema import recipe_lines, recipes, versions
from sqlalchemy import Connection, create_engine, insert, select, text

CHUNK = 1000
REPEATS = 5
WHOLE_EVERY = 50
"""One clone in so many keeps its whole answer, the others what of it is short: nobody reads their pages."""
LEFT_OUT = ("per_serving", "per_100g", "assumptions", "energy", "mirror", "allergens")
NOUNS = ("soup", "stew", "pie", "salad", "roast", "loaf", "broth", "curry", "gratin", "pickle")
ORDERS = ("sodium", "doubtful", "changed", "title", "key")
MARKS = ("stop", "incomplete", "check", "unsure", "changed")
LISTS = ("queue", "order", "only", "above", "signed", "search", "API")
"""How the names of lists begin."""
MOST_TIMES, SHORTEST_MS = 2.0, 20.0
"""What a list may take with many recipes, of what it takes with few, or of this where it takes less."""
PLACES = ("quay", "pier", "harbour", "mole", "lock", "beacon", "slip", "jetty")


def base(number: int) -> dict[str, Any]:
    """A recipe to be cloned; a few need a person, most do not."""
    lines = ["800 g potatoes", "200 g carrots", "1 litre water", f"{3 + number} g table salt"]
    odd = {3: "1 pinch moonshade", 5: "100 g cheese", 7: "salt to taste"}.get(number)
    title = f"{PLACES[number % len(PLACES)]} {NOUNS[number % len(NOUNS)]}"
    return {"title": title, "servings": 4, "ingredients": [*lines, *([odd] if odd else [])]}


def fill(connection: Connection, count: int) -> None:
    """Clone what is saved until there are `count` recipes, each with a title, key and figure of its own."""
    chance = random.Random(17)
    models = connection.execute(
        select(recipes, versions).join(versions, versions.c.recipe_id == recipes.c.id)
    ).mappings()
    sources = [(dict(row), _columns(row, recipes), _columns(row, versions)) for row in models]
    lines = connection.execute(select(recipe_lines)).mappings().all()
    first = max(row["id"] for row, _, _ in sources) + 1
    for start in range(0, count - len(sources), CHUNK):
        made: tuple[list[Any], list[Any], list[Any]] = ([], [], [])
        for i in range(start, min(start + CHUNK, count - len(sources))):
            _, recipe, version = sources[i % len(sources)]
            clone = _clone(first + i, recipe, version, chance)
            made[0].append(clone[0])
            made[1].append(clone[1])
            mine = [each for each in lines if each["recipe_id"] == recipe["id"]]
            made[2].extend({**each, "recipe_id": first + i} for each in mine)
        for table, rows in zip((recipes, versions, recipe_lines), made, strict=True):
            connection.execute(insert(table), rows)


def _columns(row: Any, table: Any) -> dict[str, Any]:
    return {column.name: row[column] for column in table.c}


def _clone(number: int, recipe: Any, version: Any, chance: random.Random) -> tuple[Any, Any]:
    title = f"{chance.choice(PLACES)} {chance.choice(NOUNS)} {number}"
    key, mg = f"card-{number}", round(chance.uniform(20, 2500), 3)
    status = chance.choices(("open", "signed", "sent_back"), (80, 15, 5))[0]
    moment = f"2026-11-{chance.randint(1, 24):02}T{chance.randint(0, 23):02}:00:00.{number % 10**6:06}Z"
    told = {
        "id": number,
        "key": key,
        "title": title,
        "by_title": title,
        "words": " ".join(dict.fromkeys([*words_of(f"{title} {key}"), *recipe["words"].split()])),
        "sodium_mg": mg,
        "status": status,
        "urgency": recipe["urgency"] if status == "open" else 0,
        "changed_at": moment,
    }
    answer = version["answer"]
    if number % WHOLE_EVERY:
        answer = {name: each for name, each in answer.items() if name not in LEFT_OUT}
    about = {"save_id": f"save_{number:024x}", "calculation_id": f"c{number:031x}", "created_at": moment}
    of_version = {"id": number, "recipe_id": number, "title": title, "sodium_mg": mg, "status": status}
    return {**recipe, **told}, {**version, **of_version, **about, "answer": answer}


def requests(client: FlaskClient) -> dict[str, Callable[[], Any]]:
    """What is timed, by name; each gives the response."""
    page = client.get("/review").get_data(as_text=True)
    whole = client.get("/v1/recipes/base-1").get_json()["save_id"]
    numbers = iter(range(10**6))

    def get(path: str) -> Callable[[], Any]:
        return lambda: client.get(path)

    def next_page(times: int) -> Callable[[], Any]:
        path = "/review?status=all&order=sodium"
        for _ in range(times):
            found = re.search(r'class="next" [^>]*href="([^"]+)"', client.get(path).get_data(as_text=True))
            path = unescape(found[1]) if found else path
        return get(path)

    def save() -> Any:
        number = next(numbers)
        return client.put(f"/v1/recipes/new-{number}", json={**base(1), "servings": 4 + number / 1000})

    def sign() -> Any:
        name = client.get("/v1/recipes/base-2").get_json()["save_id"]
        token = re.search(r'name="form_token" value="([^"]+)"', page_of(name))
        assert token is not None
        sent = {"form_token": token[1], "verdict": "signed", "name": "Ines Ware, RD"}
        return client.post(f"/review/{name}/decision", data=sent)

    def page_of(name: str) -> str:
        return client.get(f"/review/{name}").get_data(as_text=True)

    assert "Recipes to review" in page
    return {
        "queue": get("/review"),
        "queue, all": get("/review?status=all"),
        "queue, tenth page": next_page(10),
        **{f"order: {each}": get(f"/review?order={each}") for each in ORDERS},
        **{f"only: {each}": get(f"/review?only={each}") for each in MARKS},
        "above 2,490 mg": get("/review?above_mg=2490"),
        "signed and incomplete, by title": get("/review?status=signed&only=incomplete&order=title"),
        "search: many": get("/review?search=soup"),
        "search: all": get("/review?search=potatoes"),
        "search: one": get("/review?search=card-900"),
        "search: none": get("/review?search=zzyzx"),
        "API list": get("/v1/recipes"),
        "API list, search": get("/v1/recipes?search=pickle&order=urgency"),
        "one recipe's page": get(f"/review/{whole}"),
        "one recipe's change": get(f"/review/{whole}/change?at=/ingredients/3"),
        "save": save,
        "page, sign and next": sign,
    }


@contextlib.contextmanager
def opened(url: str | None) -> Iterator[str]:
    """The URL of an empty store, which is gone afterwards."""
    if url is None:
        with tempfile.TemporaryDirectory() as folder:
            yield f"sqlite:///{Path(folder)}/store.sqlite3"
        return
    engine = create_engine(url.replace("postgresql://", "postgresql+psycopg://"))
    schema = f"bench_{time.time_ns()}"
    with engine.begin() as connection:
        connection.execute(text(f"CREATE SCHEMA {schema}"))
    try:
        yield f"{url}?options=-csearch_path%3D{schema}"
    finally:
        with engine.begin() as connection:
            connection.execute(text(f"DROP SCHEMA {schema} CASCADE"))
        engine.dispose()


def timed(url: str | None, count: int) -> dict[str, tuple[float, float]]:
    """Median ms of each request in a store of so many recipes, by the clock and by processor's time."""
    with opened(url) as store_url:
        app = create_app(Settings(database_url=store_url))
        client = app.test_client()
        for number in range(12):
            client.put(f"/v1/recipes/base-{number}", json=base(number))
        database = app.extensions["saltledger-store"].database
        began = time.perf_counter()
        with database.write() as connection:
            fill(connection, count)
            if connection.dialect.name != "sqlite":
                for table in ("recipes", "versions"):
                    newest = f"(SELECT max(id) FROM {table})"
                    connection.execute(
                        text(f"SELECT setval(pg_get_serial_sequence('{table}', 'id'), {newest})")
                    )
        with database.write() as connection:
            connection.execute(text("ANALYZE"))
        print(f"{count:,} recipes filled in {time.perf_counter() - began:.0f} s")
        found = {}
        for name, request in requests(client).items():
            times, worked = [], []
            for _ in range(REPEATS):
                began, work_began = time.perf_counter(), time.process_time()
                response = request()
                times.append(1000 * (time.perf_counter() - began))
                worked.append(1000 * (time.process_time() - work_began))
                assert response.status_code < 400, (name, response.status_code)
            found[name] = statistics.median(times), statistics.median(worked)
        app.extensions["saltledger-store"].close()
    return found


def main() -> int:
    """Print the table."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--recipes", type=int, default=100_000)
    parser.add_argument("--few", type=int, default=1_000)
    parser.add_argument("--url")
    asked = parser.parse_args()
    few, many = timed(asked.url, asked.few), timed(asked.url, asked.recipes)
    print(f"{'by the clock, and of the processor':34}{asked.few:>18,}{asked.recipes:>18,}   times")
    slow = []
    for name, (clock, work) in many.items():
        few_clock, few_work = few[name]
        of, it = (few_work, work) if asked.url is None else (few_clock, clock)
        print(f"{name:34}{few_clock:>8.0f}{few_work:>7.0f} ms{clock:>8.0f}{work:>7.0f} ms{it / of:>8.1f}")
        if name.startswith(LISTS) and asked.url is None and it > MOST_TIMES * max(of, SHORTEST_MS):
            slow.append(name)
    if slow:
        print(f"over {MOST_TIMES:g} times: {', '.join(slow)}")
    return int(bool(slow))


if __name__ == "__main__":
    sys.exit(main())
