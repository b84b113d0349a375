"""The dietitian's day in a real browser: Chromium, the real service, a CMS that saves and listens."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect, sync_playwright

from ..serving import Service, served

CHROMIUM = os.environ.get("TEST_CHROMIUM", "/usr/bin/chromium")
"""Where TEST_CHROMIUM is set these tests run, and fail where the browser is missing."""

ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
SCREENSHOTS = os.environ.get("TEST_SCREENSHOTS")
HOOK = Path(__file__).parents[1] / "examples" / "cms_hook.py"
REFUSED = re.compile(r"status of (403|412|422)")
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]

LEGS: dict[str, Any] = {
    "title": "Brined chicken legs with potatoes",
    "servings": 6,
    "components": [
        {"id": "legs", "label": "Chicken legs", "ingredients": ["1.6 kg chicken legs"]},
        {
            "id": "brine",
            "label": "Brine",
            "ingredients": ["3 litres water", "180 g table salt", "1 pinch moonshade"],
        },
        {"id": "dressing", "label": "Dressing", "ingredients": ["3 tbsp olive oil"]},
    ],
    "steps": [
        {
            "kind": "brine",
            "food": "legs",
            "bath": "brine",
            "duration_h": 8,
            "temperature_c": 3,
            "thickness_cm": 4.5,
        },
        {"kind": "roast", "food": "legs", "duration_h": 0.75, "temperature_c": 190},
    ],
}

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(
        "TEST_CHROMIUM" not in os.environ and not Path(CHROMIUM).exists(), reason=f"there is no {CHROMIUM}"
    ),
]


@pytest.fixture(scope="module")
def service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    folder = tmp_path_factory.mktemp("browser")
    with served(f"sqlite:///{folder}/store.sqlite3", folder / "log", "--workers", "1") as service:
        yield service


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        yield launched
        launched.close()


def cms(service: Service, *arguments: str) -> str:
    """Run the CMS's hook, as a CMS would."""
    environment = {**os.environ, "LEDGER_URL": service.url}
    command = [sys.executable, str(HOOK), *arguments]
    return subprocess.run(
        command, capture_output=True, text=True, env=environment, timeout=120, check=True
    ).stdout


def save(service: Service, folder: Path, key: str, recipe: dict[str, Any]) -> None:
    file = folder / "recipe.json"
    file.write_text(json.dumps(recipe))
    cms(service, "save", key, str(file))


def events(service: Service, key: str) -> list[str]:
    told = [line.split(" ", 3) for line in cms(service, "follow").splitlines()]
    return [f"{kind} {by}" for _, kind, about, by in told if about == key]


@contextmanager
def opened(browser: Browser, service: Service, **options: Any) -> Iterator[Page]:
    """A page of a fresh visitor; in the end it has complained of nothing and asked no other host.

    That a form came back with its faults the browser notes by itself.
    """
    context = browser.new_context(base_url=service.url, **options)
    page = context.new_page()
    complaints: list[str] = []
    page.on("console", lambda message: REFUSED.search(message.text) or complaints.append(message.text))
    page.on(
        "request",
        lambda request: complaints.append(request.url) if not _at_home(request.url, service) else None,
    )
    yield page
    context.close()
    assert complaints == []


def _at_home(url: str, service: Service) -> bool:
    return url.startswith((service.url, "data:"))


def shoot(page: Page, name: str) -> None:
    """Keep a picture to be looked at, where a folder for them is named."""
    if SCREENSHOTS:
        page.screenshot(path=Path(SCREENSHOTS) / f"{name}.png", full_page=True)


def test_from_the_save_to_the_sign_off_without_scripts(
    browser: Browser, service: Service, tmp_path: Path
) -> None:
    save(service, tmp_path, "legs", LEGS)
    with opened(browser, service, java_script_enabled=False) as page:
        page.goto("/review")
        page.get_by_role("link", name=LEGS["title"]).click()
        rows = page.get_by_role("table").filter(has_text="Taken as").locator("tbody tr")
        expect(page.locator(".decide li").first).to_contain_text("1 pinch moonshade not read")
        expect(rows.filter(has_text="1 pinch moonshade")).to_contain_text("Not in the dataset")
        before = page.locator(".headline strong").inner_text()

        page.get_by_role("link", name="Change 180 g table salt", exact=True).click()
        page.get_by_label("Look for another food").fill("olive oil")
        page.get_by_role("button", name="Search").click()
        page.get_by_label("Oil, olive, salad or cooking").check()
        page.get_by_role("button", name="See what comes of it").click()
        expect(page.get_by_role("status")).to_contain_text(f"instead of {before}")
        shoot(page, "tried")
        page.get_by_label("Your name").fill("Ines Ware, RD")
        page.get_by_role("button", name="Keep this change").click()
        expect(page.get_by_role("alert")).to_contain_text("Say why")
        page.get_by_label("Why").fill("It was the oil tin, says the kitchen")
        page.get_by_role("button", name="Keep this change").click()
        expect(page.get_by_role("status")).to_contain_text("Your change is kept")
        expect(rows.filter(has_text="180 g table salt")).to_contain_text("Oil, olive")
        assert page.locator(".headline strong").inner_text() != before

        expect(page.get_by_label("Your name")).to_have_value("Ines Ware, RD")
        page.get_by_label("Note").fill("Looked at with the kitchen")
        page.get_by_role("button", name="Sign and next").click()
        expect(page.get_by_role("alert")).to_contain_text("The sodium is incomplete")
        expect(page.get_by_label("Note")).to_have_value("Looked at with the kitchen")
        page.get_by_label("I sign this figure although it is incomplete").check()
        page.get_by_role("button", name="Sign and next").click()
        expect(page.get_by_role("status")).to_contain_text("Signed off: Brined chicken legs with potatoes")
        expect(page.get_by_role("status")).to_contain_text("That was the last of this list")
        page.get_by_role("status").get_by_role("link").click()
        expect(page.locator(".decision")).to_contain_text("Signed off by Ines Ware, RD")
        shoot(page, "signed")
        assert events(service, "legs") == [
            "recipe.saved local",
            "recipe.incomplete local",
            "recipe.overruled Ines Ware, RD (this machine, without a key)",
            "recipe.figure_changed Ines Ware, RD (this machine, without a key)",
            "recipe.signed Ines Ware, RD (this machine, without a key)",
        ]


def test_a_recipe_is_sent_back_by_keyboard(browser: Browser, service: Service, tmp_path: Path) -> None:
    save(service, tmp_path, "sent-back", {**LEGS, "title": "Legs to send back"})
    with opened(browser, service) as page:
        page.goto("/review?status=all")
        page.keyboard.press("Tab")
        expect(page.get_by_role("link", name="Skip to the content")).to_be_focused()
        page.keyboard.press("Enter")
        link = page.get_by_role("link", name="Legs to send back")
        for _ in range(40):
            page.keyboard.press("Tab")
            if link.evaluate("each => each === document.activeElement"):
                break
        page.keyboard.press("Enter")
        expect(page.get_by_role("heading", level=1)).to_have_text("Legs to send back")
        page.get_by_label("Your name").focus()
        page.keyboard.type("Ines Ware, RD")
        page.keyboard.press("Tab")
        page.keyboard.type("Which salt?")
        page.get_by_role("button", name="Send back and next").focus()
        page.keyboard.press("Enter")
        expect(page.get_by_role("status")).to_contain_text("Sent back: Legs to send back")
        told = "recipe.sent_back Ines Ware, RD (this machine, without a key)"
        assert events(service, "sent-back")[-1] == told


@pytest.fixture(scope="module")
def kept(service: Service, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The path of a version that has everything a page can show."""
    folder = tmp_path_factory.mktemp("kept")
    save(service, folder, "other", {"servings": 2, "ingredients": ["180 g table salt", "1 litre water"]})
    save(service, folder, "full", {**LEGS, "title": "Legs with everything"})
    return "full"


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [1280, 390])
def test_every_page_is_accessible_and_fits(
    browser: Browser, service: Service, kept: str, scheme: Any, width: int
) -> None:
    with opened(browser, service, color_scheme=scheme, viewport={"width": width, "height": 900}) as page:
        page.goto("/review?status=all")
        page.get_by_role("link", name="Legs with everything").click()
        version = page.url.partition("?")[0]
        places = {
            "list": "/review?status=all",
            "version": version,
            "change-line": f"{version}/change?at=/components/1/ingredients/1&query=salt",
            "change-part": f"{version}/change?at=/components/1",
            "change-step": f"{version}/change?at=/steps/0",
            "print": f"{version}/print",
            "login": "/review/login",
        }
        for name, path in places.items():
            page.goto(path)
            for details in page.locator("details").all():
                details.evaluate("each => each.open = true")
            shoot(page, f"{name}-{scheme}-{width}")
            found = Axe().run(page, options={"runOnly": {"type": "tag", "values": RULES}})
            assert found.violations_count == 0, f"{name}: {found.generate_report()}"
            over = page.evaluate(
                "document.documentElement.scrollWidth - document.documentElement.clientWidth"
            )
            assert over <= 0, f"{name} is {over} pixels too wide"


def test_the_page_of_the_method_fits_a_phone(browser: Browser, service: Service) -> None:
    with opened(browser, service, viewport={"width": 390, "height": 900}) as page:
        page.goto("/method")
        assert page.evaluate("document.documentElement.scrollWidth") <= 390


def test_paper_has_the_figures_and_no_buttons(browser: Browser, service: Service, kept: str) -> None:
    with opened(browser, service) as page:
        page.goto("/review?status=all")
        page.get_by_role("link", name="Legs with everything").click()
        page.get_by_role("link", name="Print view").click()
        page.emulate_media(media="print", color_scheme="dark")
        expect(page.locator(".headline")).to_be_visible()
        expect(page.locator("svg.flow")).to_be_visible()
        expect(page.locator(".bar")).to_be_hidden()
        assert page.locator("button:visible").count() == 0
        shoot(page, "paper")
