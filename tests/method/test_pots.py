"""Pots of water: what boils in them, what salts them, and how much of them is kept."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading
from .test_whole_ways import steps_of


@pytest.mark.parametrize(
    ("lines", "method", "steps"),
    [
        (
            ["400 g spaghetti", "2 tins sardines", "4 tbsp olive oil"],
            "Put a big pot of water on for the pasta. Salt generously. Fry the sardines in the oil. Cook the "
            "pasta for 9 minutes and drain, saving a cupful of water.",
            [("boil", 0.15)],
        ),
        (
            ["200 g flat rice noodles", "2 tbsp fish sauce"],
            "Soak noodles in hot water for 20 minutes, drain. Toss with the fish sauce.",
            [("soak", 0.3333)],
        ),
        (
            ["250 g puy lentils", "1 bay leaf", "3 tbsp olive oil"],
            "Put the lentils in a saucepan with the bay. Pour over water to come 5cm above. Simmer for 30 "
            "minutes. Drain, fish out the bay and dress with the oil.",
            [("boil", 0.5)],
        ),
        (
            ["200 g pasta", "100 g pecorino"],
            "Boil the pasta in salted water until 2 minutes shy of done. Drain.",
            [("boil", None)],
        ),
        (
            ["250 g fusilli", "2 carrots"],
            "Boil the pasta in salted water for 12 minutes, drain and cool under running water. Add carrots.",
            [("boil", 0.2), ("rinse", None)],
        ),
        (
            ["500 g sauerkraut", "1 onion"],
            "Rinse the sauerkraut, squeeze it and fry with the onion.",
            [("rinse", None), ("squeeze", None)],
        ),
        (
            ["500 g potatoes", "1 can tuna in brine"],
            "Boil the potatoes for 15 minutes. Drain and slice the potatoes. Drain and flake the tuna.",
            [("boil", 0.25), ("drain", None)],
        ),
    ],
)
def test_steps(lines: list[str], method: str, steps: list[tuple[str, float | None]]) -> None:
    assert steps_of(reading(lines, method)) == steps


@pytest.mark.parametrize("joins", ["cook 4 minutes more, then the beans for another 4", "add the beans"])
def test_what_joins_a_pot_boils_in_it(joins: str) -> None:
    found = reading(
        ["750 g potatoes", "200 g French beans"],
        f"Boil a pan of salted water. Add the potatoes and cook for 12 minutes, {joins}. Drain the lot.",
    )
    steps = found.recipe["steps"]
    assert {step["kind"] for step in steps} == {"boil"}
    for line in ("750 g potatoes", "200 g French beans"):
        assert any(component(found, line)[0] in step["food"] for step in steps)


def test_salt_by_the_quart_is_told_by_the_water() -> None:
    found = reading(["200 g pasta"], "Boil the pasta in water with salt (1 tsp per quart). Drain.")
    salt = next(line["text"] for line in found.lines if line["text"].endswith("salt"))
    assert salt == "8.75 to 15 g salt"


def test_a_good_spoon_of_salt_is_one() -> None:
    found = reading(["1 swede"], "Cover the swede with water, add a good teaspoon of salt, boil and drain.")
    assert any(line["text"] == "1 good teaspoon of salt" for line in found.lines)


def test_salted_butter_salts_no_water() -> None:
    found = reading(
        ["8 eggs", "50 g salted butter"], "Boil the eggs in salted water for 9 minutes. Butter the toast."
    )
    assert component(found, "50 g salted butter") == ("dish", None)


@pytest.mark.parametrize(
    "way",
    [
        "Reserve 300 ml of the cooking liquor and throw away the rest. Whisk milk into the flour with the "
        "reserved liquor.",
        "Ladle out 300 ml of the cooking water, pour the rest away and whisk it with the milk.",
    ],
)
def test_a_reserved_part_is_all_that_is_eaten_of_a_pot(way: str) -> None:
    found = reading(
        ["1.8 kg gammon", "300 ml milk", "40 g flour"],
        f"Cover the gammon with fresh water and simmer for 1 hour 40 minutes. Lift out. {way}",
    )
    water = next(c for c in found.recipe["components"] if c["id"].startswith("water"))
    assert 0 < water["eaten_fraction"] < 0.1


@pytest.mark.parametrize(
    "said",
    [
        "Cook the spaghetti. I use a tablespoon of salt for 1.5 litres of water. Drain.",
        "Boil the spaghetti in water that has 2 tbsp of salt for every 3 litres. Drain.",
        "Cook the spaghetti with 1 tbsp salt per 1½ litres. Drain.",
    ],
)
def test_salt_for_some_litres_is_told_by_the_water(said: str) -> None:
    texts = [
        x["line"]
        for c in reading(["500 g spaghetti"], said).recipe["components"]
        for x in c["ingredients"]
        if isinstance(x, dict) and "salt" in x["line"]
    ]
    least, most = (float(word) for word in texts[0].split() if word[0].isdigit())
    assert 35 < least < most < 80


@pytest.mark.parametrize(
    "tastes",
    [
        "Taste for salt. Feta is salty and I do not usually add any.",
        "Check the seasoning; the cheese makes it salty enough.",
        "Taste for seasoning. There is rarely any need: feta needs no salt.",
    ],
)
def test_tasting_for_salt_that_is_never_added_adds_none(tastes: str) -> None:
    lines = ["500 g linguine", "200 g feta"]
    found = reading(lines, f"Cook the pasta in salted water. Drain and stir in the feta. {tastes}")
    assert not [q for q in found.questions if q.id.startswith("seasoning")]
    found = reading(lines, "Cook the pasta in salted water. Drain. Taste and add salt if it wants it.")
    assert [q for q in found.questions if q.id.startswith("seasoning")]


def test_no_salt_is_added_where_none_is_needed() -> None:
    found = reading(
        ["1 ham hock", "400 g split peas", "2.5 litres water"],
        "Simmer the hock with the peas in the water 2 hours. Check before adding salt, you won't need it.",
    )
    assert not [q for q in found.questions if q.id.startswith(("seasoning", "how-much", "pot-salt"))]


def test_a_stock_of_everything_leaves_its_bones_in_the_sieve() -> None:
    found = reading(
        ["2 chicken carcasses", "1 onion", "2 teaspoons salt", "3 litres water"],
        "Everything in a pot. Bring up slowly and simmer for three hours.",
        "Strain through a fine sieve. Discard the solids.",
    )
    assert component(found, "2 chicken carcasses")[1] == 0.0
    assert component(found, "2 teaspoons salt")[1] == 1.0


@pytest.mark.parametrize(
    "way",
    [
        "The night before, put the chickpeas in a bowl with lots of cold water.",
        "Lay the chickpeas in a basin of cold water. In the morning drain them.",
        "Leave the chickpeas in the soaking water overnight.",
    ],
)
def test_pulses_in_a_bowl_of_water_soak(way: str) -> None:
    found = reading(["250 g dried chickpeas", "plenty of cold water, for soaking", "2 tsp salt"], way)
    assert steps_of(found) == [("soak", 12.0)]


def test_what_was_soaked_goes_into_a_pot_that_does_not_name_it() -> None:
    found = reading(
        ["250 g dried chickpeas", "2 tsp salt", "2 onions"],
        "Soak the chickpeas overnight and drain. Put in a pan with 1.5 litres of fresh water and 1 tsp of "
        "the salt, boil for an hour. Drain. Fry the onions with the rest of the salt, add the chickpeas.",
    )
    assert steps_of(found) == [("soak", 12.0), ("boil", 1.0)]
    shares = [line.get("share") for line in found.lines if line["index"] == 1]
    assert shares == [0.5, 0.5]


def test_what_soaks_apart_drains_no_pot() -> None:
    found = reading(
        ["250 g red lentils", "1 litre water", "300 g basmati"],
        "Simmer the lentils in the water 25 minutes. Soak the basmati in cold water for an hour, then drain.",
    )
    assert component(found, "1 litre water")[1] in (None, 1.0)


@pytest.mark.parametrize(
    "way", ["Drain, rinse under the cold tap", "Tip into a colander and run the cold tap over"]
)
def test_pasta_is_rinsed_when_boiled(way: str) -> None:
    found = reading(["250 g pasta", "1 red pepper"], f"Boil the pasta in salted water for 10 minutes. {way}.")
    assert steps_of(found) == [("boil", 0.1667), ("rinse", None)]


def test_salt_for_the_potatoes_goes_into_their_pot() -> None:
    found = reading(
        ["1 smoked ham hock", "800 g potatoes", "salt for the potatoes"],
        "Cover the hock with water and simmer for 2 hours. Boil the potatoes in salted water and drain.",
    )
    pot = next(step["bath"] for step in found.recipe["steps"] if step["food"] == "potatoes")
    assert [line["component"] for line in found.lines if line["index"] == 2] == [pot]


def test_salt_of_no_amount_salts_the_pot_and_the_dish() -> None:
    found = reading(
        ["1 kg potatoes", "Salt, pepper", "3 spoons vinegar"],
        "Boil the potatoes in salted water for 25 minutes and drain. Dress with the vinegar, and season.",
    )
    assert {line["component"] for line in found.lines if line["index"] == 1} == {"dish", "water"}


@pytest.mark.parametrize(
    ("lines", "method", "steps"),
    [
        (
            ["1 kg potatoes", "75 g salted butter", "150 ml milk"],
            "Peel the potatoes and put them on in cold salted water. Boil 20 minutes, drain and leave under "
            "a cloth to dry. Mash with the milk.",
            [("boil", 0.3333)],
        ),
        (
            ["1/2 green cabbage", "75 g butter"],
            "Cook the cabbage for 5 minutes in a little boiling water. Drain off the water and add butter.",
            [("boil", 0.0833)],
        ),
        (
            ["500 g choy sum", "2 tbsp water", "2 tsp salt"],
            "Bring a wok of water to the boil with the salt. Blanch the choy sum for 1 minute. Lift out.",
            [("boil", 0.0167)],
        ),
        (
            ["400 g flour", "4 eggs", "150 ml water"],
            "Beat flour, eggs and water to a batter. Press through a sieve into simmering salted water.",
            [("boil", None)],
        ),
        (
            ["400 g linguine", "1 kg clams"],
            "Boil a big pot of salted water. The linguine should go in as you start the clams. Drain.",
            [("boil", None)],
        ),
    ],
)
def test_waters_by_other_words(lines: list[str], method: str, steps: list[tuple[str, float | None]]) -> None:
    found = reading(lines, method)
    assert steps_of(found) == steps
    assert [step["food"] for step in found.recipe["steps"]] != ["clams"]


def test_water_is_told_behind_its_name() -> None:
    found = reading(
        ["1 chicken"], "Cover the chicken with water by an inch (about 4 quarts), simmer and drain."
    )
    assert any(line["text"] == "4 quarts water" for line in found.lines)


def test_a_little_broth_is_kept_of_a_pot_that_boils_more() -> None:
    found = reading(
        ["4 lb corned beef brisket", "2 lb potatoes", "1 head cabbage"],
        "Cover the beef with water and simmer 3 hours. Transfer the meat to a platter. Add the potatoes and "
        "cabbage to the cooking liquid and simmer 15 minutes. Drain the roots, reserving a little of the "
        "broth to moisten the meat.",
    )
    assert steps_of(found) == [("boil", 3.0), ("boil", 0.25)]
    assert len({step["bath"] for step in found.recipe["steps"]}) == 1


@pytest.mark.parametrize(
    ("lines", "method", "steps"),
    [
        (
            ["2 cups basmati", "1 tablespoon salt"],
            "Soak the rice for 30 minutes with 1 teaspoon of the salt in plenty of lukewarm water; "
            "drain. Boil 2.5 "
            "litres of water with the remaining salt. Add rice, boil 6 minutes. Drain and give it a "
            "quick rinse.",
            [("soak", 0.5), ("boil", 0.1), ("rinse", None)],
        ),
        (
            ["1 smoked sausage", "2 tbsp mustard"],
            "In a separate pan poach the sausage in water for 30 minutes. Slice and serve with the mustard.",
            [("boil", 0.5)],
        ),
        (
            ["350 g trofie", "2 potatoes", "100 g green beans", "120 g pesto"],
            "Bring plenty of salted water to a boil. Potatoes in first; after five minutes the "
            "beans, five minutes "
            "later the trofie. Drain everything together and dress with the pesto.",
            [("boil", None), ("boil", None)],
        ),
        (
            ["500 g split peas", "700 g salt pork"],
            "Steep peas and pork overnight in cold water.",
            [("soak", 12.0)],
        ),
        (
            ["1 cauliflower", "150 g cheddar"],
            "Break into florets. Cook in salted boiling water for 6 minutes. Drain and cover with "
            "the cheese.",
            [("boil", 0.1)],
        ),
        (
            ["1 ox tongue, salted", "1 carrot"],
            "Lay the tongue for three hours in fresh cold water; then set it on the fire in a large "
            "pot of cold "
            "water with the carrot and simmer for three hours and a half. The liquor it was boiled "
            "in should be "
            "thrown out.",
            [("soak", 3.0), ("boil", 3.5)],
        ),
        (
            ["12 oz orecchiette", "1 head broccoli", "6 anchovy fillets"],
            "Get your pot of salted water boiling. Pasta goes in. Set a timer for 10 minutes. Melt "
            "the anchovies in "
            "a skillet. When there's 3 minutes left on the timer, broccoli in with the pasta. Drain.",
            [("boil", 0.1667), ("boil", 0.05)],
        ),
        (
            ["400 g flour", "3 eggs", "2 dl water"],
            "Mix flour, eggs and water. Tear it through the grater into a big pot with boiling salty "
            "water. Take out.",
            [("boil", None)],
        ),
    ],
)
def test_more_ways_into_water(lines: list[str], method: str, steps: list[tuple[str, float | None]]) -> None:
    assert steps_of(reading(lines, method)) == steps


def test_both_waters_are_thrown_away() -> None:
    found = reading(
        ["1 salted tongue", "1 cotechino", "500 g brisket"],
        "Cook the tongue in plain water for 2 hours. Separately simmer the cotechino in water for 1 "
        "hour. Throw both "
        "these waters away.",
    )
    assert steps_of(found) == [("boil", 2.0), ("simmer", 1.0)]


def test_salt_that_no_clause_gives_is_shared_by_its_pots() -> None:
    found = reading(
        ["10 kg carrots", "8 kg broccoli", "250 g salt"],
        "Carrots - boil in salted water 8 mins, drain.",
        "Broccoli - blanch in salted water 2 mins, drain.",
    )
    assert [line.get("share") for line in found.lines if line["index"] == 2] == [0.5, 0.5]


@pytest.mark.parametrize(
    ("lines", "method", "steps"),
    [
        (
            ["400 g spaghetti", "2 tins tuna in oil"],
            "Get a big pot of water going, salt it well. The spaghetti need about 9 minutes. Drain "
            "the spaghetti.",
            [("boil", 0.15)],
        ),
        (
            ["1 cup moong dal", "4 cups water"],
            "Soaking is not needed. Boil the dal with the water for 25 minutes.",
            [],
        ),
        (
            ["1 ham hock", "500 g split peas"],
            "Ask how salty the hock is; most need a night in cold water.",
            [("soak", 12.0)],
        ),
        (
            ["200 g green beans", "1/4 cabbage", "3 potatoes"],
            "Bring 3 litres of salted water to the boil. Drop in the beans, lift them out after 4 minutes. "
            "Cabbage: as above, 2 minutes. Potatoes next, in the same water, for 15 minutes. Drain.",
            [("boil", 0.0667), ("boil", 0.0333), ("boil", 0.25)],
        ),
        (
            ["300 g salted ribs", "1 onion"],
            "Boil the salted ribs in plain water for 10 minutes and throw out the water.",
            [("boil", 0.1667)],
        ),
    ],
)
def test_pots_that_are_told_in_passing(
    lines: list[str], method: str, steps: list[tuple[str, float | None]]
) -> None:
    found = reading(lines, method)
    assert steps_of(found) == steps
    assert not any(line["text"].endswith("salt") for line in found.lines if "salted ribs" in lines[0])


def test_one_and_a_half_spoons_are_an_amount() -> None:
    way = "Boil the beans in 3 litres of water with one and a half tablespoons of salt. Drain."
    found = reading(["200 g beans"], way)
    assert any(line["text"] == "one and a half tablespoons of salt" for line in found.lines)


@pytest.mark.parametrize(
    ("lines", "method", "steps"),
    [
        (
            ["1.5 kg bacon joint", "1 litre dry cider"],
            "Put the joint in the slow cooker. Pour over the cider and top up with water so it is "
            "covered. Low for 7 "
            "hours. Lift out. Pour the liquid away.",
            [("simmer", 7.0)],
        ),
        (
            ["250 g dried marrowfat peas", "1 tsp bicarbonate of soda"],
            "Put the peas and bicarb in a bowl, pour over plenty of boiling water and leave "
            "overnight. Next day drain.",
            [("soak", 12.0)],
        ),
        (
            ["400 g chickpeas", "1 onion"],
            "The night before put the chickpeas to soak in warm water.",
            [("soak", 12.0)],
        ),
        (
            ["5 kg dried tagliatelle", "100 g salt"],
            "Pasta: 40 l water, 60 g salt, boil 8 min, drain.",
            [("boil", 0.1333)],
        ),
        (
            ["1 jar white beans", "200 g french beans"],
            "French beans 5 min in salted boiling water. Tip white beans into a sieve and run water through.",
            [("boil", 0.0833)],
        ),
    ],
)
def test_pots_of_few_words(lines: list[str], method: str, steps: list[tuple[str, float | None]]) -> None:
    found = reading(lines, method)
    assert steps_of(found)[: len(steps)] == steps


def test_unsalted_water_is_plain_whatever_is_said_of_salt() -> None:
    way = "Boil in unsalted water (salt toughens it) for 5 minutes. Drain."
    found = reading(["4 ears of corn", "flaky salt"], way)
    assert not any(line["text"].endswith("salt") for line in found.lines if line["index"] is None)
    assert component(found, "flaky salt") == ("dish", None)


def test_the_rest_of_the_salt_goes_into_the_pot() -> None:
    found = reading(
        ["500 g edamame", "2 tbsp salt"],
        "Rub with half the salt. Bring 1 litre of water to the boil with the rest. Boil edamame and drain.",
    )
    assert {line["component"] for line in found.lines if line["index"] == 1} == {"water"}


@pytest.mark.parametrize(
    ("lines", "method", "steps"),
    [
        (
            ["1/2 lb salted cod", "1 onion"],
            "Put the cod in a pan with fresh water and boil 20 minutes. Drain and flake it.",
            [("boil", 0.3333)],
        ),
        (
            ["1 bunch kai choy", "500 g beef mince"],
            "Blanch the mangetout 1 min in salted water, drain.",
            [],
        ),
        (
            ["1 kg dumplings"],
            "Let the dumplings steep 20 min in simmering salted water; lift out.",
            [("boil", 0.3333)],
        ),
        (
            ["2 cups macaroni", "1 cup frozen peas"],
            "Cook macaroni in boiling salted water, 8 mins. Throw in the peas for the last minute. Drain.",
            [("boil", 0.1333), ("boil", 0.0167)],
        ),
        (
            ["300 g carne seca (salted dried beef)", "500 g black beans"],
            "The evening before: cover the beef with cold water. Beans go in a second bowl of water. "
            "Next day drain all.",
            [("soak", 12.0), ("soak", 12.0)],
        ),
        (
            ["200 g dried soba"],
            "Boil the soba in abundant water, no salt, 5 minutes. Wash in cold water, drain.",
            [("boil", 0.0833), ("rinse", None)],
        ),
    ],
)
def test_pots_that_other_hands_told(
    lines: list[str], method: str, steps: list[tuple[str, float | None]]
) -> None:
    found = reading(lines, method)
    assert steps_of(found) == steps


def test_a_slice_of_lemon_is_no_liquid_to_boil_in() -> None:
    found = reading(
        ["4 chicken breasts", "1 tbsp salt", "1 slice lemon"],
        "Put everything in a saucepan with enough cold water to cover, simmer 20 minutes and discard "
        "the liquid.",
    )
    assert any(line["text"].endswith("l water") for line in found.lines)


@pytest.mark.parametrize(
    ("lines", "method", "steps"),
    [
        (
            ["4 globe artichokes", "salt"],
            "Boil a big pot with plenty of salt. Artichokes in upside down, 35 minutes. Drain.",
            [("boil", 0.5833)],
        ),
        (
            ["500 g dried white beans", "sage"],
            "Put the beans in water the night before. In the morning change the water and cook them "
            "with sage for 1 "
            "hour. Drain.",
            [("soak", 12.0), ("boil", 1.0)],
        ),
        (
            ["400 g green beans"],
            "Beans: trim, then 4 mins in boiling salted water. Straight into ice water.",
            [("boil", 0.0667)],
        ),
        (
            ["500 g fresh tortellini", "1.5 litres broth"],
            "Bring the broth to the boil. Cook the tortellini in it for 4 minutes.",
            [],
        ),
        (
            ["100 g dried marrowfat peas", "1 kg mutton"],
            "Steep peas overnight.",
            [("soak", 12.0)],
        ),
    ],
)
def test_water_that_is_hardly_named(
    lines: list[str], method: str, steps: list[tuple[str, float | None]]
) -> None:
    assert steps_of(reading(lines, method)) == steps


def test_two_thirds_of_the_salt_go_into_the_pot() -> None:
    found = reading(
        ["3 kg penne", "150 g salt", "4 l sauce"],
        "Boil 30 l water with 2/3 of the salt. Penne in, 8 min. Drain. Mix with the sauce and the "
        "rest of the salt.",
    )
    shares = [line.get("share") for line in found.lines if line["index"] == 1]
    assert sorted(shares) == [0.333333, 0.666667]


def test_a_big_mug_is_kept_of_a_pot() -> None:
    found = reading(
        ["500 g dried chickpeas"],
        "Simmer the chickpeas in water for an hour. Set aside a big mug of the liquor, drain off the rest.",
    )
    (water,) = (c for c in found.recipe["components"] if c["id"] == "water")
    assert 0.05 < water["eaten_fraction"] < 0.2


def test_a_joint_alone_in_its_pot_is_as_thick_as_its_weight_tells():
    def thickness(line: str) -> float | None:
        found = reading([line], "Cover with cold water, bring to the boil and simmer for 2 hours. Drain.")
        return found.recipe["steps"][0].get("thickness_cm")

    assert thickness("1.5 kg gammon joint") < thickness("4 kg gammon joint")
    assert thickness("500 g stewing beef, cubed") is None


def test_pasta_that_is_only_drained_boiled_in_the_water_of_the_list() -> None:
    found = reading(
        ["5 litres water", "45 g salt", "400 g orecchiette"],
        "Everything goes through the same water, so salt it once. The orecchiette want eleven minutes. Drain "
        "the pasta.",
    )
    assert {component(found, line)[1] for line in ("5 litres water", "45 g salt")} == {0.0}


@pytest.mark.parametrize(
    ("lines", "method", "cm"),
    [
        (["1 kg potatoes"], "Cut the potatoes into 2 cm cubes. Boil in salted water 15 minutes, drain.", 2.0),
        (
            ["1 kg carrots, cut into 1-inch chunks"],
            "Boil the carrots in salted water, covered by 3 cm, for 9 minutes. Drain.",
            2.54,
        ),
        (
            ["400 g carrots", "1 swede, cut into 1 cm dice"],
            "Cut the carrots into 1 cm dice. Boil the carrots and swede in salted water, drain.",
            1.0,
        ),
    ],
)
def test_what_was_cut_boils_as_thick_as_it_was_cut(lines: list[str], method: str, cm: float) -> None:
    found = reading(lines, method)
    (step,) = found.recipe["steps"]
    assert step["thickness_cm"] == cm
    assert "thickness_cm" in found.steps[0]["stated"]


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (["1 kg potatoes"], "Boil the potatoes in salted water for 25 minutes. Drain, cut into 5 mm slices."),
        (["1 kg potatoes"], "Slice the potatoes in two. Boil in salted water for 15 minutes and drain."),
        (
            ["500 g carrots", "500 g potatoes"],
            "Cut the carrots into 1 cm rounds. Boil the carrots and potatoes in salted water and drain.",
        ),
    ],
)
def test_what_is_cut_later_or_beside_others_tells_a_pot_no_thickness(lines: list[str], method: str) -> None:
    (step,) = reading(lines, method).recipe["steps"]
    assert "thickness_cm" not in step


@pytest.mark.parametrize(
    "sentence",
    [
        "While the chickpeas boil, combine the garlic and lemon juice with 1/4 tsp salt in the blender.",
        "Meanwhile mix the garlic with 1/4 tsp salt in a mortar.",
        "As the chickpeas simmer, stir the lemon juice, garlic and 1/4 tsp salt together.",
    ],
)
def test_salt_that_is_mixed_with_seasonings_goes_into_no_pot(sentence: str) -> None:
    found = reading(
        ["200 g chickpeas", "3 garlic cloves", "2 tbsp lemon juice"],
        f"Put the chickpeas in a pan, cover with water and cook for an hour. {sentence} Drain and blend.",
    )
    assert [line["component"] for line in found.lines if line["text"] == "1/4 tsp salt"] == ["dish"]


def test_rinse_and_repeat_is_a_saying() -> None:
    found = reading(
        ["300 g lasagne", "500 g ricotta"],
        "Boil the lasagne in salted water for 8 minutes. Drain. "
        "Layer with the ricotta. Rinse and repeat until all is used.",
    )
    assert steps_of(found) == [("boil", 0.1333)]


def test_fish_of_an_old_name_is_rinsed_and_boiled() -> None:
    found = reading(
        ["1 cup salt codfish", "2 cups potatoes"],
        "Wash the fish. Cook fish and potatoes in boiling water until soft. Drain and mash.",
    )
    assert [kind for kind, _ in steps_of(found)] == ["rinse", "boil"]


@pytest.mark.parametrize(
    "method",
    [
        [
            "Put the swede in a pot, add 2 tsp salt and cover with cold water. Bring to the boil, "
            "cook 20 minutes."
        ],
        ["Lay the swede in a pan. Sprinkle over the salt and cover with water.", "Boil for 20 minutes."],
        ["Place the swede in a pan, add the salt, and cover with cold water. Simmer for 20 minutes."],
    ],
)
def test_salt_and_cold_water_that_are_brought_to_the_boil_are_a_pot(method: list[str]) -> None:
    found = reading(["1 swede, 800 g", "salt", "50 g butter"], *method, "Drain and mash with the butter.")
    assert steps_of(found) == [("boil", 0.3333)]
    assert component(found, "50 g butter")[0] == "dish"


@pytest.mark.parametrize(
    "method",
    [
        "Cover the ham with the water and the salt, leave overnight. Bring to the boil and simmer "
        "for an hour.",
        "Put the ham in a pot with the salt and water for 12 hours in the fridge. Drain and roast.",
    ],
)
def test_what_lies_there_before_it_boils_is_brined(method: str) -> None:
    found = reading(["1 kg pork leg", "2 l water", "100 g salt"], method)
    assert steps_of(found)[0] == ("brine", 12)


@pytest.mark.parametrize(
    "said",
    [
        "Bring 8 l water to a boil with the salt. Add potatoes, cook 15 minutes, then prawns for 3. Drain.",
        "Bring 8 l water and the salt to the boil. Cook the potatoes for 15 minutes, then the prawns. Drain.",
        "Boil 8 l water with the salt. Add the potatoes and cook 15 minutes, then the prawns for 3 minutes. "
        "Turn off the heat and let it soak 15 minutes. Drain.",
    ],
)
def test_what_goes_in_then_boils_in_the_same_pot(said: str) -> None:
    found = reading(["1.4 kg prawns", "140 g salt", "6 small potatoes"], said)
    (step,) = found.recipe["steps"]
    assert (step["kind"], set(step["food"])) == ("boil", {"potatoes", "prawns"})


@pytest.mark.parametrize(
    "said",
    [
        "Put everything in a slow cooker on low for 6 hours.",
        "Everything goes into a pot and simmers for 2 hours.",
        "Put the sausage and onions in a pot with the water and cook gently for an hour.",
    ],
)
def test_smoked_sausage_braised_in_a_cup_of_water_keeps_it(said: str) -> None:
    found = reading(["450 g smoked sausage", "2 onions", "1 tsp salt", "1/2 cup water"], said)
    assert all(each.get("eaten_fraction", 1) == 1 for each in found.recipe["components"])


@pytest.mark.parametrize(
    ("said", "hours", "late"),
    [
        ("Boil the potatoes in salted water until tender, adding the beans for the last 4 minutes.", None, 4),
        ("Boil the potatoes in salted water for 15 minutes, adding the beans for the last 4 minutes.", 15, 4),
        (
            "Cook the potatoes in a pot of water for 20 minutes, adding the beans for 5 minutes at the end.",
            20,
            5,
        ),
    ],
)
def test_what_is_added_for_the_last_minutes_has_its_own_time(
    said: str, hours: float | None, late: float
) -> None:
    found = reading(["500 g potatoes", "200 g green beans", "salt"], f"{said} Drain.")
    first, last = found.recipe["steps"]
    assert (first["food"], last["food"]) == ("potatoes", "green-beans")
    assert first["bath"] == last["bath"]
    assert first.get("duration_h") == (hours and pytest.approx(hours / 60, abs=1e-3))
    assert last["duration_h"] == pytest.approx(late / 60, abs=1e-3)


def test_beans_that_a_ham_bone_flavours_keep_their_water() -> None:
    said = "Put the beans in a large pot with the ham hock and 8 cups water and simmer for 1 1/2 hours."
    found = reading(["1 lb dried red beans", "1 ham hock", "2 bay leaves"], f"{said} Serve over rice.")
    assert all(each.get("eaten_fraction", 1) == 1 for each in found.recipe["components"])


@pytest.mark.parametrize(
    "said",
    [
        "Drain, put in a pan with the bicarb and fresh water, boil 40 minutes until very soft. Drain.",
        "Drain and put in a pan with the bicarb and fresh water. Boil for 40 minutes. Drain.",
        "Drain, cover with fresh water, add the bicarb and boil for 40 minutes. Drain.",
    ],
)
def test_soda_of_soaked_pulses_goes_with_their_water(said: str) -> None:
    lines = ["250 g dried chickpeas", "1 tsp bicarbonate of soda", "1 tsp salt"]
    found = reading(lines, f"Soak the chickpeas overnight. {said}")
    assert [step["kind"] for step in found.recipe["steps"]] == ["soak", "boil"]
    assert component(found, lines[1])[1] == 0


def test_greens_that_are_chopped_and_added_to_the_pot_boil_there() -> None:
    found = reading(
        ["2 bunches kale", "1 smoked turkey wing", "6 cups water", "1 tsp salt"],
        "Simmer the turkey wing in the water for 45 minutes. Chop the kale and add to the pot with the salt.",
    )
    assert component(found, "1 tsp salt") == component(found, "6 cups water")


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (
            ["1.5 kg corned silverside", "1 cup vinegar", "water to cover"],
            "Boil 2 hours or 1 in a pressure pot.",
        ),
        (["1 kg potatoes", "1 tbsp salt", "water to cover"], "Boil until soft. Drain and mash."),
        (["8 eggs", "1 tsp salt", "water"], "Boil 10 minutes, cool under the tap and peel."),
    ],
)
def test_a_method_that_begins_with_boil_boils_the_list_in_its_water(lines: list[str], said: str) -> None:
    found = reading(lines, said)
    assert found.recipe["steps"][0]["kind"] == "boil"
    assert component(found, lines[1])[1] == 0


def test_what_a_list_counts_out_for_a_soup_stays() -> None:
    found = reading(["500 g stewing beef", "2 l water", "2 tsp salt", "300 g leeks"], "Boil 2 hours. Serve.")
    assert all(each.get("eaten_fraction", 1) == 1 for each in found.recipe["components"])


def test_food_that_stands_under_the_head_of_its_brine_lies_in_it() -> None:
    lines = ["Brine", "300 g salt", "1 beef brisket", "4 l water", "Cooking liquid", "1 l beer"]
    found = reading(lines, "Brine for 5 days, turning every day.")
    assert (found.recipe["steps"][0]["kind"], found.recipe["steps"][0]["food"]) == ("brine", "beef-brisket")
