"""Label rules against the texts: every breakpoint of 21 CFR 101.9 and of the EU guidance of December 2012."""

import pytest
from saltledger.nutrition.label_rounding import declare
from saltledger.nutrition.tolerances import tolerance

# 21 CFR 101.9(c)(1): below 5 is 0; to 50 the nearest 5; above 50 the nearest 10.
CALORIES = [(0, "0"), (4.9, "0"), (5, "5"), (7.4, "5"), (7.5, "10"), (47.4, "45"), (47.5, "50"), (50, "50"),
            (50.1, "50"), (54.9, "50"), (55, "60"), (64.9, "60"), (65, "70"), (1234, "1230")]  # fmt: skip
# (c)(2): below 0.5 g is 0; below 5 g the nearest 0.5 g; from 5 g the nearest 1 g.
FAT = [(0.49, "0"), (0.5, "0.5"), (0.74, "0.5"), (0.75, "1"), (1.2, "1"), (1.25, "1.5"), (4.74, "4.5"),
    (4.75, "5"),
       (4.99, "5"), (5, "5"), (5.49, "5"), (5.5, "6"), (12.4, "12")]  # fmt: skip
# (c)(3): below 2 mg is 0; 2 to 5 mg is "less than 5 mg"; above 5 mg the nearest 5 mg.
CHOLESTEROL = [
    (1.9, "0"),
    (2, "less than 5"),
    (5, "less than 5"),
    (5.1, "5"),
    (7.4, "5"),
    (7.5, "10"),
    (62, "60"),
]
# (c)(4): below 5 mg is 0; 5 to 140 mg the nearest 5 mg; above 140 mg the nearest 10 mg.
SODIUM = [(4.9, "0"), (5, "5"), (7.4, "5"), (7.5, "10"), (137.4, "135"), (137.5, "140"), (140, "140"),
    (141, "140"),
          (144, "140"), (144.9, "140"), (145, "150"), (146, "150"), (1004, "1000"),
          (1005, "1010")]  # fmt: skip
# (c)(6) and (7): below 0.5 g is 0; below 1 g is "less than 1 g"; from 1 g the nearest 1 g.
CARBOHYDRATE = [
    (0.49, "0"),
    (0.5, "less than 1"),
    (0.99, "less than 1"),
    (1, "1"),
    (1.49, "1"),
    (1.5, "2"),
    (27, "27"),
]
# (c)(8)(iv): RDI below 25 units the nearest 0.1; below 250 the nearest 1; from 250 the nearest 10.
VITAMINS = [
    ("rdi_below_25", 1.34, "1.3"), ("rdi_below_25", 1.35, "1.4"), ("rdi_below_250", 12.4, "12"),
    ("rdi_below_250", 12.5, "13"), ("rdi_from_250", 304.9, "300"), ("rdi_from_250", 305, "310"),
]  # fmt: skip
# (d)(7)(ii): the nearest 1 %. (c)(8)(iii): below 2 % is 0; to 10 % the nearest 2; to 50 % the nearest 5;
# then 10.
PERCENT_DRV = [(0.4, 0), (0.5, 1), (11.3, 11), (26.5, 27)]
PERCENT_RDI = [(1.5, 0), (1.99, 0), (2, 2), (2.9, 2), (3, 4), (8.9, 8), (9, 10), (10, 10), (10.6, 10),
    (12.4, 10),
               (12.5, 15), (23.8, 25), (47.4, 45), (50, 50), (50.1, 50), (54.9, 50), (55, 60),
               (97, 100)]  # fmt: skip
FDA = [
    *(("calories", *case) for case in CALORIES), *(("fat", *case) for case in FAT),
    *(("cholesterol", *case) for case in CHOLESTEROL), *(("sodium", *case) for case in SODIUM),
    *(("carbohydrate", *case) for case in CARBOHYDRATE), *VITAMINS,
]  # fmt: skip

# European Commission, guidance on tolerances and rounding (December 2012), table on rounding.
EU = [
    *(("energy", amount, words) for amount, words in [(0.4, "0"), (0.5, "1"), (1249.5, "1250")]),
    *(
        ("macronutrient", amount, words)
        for amount, words in [
            (0, "0"), (0.1, "< 0.5"), (0.5, "< 0.5"), (0.51, "0.5"), (0.55, "0.6"), (9.94, "9.9"),
            (9.96, "10"),
            (10, "10"), (10.4, "10"), (10.5, "11"), (33.3, "33"),
        ]
    ),
    *(
        ("saturates", amount, words)
        for amount, words in [
            (0.1, "< 0.1"), (0.11, "0.1"), (0.15, "0.2"), (9.94, "9.9"), (10, "10"), (12.5, "13"),
        ]
    ),
    *(
        ("salt", amount, words)
        for amount, words in [
            (0, "0"), (0.0125, "< 0.01"), (0.0126, "0.01"), (0.015, "0.02"), (0.994, "0.99"), (0.995, "1"),
            (1, "1"), (1.04, "1"), (1.05, "1.1"), (1.53, "1.5"),
        ]
    ),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "amount", "words"), FDA)
def test_us_breakpoints(rule, amount, words):
    assert declare("fda", rule, amount).words == words


@pytest.mark.parametrize(("amount", "percent"), PERCENT_DRV)
def test_us_percent_of_a_reference_value(amount, percent):
    assert declare("fda", "percent_drv", amount).amount == percent


@pytest.mark.parametrize(("amount", "percent"), PERCENT_RDI)
def test_us_percent_of_a_vitamin_or_mineral(amount, percent):
    assert declare("fda", "percent_rdi", amount).amount == percent


@pytest.mark.parametrize(("rule", "amount", "words"), EU)
def test_eu_breakpoints(rule, amount, words):
    assert declare("eu", rule, amount).words == words


# Declared amount, lowest and highest that may be found. From memory of the guidance of December 2012, its
# table for foods other than supplements; the salt row is the sodium row times 2.5 (see label_tolerances.csv).
EU_TOLERANCE = [
    ("SALT", 1.2, 0.825, 1.575), ("SALT", 1.25, 1.0, 1.5), ("SALT", 0.3, 0.0, 0.675), ("FAT", 9.9, 8.4, 11.4),
    ("FAT", 10, 8, 12), ("FAT", 40, 32, 48), ("FAT", 41, 33, 49), ("FASAT", 3.9, 3.1, 4.7),
    ("FASAT", 4, 3.2, 4.8),
    ("CHOAVL", 9, 7, 11), ("SUGAR", 40, 32, 48), ("PROCNT", 50, 42, 58), ("CA", 120, 78, 174),
    ("VITC", 10, 6.5, 15),
]  # fmt: skip


@pytest.mark.parametrize(("tag", "declared", "low", "high"), EU_TOLERANCE)
def test_eu_tolerance(tag, declared, low, high):
    found = tolerance("eu", tag, declared)
    assert (found.low, found.high) == pytest.approx((low, high))


def test_us_tolerance_is_one_sided():
    """21 CFR 101.9(g)(4) and (5), from memory."""
    sodium, calcium = tolerance("fda", "NA", 500), tolerance("fda", "CA", 300)
    assert (sodium.low, sodium.high) == (None, 600)
    assert (calcium.low, calcium.high) == (240, None)
