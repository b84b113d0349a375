"""Ways of writing that many recipes share: times by weight, fat in depth, parts of liquids, crusts."""

from __future__ import annotations

import pytest
from saltledger.method.prose_tokens import tokenize
from saltledger.method.times_and_sizes import durations

from .test_method_reading import component, reading


def kinds(found: object) -> list[tuple[str, float | None]]:
    steps = found.recipe.get("steps", [])  # type: ignore[attr-defined]
    return [(step["kind"], step.get("duration_h")) for step in steps]


@pytest.mark.parametrize(
    ("text", "per_g", "hours"),
    [
        ("20 minutes per pound plus 20 minutes", 453.6, 1.0),
        ("25 min per 500g", 500.0, 0.75),
        ("15 minutes for each 450 g and an extra half an hour", 450.0, 1.0),
    ],
)
def test_a_time_by_weight_is_a_rate_with_what_comes_on_top(text: str, per_g: float, hours: float) -> None:
    (rate,) = durations(tokenize(text))
    assert rate.per_g == pytest.approx(per_g, rel=1e-3)
    grams = {453.6: 907.2, 500.0: 900.0, 450.0: 900.0}[per_g]
    assert rate.by_weight(grams).likely == pytest.approx(hours, rel=1e-3)


def test_minutes_a_pound_become_hours_by_the_weight_of_the_joint() -> None:
    found = reading(
        ["1 gammon joint, 2 kg", "1 onion"],
        "Soak the gammon overnight in cold water.",
        "Drain, cover with fresh water, add the onion and simmer for 20 minutes per 500 g.",
        "Lift out, and throw the water away.",
    )
    assert ("simmer", pytest.approx(4 / 3, abs=1e-3)) in kinds(found) or (
        "boil",
        pytest.approx(4 / 3, abs=1e-3),
    ) in kinds(found)


def test_two_heats_of_a_roast_add_up() -> None:
    found = reading(
        ["2 kg topside of beef"],
        "Roast the beef at 220C for 20 minutes, then at 170C for 15 minutes per 500 g.",
    )
    assert kinds(found) == [("roast", pytest.approx(4 / 3, abs=1e-3))]


@pytest.mark.parametrize(
    "way",
    [
        "Heat half a pan of oil and fry the fish in it for 4 minutes.",
        "Pour enough oil into a pan to come 2 cm up the side; when hot, fry the fish for 4 minutes.",
        "Deep-fry the fish for 4 minutes.",
    ],
)
def test_fat_in_depth_is_a_bath_though_no_line_says_how_much(way: str) -> None:
    found = reading(["4 pieces of cod", "sunflower oil"], way)
    assert [kind for kind, _ in kinds(found)] == ["fry"]


def test_a_little_oil_in_a_pan_is_eaten() -> None:
    found = reading(
        ["4 pieces of cod", "sunflower oil"], "Heat a little oil in a pan and fry the fish for 4 minutes."
    )
    assert kinds(found) == []


def test_a_part_of_a_liquid_in_two_places_is_kept_from_being_poured_away() -> None:
    found = reading(
        ["1 chicken, about 1.4 kg", "3 litres water", "2 tbsp salt", "300 g rice"],
        "Bring the water to the boil with the salt. Lower in the chicken and poach for 40 minutes.",
        "Fry the rice and add 400 ml of the broth. Cover and cook for 15 minutes.",
        "Season a further 600 ml of the broth and serve it beside. What is left can be frozen.",
    )
    _, eaten = component(found, "2 tbsp salt")
    assert eaten == pytest.approx(1 / 3, abs=0.03)


def test_a_crust_of_salt_is_broken_off() -> None:
    found = reading(
        ["2 sea bass (600 g each)", "2 kg coarse salt", "4 egg whites"],
        "Mix the salt with the egg whites. Make a bed of it, lay the fish on top and pack the rest over.",
        "Bake for 25 minutes. Crack the crust and lift it off.",
    )
    assert kinds(found)[0] == ("dry_cure", pytest.approx(25 / 60, abs=1e-3))
    assert component(found, "2 kg coarse salt")[1] == 0.0
    assert component(found, "4 egg whites")[1] == 0.0


def test_bones_stay_in_the_sieve_and_their_stock_is_eaten() -> None:
    found = reading(
        ["1 chicken carcass", "1 stick celery", "2 l water", "2 tsp salt", "300 g rice"],
        "Put the carcass, celery, water and salt in a pot, bring to the boil and simmer for 2 hours.",
        "Strain, discarding the bones. Cook the rice in the stock for 18 minutes.",
    )
    assert component(found, "1 chicken carcass")[1] == 0.0
    assert component(found, "2 tsp salt")[1] == 1.0


def test_meat_that_goes_back_into_its_pot_was_not_drained() -> None:
    found = reading(
        ["1 kg beef shin", "2.5 l water", "1 tbsp salt", "3 potatoes"],
        "Cover the beef with the water, bring to a boil with the salt and cook for 2 hours.",
        "Take out the meat, pull it apart and return it to the pot. Add the potatoes, boil 10 minutes.",
    )
    assert component(found, "1 tbsp salt")[1] in (None, 1.0)


def test_a_bare_heading_of_a_list_is_no_food() -> None:
    lines = ["2 beetroots", "APPLE SAUCE", "3 apples", "25 g sugar", "Dressing (makes double)", "2 tbsp oil"]
    found = reading(lines, "Boil the beetroots for 40 minutes and drain.", "Stew the apples with the sugar.")
    reasons = {line["index"]: line.get("reason") for line in found.lines}
    assert reasons[1] == reasons[4] == "a heading"
    bought = reading(["500 g pork", "Worcestershire sauce", "2 onions"], "Fry the pork with the onions.")
    assert component(bought, "Worcestershire sauce")[0] == "dish"


def test_a_label_before_a_paragraph_is_what_it_is_about() -> None:
    found = reading(
        ["1 turkey (6 kg)", "8 l water", "500 g salt"],
        "BRINE: Stir the salt into the water. Turkey in, breast down. Fridge, 16-18 h.",
        "ROAST: Out of the brine, rinsed, dried. 160 °C, about 30 minutes a kilo.",
    )
    assert kinds(found)[0] == ("brine", 17.0)
    assert ("roast", 3.0) in kinds(found)


def test_of_two_ways_one_is_done_and_a_person_may_choose() -> None:
    lines = ["1 turkey, 12 lb", "60 g salt", "1 tbsp thyme", "300 g kosher salt", "1 gallon water"]
    method = [
        "DRY: Mix the 60 g salt and thyme. Rub over the whole bird. Refrigerate uncovered for 2 days.",
        "WET (only if you must): dissolve the 300 g salt in the water and submerge the turkey 18 hours.",
    ]
    found = reading(lines, *method)
    (question,) = (q for q in found.questions if q.id.startswith("way-"))
    assert [kind for kind, _ in kinds(found)] == ["dry_cure"]
    other = reading(lines, *method, answers={question.id: "second"})
    assert [kind for kind, _ in kinds(other)] == ["brine"]


def test_juice_that_is_not_drained_stays_in_the_dish() -> None:
    found = reading(
        ["3 onions, finely sliced", "1 tsp salt", "150 g gram flour", "oil, for deep-frying"],
        "Rub the salt into the onions and leave for 15 minutes. Don't drain: that water makes the batter.",
        "Mix in the flour. Heat the oil and fry small handfuls for 4 minutes. Drain on kitchen paper.",
    )
    assert component(found, "1 tsp salt")[1] in (None, 1.0)


def test_the_night_before_is_how_long_a_joint_lies_salted() -> None:
    found = reading(
        ["2.5 kg pork loin", "2 tbsp fine salt"],
        "The night before, rub half the salt into the skin. Leave it on a plate in the fridge, uncovered.",
        "Roast the pork at 180 °C for 2 hours.",
    )
    assert kinds(found)[0] == ("dry_cure", 12.0)


def test_water_without_salt_needs_no_question() -> None:
    found = reading(["1 kg potatoes"], "Boil the potatoes in plenty of water. Do not salt the water. Drain.")
    assert [q.taken for q in found.questions if q.id.startswith("pot-salt")] in ([], ["plain"])


def test_all_beans_are_chickpeas_too() -> None:
    found = reading(["1 can green beans", "1 can kidney beans", "1 can garbanzos"], "Drain all beans. Mix.")
    (step,) = found.recipe["steps"]
    drained = [each for each in found.recipe["components"] if each["id"] in step["food"]]
    assert sum(len(each["ingredients"]) for each in drained) == 3


@pytest.mark.parametrize(
    "method",
    [
        "Put the shoulder with the salt and the onions into a slow cooker for 7 hours. Pull it apart and "
        "grill for 5 minutes.",
        "Rub with the salt. Lay the shoulder in the crockpot, cook on low all day, then broil it.",
        "Salt the pork, put it in the pressure cooker with the onions. Shred, and broil for 4 minutes.",
    ],
)
def test_meat_out_of_a_slow_cooker_drips_no_more_under_the_grill(method: str) -> None:
    found = reading(["2 kg pork shoulder", "4 tsp salt", "3 onions"], method)
    assert "roast" not in [step["kind"] for step in found.recipe.get("steps", ())]
