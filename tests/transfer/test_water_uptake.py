import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.core.errors import NotFound
from saltledger.core.tables import row_of
from saltledger.core.tables import rows as table
from saltledger.transfer.diffusivity import food_classes
from saltledger.transfer.water_uptake import pick_up

PORK = ("pork", "", "brine")
BATHS = ("brine", "pickle", "marinate", "soak", "dry_cure")


@given(st.sampled_from(food_classes()), st.sampled_from(BATHS), st.floats(0, 100))
@settings(max_examples=100)
def test_every_food_and_bath_has_a_range(food_class, bath, percent):
    figure = pick_up(food_class, percent, bath)
    most = 600 if food_class == "mushroom_dried" else 150
    assert -60 < figure.spread.low <= figure.spread.likely <= figure.spread.high < most
    assert figure.source


@pytest.mark.parametrize("food_class", ["beef", "pork", "poultry", "fish", "fish_lean"])
def test_weak_brine_swells_and_strong_brine_dries(food_class):
    weak, strong = pick_up(food_class, 6.0).spread, pick_up(food_class, 26.0).spread
    assert weak.low > 0
    assert strong.likely < 0


def test_between_two_rows_a_straight_line_and_both_sources():
    figure = pick_up("pork", 13.85)
    assert figure.spread.likely == pytest.approx(4.5)
    assert "a hobby trial" in figure.source
    assert "from memory" in figure.source


def test_a_belly_gains_more_than_other_pork():
    belly = pick_up("pork", 7.4, "brine", "Pork, fresh, belly, raw").spread
    loin = pick_up("pork", 7.4, "brine", "Pork, fresh, loin, raw").spread
    assert belly.likely > loin.high
    assert loin == pick_up("pork", 7.4).spread


def test_beyond_the_last_row_the_last():
    last = [row for row in table("water_uptake") if (row["food_class"], row["words"], row["bath"]) == PORK][
        -1
    ]
    assert pick_up("pork", 100.0).spread.likely == float(last["likely"])
    assert pick_up("pork", 100.0) == pick_up("pork", 26.3)


def test_a_pickle_is_a_brine_and_a_desalted_fish_swells():
    assert pick_up("vegetable", 5.0, "pickle") == pick_up("vegetable", 5.0, "brine")
    assert pick_up("fish_lean", 0.0, "soak").spread.low > 0


def test_an_unknown_bath_is_refused():
    with pytest.raises(NotFound, match="kind of bath 'sauna'"):
        pick_up("beef", 5.0, "sauna")


@pytest.mark.parametrize("part", [0.02, 0.48, 0.52, 0.98])
def test_the_row_of_the_nearer_strength_is_the_one_told(part):
    rows = [row for row in table("water_uptake") if (row["food_class"], row["words"], row["bath"]) == PORK]
    lower, upper = rows[1:3]
    start, end = float(lower["brine_percent"]), float(upper["brine_percent"])
    found = row_of(pick_up("pork", start + part * (end - start)).source)
    assert found == row_of((lower if part < 0.5 else upper)["source"])


def test_before_the_first_row_the_first_and_between_rows_a_share_of_each():
    rows = [row for row in table("water_uptake") if (row["food_class"], row["words"], row["bath"]) == PORK]
    first, second = rows[:2]
    assert pick_up("pork", 0.0).spread.likely == float(first["likely"])
    low, high = float(first["brine_percent"]), float(second["brine_percent"])
    quarter = pick_up("pork", low + 0.25 * (high - low)).spread
    for end in ("low", "likely", "high"):
        wanted = 0.75 * float(first[end]) + 0.25 * float(second[end])
        assert getattr(quarter, end) == pytest.approx(wanted)


def test_dried_mushrooms_drink_several_times_their_weight():
    assert pick_up("mushroom_dried", 0.0, "soak").spread.low > pick_up("mushroom", 0.0, "soak").spread.high
