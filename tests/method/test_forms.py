"""schema.org/Recipe in its usual shapes, and lines with paragraphs: one form of all of them."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.method.forms import is_written, written_of

STEPS = ("Boil the pasta.", "Drain.")
RECIPE = {"@type": "Recipe", "name": "Pasta", "recipeYield": 4, "recipeIngredient": ["400 g pasta"]}


def linked(**more: Any) -> dict[str, Any]:
    return {**RECIPE, "recipeInstructions": list(STEPS), **more}


@pytest.mark.parametrize(
    "instructions",
    [
        list(STEPS),
        "Boil the pasta.\nDrain.",
        "<p>Boil the pasta.</p><p>Drain.</p>",
        "1. Boil the pasta.\n2. Drain.",
        "<ol><li>Boil the pasta.</li><li>Drain.</li></ol>",
        [{"@type": "HowToStep", "text": text} for text in STEPS],
        [{"@type": "HowToStep", "name": text} for text in STEPS],
        {"@type": "ItemList", "itemListElement": [{"@type": "HowToStep", "text": text} for text in STEPS]},
        {
            "@type": "ItemList",
            "itemListElement": [
                {"@type": "ListItem", "position": i, "item": {"@type": "HowToStep", "text": text}}
                for i, text in enumerate(STEPS)
            ],
        },
        [{"@type": "HowToStep", "itemListElement": [{"@type": "HowToDirection", "text": t} for t in STEPS]}],
    ],
)
def test_instructions_in_every_shape(instructions: Any) -> None:
    assert written_of(linked(recipeInstructions=instructions)).paragraphs == STEPS


def test_a_section_is_a_heading() -> None:
    section = {"@type": "HowToSection", "name": "Pasta", "itemListElement": [{"text": STEPS[0]}]}
    assert written_of(linked(recipeInstructions=[section])).paragraphs == ("# Pasta", STEPS[0])


@pytest.mark.parametrize(
    "document",
    [
        linked(),
        [linked()],
        {"@context": "https://schema.org", "@graph": [{"@type": "WebSite"}, linked()]},
        linked(**{"@type": ["NewsArticle", "Recipe"]}),
        linked(**{"@type": "https://schema.org/Recipe"}),
        {"@type": "WebPage", "mainEntity": linked()},
        linked(aggregateRating={"@type": "AggregateRating"}, unheard_of=1),
    ],
)
def test_a_recipe_wherever_it_stands(document: Any) -> None:
    assert is_written(document)
    assert written_of(document).lines == ("400 g pasta",)


@pytest.mark.parametrize(
    ("said", "servings"),
    [
        (4, 4.0),
        ("4", 4.0),
        ("4 servings", 4.0),
        ("4 to 6 servings", 5.0),
        ("4-6", 5.0),
        ("Serves six", 6.0),
        ("makes 24", 24.0),
        ("1 loaf", 1.0),
        ("2 dozen", 24.0),
        (["12", "12 cookies"], 12.0),
        (["1 cake", "8 servings"], 8.0),
        ({"@type": "QuantitativeValue", "value": 3}, 3.0),
        (None, None),
    ],
)
def test_how_many_it_serves(said: Any, servings: float | None) -> None:
    assert written_of(linked(recipeYield=said)).servings == servings


def test_entities_tags_and_links_are_taken_out() -> None:
    found = written_of(linked(recipeIngredient=["1 cup&nbsp;<b>salt &amp; pepper</b>", "[stock](/stock)"]))
    assert [" ".join(line.split()) for line in found.lines] == ["1 cup salt & pepper", "stock"]


def test_plain_text_keeps_its_places() -> None:
    text = "Boil  5 < 6 minutes, then – well – drain."
    assert written_of(linked(recipeInstructions=[text])).paragraphs == (text,)


@pytest.mark.parametrize(
    ("document", "pointer", "words"),
    [
        ({"@type": "Product"}, "/@type", "Found Product"),
        (linked(recipeIngredient=[]), "/recipeIngredient", "no ingredient lines"),
        (linked(recipeIngredient=["x", 3]), "/recipeIngredient/1", "Wanted text"),
        (linked(recipeYield="plenty"), "/recipeYield", "plenty"),
        (linked(recipeYield=0), "/recipeYield", "above 0"),
        (linked(recipeInstructions="a" * 1_000_000), "/recipeInstructions", "1,000,000"),
        ({"servings": 2, "ingredients": ["x"], "method": [1]}, "/method/0", "Wanted text"),
    ],
)
def test_what_cannot_be_read_is_named(document: Any, pointer: str, words: str) -> None:
    with pytest.raises(InvalidRequest) as refused:
        written_of(document)
    (fault,) = refused.value.faults
    assert fault.pointer == pointer
    assert words in fault.message
