"""Which lines of a list only head its parts, name a part again, or tell of another line."""

import pytest
from saltledger.method.listed import listed_of
from saltledger.method.parts_headed import parts_headed

from .test_method_reading import component, reading


def left_out(*lines: str) -> list[str]:
    """The lines that are no foods."""
    foods = {line.index for line in listed_of(lines)}
    return [text for i, text in enumerate(lines) if i not in foods]


@pytest.mark.parametrize(
    ("head", "lines"),
    [
        ("Roux", ("40 g butter", "40 g flour", "400 ml milk")),
        ("Spaetzle", ("2 eggs", "80 ml milk", "200 g flour", "1 tsp salt")),
        ("Lamb", ("2 shallots", "3 garlic cloves", "400 g minced lamb", "Yogurt sauce", "200 g yogurt")),
        ("Breadcrumbs", ("60 g panko breadcrumbs", "Egg wash", "1 egg", "1 tbsp milk")),
        ('"Lamb" filling', ("200 g smoked tofu", "1 onion", "2 tbsp mayonnaise")),
        ("Groceries", ("Leeks", "Cod", "Salt")),
        ("Crisp batter", ("Flour", "Sparkling water", "Baking powder")),
    ],
)
def test_a_name_above_what_it_is_made_of_is_a_heading(head, lines):
    assert head in left_out(head, *lines)


def test_a_part_that_is_named_again_is_a_heading_and_then_no_food():
    lines = (
        "Turkey",
        "500 g minced turkey",
        "1 onion",
        "Som tam",
        "1 papaya",
        "2 limes",
        "Rolls",
        "Turkey",
        "Som tam",
    )
    assert left_out(*lines) == ["Turkey", "Som tam", "Turkey", "Som tam"]


@pytest.mark.parametrize(
    "lines",
    [
        ("Chicken", "500 ml chicken stock", "1 onion", "2 carrots"),
        ("Rice", "1 tbsp rice vinegar", "200 g salmon", "1 cucumber"),
        ("Half Savoy cabbage", "200 g ham", "1 onion", "100 ml cream"),
        ("Star anise - one half", "200 g duck", "1 onion", "Salt", "Salt"),
        ("Salt", "1 kg beef", "2 onions", "Salt", "2 eggs"),
    ],
)
def test_a_food_without_an_amount_is_a_food(lines):
    assert left_out(*lines) == []


@pytest.mark.parametrize(
    "bids", ["Slice the fennel", "grate fennel", "Peel and dice fennel", "prepare fennel"]
)
def test_a_line_that_only_bids_to_cut_another_is_a_remark(bids):
    found = reading(["2 bulbs fennel", "1 tsp salt", bids], "Mix the fennel with the salt.")
    assert (found.lines[-1]["component"], found.lines[-1]["reason"]) == (None, "a remark")


@pytest.mark.parametrize(
    "line", ["Zest of 1 lemon", "Slice of bread", "Grate 100 g gruyere", "Cut green beans", "Shred celeriac"]
)
def test_a_line_that_brings_a_food_of_its_own_is_one(line):
    found = reading(["2 lemons", "1 tsp salt", line], "Mix everything.")
    assert component(found, line)[0] == "dish"


@pytest.mark.parametrize("remark", ["no salt if the ham is salty", "only add sugar if the tomatoes are sour"])
def test_what_depends_on_an_if_is_a_remark(remark):
    assert left_out("1 kg tomatoes", "200 g ham", "No-salt stock cube", remark) == [remark]


@pytest.mark.parametrize("last", [["noodles", "vegetables"], ["Vegetables", "Noodles"], ["Noodles", "Veg"]])
def test_a_word_that_heads_nothing_at_the_end_of_a_list_is_the_food(last: list[str]) -> None:
    lines = ["600 g beef shin", "100 ml soy sauce", *last]
    assert parts_headed(lines) == {}
    assert 2 in parts_headed([*lines[:2], "Noodles", "200 g flour", "2 eggs"])
