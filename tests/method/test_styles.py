"""Many hands' ways of saying what happens to salt: kinds of steps, and the fate of lines."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.core.errors import InvalidRequest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read
from saltledger.method.method_words import nouns, small_words, verbs
from saltledger.recipe.request import RecipeRequest

from ..bench.method import fates_of

Steps = list[tuple[str, float | None]]


def reading(lines: list[str], method: list[str]) -> Reading:
    return read(written_of({"title": "T", "servings": 4, "ingredients": lines, "method": method}))


def steps_of(found: Reading) -> Steps:
    return [(step["kind"], step.get("duration_h")) for step in found.recipe.get("steps", [])]


BRINE = ["1 kg pork", "60 g salt", "1 l water"]
TROUT = ["4 trout", "300 g salt", "6 l water"]
SLAW = ["1 cabbage", "2 tbsp salt"]


@pytest.mark.parametrize(
    ("lines", "method", "steps"),
    [
        (["4 chops", "60 ml soy sauce"], "Marinate the chops in the soy 2 to 3 hours.", [("marinate", 2.5)]),
        (BRINE, "The pork goes into a brine of the water and salt overnight.", [("brine", 12.0)]),
        (["500 g salt cod"], "Put the cod to soak in water for 24 hours; drain.", [("soak", 24.0)]),
        (
            SLAW,
            "Toss the cabbage with the salt, stand 1 hour, then squeeze dry.",
            [("dry_cure", 1.0), ("squeeze", None)],
        ),
        (["1 cabbage", "2 tbsp salt"], "Shred the cabbage and season with the salt.", []),
        (["500 g potatoes"], "Boil the potatoes for 20 minutes. Drain.", [("boil", 0.3333)]),
        (["300 g pasta", "1 l stock"], "Boil the stock, add the pasta, cook for 10 min.", []),
        (["300 g rice", "600 ml water"], "Boil the rice in the water for 15 minutes until absorbed.", []),
        (["1 can beans"], "Drain and rinse the beans.", [("drain", None)]),
        (["2 cans beans, drained and rinsed"], "Mix.", [("drain", None)]),
        (["2 jars beans, drained and rinsed"], "Mix.", [("drain", None)]),
        (["1 chicken"], "Roast the chicken at 200°C for 1 1/2 hours.", [("roast", 1.5)]),
        (["1 chicken", "500 ml stock"], "Lay the chicken in the stock. Roast for 1 h.", []),
        (["4 steaks"], "Grill the steaks for 3 minutes a side.", [("roast", 0.1)]),
        (["300 g pasta"], "Cook the pasta one minute less than it says.", [("boil", None)]),
        (["400 g farfalle"], "Drain your farfalle, done by now.", [("boil", None)]),
        (["1 ham"], "Do not soak the ham.", []),
        (["1 brisket", "# Rub", "2 tbsp pepper"], "Coat the brisket with the rub.", []),
        (["1 can tuna", "1 tbsp lemon juice"], "Mix the tuna with the lemon. Stand 15 minutes.", []),
        (TROUT, "Add salt to the water. Soak the trout in it 1 hour.", [("brine", 1.0)]),
        (["6 lamb chops", "1 l oil"], "Deep-fry the chops in the oil for 6 minutes.", [("fry", 0.1)]),
        (["4 fillets of cod", "100 g flour"], "Dredge the cod in the flour.", [("dredge", None)]),
    ],
)  # fmt: skip
def test_what_is_said_becomes_a_step(lines: list[str], method: str, steps: Steps) -> None:
    assert steps_of(reading(lines, [method])) == steps


def test_half_and_the_rest_of_a_line() -> None:
    found = reading(
        ["1 kg potatoes", "2 tbsp salt"],
        ["Boil the potatoes in water with half the salt. Drain. Sprinkle with the remaining salt."],
    )
    shares = {line["component"]: line["share"] for line in found.lines if "share" in line}
    assert shares == {"water": 0.5, "dish": 0.5}


def test_an_amount_is_a_share_of_its_line() -> None:
    found = reading(
        ["1 lb chicken", "3 tsp soy sauce, divided", "1/4 cup lime juice"],
        ["Marinate the chicken in 2 tsp soy sauce and the lime juice . Serve with the rest of the soy."],
    )
    shares = {line["component"]: line["share"] for line in found.lines if "share" in line}
    assert shares == pytest.approx({"marinade": 2 / 3, "dish": 1 / 3}, abs=1e-3)


def test_water_of_the_brine_is_not_boiled_in() -> None:
    found = reading(
        ["1 kg chicken", "# Brine", "3 l water", "150 g salt", "# Sides", "1 kg potatoes"],
        [
            "Stir the salt into the water, add the chicken and chill 8 hours.",
            "Boil the potatoes in water; drain.",
        ],
    )
    assert [line["index"] for line in found.lines if line["component"] == "water"] == [None]


def test_a_reserved_marinade_is_eaten() -> None:
    lines = ["500 g tofu", "60 ml soy sauce", "2 tbsp mirin"]
    method = "Marinate the tofu in the soy sauce and mirin for 30 minutes."
    kept = reading(lines, [f"{method} Drain, reserving the marinade, and add it to the pan at the end."])
    gone = reading(lines, [f"{method} Discard the marinade."])
    assert fates_of(kept)[1] == "eaten"
    assert fates_of(gone)[1] == "poured"


_VOCABULARY = sorted(
    {
        *verbs(),
        *nouns("bath"),
        *nouns("class"),
        *nouns("vessel"),
        *small_words("filler"),
        "2",
        "½",
        "hours",
        ".",
        "°C",
    }
)
_LINES = [
    "1 kg pork loin",
    "3 l water",
    "150 g salt",
    "# Sauce",
    "60 ml soy sauce",
    "400 g pasta",
    "1 can beans",
]


@given(st.lists(st.lists(st.sampled_from(_VOCABULARY), max_size=30).map(" ".join), max_size=4))
def test_any_words_give_a_recipe_that_holds_every_line_once(method: list[str]) -> None:
    found = reading(_LINES, method)
    RecipeRequest.from_document(found.recipe)
    placed: dict[int, float] = {}
    for line in found.lines:
        if line["index"] is not None and line["component"]:
            placed[line["index"]] = placed.get(line["index"], 0.0) + line.get("share", 1.0)
    assert placed == pytest.approx(dict.fromkeys((0, 1, 2, 4, 5, 6), 1.0), abs=1e-3)
    for step in found.steps:
        if step["end"]:  # else a line says so, or nobody
            paragraph = found.written.paragraphs[step["method"]]
            assert paragraph[step["start"] : step["end"]] == step["text"]


@given(st.text(max_size=300))
def test_any_text_is_read(text: str) -> None:
    try:
        reading(["400 g pasta", "1 tsp salt"], [text])
    except InvalidRequest as refused:
        pytest.fail(str(refused))


def test_the_same_text_gives_the_same_reading() -> None:
    def once() -> Any:
        found = reading(_LINES, ["Brine the pork in the water and salt. Boil the pasta and drain."])
        return found.recipe, found.steps, [question.id for question in found.questions]

    assert once() == once()
