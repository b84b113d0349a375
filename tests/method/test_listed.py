"""What the lines of a list may be called in a method."""

import pytest
from saltledger.method.listed import Index, listed_of

from .test_method_reading import component, reading


def test_the_name_of_a_kind_speaks_of_what_ends_in_it():
    index = Index.of(listed_of(["200 g beansprouts", "1 watermelon"]))
    assert [line.index for line in index.by_word["sprout"]] == [0]
    assert [line.index for line in index.by_word["melon"]] == [1]


@pytest.mark.parametrize(
    "remark",
    [
        "Feel free to leave out whatever you do not like.",
        "* Garden cucumbers have a thicker skin, so peel them.",
        "If your leeks are thin, take one or two more",
        "Serves about 4 people, or 6 if you have bread.",
    ],
)
def test_a_sentence_about_the_list_is_no_food(remark: str) -> None:
    found = reading(["2 cucumbers", "1 tsp salt", remark], "Mix the cucumbers with the salt.")
    assert (found.lines[-1]["component"], found.lines[-1]["reason"]) == (None, "a remark")
    assert component(found, "2 cucumbers")[0] == "dish"


@pytest.mark.parametrize(
    "line",
    [
        "butter, enough to fry all of them with",
        "salt if it needs it",
        "good stock, as you have it in the house",
        "2 cups flour, you may need more if it is humid",
        "soft cheese: what there is, any of them will do",
    ],
)
def test_a_food_with_a_word_about_it_is_a_food(line: str) -> None:
    assert reading(["500 g noodles", line], "Cook it all.").lines[-1]["component"] == "dish"


@pytest.mark.parametrize(
    "tool",
    [
        *(
            "1 bread knife",
            "2 mixing bowls",
            "1 cheese grater",
            "a lemon squeezer",
            "a 20 cm loaf tin",
            "tongs",
        ),
        *("2 plates or saucers", "1 set measuring spoons", "an ice cube tray", "clean jars for 1 litre"),
    ],
)
def test_a_tool_is_no_food_whatever_it_is_for(tool: str) -> None:
    found = reading(["1 kg cabbage", "20 g salt", tool], "Mix the cabbage with the salt.")
    assert (found.lines[-1]["component"], found.lines[-1]["reason"]) == (None, "not a food")


@pytest.mark.parametrize(
    "food",
    [
        "1 bowl of rice",
        "1 small pot cream",
        "1 jar pickles",
        "2 racks of lamb",
        "2 plates of ham",
        "1 stock pot",
    ],
)
def test_a_food_in_a_vessel_is_a_food(food: str) -> None:
    assert reading(["1 kg cabbage", food], "Mix it all.").lines[-1]["component"] == "dish"


@pytest.mark.parametrize("head", ["-- slaw --", "== Slaw ==", "[Slaw]", "~~ slaw ~~"])
def test_a_name_between_rules_is_a_heading(head: str) -> None:
    found = reading(["500 g cod", head, "200 g cabbage", "1 tsp salt"], "Fry the cod. Mix the slaw.")
    (line,) = (each for each in found.lines if each["text"] == head)
    assert (line["component"], line["reason"]) == (None, "a heading")
