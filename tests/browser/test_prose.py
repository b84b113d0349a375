"""How a recipe in prose was read, in a real browser: marked, accessible, and answered by keyboard."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, Page, expect

from ..serving import Service
from .test_review import RULES, browser, opened, pytestmark, save, service, shoot

__all__ = ["browser", "pytestmark", "service"]

KALE: dict[str, Any] = {
    "title": "Tern Quay loin and kale",
    "servings": 6,
    "ingredients": ["1.2 kg pork loin", "3 l water", "150 g salt", "500 g kale", "30 g butter"],
    "method": [
        "Stir the salt into the water. Submerge the pork in the brine in the fridge. Drain and rinse.",
        "Roast the pork at 170 °C for 1 hour.",
        "Boil the kale in salted water for 5 minutes, drain and toss in the butter.",
    ],
}


def opened_review(page: Page, title: str) -> Locator:
    """The section that tells how the recipe of a title was read."""
    page.goto("/review?status=all")
    page.get_by_role("link", name=title).click()
    return page.get_by_role("region", name="How the method was read")


@pytest.mark.parametrize("width", [1280, 390])
def test_the_method_is_marked_and_accessible(
    browser: Browser, service: Service, tmp_path: Path, width: int
) -> None:
    title = f"Kale on {width} pixels"
    save(service, tmp_path, f"kale-{width}", {**KALE, "title": title})
    with opened(browser, service, viewport={"width": width, "height": 900}) as page:
        method = opened_review(page, title)
        expect(method.locator("mark").first).to_contain_text("Submerge the pork in the brine")
        expect(method.get_by_role("listitem").filter(has_text="rinse")).to_have_count(1)
        page.wait_for_load_state()  # as wide as its style makes it
        assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
        options = {"runOnly": {"type": "tag", "values": RULES}}
        found = Axe().run(page, options=options)
        assert found.violations_count == 0, found.generate_report()


def test_a_question_is_answered_by_keyboard(browser: Browser, service: Service, tmp_path: Path) -> None:
    save(service, tmp_path, "kale-asked", {**KALE, "title": "Kale to be asked"})
    with opened(browser, service) as page:
        opened_review(page, "Kale to be asked")
        before = page.locator(".headline strong").inner_text()
        question = page.get_by_role("region", name="To decide").get_by_role("group", name="How long does")
        question.get_by_role("radio", name="24 h.").focus()
        page.keyboard.press("Space")
        button = question.get_by_role("button", name="Keep this answer")
        page.keyboard.press("Tab")
        expect(button).to_be_focused()
        page.keyboard.press("Enter")
        again = page.get_by_role("region", name="How the method was read")
        expect(again.get_by_role("group", name="How long does")).to_contain_text("A person answered")
        assert page.locator(".headline strong").inner_text() != before


def test_how_much_of_a_line_there_is_is_answered(browser: Browser, service: Service, tmp_path: Path) -> None:
    lines = ["800 g diced chicken", "600 g potatoes", "soy sauce", "200 g feta (optional)"]
    recipe = {"title": "Stew to be asked", "servings": 4, "ingredients": lines, "method": ["Stew it all."]}
    save(service, tmp_path, "stew-asked", recipe)
    with opened(browser, service) as page:
        opened_review(page, "Stew to be asked")
        before = page.locator(".headline strong").inner_text()
        decide = page.get_by_role("region", name="To decide")
        question = decide.get_by_role("group", name="How much is 'soy sauce'?")
        expect(decide.get_by_role("listitem").filter(has_text="soy sauce")).to_have_count(1)
        shoot(page, "asked-of-lines")
        question.get_by_role("radio", name="Little: about").check()
        question.get_by_role("button", name="Keep this answer").click()
        again = page.get_by_role("region", name="How the method was read")
        answered = again.get_by_role("group", name="How much is 'soy sauce'?")
        expect(answered).to_contain_text("A person answered")
        assert page.locator(".headline strong").inner_text() != before
        shoot(page, "answered-of-a-line")
        expect(decide.get_by_role("group", name="Does '200 g feta (optional)' go in?")).to_have_count(1)
