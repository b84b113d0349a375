from dataclasses import dataclass

import pytest
from saltledger.transfer.food_kinds import kind_of


@dataclass(frozen=True)
class Named:
    name: str
    group_code: str


@pytest.mark.parametrize(
    ("purpose", "group_code", "name", "kind"),
    [
        ("pot", "1300", "Beef, cured, corned beef, brisket, raw", "meat"),
        ("pot", "1300", "Beef, variety meats and by-products, suet, raw", None),
        ("pot", "0500", "Chicken, broilers or fryers, breast, meat only, raw", "poultry"),
        ("pot", "1500", "Crustaceans, shrimp, mixed species, raw", "shellfish"),
        ("pot", "1500", "Fish, cod, Atlantic, dried and salted", "fish"),
        ("pot", "1600", "Beans, kidney, red, mature seeds, raw", "dried_beans"),
        ("pot", "1600", "Beans, kidney, red, mature seeds, canned, drained solids", "cooked_beans"),
        ("pot", "1600", "Chickpea flour (besan)", None),
        ("pot", "2000", "Pasta, dry, enriched", "pasta"),
        ("pot", "2000", "Pasta, cooked, enriched, with added salt", "cooked_starch"),
        ("pot", "2000", "Rice, white, long-grain, regular, raw, enriched", "rice"),
        ("pot", "2000", "Rice flour, white, unenriched", None),
        ("pot", "2000", "Wild rice, raw", "grain"),
        ("pot", "2000", "Barley, pearled, raw", "grain"),
        ("pot", "1100", "Potatoes, flesh and skin, raw", "potato"),
        ("pot", "1100", "Sweet potato, raw, unprepared", "vegetable"),
        ("pot", "1100", "Spinach, raw", "leaf"),
        ("pot", "1100", "Carrots, raw", "vegetable"),
        ("pot", "1100", "Tomato juice, canned, with salt added", None),
        ("pot", "0200", "Salt, table", None),
        ("pot", "1400", "Beverages, water, tap, drinking", None),
        ("coating", "2000", "Wheat flour, white, all-purpose, enriched, bleached", "flour"),
        ("coating", "1900", "Sugars, granulated", "sugar"),
        ("coating", "1800", "Bread, crumbs, dry, grated, plain", "crumbs"),
        ("coating", "0100", "Egg, whole, raw, fresh", "egg_wash"),
        ("can", "1600", "Beans, pinto, mature seeds, canned, solids and liquids", "beans"),
        ("can", "1600", "Beans, pinto, canned, drained solids", "drained_beans"),
        ("can", "1600", "Beans, baked, canned, plain or vegetarian", None),
        ("can", "1100", "Corn, sweet, yellow, canned, whole kernel, drained solids", "drained_vegetables"),
        (
            "can",
            "1600",
            "Beans, kidney, red, mature seeds, canned, drained solids, rinsed in tap water",
            "rinsed_beans",
        ),
        ("can", "1300", "Beef, brisket, raw", None),
    ],
)
def test_the_first_rule_that_fits(purpose, group_code, name, kind):
    assert kind_of(purpose, Named(name, group_code)) == kind


def test_no_food_has_no_kind():
    assert kind_of("pot", None) is None
