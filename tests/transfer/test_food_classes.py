import pytest
from saltledger.core.errors import NotFound
from saltledger.foods.dataset import bundled
from saltledger.transfer.diffusivity import food_classes
from saltledger.transfer.food_kinds import food_class_of, usual_water


@pytest.mark.parametrize(
    ("group", "name", "expected"),
    [
        ("1300", "Beef, brisket, flat half, separable lean only, raw", "beef"),
        ("1700", "Lamb, domestic, leg, whole, raw", "beef"),
        ("1000", "Pork, fresh, loin, whole, raw", "pork"),
        ("1000", "Pork, fresh, separable fat, raw", None),
        ("0700", "Ham, sliced, regular", "pork"),
        ("0500", "Ground turkey, 85% lean, 15% fat, raw", "poultry"),
        ("0500", "Chicken, broilers or fryers, breast, meat only, raw", "poultry"),
        ("1500", "Fish, cod, Atlantic, raw", "fish_lean"),
        ("1500", "Fish, herring, Atlantic, raw", "fish_fatty"),
        ("1500", "Fish, salmon, Atlantic, farmed, raw", "fish_fatty"),
        ("1500", "Crustaceans, shrimp, raw", "fish_lean"),
        ("0100", "Cheese, feta", "cheese"),
        ("0100", "Cheese, mozzarella, whole milk", "cheese"),
        ("0100", "Cheese, cottage, creamed", None),
        ("0100", "Egg, whole, raw, fresh", "egg"),
        ("1600", "Beans, navy, mature seeds, raw", "pulse"),
        ("1600", "Tofu, raw, firm, prepared with calcium sulfate", "tofu"),
        ("1100", "Mushrooms, white, raw", "mushroom"),
        ("1200", "Nuts, almonds", "nut"),
        ("1800", "Bread, white, commercially prepared", "dough"),
        ("1100", "Cucumber, with peel, raw", "vegetable"),
        ("1100", "Tomato juice, canned", None),
        ("0200", "Salt, table", None),
        ("1400", "Water, tap", None),
    ],
)
def test_sorts_foods(group, name, expected):
    assert food_class_of(group, name) == expected
    assert food_class_of(group[:2], name) == expected


def test_every_class_given_has_figures():
    table = bundled()
    given = {food_class_of(food.group_code, food.name) for food in map(table.get, table.codes)}
    assert given - {None} == set(food_classes()) - {"fish"}


def test_every_class_has_its_usual_water():
    for food_class in food_classes():
        water = usual_water(food_class).spread
        assert 0.02 < water.low < water.likely < water.high < 1
    with pytest.raises(NotFound, match="food class 'granite'"):
        usual_water("granite")
