"""Reference amounts: 21 CFR 101.12(b), 9 CFR 317.312(b) and 381.412(b), 21 CFR 101.13(l) and (m)."""

from . import stated

_MEAT = stated(
    "reference_amounts",
    "dish_class amount_g kind",
    """
    bacon 15 food
    bacon_raw 54 food
    dried_meat 30 food
    luncheon_meat 55 food
    cured_poultry 85 food
    cured_poultry_raw 114 food
    smoked_poultry 55 food
    canned_poultry 55 food
    meat_entree 85 food
    sauced_entree 140 mixed_product
    mixed_dish 140 mixed_product
    egg_dish 110 mixed_product
    """,
    source="9 CFR 317.312(b) (bacon, dried meat, luncheon meat, egg mixtures: an open copy of the code) and "
    "381.412(b)",
    seen="read",
)
_CURED_MEAT = stated(
    "reference_amounts",
    "dish_class amount_g kind",
    """
    cured_meat 85 food
    cured_meat_raw 114 food
    """,
    source="9 CFR 317.312(b); 381.412(b), which was read, says the same of poultry",
    seen="memory",
)
_FOODS = stated(
    "reference_amounts",
    "dish_class amount_g kind",
    """
    soup 245 mixed_product
    cookie 30 food
    bread 50 food
    small_quick_bread 55 food
    muffin 110 food
    pancake 110 food
    waffle 85 food
    cake_heavy 125 food
    cake_medium 80 food
    cake_light 55 food
    pie 125 food
    cracker 15 food
    snack 30 food
    cheese 30 food
    grain 140 food
    pasta 140 food
    vegetable 85 food
    vegetable_sauced 110 food
    potato_plain 110 food
    potato_dish 140 mixed_product
    fries 70 food
    salad 100 mixed_product
    starchy_salad 140 mixed_product
    main_sauce 125 mixed_product
    dressing 30 oil
    mayonnaise 15 oil
    pickles 30 food
    """,
    source="21 CFR 101.12(b), table 2, as amended in 2016",
    seen="memory",
)
_MIXED = stated(
    "reference_amounts",
    "dish_class amount_g measure kind",
    f"""
    mixed_dish_cup | . | 1 cup | mixed_product
    mixed_dish_sauced | {140 + 55} | 140 g and 55 g for the sauce | mixed_product
    """,
    split="|",
    source="9 CFR 381.412(b)",
    seen="read",
)
# An amount in g is printed as it stands; these rows are printed in other words.
_OTHERWISE = stated(
    "reference_amounts",
    "dish_class amount_g measure kind",
    """
    beans | 130 | 130 g in sauce or canned; 90 g others | food
    minor_sauce | . | 1/4 cup | mixed_product
    fat_spread | . | 1 tbsp | oil
    condiment | . | 1 tbsp | food
    drink | . | 360 mL | food
    salt | . | 1/4 tsp | food
    main_dish | . | . | main_dish
    meal | . | . | meal
    """,
    split="|",
    source="21 CFR 101.12(b), table 2; dishes and meals by 21 CFR 101.13(l) and (m)",
    seen="memory",
)
STATED = [
    *(
        each.__class__(
            each.table,
            each.key,
            (*each.cells, ("measure", f"{dict(each.cells)['amount_g']} g")),
            each.source,
            each.seen,
        )
        for each in (*_MEAT, *_CURED_MEAT, *_FOODS)
    ),
    *_MIXED,
    *_OTHERWISE,
]
