"""Whole lines: what people write, and what is read of it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.core.errors import InvalidRequest
from saltledger.lines import LONGEST, Line, read_line, shared_lines


def quantity(line: Line):
    return (line.amount and line.amount.likely, line.unit)


def package(line: Line):
    return line.package and (line.package.amount.likely, line.package.unit)


def measures(line: Line):
    return [(each.amount.likely, each.unit) for each in line.measures]


@pytest.mark.parametrize(
    ("text", "amount", "unit", "food"),
    [
        ("1½ cups sugar", 1.5, "cup", "sugar"),
        ("2 lb. pork shoulder", 2, "pound", "pork shoulder"),
        ("2# onions", 2, "pound", "onions"),
        ("250g flour", 250, "gram", "flour"),
        ("1,5 kg potatoes", 1.5, "kilogram", "potatoes"),
        ("2 dl milk", 2, "decilitre", "milk"),
        ("1 T sugar", 1, "tablespoon", "sugar"),
        ("1 t salt", 1, "teaspoon", "salt"),
        ("1 c. milk", 1, "cup", "milk"),
        ("8 fl. oz. cream", 8, "fluid ounce", "cream"),
        ("8 oz cream", 8, "ounce", "cream"),
        ("2 qts. water", 2, "quart", "water"),
        ("1 US cup oats", 1, "cup", "oats"),
        ("a pinch of salt", 1, "pinch", "salt"),
        ("Pinch of cayenne", 1, "pinch", "cayenne"),
        ("a dozen eggs", 12, None, "eggs"),
        ("half a lemon", 0.5, None, "lemon"),
        ("2 cloves garlic", 2, "clove", "garlic"),
        ("2 garlic cloves", 2, "clove", "garlic"),
        ("6 cloves", 6, None, "cloves"),
        ("a pound and a half of stewing beef", 1.5, "pound", "stewing beef"),
        ("1 litre and a half of stock", 1.5, "litre", "stock"),
        ("1 cup and a quarter flour", 1.25, "cup", "flour"),
        ("a teaspoon and a half of salt", 1.5, "teaspoon", "salt"),
        ("1 kg pork loin, rind off", 1, "kilogram", "pork loin"),
        ("1 tsp ground cloves", 1, "teaspoon", "ground cloves"),
        ("2 celery stalks", 2, "stalk", "celery"),
        ("2 bay leaves", 2, "leaf", "bay leaves"),
        ("10 basil leaves", 10, "leaf", "basil"),
        ("1 head garlic", 1, "head", "garlic"),
        ("1 bunch parsley", 1, "bunch", "parsley"),
        ("2 sticks butter", 2, "stick", "butter"),
        ("1 rib roast", 1, None, "rib roast"),
        ("4 slices roast pork", 4, "slice", "roast pork"),
        ("2 pieces roast chicken", 2, "piece", "roast chicken"),
        ("2 ribs celery", 2, "stalk", "celery"),
        ("juice of 1 lemon", 1, "fruit", "lemon juice"),
        ("Juice from half an orange", 0.5, "fruit", "orange juice"),
        ("zest of 2 oranges", 2, "fruit", "orange zest"),
        ("2 limes, juiced", 2, "fruit", "lime juice"),
        ("2 tablespoons juice from 1 lemon", 2, "tablespoon", "lemon juice"),
        ("Butter 200 g", 200, "gram", "butter"),
        ("Flour: 2 cups", 2, "cup", "flour"),
        ("eggs, 3", 3, None, "eggs"),
        ("Onions (2 large)", 2, None, "onions"),
        ("- 2 cups milk", 2, "cup", "milk"),
        ("[optional] 1/4 cup raisins", 0.25, "cup", "raisins"),
        ("2 large or 3 medium carrots", 2, None, "carrots"),
        ("1 cup half and half", 1, "cup", "half and half"),
        ("1 cup 2% milk", 1, "cup", "2% milk"),
        ("1 lb 80/20 ground beef", 1, "pound", "80% lean ground beef"),
        ("salt to taste", None, None, "salt"),
        ("butter, for greasing", None, None, "butter"),
        ("a little oil", None, None, "oil"),
        ("2 cans", 2, "can", ""),
        ("0 cups sugar", 0, "cup", "sugar"),
    ],
)
def test_quantity_and_food(text, amount, unit, food):
    line = read_line(text)
    assert quantity(line) == (amount, unit)
    assert line.food_words == food


@pytest.mark.parametrize(
    ("text", "amount", "unit"),
    [
        ("1 tablespoon plus 1 teaspoon soy sauce", 4 / 3, "tablespoon"),
        ("1 cup plus 2 tablespoons sugar", 1.125, "cup"),
        ("1 tablespoon, plus 2 teaspoons, kosher salt", 5 / 3, "tablespoon"),
        ("1 cup sugar, plus 2 tablespoons for dusting", 1.125, "cup"),
        ("1 lb 2 oz beef", 1.125, "pound"),
        ("1 cup less 1 tablespoon sugar", 0.9375, "cup"),
        ("1 cup milk plus 1 tablespoon vinegar", 1, "cup"),
    ],
)
def test_sums(text, amount, unit):
    line = read_line(text)
    assert line.amount.likely == pytest.approx(amount)
    assert line.unit == unit


@pytest.mark.parametrize(
    ("text", "each"),
    [
        ("2 cans (800 g) butter beans, drained", 400),
        ("2 tins chopped tomatoes (800g)", 400),
        ("3 tins (1.2 kg) tomatoes", 0.4),
        ("2 bags (1.5 kg) potatoes", 0.75),
        ("2 cans (400 g) butter beans", 400),
        ("2 cans (28 oz) tomatoes", 28),
        ("2 (800 g) cans tomatoes", 800),
        ("1 can (800 g) tomatoes", 800),
        ("2 tins (800 g each) tomatoes", 800),
        ("2 packs (250 g) gnocchi", 250),
    ],
)
def test_a_weight_behind_several_packages_is_of_them_all_where_one_would_be_too_large(text, each):
    package = read_line(text).package
    assert package is not None
    assert package.amount.likely == pytest.approx(each)


@pytest.mark.parametrize(
    ("text", "amount", "unit", "each"),
    [
        ("one 14.5-ounce can diced tomatoes, drained", 1, "can", (14.5, "ounce")),
        ("2 (15 oz) cans black beans", 2, "can", (15, "ounce")),
        ("2 - 15 oz cans beans", 2, "can", (15, "ounce")),
        ("1 (2 1/2-pound) chicken", 1, None, (2.5, "pound")),
        ("1 can (15 ounces) pumpkin", 1, "can", (15, "ounce")),
        ("2 pkgs. (8 oz. each) cream cheese", 2, "package", (8, "ounce")),
        ("2 x 400g cans tomatoes", 2, "can", (400, "gram")),
        ("5 lb bag potatoes", 1, "bag", (5, "pound")),
        ("4 chicken breasts (about 6 oz each)", 4, None, (6, "ounce")),
        ("4 (6- to 8-ounce) salmon fillets", 4, "fillet", (7, "ounce")),
        ("1 (2-inch) piece ginger", 1, "piece", (2, "inch")),
        ("2-inch piece fresh ginger", 1, "piece", (2, "inch")),
        ("1/2 of a 14-ounce can coconut milk", 0.5, "can", (14, "ounce")),
        ("one 4- to 5-pound chicken", 1, None, (4.5, "pound")),
    ],
)
def test_packages(text, amount, unit, each):
    line = read_line(text)
    assert quantity(line) == (amount, unit)
    assert package(line) == each


@pytest.mark.parametrize(
    ("text", "first", "again"),
    [
        ("4 ounces (1 cup) shredded cheddar", (4, "ounce"), [(1, "cup")]),
        ("1 cup flour (120 g)", (1, "cup"), [(120, "gram")]),
        ("1 stick (1/2 cup) butter", (1, "stick"), [(0.5, "cup")]),
        ("250g/9oz flour", (250, "gram"), [(9, "ounce")]),
        ("4 chicken breasts (about 1 1/2 lb)", (4, None), [(1.5, "pound")]),
        ("1 whole chicken, about 4 pounds", (1, None), [(4, "pound")]),
        ("5 oz. (140 g) dried apricots", (5, "ounce"), [(140, "gram")]),
    ],
)
def test_the_same_quantity_said_again(text, first, again):
    line = read_line(text)
    assert quantity(line) == first
    assert measures(line) == again


@pytest.mark.parametrize(
    ("text", "food", "preparation"),
    [
        ("1 onion, finely chopped", "onion", ("finely chopped",)),
        ("1 cup chopped onion", "onion", ("chopped",)),
        ("2 boneless, skinless chicken breasts", "chicken breasts", ("boneless", "skinless")),
        ("1 lb bone in chicken thighs", "chicken thighs", ("bone-in",)),
        ("2 cups packed spinach", "spinach", ("packed",)),
        ("1 packed cup brown sugar", "brown sugar", ("packed",)),
        ("1 cup cooked rice", "cooked rice", ("cooked",)),
        ("1 tsp dried oregano", "dried oregano", ("dried",)),
        ("1 lb ground beef", "ground beef", ("ground",)),
        ("1 tsp baking powder", "baking powder", ()),
        ("1 cup crushed tomatoes", "crushed tomatoes", ("crushed",)),
        ("1 cup crushed ice", "ice", ("crushed",)),
        ("½ cup unsalted butter, softened", "unsalted butter", ("unsalted", "softened")),
        ("4 tomatoes, peeled, seeded, and chopped", "tomatoes", ("peeled", "seeded", "chopped")),
        ("1 can tuna in water, drained", "tuna in water", ("drained",)),
        ("1 onion, red", "red onion", ()),
        ("2 cups flour, all-purpose", "all-purpose flour", ()),
        ("½ tsp fine sea salt", "fine sea salt", ()),
        ("12 oz bacon, cut into 1-inch pieces", "bacon", ("cut into 1-inch pieces",)),
    ],
)
def test_preparation_is_parted_from_the_food(text, food, preparation):
    line = read_line(text)
    assert line.food_words == food
    assert line.preparation == preparation


def test_what_stands_behind_the_food_is_told_apart():
    line = read_line("1 cup chopped walnuts, toasted")
    assert line.preparation == ("chopped", "toasted")
    assert line.stated_after == ("toasted",)


@pytest.mark.parametrize(
    ("text", "food", "alternatives"),
    [
        ("1/2 cup butter or margarine", "butter", ("margarine",)),
        ("1 tbsp butter/margarine", "butter", ("margarine",)),
        ("2 tablespoons vegetable or canola oil", "vegetable oil", ("canola oil",)),
        ("1 cup chicken or vegetable broth", "chicken broth", ("vegetable broth",)),
        ("2 cups fresh or frozen blueberries", "blueberries", ("frozen blueberries",)),
        ("1/4 cup red or white wine vinegar", "red wine vinegar", ("white wine vinegar",)),
        ("1 cup Greek yogurt, or sour cream", "greek yogurt", ("sour cream",)),
        ("1 cup sliced or chopped onions", "onions", ()),
        ("¼ tsp salt, or to taste", "salt", ()),
    ],
)
def test_alternatives_take_the_first_and_say_so(text, food, alternatives):
    line = read_line(text)
    assert line.food_words == food
    assert line.alternatives == alternatives
    assert ("alternatives" in line.flags) == bool(alternatives)


@pytest.mark.parametrize(
    ("text", "food", "joined"),
    [
        ("salt and pepper to taste", "salt", ("pepper",)),
        ("Kosher salt and freshly ground black pepper", "kosher salt", ("freshly ground black pepper",)),
        ("1 lemon, zested and juiced", "lemon juice", ("lemon zest",)),
        ("1 egg plus 1 yolk", "egg", ("1 yolk",)),
        ("1 tbsp cornstarch mixed with 1 tbsp water", "cornstarch", ("1 tbsp water",)),
        ("1 cup macaroni and cheese", "macaroni and cheese", ()),
        ("salt/pepper", "salt", ("pepper",)),
        ("500 ml stock and salt", "stock", ("salt",)),
        ("onion, leek and some parsley", "onion", ("leek", "some parsley")),
        ("1/2 tsp salt and 1/4 tsp pepper", "salt", ("1/4 tsp pepper",)),
        ("3 leeks, 1 carrot", "leeks", ("1 carrot",)),
        ("water with 20 g of salt", "water", ("20 g of salt",)),
        ("1 bag salt and vinegar crisps", "salt and vinegar crisps", ()),
    ],
)
def test_second_foods_are_not_lost(text, food, joined):
    line = read_line(text)
    assert line.food_words == food
    assert line.joined == joined


@pytest.mark.parametrize(
    ("text", "food", "joined"),
    [
        ("300 g flour, 200 g sugar", "flour", ("200 g sugar",)),
        (
            "3 cups vinegar, 3 cups sugar, 1/4 cup mustard seeds",
            "vinegar",
            ("3 cups sugar", "1/4 cup mustard seeds"),
        ),
        ("1 onion, 1 stick of celery", "onion", ("1 stick of celery",)),
        ("half bunch parsley, half bunch mint", "parsley", ("half bunch mint",)),
        ("1 c. flour 1/2 tsp. salt 1 tsp. baking powder", "flour", ("1/2 tsp. salt", "1 tsp. baking powder")),
        ("1 Tbsp salt1 Tbsp black pepper", "salt", ("1 tbsp black pepper",)),
    ],
)
def test_foods_with_quantities_of_their_own_stand_in_one_line(text, food, joined):
    line = read_line(text)
    assert (line.food_words, line.joined) == (food, joined)


@pytest.mark.parametrize(
    "text",
    [
        "1 cup rice, 3 cups cooked rice",
        "2 tbsp oil, 1 tbsp for frying",
        "4 pork chops, 1 kg in all",
        "a big bag of spinach, 500 g or so",
        "8 oz cheddar, 2 cups grated",
        "1 ham hock, 1.2 kg with the bone",
        "1 chicken stock cube dissolved in 500 ml water",
        "3 lb beef chuck, cut into 1 inch cubes",
        "1 lb 4 oz flour (1 qt 1 cup)",
    ],
)
def test_a_quantity_said_again_makes_no_second_food(text):
    assert read_line(text).joined == ()


@pytest.mark.parametrize(
    ("text", "flags"),
    [
        ("salt to taste", {"to-taste", "no-quantity"}),
        ("butter, for greasing", {"for-greasing", "no-quantity"}),
        ("oil for frying", {"for-frying", "no-quantity"}),
        ("1 cup sugar, divided", {"divided"}),
        ("1/4 cup walnuts (optional)", {"optional"}),
        ("2 tbsp sugar, plus more for dusting", {"plus-more", "for-dusting"}),
        ("about 2 cups water", {"approximate"}),
        ("parsley, for garnish", {"for-serving", "no-quantity"}),
        ("For the sauce:", {"heading", "no-quantity"}),
        ("2 cups water", set()),
    ],
)
def test_flags(text, flags):
    assert read_line(text).flags == flags


def test_sizes_stand_apart():
    assert read_line("3 medium onions").size == "medium"
    assert read_line("2 extra-large eggs").size == "extra large"
    assert read_line("1 lg. onion").size == "large"


def test_a_line_that_is_too_long_is_refused_with_the_remedy():
    assert read_line("x" * LONGEST).food_words
    with pytest.raises(InvalidRequest) as refused:
        read_line("x" * (LONGEST + 1))
    (fault,) = refused.value.faults
    assert fault.pointer == ""
    assert fault.message == "The line has 501 characters, longer than 500 characters; split it."


ODD = ("", " ", "!!!", "1", "1/0 cup", "((((", "))", "🧂 1 tsp", "ملح 2", "盐 10克", "½½½", "- - -")


@pytest.mark.parametrize("text", ODD)
def test_odd_text_gives_a_line(text):
    assert read_line(text).text == text


@settings(max_examples=100, deadline=None)
@given(st.text(max_size=LONGEST))
def test_any_text_gives_the_same_line_twice(text):
    assert read_line(text) == read_line(text)


PIECES = [
    "1",
    "1/2",
    "½",
    "2-3",
    "cup",
    "oz",
    "can",
    "(",
    ")",
    ",",
    "-",
    "/",
    "or",
    "and",
    "plus",
    "x",
    "to",
    "of",
    "a",
    "half",
    "dozen",
    "large",
    "chopped",
    "salt",
    "lemon",
    "juice",
    "each",
    "about",
    "%",
    "in",
    "with",
    '"',
]


@settings(max_examples=100, deadline=None)
@given(st.lists(st.sampled_from(PIECES), max_size=25).map(" ".join))
def test_any_order_of_the_words_of_lines_gives_a_sound_line(text):
    line = read_line(text)
    assert line.amount is None or line.amount.low >= 0
    assert ("no-quantity" in line.flags) == (line.amount is None)
    assert set(line.stated_after) <= set(line.preparation)


@pytest.mark.parametrize(
    ("text", "each", "again"),
    [
        ("4 pork chops, 1 inch thick (about 8 oz each)", (8, "ounce"), []),
        ("4 pork chops (1-inch thick, about 2 lb total)", (1, "inch"), [(2, "pound")]),
        ("4 pork chops, 1 inch thick", (1, "inch"), []),
        ("1 inch cinnamon stick", (1, "inch"), []),
    ],
)
def test_lengths_do_not_hide_weights(text, each, again):
    line = read_line(text)
    assert package(line) == each
    assert measures(line) == again


@pytest.mark.parametrize(
    ("text", "food", "joined"),
    [
        ("1 tsp each salt and pepper", "salt", ("pepper",)),
        ("1/2 teaspoon each ground cumin and coriander", "ground cumin", ("coriander",)),
        ("1 tbsp each chopped parsley, chives, and dill", "parsley", ("chives", "dill")),
    ],
)
def test_a_quantity_for_each_of_several_foods(text, food, joined):
    line = read_line(text)
    assert (line.food_words, line.joined) == (food, joined)
    assert "each" in line.flags


def test_the_same_number_twice_is_one():
    assert quantity(read_line("two (2) cups sugar")) == (2, "cup")
    assert quantity(read_line("1 (one) egg")) == (1, None)


def test_whole_milk_is_no_preparation_but_a_whole_chicken_is():
    assert read_line("1 cup whole milk").preparation == ()
    assert read_line("1 whole chicken").preparation == ("whole",)


@pytest.mark.parametrize(
    ("text", "amount", "unit", "food"),
    [
        ("whites of 3 eggs", 3, None, "egg white"),
        ("2 large eggs, yolks only", 2, None, "egg yolk"),
        ("leaves of 1 bunch mint", 1, "bunch", "mint"),
        ("kernels from 2 ears corn", 2, "ear", "corn"),
        ("juice ½ lemon", 0.5, "fruit", "lemon juice"),
        ("1 leek, white only", 1, None, "leek"),
    ],
)
def test_parts_of_a_food(text, amount, unit, food):
    line = read_line(text)
    assert quantity(line) == (amount, unit)
    assert line.food_words == food


@pytest.mark.parametrize(
    ("text", "shared"),
    [
        ("2 lb onions, carrots and celery", ("onions", "carrots", "celery")),
        ("1 kg carrots and potatoes, diced", ("carrots", "potatoes")),
        ("3 cups leeks, fennel, and kale", ("leeks", "fennel", "kale")),
        ("2 red and green peppers", ("red peppers", "green peppers")),
        ("2 lb total of beef, veal, and pork", ("beef", "veal", "pork")),
        ("1 lb potatoes, peeled and diced", ()),
        ("2 cups macaroni and cheese", ()),
        ("3 eggs, beaten, and 1 cup milk", ()),
        ("2 tsp salt and pepper", ()),
        ("leeks and fennel", ()),
    ],
)
def test_foods_that_may_share_one_quantity(text, shared):
    assert read_line(text).shared == shared


def test_a_shared_quantity_is_parted_equally_and_widely():
    parts = shared_lines(read_line("600 g (5 cups) leeks, fennel and kale, sliced"))
    assert [part.food_words for part in parts] == ["leeks", "fennel", "kale"]
    assert sum(part.amount.likely for part in parts) == pytest.approx(600)
    assert all(part.unit == "gram" and part.measures[0].unit == "cup" for part in parts)
    assert all(part.amount.high >= 5 * part.amount.low for part in parts)
    assert all("sliced" in part.preparation for part in parts)


@pytest.mark.parametrize(
    ("text", "foods"),
    [
        ("100 g each butter and sugar", ("butter", "sugar")),
        ("1/2 each green, red and yellow pepper", ("green pepper", "red pepper", "yellow pepper")),
        ("red and green peppers", ("red peppers", "green peppers")),
    ],
)
def test_foods_of_a_list_get_their_noun_and_their_own_quantity(text, foods):
    line = read_line(text)
    assert (line.food_words, *line.joined) == foods


def test_a_list_of_what_may_be_taken_is_no_list_of_foods():
    line = read_line("maple syrup, agave or honey")
    assert (line.food_words, line.alternatives, line.joined) == ("maple syrup", ("agave", "honey"), ())


def test_a_quantity_for_one_of_something_is_told():
    assert "per" in read_line("2 tomatoes per person").flags
    assert "per" not in read_line("30 per cent cream, 200 ml").flags


@pytest.mark.parametrize("text", ["1 cup milk (skim)", "1 cup milk, skim"])
def test_a_state_behind_the_food_may_name_its_kind(text):
    assert read_line(text).kinds == ("skim",)


@pytest.mark.parametrize(
    ("text", "amount", "unit", "food"),
    [
        ("1 whole head of garlic", 1, "head", "garlic"),
        ("Garlic: a whole bulb", 1, "bulb", "garlic"),
        ("6 whole cloves", 6, None, "whole cloves"),
        ("1 whole chicken", 1, None, "whole chicken"),
        ("2 tbsp flour (heaped)", 2.6, "tablespoon", "flour"),
        ("1 cup sour cream (full fat)", 1, "cup", "sour cream"),
        ("2 lemons (juice only)", 2, "fruit", "lemon juice"),
        ("Juice from whole lemon", 1, "fruit", "lemon juice"),
        ("thumb-sized piece ginger", 1, "thumb", "ginger"),
        ("2 garlic gloves", 2, "clove", "garlic"),
        ("2 g sal al gusto", 2, "gram", "sal"),
    ],
)
def test_what_stands_beside_the_quantity(text, amount, unit, food):
    line = read_line(text)
    assert quantity(line) == (pytest.approx(amount), unit)
    assert line.food_words == food


@pytest.mark.parametrize(
    ("text", "unit", "food"),
    [("Small tin evaporated milk", "can", "evaporated milk"), ("Large head garlic", "head", "garlic")],
)
def test_a_sized_package_or_head_stands_for_one(text, unit, food):
    line = read_line(text)
    assert (line.amount.likely, line.unit, line.food_words) == (1, unit, food)


def test_a_sized_thing_in_the_plural_stands_for_no_number():
    assert read_line("Large slices bread").amount is None


@pytest.mark.parametrize(
    ("text", "amount", "unit"),
    [
        ("Salt (a pinch)", 1.0, "pinch"),
        ("salt, pinch", 1.0, "pinch"),
        ("Fish sauce (splash)", 1.0, "splash"),
        ("Rum (a capful)", 1.0, "capful"),
        ("Soy sauce (a generous slug)", 1.15, "glug"),
        ("Parsley, handful", 1.0, "handful"),
        ("Flour (a cup)", 1.0, "cup"),
    ],
)
def test_an_amount_in_words_behind_the_food_is_its_own(text: str, amount: float, unit: str) -> None:
    assert quantity(read_line(text)) == (pytest.approx(amount), unit)


@pytest.mark.parametrize("text", ["Salt, pepper", "Olive oil, to drizzle", "Cloves, whole", "Salt (coarse)"])
def test_no_amount_is_made_of_other_words_behind_the_food(text: str) -> None:
    assert read_line(text).amount is None
