"""What moves no salt is no step, what lines and words state is one, and what much hangs on is asked."""

from __future__ import annotations

import pytest
from saltledger.method.prose_tokens import tokenize
from saltledger.method.times_and_sizes import durations

from tests.method.test_method_reading import component, reading


def kinds(lines: list[str], *method: str) -> list[str]:
    return [step["kind"] for step in reading(lines, *method).recipe.get("steps", ())]


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (
            ["500 g prawns", "2 tbsp lime juice", "1/2 tsp salt"],
            "Toss all, let sit for 15 minutes and serve.",
        ),
        (
            ["1 kg beef mince", "2 tsp salt"],
            "Mix, shape into a loaf, chill 1 hour. Bake at 180 °C for 1 hour.",
        ),
        (["300 g bulgur", "1 tsp salt"], "Soak the bulgur in 500 ml hot water with the salt for 20 minutes."),
        (["4 tomatoes", "1 onion"], "Pour boiling water over the tomatoes, leave 1 minute, peel and chop."),
        (
            ["100 g butter", "4 eggs"],
            "Melt the butter in a bowl over a pan of simmering water. Beat in the eggs.",
        ),
        (
            ["4 salmon fillets", "2 tbsp soy sauce"],
            "Pour the soy sauce over the salmon. Bake for 15 minutes.",
        ),
        (
            ["1 hen", "2 l water", "2 tsp salt", "4 leeks"],
            "Simmer the hen in the water with the salt. Remove it. Boil the leeks in the broth and serve.",
        ),
    ],
)
def test_what_stays_in_the_dish_is_no_step(lines: list[str], method: str) -> None:
    assert kinds(lines, method) == []


def test_a_pan_beside_the_pot_keeps_its_food() -> None:
    lines = ["400 g penne", "300 g cherry tomatoes", "2 tbsp oil"]
    found = reading(
        lines,
        "Put a large pot of salted water on to boil. Meanwhile heat the oil in a frying pan and throw in "
        "the tomatoes. Cook the penne for 9 minutes and drain.",
    )
    (boil,) = found.recipe["steps"]
    assert boil["kind"] == "boil"
    assert component(found, "400 g penne")[0] == boil["food"]
    assert component(found, "300 g cherry tomatoes")[0] == "dish"


@pytest.mark.parametrize(
    ("line", "hours"),
    [("salt cod, 500 g, soaked for 24 hours", 24), ("lentils, 300 g, soaked overnight", 12)],
)
def test_a_soaking_that_only_the_line_states(line: str, hours: float) -> None:
    found = reading([line, "1 onion"], "Mash all with the onion.")
    (soak,) = found.recipe["steps"]
    assert (soak["kind"], soak["duration_h"]) == ("soak", hours)
    (told,) = found.steps
    assert (told["start"], told["end"], told["text"]) == (0, 0, line)


def test_bread_soaked_in_milk_is_not_soaked_for_its_salt() -> None:
    assert kinds(["200 g lentils, soaked in stock", "100 g bread, soaked in milk"], "Mash all.") == []


def test_what_the_method_rinses_is_rinsed() -> None:
    lines = ["1 cabbage, shredded", "2 tbsp salt"]
    found = reading(
        lines, "Rub the salt into the cabbage and leave for 2 hours. Rinse three times and drain."
    )
    cure, rinse = found.recipe["steps"]
    assert (cure["kind"], rinse["kind"], rinse["food"]) == ("dry_cure", "rinse", cure["food"])
    assert cure["thickness_cm"] == 0.3
    assert "temperature_c" not in cure


def test_a_cut_after_the_brine_says_nothing_of_what_lay_in_it() -> None:
    found = reading(
        ["1 kg pork loin", "2 l water", "100 g salt"],
        "Stir the salt into the water. Put in the pork and chill for 24 hours. Drain, and slice thinly.",
    )
    assert found.recipe["steps"][0]["thickness_cm"] > 2


def test_hours_and_thickness_that_nobody_says_are_asked_about() -> None:
    lines, method = (
        ["1 kg pork loin", "2 l water", "100 g salt"],
        (
            "Stir the salt into the water.",
            "Submerge the pork in the brine in the fridge. Drain.",
        ),
    )
    asked = {q.id.split("-")[0]: q for q in reading(lines, *method).questions}
    assert {"hours", "thickness"} <= asked.keys()
    told = reading(lines, *method, answers={asked["hours"].id: "12", asked["thickness"].id: "thicker"})
    before, after = reading(lines, *method).recipe["steps"][0], told.recipe["steps"][0]
    assert after["duration_h"] == 12
    assert after["thickness_cm"] > before["thickness_cm"]


def test_salt_of_no_amount_for_a_pot_is_as_much_as_pots_take() -> None:
    found = reading(
        ["300 g pasta", "salt, for the pasta water"], "Cook the pasta in boiling water and drain."
    )
    (line,) = (each for each in found.lines if each["index"] == 1)
    water = next(c for c in found.recipe["components"] if c["id"] == line["component"])
    assert water["eaten_fraction"] == 0
    assert water["ingredients"][line["ingredient"]]["line"].endswith("g salt")


def test_a_bowl_in_which_one_mixes_is_no_mix() -> None:
    lines = ["1 kg chicken thighs", "150 g yogurt", "1 tbsp salt", "2 tsp cumin"]
    method = "In a bowl mix yogurt, salt and cumin. Add the thighs and leave to marinate for 3 hours."
    assert kinds(lines, method, "Tip all onto a tray and roast at 220 °C for 30 minutes.") == [
        "marinate",
        "roast",
    ]


@pytest.mark.parametrize(
    ("words", "hours"),
    [
        ("for an hour or two", 1.5),
        ("between 8 and 12 hours", 10),
        ("at least 4 hours", 4),
        ("2 minutes and 30 seconds", 0.0417),
    ],
)
def test_times_in_words(words: str, hours: float) -> None:
    assert durations(tokenize(words))[0].likely == pytest.approx(hours, rel=0.01)


@pytest.mark.parametrize(
    ("method", "hours", "eaten"),
    [
        (
            "Mix together the marinade:\nAdd the beef and let it stand for 2 hours. Discard the marinade.",
            2,
            0.0,
        ),
        ("Marinate the beef overnight. Grill it.", 12, 1.0),
        ("Stir the marinade well. Add the beef and allow to marinate for at least 30 minutes.", 0.5, 1.0),
    ],
)
def test_a_marinade_that_only_stands_before_the_meat_in_the_list(method, hours, eaten):
    lines = ["3 tbsp soy sauce", "1 tbsp rice vinegar", "1 tsp sugar", "500 g beef strips", "2 onions"]
    found = reading(lines, *method.splitlines())
    (step,) = (s for s in found.recipe["steps"] if s["kind"] == "marinate")
    assert step["duration_h"] == hours
    assert component(found, "3 tbsp soy sauce") == (step["bath"], eaten)
    assert any(q.id.startswith(("optional", "fate")) for q in found.questions)


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (
            ["3 tbsp soy sauce", "1 tbsp vinegar", "500 g beef"],
            "Fry the beef, pour in the soy sauce and vinegar.",
        ),
        (["500 g beef", "3 tbsp soy sauce", "1 tbsp vinegar"], "Mix a sauce and add the beef. Cook 2 hours."),
    ],
)
def test_no_marinade_where_none_is_spoken_of(lines, method):
    assert "marinate" not in {s["kind"] for s in reading(lines, method).recipe.get("steps", ())}


@pytest.mark.parametrize(
    "method",
    [
        "Boil the water, vinegar and salt. Pack the beans in jars; fill with the hot liquid. Seal.",
        "Bring vinegar, water and salt to the boil. Put the beans into a jar and pour the liquid over them.",
        "Heat everything but the beans. Add the beans, heat through, and spoon it all into jars.",
    ],
)
def test_what_is_put_up_in_jars_lies_in_their_liquid(method):
    found = reading(["300 ml water", "200 ml vinegar", "2 tsp salt", "400 g green beans"], method)
    (step,) = found.recipe["steps"]
    assert (step["kind"], component(found, "2 tsp salt")) == ("brine", (step["bath"], 0.0))
    assert any(q.id.startswith("fate") for q in found.questions)


def test_what_infuses_in_milk_lies_in_it():
    lines = ["600 g salt cod", "500 ml milk"]
    found = reading(lines, "Infuse the cod in the hot milk for 2 hours. Drain. Discard the milk.")
    (step,) = found.recipe["steps"]
    assert (step["kind"], step["duration_h"]) == ("soak", 2)
    assert not kinds(["500 ml milk", "1 bay leaf"], "Heat the milk and infuse it with the bay for an hour.")


@pytest.mark.parametrize(
    "line",
    ["200 g macaroni, in 1 inch pieces", "300 g beans, in lengths of 3 cm", "300 g leeks, 8 cm long"],
)
def test_a_length_is_no_thickness(line):
    (step,) = reading([line], "Boil in salted water for 8 minutes and drain.").recipe["steps"]
    assert "thickness_cm" not in step


def test_what_is_put_up_in_jars_lies_there_for_weeks_unless_somebody_says_else():
    lines = ["300 ml water", "200 ml vinegar", "2 tsp salt", "400 g green beans"]
    found = reading(
        lines, "Boil the water, vinegar and salt. Put the beans in jars and fill with the liquid."
    )
    assert found.recipe["steps"][0]["duration_h"] == 336
    assert next(q.taken for q in found.questions if q.id.startswith("hours")) == "weeks"


@pytest.mark.parametrize(
    "where",
    ["In a separate bowl, mix", "In a large saucepan, heat", "In another jug, stir together"],
)
def test_what_is_stirred_elsewhere_is_another_mixture(where):
    lines = ["300 ml milk", "50 g cornflour", "80 ml soy sauce", "2 tbsp sugar", "500 g beef"]
    method = (
        f"Mix the milk and cornflour. {where} the soy sauce and sugar. Add the beef and chill for 2 hours."
    )
    found = reading(lines, f"{method} Drain, discard the marinade and grill. Serve with the milk sauce.")
    assert component(found, "300 ml milk")[0] == "dish"
    assert component(found, "80 ml soy sauce")[1] == 0.0


@pytest.mark.parametrize(
    "soaks",
    ["Add the chops and allow to soak for 5 hours.", "Put in the chops and let them soak 5 hours, chilled."],
)
def test_what_soaks_in_salt_water_lies_in_that_water(soaks):
    lines = ["3 tbsp salt", "1 quart water", "4 pork chops"]
    found = reading(lines, f"Mix salt and water in a large container. {soaks} Grill.")
    assert component(found, "1 quart water") == component(found, "3 tbsp salt") == ("brine", 0.0)
    assert found.recipe["steps"][0]["duration_h"] == 5


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (
            ["100 g salt", "50 g sugar", "2.5 l water", "4 pork chops"],
            "Heat all but the water. Pour the salt solution into the water. Leave the chops in it overnight.",
        ),
        (
            ["100 g salt", "1 l water", "1 kg ice", "4 pork chops"],
            "Heat the water with the salt. Add ice until it is cold. Leave the chops in the brine overnight.",
        ),
    ],
)
def test_the_water_and_ice_of_a_list_go_into_its_brine(lines, method):
    found = reading(lines, method)
    assert {component(found, line) for line in lines[:3]} == {("brine", 0.0)}


@pytest.mark.parametrize(
    ("ending", "eaten"),
    [
        ("Drain the potatoes, saving the water for another day, and serve.", 0.0),
        ("Drain (keep the liquid for soup). Mash.", 0.0),
        ("Drain, reserving the water. Mash, adding some of the cooking water.", 0.1),
    ],
)
def test_a_liquid_that_is_kept_and_never_used_is_not_eaten(ending, eaten):
    found = reading(["1 kg potatoes"], f"Boil the potatoes in salted water for 20 minutes. {ending}")
    water = next(c for c in found.recipe["components"] if c["id"] == "water")
    assert water["eaten_fraction"] == pytest.approx(eaten, abs=0.05)
