"""What the words of a line say was done to its food: rinsed, squeezed, blanched, salted, soaked in milk."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read


def steps_of(lines, method):
    recipe = read(
        written_of({"title": "Tern Quay", "servings": 4, "ingredients": lines, "method": [method]})
    ).recipe
    return [step["kind"] for step in recipe.get("steps", [])], recipe["components"]


@pytest.mark.parametrize(
    ("line", "kinds"),
    [
        ("200 g feta, rinsed", ["drain"]),
        ("200 g halloumi, rinsed and dried", ["drain"]),
        ("10 anchovy fillets, rinsed and patted dry", ["rinse"]),
        ("50 g anchovies, soaked in milk", ["soak"]),
        ("500 g salt cod, soaked in milk overnight", ["soak"]),
        ("1 kg corned beef silverside, rinsed", ["rinse"]),
        ("500 g sauerkraut, rinsed", ["rinse"]),
        ("500 g sauerkraut, rinsed and squeezed", ["squeeze", "rinse"]),
        ("1 kg cabbage, blanched in salted water", ["boil"]),
        ("500 g spinach, blanched in salted water", ["boil"]),
        ("200 g olives, blanched twice", ["boil"]),
        ("400 g fresh anchovies, rinsed", []),
        ("200 g cheddar, rinsed", []),
        ("200 g green beans, blanched", []),
        ("200 g cherry tomatoes, rinsed", []),
        ("4 chicken thighs, rinsed and patted dry", []),
        ("200 g feta, not rinsed", []),
    ],
)
def test_what_a_line_says_was_done_is_a_step(line, kinds):
    assert steps_of([line], "Serve.")[0] == kinds


@pytest.mark.parametrize(
    ("line", "kinds"),
    [
        ("2 aubergines, sliced, salted and rinsed", ["dry_cure", "rinse"]),
        ("2 aubergines, salted, drained and rinsed", ["dry_cure", "rinse"]),
        ("2 cucumbers, salted and squeezed", ["dry_cure", "squeeze"]),
        ("2 courgettes, grated, salted and drained", ["dry_cure"]),
    ],
)
def test_the_only_salt_of_a_list_drew_the_water_of_what_was_salted(line, kinds):
    found, components = steps_of([line, "1 tbsp salt", "200 g yogurt"], "Mix.")
    assert found == kinds
    assert ["1 tbsp salt"] in [each["ingredients"] for each in components if each.get("eaten_fraction") == 0]


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (["2 aubergines, salted and rinsed", "1 tsp salt"], "Fry the aubergines. Season with the salt."),
        (["2 aubergines, salted and rinsed", "1 tsp fine salt", "1 tbsp coarse salt"], "Fry the aubergines."),
        (["2 aubergines, salted", "1 tsp salt"], "Fry the aubergines."),
        (["200 g peanuts, salted", "1 tsp salt"], "Mix."),
    ],
)
def test_salt_that_the_method_uses_was_not_strewn_before(lines, method):
    assert "dry_cure" not in steps_of(lines, method)[0]


@pytest.mark.parametrize(
    ("lines", "method", "kind"),
    [
        (["10 anchovy fillets"], "Rinse the anchovies and pat dry.", ["rinse"]),
        (["400 g fresh anchovies"], "Rinse the anchovies and pat dry.", []),
    ],
)
def test_a_method_rinses_anchovies_that_were_salted(lines, method, kind):
    assert steps_of(lines, method)[0] == kind
