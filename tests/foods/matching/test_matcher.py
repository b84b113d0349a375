"""Which food a line's words mean: everyday names, other rows of a food, the dataset's own names, and none."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.foods.dataset import FoodTable, bundled, custom_food
from saltledger.foods.matching.matcher import match
from saltledger.lines import read_line
from saltledger.recipe.ingredients import ReadSettings, resolve

SURE = 0.8


def code_of(words, *preparation):
    found = match(words, preparation, bundled())
    return found.food.code if found.food else None


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("butter", "01001"),
        ("unsalted butter", "01145"),
        ("eggs", "01123"),
        ("all-purpose flour", "20081"),
        ("kosher salt", "02047"),
        ("large red onions", "11282"),
        ("courgettes", "11477"),
        ("salt cod", "15018"),
        ("gruyère", "01023"),
        ("extra-virgin olive oil", "04053"),
        ("msg", "SL0010"),
        ("low-sodium soy sauce", "16424"),
    ],
)
def test_everyday_names(words, code):
    assert code_of(words) == code


@pytest.mark.parametrize(
    ("words", "preparation", "code"),
    [
        ("quinoa", ("cooked",), "20137"),
        ("brown rice", ("cooked and cooled",), "20037"),
        ("potatoes", ("boiled",), "11367"),
        ("black beans", ("can",), "16018"),
        ("black beans", ("rinsed and drained", "can"), "16018"),
        ("low-sodium black beans", ("can",), "16316"),
        ("spinach", ("frozen",), "11463"),
        ("cooked spinach", (), "11458"),
        ("chicken thighs", ("skinless",), "05096"),
        ("tomatoes", ("can", "diced"), "11531"),
        ("tomatoes", ("can", "no-salt-added"), "11885"),
        ("salmon", ("can", "drained"), "15260"),
        ("dried apricots", (), "09032"),
        ("cheddar", ("low-sodium",), "01169"),
        ("roasted peanuts", ("unsalted",), "16390"),
    ],
)
def test_preparation_leads_to_another_row_of_the_food(words, preparation, code):
    assert code_of(words, *preparation) == code


def test_words_that_say_how_it_is_cut_change_nothing():
    assert code_of("carrots", "peeled", "finely diced", "cut into 2 cm batons") == code_of("carrots")


def test_a_phrase_that_names_another_food_tells_nothing_of_this_one():
    assert code_of("egg yolk", "mixed with 1 tbsp dried milk") == "01125"


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("shreded mozarella", "01271"),
        ("buttermlk", "01088"),
        ("brocolli", "11090"),
        ("avacado", "09037"),
        ("rasberries", "09302"),
        ("worcestershire sause", "06971"),
        ("chiken thighs", "05091"),
    ],
)
def test_misspellings_are_forgiven_at_a_price(words, code):
    found = match(words, (), bundled())
    assert found.food is not None
    assert found.food.code == code
    assert found.confidence < 0.95


@pytest.mark.parametrize(
    "words",
    [
        "",
        "!!!",
        "moon dust",
        "wooden skewers",
        "kitchen string",
        "love",
        "for the sauce",
        "banana leaf",
        "rose petals",
        "pandan extract",
        "mole sauce",
        "almond extract",
        "salted water",
        "epsom salt",
        "motor oil",
        "vegan cheese",
        "butter knife",
        "rice cooker",
        "salt dough",
        "paper muffin cases",
    ],
)
def test_what_is_no_food_or_not_in_the_dataset_is_no_match(words):
    found = match(words, (), bundled())
    assert found.food is None
    assert found.confidence < 0.5


@pytest.mark.parametrize("words", ["truffle molasses", "fennel salt", "spelt flour"])
def test_no_match_offers_what_is_nearest(words):
    found = match(words, (), bundled())
    assert found.food is None
    assert 1 <= len(found.alternatives) <= 3


@pytest.mark.parametrize("words", ["fish", "vegetables", "nuts", "juice"])
def test_a_kind_of_food_is_not_guessed(words):
    assert match(words, (), bundled()).food is None


class TestPinkSalt:
    """A salt with nitrite is never taken for one without, nor the other way, unless the line says which."""

    @pytest.mark.parametrize(
        "words", ["pink Himalayan salt", "himalayan pink salt", "Himalayan salt", "fine pink himalayan salt"]
    )
    def test_a_pink_mineral_salt_is_salt(self, words):
        found = match(words, (), bundled())
        assert found.food is not None
        assert found.food.code == "02047"

    @given(st.lists(st.sampled_from(["fine", "coarse", "ground", "large", "natural", "sea"]), max_size=3))
    @settings(max_examples=60, deadline=None)
    def test_no_further_word_turns_a_mineral_salt_into_a_curing_salt(self, further):
        found = match(" ".join([*further, "pink himalayan salt"]), (), bundled())
        assert found.food is None or found.food.code == "02047"

    @pytest.mark.parametrize(
        "words", ["curing salt", "pink curing salt", "cure #1", "curing salt no. 1", "curing salt #1"]
    )
    def test_a_curing_salt_holds_nitrite(self, words):
        found = match(words, (), bundled())
        assert found.food is not None
        assert found.food.code == "SL0001"
        assert found.confidence >= SURE

    @pytest.mark.parametrize("words", ["curing salt #2", "pink curing salt no. 2", "cure #2"])
    def test_the_second_kind_holds_nitrate_too(self, words):
        assert code_of(words) == "SL0002"

    @pytest.mark.parametrize("words", ["pink salt", "coarse pink salt", "fine pink salt"])
    def test_pink_salt_alone_is_said_to_be_ambiguous(self, words):
        found = match(words, (), bundled())
        assert found.confidence < SURE
        offered = {food.code for food in (found.food, *found.alternatives) if food}
        assert {"SL0001", "02047"} <= offered
        assert "nitrite" in found.why


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("1 tsp pepper", "02030"),
        ("1 pepper, diced", "11333"),
        ("2 tbsp tomato purée", "11546"),
        ("500 g tomato purée", "11547"),
        ("1 tsp vanilla", "02050"),
        ("1 vanilla pod, split", None),
        ("1 can tomatoes", "11531"),
        ("1 kg tomatoes", "11529"),
        ("1 lb 85% lean ground beef", "23567"),
        ("500 g 5% fat beef mince", "23557"),
        ("1 lb ground beef (85% lean)", "23567"),
        ("500 g beef mince (5% fat)", "23557"),
        ("1 cup milk, 1% fat", "01082"),
    ],
)
def test_the_unit_tells_foods_of_one_name_apart(line, code):
    food = resolve(line, bundled(), ReadSettings()).food
    assert (food.code if food else None) == code


@pytest.mark.parametrize("words", ["sage", "oregano", "bay leaves"])
def test_a_dried_row_for_a_fresh_food_is_not_sure(words):
    assert match(words, (), bundled()).confidence >= SURE
    assert match(words, ("fresh",), bundled()).confidence < SURE


def test_a_share_that_no_row_has_makes_the_match_unsure():
    assert match("ground beef", ("12% fat",), bundled()).confidence < SURE


@pytest.mark.parametrize(
    "words", ["smoked halibut", "pickled beets in honey", "unsalted worcestershire sauce"]
)
def test_a_state_that_no_row_has_makes_the_match_unsure(words):
    assert match(words, (), bundled()).confidence < SURE


class TestOwnFoods:
    """A caller's own foods go first."""

    @pytest.fixture
    def foods(self):
        house = custom_food("house-stock", "House stock", {"NA": 210.0})
        rye = custom_food("rye-sour", "Rye sour", {"NA": 2.0})
        return bundled().with_custom([house, rye])

    @pytest.mark.parametrize("words", ["house stock", "House Stock", "hot house stock", "house stocks"])
    def test_by_name(self, foods, words):
        found = match(words, (), foods)
        assert found.food is not None
        assert found.food.code == "house-stock"
        assert found.confidence >= SURE

    def test_a_word_more_that_names_a_food_is_another_food(self, foods):
        found = match("smoked house stock jelly", (), foods)
        assert found.food is None or found.food.code != "house-stock"

    def test_the_others_are_still_there(self, foods):
        found = match("unsalted butter", (), foods)
        assert found.food is not None
        assert found.food.code == "01145"

    def test_the_index_is_shared(self, foods):
        assert foods.scorer is bundled().scorer


def test_a_table_without_everyday_foods_finds_its_own():
    foods = FoodTable.of(
        [custom_food("x1", "Seaweed crackers, baked", {}), custom_food("x2", "Rye sour", {})]
    )
    found = match("seaweed crackers", (), foods)
    assert found.food is not None
    assert found.food.code == "x1"
    assert match("butter", (), foods).food is None


def test_an_empty_table_has_no_match():
    assert match("butter", (), FoodTable.of([])).food is None


@given(st.text(max_size=120), st.lists(st.text(max_size=20), max_size=3))
@settings(max_examples=100, deadline=None)
def test_any_text_has_an_answer_and_always_the_same(words, preparation):
    first, second = (match(words, preparation, bundled()) for _ in range(2))
    assert first == second
    assert 0 <= first.confidence <= 1
    assert len(first.alternatives) <= 3
    assert first.food not in first.alternatives


@given(
    st.lists(
        st.sampled_from(["butter", "salt", "cooked", "of", "banana", "leaf", "xq", "%", "2%"]), max_size=6
    )
)
@settings(max_examples=100, deadline=None)
def test_words_in_any_order_have_an_answer(words):
    found = match(" ".join(words), words, bundled())
    assert (found.food is None) == (found.confidence < 0.5)


def test_the_reader_and_the_matcher_agree_on_a_line():
    line = read_line("2 (15 oz) cans black beans, rinsed and drained")
    assert code_of(line.food_words, *line.preparation, line.unit) == "16018"


class TestSaltyStaysSalty:
    """What a line calls salted, cured, pickled or smoked is mapped to such a food or to none."""

    @pytest.mark.parametrize(
        "words",
        [
            "salted water",
            "brine",
            "smoked tofu",
            "pickled carrots",
            "salted egg yolk",
            "cured trout",
            "green peppercorns in brine",
            "pasta water",
            "smoked parsnips",
        ],
    )
    def test_no_unsalted_food_takes_its_place(self, words):
        found = match(words, (), bundled()).food
        assert found is None or found.per_100g("NA") >= 100

    @pytest.mark.parametrize(
        ("words", "least_mg"),
        [
            ("olives in brine", 700),
            ("brine-cured black olives", 700),
            ("salted capers", 2000),
            ("smoked gouda", 500),
            ("preserved lemon", 2000),
            ("celery salt", 20000),
            ("halloumi", 800),
            ("dry-cured ham", 1500),
        ],
    )
    def test_a_salty_food_is_found_with_its_salt(self, words, least_mg):
        assert match(words, (), bundled()).food.per_100g("NA") >= least_mg

    @pytest.mark.parametrize(
        ("line", "low", "high"),
        [
            ("1 litre chicken bouillon", 100, 500),
            ("1 chicken bouillon cube", 10000, 30000),
            ("1 tbsp vegetable bouillon", 10000, 30000),
            ("500 ml vegetable bouillon", 50, 500),
            ("1 fish stock cube", 10000, 30000),
        ],
    )
    def test_stock_is_dry_by_the_cube_and_liquid_by_the_litre(self, line, low, high):
        assert low < resolve(line, bundled(), ReadSettings()).food.per_100g("NA") < high


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("2 tbsp zorbo paste or butter", "01001"),
        ("1 pinch red pepper", "02031"),
        ("1 red pepper", "11821"),
        ("1 tsp dill", "02017"),
        ("1 tsp chopped fresh dill", "02045"),
        ("italian spaghetti", "20120"),
        ("pecorino romano cheese", "01038"),
        ("2 porkchops", "10036"),
        ("1 bayleaf", "02004"),
    ],
)
def test_lines_as_people_write_them(line, code):
    assert resolve(line, bundled(), ReadSettings()).food.code == code


@pytest.mark.parametrize("words", ["potato salad", "rose petals"])
def test_a_name_turned_round_or_nearly_spelled_is_not_sure(words):
    assert match(words, (), bundled()).confidence < SURE
