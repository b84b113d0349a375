"""Where the fate of much sodium is not said, a question is asked, and its choices move the figure."""

from __future__ import annotations

import pytest

from .test_method_reading import reading


@pytest.mark.parametrize(
    ("lines", "method", "asked", "taken"),
    [
        (
            ["500 g dried beans", "2 tbsp salt", "3 l water", "2 tbsp oil"],
            "Boil the beans in the water with the salt for an hour. Dress with the oil.",
            "unsaid",
            "poured_away",
        ),
        (
            ["500 g dried beans", "2 tbsp salt", "3 l water", "2 onions"],
            "Boil the beans in the water with the salt for an hour. Serve.",
            "unsaid",
            "eaten",
        ),
        (
            ["2 aubergines", "1 tbsp salt", "4 tbsp oil"],
            "Slice the aubergines, sprinkle with the salt and leave for 30 minutes. Fry in the oil.",
            "unsaid",
            "eaten",
        ),
        (
            ["20 dumplings", "100 ml soy sauce", "2 tbsp vinegar"],
            "Steam the dumplings. Mix the soy sauce and vinegar and serve alongside.",
            "left-over",
            "all",
        ),
    ],
)
def test_what_nobody_says_is_asked(lines: list[str], method: str, asked: str, taken: str) -> None:
    found = reading(lines, method)
    (question,) = [q for q in found.questions if q.id.startswith(asked)]
    assert question.taken == taken


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (
            ["500 g beans", "2 tbsp salt", "3 l water"],
            "Boil the beans in the water with the salt. Ladle the soup.",
        ),
        (
            ["500 g beans", "1 tsp salt", "600 ml water"],
            "Simmer the beans in the water with the salt until dry.",
        ),
        (["500 g beans", "3 l water"], "Boil the beans in the water for an hour. Serve."),
        (["300 g rice", "1 tsp salt", "900 ml water"], "Boil the rice in the water with the salt. Serve."),
        (["2 aubergines", "1 tsp salt", "500 g feta"], "Salt the aubergines and fry. Crumble over the feta."),
        (
            ["20 dumplings", "1 tsp soy sauce", "2 tsp salt"],
            "Salt the dumplings. Serve the soy sauce alongside.",
        ),
    ],
)
def test_what_moves_little_or_is_plain_is_not_asked(lines: list[str], method: str) -> None:
    found = reading(lines, method)
    assert not [q for q in found.questions if q.id.startswith(("unsaid", "left-over"))]


@pytest.mark.parametrize(
    ("lines", "method", "asked"),
    [
        (
            ["1 kg wings", "2 cups flour", "2 tbsp salt"],
            "Mix flour and salt. Roast the wings. Throw out whatever flour is left.",
            "left-over",
        ),
        (["500 g noodles", "salt"], "Fry the noodles with salt.", "how-much"),
        (["1 kg salt cod"], "Soak the cod in cold water overnight. Drain and bake.", "changes"),
    ],
)
def test_what_was_not_understood_or_measured_is_asked(lines: list[str], method: str, asked: str) -> None:
    assert any(q.id.startswith(asked) for q in reading(lines, method).questions)


def test_what_a_long_method_names_again_and_again_is_bounded() -> None:
    method = (
        "Add 3 tbsp fish sauce. Use half of it; the rest keeps for a week. Discard the leftover oil. " * 400
    )
    found = reading(["100 ml soy sauce", "1 kg pork", "50 ml oil"], method)
    assert len(found.lines) < 60
    assert len(found.questions) < 60


_STEW = ["# Stew", "1 kg beef", "2 onions", "# Dumplings", "200 g flour", "1 tsp salt", "100 ml milk"]


@pytest.mark.parametrize(
    ("lines", "method", "taken"),
    [
        (_STEW, "Season the beef with salt and stew it with the onions. Mix flour, salt and milk.", "usual"),
        (_STEW, "Salt and pepper the beef. Brown and stew it. Mix flour, salt and milk. Add.", "usual"),
        (
            ["1 kg leeks", "300 g flour", "1 tsp salt"],
            "Mix the flour with the salt. Season to taste.",
            "none",
        ),
        (["1 kg leeks", "2 tsp salt"], "Cook the leeks with the salt. Adjust the seasoning.", "none"),
        (["1 kg leeks", "Salt"], "Add 2 teaspoons of salt to the leeks and stew. Salt to taste.", "none"),
        (
            ["1 kg leeks", "Salt", "Pepper"],
            "Stew the leeks with 1 tsp salt. Adjust the seasoning.",
            "none",
        ),
    ],
)
def test_salt_beside_that_of_the_list_is_asked_about(lines: list[str], method: str, taken: str) -> None:
    found = reading(lines, method)
    assert [q.taken for q in found.questions if q.id.startswith("seasoning")] == [taken]


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (["1 kg leeks", "2 tsp salt"], "Cook the leeks. Season to taste with the salt."),
        (["1 kg leeks", "2 tsp salt, or to taste"], "Cook the leeks with the salt. Adjust the seasoning."),
        (["1 kg leeks", "2 tsp salt"], "Cook the leeks with the salt. Taste: you won't need more salt."),
        (["1 kg leeks", "2 tsp salt"], "Season the leeks with the salt and roast them."),
        (["1 kg leeks", "Salt"], "Stew the leeks with 2 teaspoons of salt."),
        (["1 kg leeks", "Salt"], "Stew the leeks. Season with salt to taste."),
    ],
)
def test_the_salt_of_the_list_is_asked_about_once_at_most(lines: list[str], method: str) -> None:
    assert not [q for q in reading(lines, method).questions if q.id.startswith("seasoning")]


@pytest.mark.parametrize(
    ("line", "method"),
    [
        ("800 g salt cod", "Soak the cod in cold water for 24 hours, changing it twice. Drain and bake."),
        ("1 packet salted mustard greens, 250 g", "Soak the greens in water for an hour. Squeeze and chop."),
        ("200 g feta", "Lay the feta in cold water for 30 minutes, drain and crumble."),
    ],
)
def test_how_thick_salt_food_is_that_is_soaked_is_asked(line: str, method: str) -> None:
    assert any(q.id.startswith("thickness") for q in reading([line], method).questions)


def test_how_thick_plain_food_is_that_is_soaked_is_not_asked() -> None:
    found = reading(["300 g dried beans"], "Soak the beans in water overnight, drain and boil.")
    assert not [q for q in found.questions if q.id.startswith("thickness")]
