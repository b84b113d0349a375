"""A day at the review desk: forty recipes by keyboard alone, and what is typed is never lost."""

from __future__ import annotations

import json
import urllib.request
from collections.abc import Iterator
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, Route, expect
from saltledger.store import reviewers
from saltledger.store.database import Database
from saltledger.store.schema import metadata
from sqlalchemy import delete

from ..serving import Service, served
from .test_review import RULES, browser, opened, pytestmark, shoot

__all__ = ["browser", "pytestmark"]

FORTY = 40
PASSWORD = "tide-table-at-noon"


@pytest.fixture(scope="module")
def store_url(tmp_path_factory: pytest.TempPathFactory) -> str:
    return f"sqlite:///{tmp_path_factory.mktemp('desk')}/store.sqlite3"


@pytest.fixture(scope="module")
def running(store_url: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    with served(store_url, tmp_path_factory.mktemp("log") / "log", "--workers", "1") as service:
        yield service


@pytest.fixture
def service(running: Service, store_url: str) -> Service:
    """The service of all tests here, its store emptied."""
    database = Database(store_url)
    with database.write() as connection:
        for table in reversed(metadata.sorted_tables):
            connection.execute(delete(table))
    database.close()
    return running


def put(service: Service, key: str, recipe: dict[str, Any]) -> dict[str, Any]:
    """Save a recipe as a CMS does."""
    request = urllib.request.Request(
        f"{service.url}/v1/recipes/{key}",
        json.dumps(recipe).encode(),
        {"Content-Type": "application/json"},
        method="PUT",
    )
    with urllib.request.urlopen(request, timeout=60) as response:
        saved: dict[str, Any] = json.load(response)
    return saved


def clean(number: int) -> dict[str, Any]:
    lines = ["800 g potatoes", "200 g carrots", "1 litre water", f"{4 + number / 10:g} g table salt"]
    return {"title": f"Quay soup {number:02}", "servings": 6, "ingredients": lines}


class Counted:
    """A keyboard that counts what is pressed, a run of text as one action."""

    def __init__(self, page: Page) -> None:
        self._keyboard, self.actions = page.keyboard, 0

    def press(self, key: str) -> None:
        self.actions += 1
        self._keyboard.press(key)

    def type(self, text: str) -> None:
        self.actions += 1
        self._keyboard.type(text)


def test_forty_recipes_are_signed_by_keyboard_in_at_most_four_actions_each(
    browser: Browser, service: Service
) -> None:
    for number in range(FORTY - 1):
        put(service, f"soup-{number:02}", clean(number))
    put(service, "odd", {**clean(99), "title": "Soup with moonshade", "ingredients": ["1 pinch moonshade"]})
    with opened(browser, service) as page:
        page.goto("/review")
        keys = Counted(page)
        keys.press("Alt+n")
        expect(page.get_by_role("heading", level=1)).to_have_text("Soup with moonshade")
        keys.press("Alt+o")
        keys.type("What is moonshade?")
        keys.press("Tab")
        keys.press("Alt+b")
        expect(page.get_by_label("Your name")).to_be_focused()  # the browser says that it is missing
        expect(page.get_by_label("Note")).to_have_value("What is moonshade?")
        page.get_by_label("Your name").focus()
        page.keyboard.type("Ines Ware, RD")
        page.keyboard.press("Enter")
        expect(page.get_by_label("Your name")).to_be_focused()  # Enter in a field decides nothing
        keys.press("Alt+b")
        expect(page.get_by_role("status")).to_contain_text("Sent back: Soup with moonshade")
        for number in range(FORTY - 1):
            keys.actions = 0
            title = page.get_by_role("heading", level=1).inner_text()
            assert title.startswith("Quay soup")
            expect(page.get_by_label("Your name")).to_have_value("Ines Ware, RD")
            page.wait_for_load_state()  # the script that hears the keys is there
            keys.press("Alt+s")
            expect(page.get_by_role("status")).to_contain_text(f"Signed off: {title}")
            assert keys.actions <= 4
            if number == 0:
                shoot(page, "walk")
        expect(page.get_by_role("status")).to_contain_text("That was the last of this list")
        page.goto("/review?status=signed")
        expect(page.locator("table.queue tbody tr")).to_have_count(FORTY - 1)


def test_on_a_phone_the_list_begins_on_the_first_screen(browser: Browser, service: Service) -> None:
    put(service, "soup", clean(1))
    for width, is_open in ((390, False), (1280, True)):
        with opened(browser, service, viewport={"width": width, "height": 844}) as page:
            page.goto("/review")
            page.wait_for_load_state()
            assert page.locator("details.filters").evaluate("each => each.open") is is_open
            row = page.locator("table.queue tbody tr").first.bounding_box()
            assert row is not None
            assert row["y"] + row["height"] < 844 / (1 if is_open else 2)
            for cell in ("th a", "td.figure", "td.needs"):
                expect(page.locator(f"table.queue tbody tr {cell}").first).to_be_visible()


def test_recipes_in_recipes_are_worked_out_again_from_the_page(browser: Browser, service: Service) -> None:
    put(service, "stock", {"title": "Stock", "servings": 4, "ingredients": ["2 l water", "12 g table salt"]})
    used: dict[str, Any] = {"recipe": "stock", "grams": 800}
    put(service, "soup", {"title": "Soup", "servings": 4, "ingredients": ["500 g potatoes", used]})
    put(service, "stock", {"title": "Stock", "servings": 4, "ingredients": ["2 l water", "22 g table salt"]})
    for scheme, width in (("light", 390), ("dark", 1280)):
        with opened(browser, service, color_scheme=scheme, viewport={"width": width, "height": 900}) as page:
            page.goto("/review?only=stale")
            page.get_by_role("link", name="Soup", exact=True).click()
            expect(page.locator("#stale")).to_contain_text("Stock, version 1 then, now version 2")
            for details in page.locator("details").all():
                details.evaluate("each => each.open = true")
            shoot(page, f"made-of-{scheme}-{width}")
            found = Axe().run(page, options={"runOnly": {"type": "tag", "values": RULES}})
            assert found.violations_count == 0, found.generate_report()
            assert page.evaluate("document.documentElement.scrollWidth") <= width
    with opened(browser, service) as page:
        page.goto("/review?only=stale")
        page.get_by_role("link", name="Soup", exact=True).click()
        page.wait_for_load_state()
        page.keyboard.press("Alt+w")
        expect(page.get_by_role("status")).to_contain_text("its figures moved")
        page.get_by_role("link", name="Stock", exact=True).first.click()
        expect(page.get_by_role("heading", level=1)).to_have_text("Stock")


def test_a_filter_survives_going_in_and_out(browser: Browser, service: Service) -> None:
    for number in range(4):
        put(service, f"soup-{number}", clean(number))
    put(service, "stew", {**clean(9), "title": "Stew"})
    with opened(browser, service) as page:
        page.goto("/review")
        page.keyboard.press("Alt+f")
        page.keyboard.type("quay soup")
        page.keyboard.press("Enter")
        expect(page.locator("table.queue tbody tr")).to_have_count(4)
        page.get_by_role("link", name="Quay soup 03").click()
        page.get_by_role("link", name="Change 800 g potatoes", exact=True).click()
        page.get_by_label("Weight in g").fill("700")
        page.keyboard.press("Enter")
        expect(page.get_by_role("status")).to_contain_text("Nothing is kept yet")
        page.get_by_label("Why").fill("weighed")
        page.get_by_label("Your name").fill("Ines Ware, RD")
        page.keyboard.press("Alt+k")
        expect(page.get_by_role("status")).to_contain_text("Your change is kept")
        page.wait_for_load_state()  # the script that hears the keys is there
        page.keyboard.press("Alt+s")
        expect(page.get_by_role("heading", level=1)).to_have_text("Quay soup 02")
        page.wait_for_load_state()
        page.keyboard.press("Alt+l")
        expect(page.get_by_label("Title, key or ingredient")).to_have_value("quay soup")
        expect(page.locator("table.queue tbody tr")).to_have_count(3)


def test_a_note_typed_before_the_page_has_loaded_is_kept(browser: Browser, service: Service) -> None:
    put(service, "soup", clean(1))
    with opened(browser, service) as page:
        page.goto("/review")
        held: list[Route] = []
        page.route("**/static/desk.js", lambda route: held.append(route))  # noqa: PLW0108 - a bound builtin has no place for the wrapper
        page.get_by_role("link", name="Quay soup 01").click(no_wait_after=True)
        page.get_by_label("Note").fill("Ask which salt")
        assert len(held) == 1
        held[0].continue_()
        page.unroute("**/static/desk.js")
        page.wait_for_load_state()
        expect(page.get_by_label("Note")).to_have_value("Ask which salt")
        page.get_by_role("link", name="Change 200 g carrots", exact=True).click()
        page.get_by_role("link", name="Leave it as it is").click()
        expect(page.get_by_label("Note")).to_have_value("Ask which salt")


def test_a_note_outlives_conflict_and_wandering_off(browser: Browser, service: Service) -> None:
    put(service, "soup", clean(1))
    with opened(browser, service) as page:
        page.goto("/review")
        page.keyboard.press("Alt+n")
        page.get_by_label("Your name").fill("Ines Ware, RD")
        page.get_by_label("Note").fill("Ask which salt")
        page.get_by_role("link", name="Change 200 g carrots", exact=True).click()
        page.get_by_role("link", name="Leave it as it is").click()
        expect(page.get_by_label("Note")).to_have_value("Ask which salt")
        put(service, "soup", clean(2))
        page.get_by_label("Your name").fill("Ines Ware, RD")
        with page.expect_response(lambda response: response.status == 412):
            page.keyboard.press("Alt+b")
        expect(page.get_by_role("alert")).to_contain_text("There is a newer version")
        expect(page.get_by_label("Note")).to_have_value("Ask which salt")
        page.wait_for_load_state()
        page.keyboard.press("Alt+b")
        expect(page.get_by_role("status")).to_contain_text("Sent back: Quay soup 02")
        page.get_by_role("status").get_by_role("link").click()
        expect(page.get_by_label("Note")).to_have_value("")
        page.get_by_label("Note").fill("Ask again")
        page.keyboard.press("Alt+s")
        expect(page.get_by_role("status")).to_contain_text("Signed off: Quay soup 02")
        page.go_back()
        expect(page.locator("aside")).to_contain_text("Ask again")
        expect(page.get_by_label("Note")).to_have_value("")


def test_a_note_outlives_a_login_that_has_ended(browser: Browser, service: Service, store_url: str) -> None:
    put(service, "soup", clean(1))
    database = Database(store_url)
    with database.write() as connection:
        reviewers.add(connection, "ines", "Ines Ware, RD", PASSWORD)
    database.close()
    with opened(browser, service) as page:
        page.goto("/review")
        _log_in(page)
        expect(page.get_by_role("heading", level=1)).to_have_text("Recipes to review")
        page.wait_for_load_state()
        page.keyboard.press("Alt+n")
        page.get_by_label("Note").fill("Weighed twice")
        page.wait_for_load_state()
        page.context.clear_cookies()
        page.keyboard.press("Alt+s")
        expect(page.get_by_role("alert")).to_contain_text("Your login has ended")
        _log_in(page)
        expect(page.get_by_role("heading", level=1)).to_have_text("Nothing was sent yet")
        expect(page.locator("dl")).to_contain_text("Weighed twice")
        page.get_by_role("button", name="Send it now").click()
        expect(page.get_by_role("status")).to_contain_text("Signed off: Quay soup 01")
        page.get_by_role("status").get_by_role("link").click()
        expect(page.locator("aside")).to_contain_text("Weighed twice")


def _log_in(page: Page) -> None:
    page.get_by_label("Login").fill("ines")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Log in").click()
