"""Ways of cooking that a method tells at length: pickles, pumps, ferments, curds, and what points back."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.method.method_reading import Reading
from saltledger.method.prose_tokens import tokenize
from saltledger.method.times_and_sizes import durations

from .test_method_reading import component, reading
from .test_plain_recipes import eaten

Steps = list[tuple[str, float | None]]


def steps_of(found: Reading) -> Steps:
    return [(step["kind"], step.get("duration_h")) for step in found.recipe.get("steps", ())]


def fate_of(found: Reading, line: str) -> float | None:
    where = component(found, line)[0]
    return next(c.get("eaten_fraction") for c in found.recipe["components"] if c["id"] == where)


@pytest.mark.parametrize(
    ("lines", "method", "steps"),
    [
        (
            ["2 kg white cabbage", "40 g salt"],
            "Massage the salt into the cabbage. Pack into a crock and ferment for 3 weeks.",
            [("ferment", 504.0)],
        ),
        (
            ["1 kg small cucumbers", "1 l water", "40 g salt"],
            "Dissolve the salt in the water. Add the cucumbers. Ferment for 5 days.",
            [("ferment", 120.0)],
        ),
        (
            ["2 kg turkey breast", "# Injection", "300 ml water", "20 g salt"],
            "Warm the water with the salt. Inject the turkey with it and rest in the fridge for 12 hours.",
            [("inject", None)],
        ),
        (
            ["4 cucumbers", "1 tbsp salt"],
            "Toss cukes w/ salt; stand 20 min. Squeeze and toss the liquid. Don't rinse.",
            [("dry_cure", 0.3333), ("squeeze", None)],
        ),
        (
            ["1 kg yogurt", "1 tsp salt"],
            "Stir the salt into the yogurt and hang in muslin over a bowl for 24 hours.",
            [("drain", None)],
        ),
        (
            ["1 kg beetroot", "1 kg coarse salt"],
            "Bury the beetroot in the salt and bake for 1 hour at 200 C. Crack the crust away.",
            [("dry_cure", 1.0)],
        ),
        (
            ["1 pork belly", "50 g salt"],
            "Rub the salt into the belly. Refrigerate for 3 days. Rinse and pat dry. Cold-smoke for 8 hours.",
            [("dry_cure", 72.0), ("rinse", None), ("smoke", 8.0)],
        ),
        (
            ["300 g fusilli", "300 g farfalle"],
            "Boil the fusilli in salted water for 11 minutes and drain. Cook the farfalle as above.",
            [("boil", 0.1833), ("boil", 0.1833)],
        ),
        (
            ["1 bunch broccoli", "400 g orecchiette"],
            "Boil the broccoli in salted water for 3 minutes and lift out. In the same water cook the "
            "orecchiette for 10 minutes. Drain.",
            [("boil", 0.05), ("boil", 0.1667)],
        ),
        (
            ["6 eggs", "120 ml soy sauce", "120 ml water"],
            "Combine the soy and water in a bag, add the eggs and steep from morning until evening.",
            [("marinate", 10.0)],
        ),
        (
            ["4 fish fillets", "100 ml lime juice", "1 tsp salt"],
            "Cover the fish with the lime juice and leave 20 minutes. Pour off the juice.",
            [("marinate", 0.3333)],
        ),
        (
            ["400 g peas", "30 g butter"],
            "Cook the peas as the packet says, drain and toss with the butter.",
            [("boil", None)],
        ),
    ],
)
def test_a_way_of_cooking_becomes_its_steps(lines: list[str], method: str, steps: Steps) -> None:
    assert steps_of(reading(lines, method)) == steps


def test_two_pastas_share_one_pot_in_the_same_water() -> None:
    found = reading(
        ["1 bunch broccoli", "400 g orecchiette"],
        "Boil the broccoli in salted water for 3 minutes and lift out. In the same water cook the "
        "orecchiette for 10 minutes. Drain.",
    )
    first, second = found.recipe["steps"]
    assert first["bath"] == second["bath"]


def test_a_pot_as_above_is_as_salty_as_the_first() -> None:
    found = reading(
        ["300 g fusilli", "300 g farfalle"],
        "Boil 4 litres of water with 40 g salt, cook the fusilli for 11 minutes and drain. "
        "Cook the farfalle as above.",
    )
    pots = [c for c in found.recipe["components"] if c["id"].startswith("water")]
    assert [any("40 g salt" in each["line"] for each in pot["ingredients"]) for pot in pots] == [True, True]


@pytest.mark.parametrize(
    ("line", "wanted"),
    [("coarse salt, 10 g per litre, for the water", 20.0), ("salt for the pasta water, 7 g/l", 14.0)],
)
def test_salt_by_the_litre_is_as_much_as_the_water_makes_of_it(line: str, wanted: float) -> None:
    found = reading(
        ["200 g spaghetti", line], "Bring 2 litres of water to the boil, salt it and cook the spaghetti."
    )
    (pot,) = [c for c in found.recipe["components"] if c["id"] == "water"]
    assert {"line": f"{wanted:.3g} g salt"} in pot["ingredients"]


def test_amounts_behind_a_food_are_its_own() -> None:
    lines = ["500 g chicken breast", "100 g flour"]
    found = reading(
        lines, "Mix salt and pepper, 1/2 tsp each, into the flour. Roll the chicken in it and bake."
    )
    told = [i["line"] for c in found.recipe["components"] for i in c["ingredients"] if isinstance(i, dict)]
    assert any("1/2 tsp" in each and "salt" in each for each in told)


def test_a_marinade_held_back_is_eaten_in_part() -> None:
    found = reading(
        ["400 g tuna", "90 ml soy sauce", "30 ml mirin"],
        "Mix the soy and mirin. Pour two thirds over the tuna and chill for 30 minutes; keep the rest to "
        "serve. Lift out the tuna and discard what is left of the marinade.",
    )
    shares = {line["component"]: line["share"] for line in found.lines if "share" in line}
    assert shares["marinade"] == pytest.approx(0.6667, abs=1e-3)
    assert shares["dish"] == pytest.approx(0.3333, abs=1e-3)


@pytest.mark.parametrize(
    ("lines", "method", "topic"),
    [
        (
            ["1 kg potatoes", "2 tsp salt, divided"],
            "Boil the potatoes in water with the salt for 20 minutes. Drain.",
            "split",
        ),
        (
            ["1 chicken", "60 g salt"],
            "Brine the chicken in cold water with the salt for 8 hours.",
            "water",
        ),
        (
            ["1 gammon joint"],
            "If your gammon is very salty, soak it overnight in water. Simmer in fresh water for 2 hours.",
            "optional",
        ),
        (["1 kg beetroot", "1 kg coarse salt"], "Serve the beetroot.", "left"),
        (["2 l milk", "1 tsp salt"], "Heat the milk with the salt. Drain in a cheesecloth.", "whey"),
    ],
)
def test_what_much_hangs_on_is_asked(lines: list[str], method: str, topic: str) -> None:
    assert any(question.id.startswith(topic) for question in reading(lines, method).questions)


def test_a_brine_of_the_list_that_no_clause_uses_is_used_and_asked_about() -> None:
    lines = ["1 pork loin", "# Brine", "2 l water", "120 g salt"]
    found = reading(lines, "Let the loin have its bath for 24 hours. Roast it for 1 hour.")
    assert ("brine", 24.0) in steps_of(found)
    assert fate_of(found, "120 g salt") == 0
    assert any(question.id.startswith("optional") for question in found.questions)


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("from morning until evening", [10.0]),
        ("simmer 2 hours 10 for this one", [2.1667]),
        ("keep 2 weeks before opening", [336.0]),
        ("chill 2-4 hrs", [3.0]),
        ("leave till tomorrow", [18.0]),
    ],
)
def test_times_in_words(text: str, hours: list[float]) -> None:
    assert [round(span.likely, 4) for span in durations(tokenize(text))] == hours


@pytest.mark.parametrize(
    "heading",
    ["FOR ROASTING", "**To assemble**", "Injection", "Day 1", "To cook", "Veg"],
)
def test_a_line_without_a_food_is_a_heading(heading: str) -> None:
    found: Any = reading(["1 kg potatoes", heading, "2 tsp salt"], "Roast the potatoes with the salt.")
    assert next(line for line in found.lines if line["index"] == 1)["component"] is None


@pytest.mark.parametrize(
    ("method", "baths"),
    [
        ("Boil the potatoes in well salted water. Simmer the cod in water.", 2),
        ("Simmer the cod in fresh water. Boil the potatoes in salted water.", 2),
        ("Boil the potatoes in salted water. Simmer the cod in the same water.", 1),
        ("Boil the potatoes in salted water. Add the cod to the water and simmer 10 minutes.", 1),
    ],
)
def test_water_that_nobody_spoke_of_is_another_pot(method: str, baths: int) -> None:
    found: Any = reading(["500 g potatoes", "300 g salt cod"], method)
    assert len({step["bath"] for step in found.recipe["steps"]}) == baths


def test_everything_does_not_salt_a_pot_with_salt_that_went_elsewhere() -> None:
    lines = ["2 large cucumbers, sliced", "1 tbsp salt", "300 g salt cod", "2 tbsp vinegar"]
    method = (
        "Sprinkle the cucumbers with the salt, leave 30 minutes and rinse. Simmer the cod for 10 minutes in "
        "fresh water. Toss everything with the vinegar."
    )
    found: Any = reading(lines, method)
    with_salt = [
        part["id"] for part in found.recipe["components"] if "1 tbsp salt" in str(part["ingredients"])
    ]
    assert with_salt == ["cure"]


@pytest.mark.parametrize(
    "liquor",
    [
        "poaching liquid",
        "stock",
        "beef stock",
        "same liquid",
        "reserved broth",
        "water in which the beef was boiled",
    ],
)
def test_what_boils_in_a_liquor_lies_in_the_first_one_s_pot(liquor: str) -> None:
    method = (
        "Cover the beef with water and simmer for 2 hours. Lift out the beef and keep it warm. Boil the "
        f"potatoes in the {liquor} for 20 minutes. Serve together."
    )
    found: Any = reading(["800 g salt beef", "1 kg potatoes"], method)
    first, second = found.recipe["steps"]
    assert (first["food"], second["food"], first["bath"]) == ("salt-beef", "potatoes", second["bath"])
    (bath,) = (part for part in found.recipe["components"] if part["id"] == first["bath"])
    assert bath["eaten_fraction"] == 0


def test_noodles_in_the_broth_are_a_soup() -> None:
    lines = ["1 chicken", "2 litres water", "2 tsp salt", "200 g egg noodles"]
    method = (
        "Simmer the chicken in the water with the salt. Lift out. Cook the noodles in the broth. Return the "
        "chicken and ladle into bowls."
    )
    assert fate_of(reading(lines, method), "2 tsp salt") in (None, 1)


@pytest.mark.parametrize(
    "way", ["Add the potatoes to the cooking liquid", "Put the potatoes in the ham water"]
)
def test_what_is_put_where_a_ham_was_lifted_out_lies_in_its_water(way: str) -> None:
    method = (
        f"Cover the gammon with water and simmer for 1 hour. Take out the gammon. {way} and boil 20 minutes."
    )
    found: Any = reading(["800 g gammon joint", "1 kg potatoes"], method)
    assert [step["food"] for step in found.recipe["steps"]] == ["gammon-joint", "potatoes"]
    assert len({step["bath"] for step in found.recipe["steps"]}) == 1


@pytest.mark.parametrize(
    "back",
    [
        "Take out the garlic. Peel it, mash it, and return to the pot.",
        "Fish out the garlic, crush it and stir it back in.",
        "Lift out the garlic; skin, chop and put it back.",
    ],
)
def test_what_is_taken_out_and_comes_back_is_eaten_with_its_broth(back: str) -> None:
    lines = ["1 kg beef", "2 l water", "3 cloves garlic", "1 tsp salt"]
    found = reading(lines, f"Simmer the beef and garlic in the water with the salt for 2 hours. {back}")
    assert all(eaten(found, n) == 1.0 for n in range(4))
    kept_out = "Take out the garlic. Slice the beef and return it to the pot."
    found = reading(lines, f"Simmer the beef and garlic in the water with the salt. {kept_out}")
    assert eaten(found, 2) == 0.0
