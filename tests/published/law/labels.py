"""What a label may say and how: 21 CFR 101.9, 101.13, 101.61, 101.65, Regulations 1169/2011 and 1924/2006."""

from . import Stated, stated
from .intakes import _DAILY_VALUES

FOODS, DISHES = "food mixed_product oil", "main_dish meal"

_SODIUM_CLAIMS = stated(
    "claims",
    "id kinds basis holds limit_mg",
    f"""
    sodium_free | {FOODS} | per_reference_amount | below | 5
    sodium_free | {FOODS} {DISHES} | per_serving | below | 5
    very_low_sodium | {FOODS} | per_reference_amount | at_most | 35
    very_low_sodium | {FOODS} | per_50g_if_small | at_most | 35
    very_low_sodium | {DISHES} | per_100g | at_most | 35
    low_sodium | {FOODS} | per_reference_amount | at_most | 140
    low_sodium | {FOODS} | per_50g_if_small | at_most | 140
    low_sodium | {DISHES} | per_100g | at_most | 140
    """,
    split="|",
    scheme="fda",
    sort="claim",
    source='21 CFR 101.61(b)(1) to (5): "less than 5" in the text of 2006; "35 or less", "140 or less", '
    "small amounts also per 50 g, meals per 100 g, by table 7-1 of the National Academies (2010), after FDA",
    seen="quoted",
)
_DISCLOSURE = stated(
    "claims",
    "id kinds basis limit_mg",
    f"""
    disclosure_level | {FOODS} | per_reference_amount | 480
    disclosure_level | {FOODS} | per_serving | 480
    disclosure_level | {FOODS} | per_50g_if_small | 480
    disclosure_level | main_dish | per_serving | 720
    disclosure_level | meal | per_serving | 960
    """,
    split="|",
    scheme="fda",
    sort="disclosure",
    holds="at_most",
    source='21 CFR 101.13(h)(1) to (3): "more than 480", main dishes 720, meals 960 mg',
    seen="memory",
)
_HEALTHY = stated(
    "claims",
    "kinds basis limit_mg",
    f"""
    food per_reference_amount {0.10 * 2300:.0f}
    mixed_product per_reference_amount {0.15 * 2300:.0f}
    oil per_reference_amount {0.05 * 2300:.0f}
    main_dish per_serving {0.20 * 2300:.0f}
    meal per_serving {0.30 * 2300:.0f}
    """,
    id="healthy_sodium",
    scheme="fda",
    sort="criterion",
    holds="at_most",
    source="21 CFR 101.65(d), 89 FR 106064: 10, 15, 5, 20 and 30 % of 2,300 mg",
    seen="memory",
)
_EU_CLAIMS = stated(
    "claims",
    "id limit_mg",
    f"""
    eu_sodium_free {0.005 * 1000:g}
    eu_very_low_sodium {0.04 * 1000:g}
    eu_low_sodium {0.12 * 1000:g}
    """,
    kinds=f"{FOODS} {DISHES}",
    basis="per_100g",
    scheme="eu",
    sort="claim",
    holds="at_most",
    source="Regulation (EC) No 1924/2006, annex: no more than 0.12 g of sodium per 100 g (as the German "
    "Federal Court quotes it), 0.04 g (as GS1's vocabulary does), 0.005 g (as Greek dietitians do)",
    seen="quoted",
)

FDA_ROUNDING = "21 CFR 101.9(c)(1) to (8) and (d)(7)(ii), as others quote it"
_FDA_ROUNDING = stated(
    "label_rounding",
    "rule below including form value",
    """
    calories 5 no zero .
    calories 50 yes step 5
    calories . . step 10
    fat 0.5 no zero .
    fat 5 no step 0.5
    fat . . step 1
    cholesterol 2 no zero .
    cholesterol 5 yes less_than 5
    cholesterol . . step 5
    sodium 5 no zero .
    sodium 140 yes step 5
    sodium . . step 10
    carbohydrate 0.5 no zero .
    carbohydrate 1 no less_than 1
    carbohydrate . . step 1
    percent_drv . . step 1
    percent_rdi 2 no zero .
    percent_rdi 10 yes step 2
    percent_rdi 50 yes step 5
    percent_rdi . . step 10
    """,
    scheme="fda",
    source=FDA_ROUNDING,
    seen="quoted",
)
_FDA_AMOUNTS = stated(
    "label_rounding",
    "rule below including form value",
    """
    rdi_below_25 . . step 0.1
    rdi_below_250 . . step 1
    rdi_from_250 . . step 10
    """,
    scheme="fda",
    source="FDA, Nutrition Facts questions and answers (2016): amounts of vitamins and "
    "minerals by the size of their RDI",
    seen="memory",
)
EU_GUIDANCE = "European Commission, guidance on tolerances (December 2012)"
_EU_ROUNDING = stated(
    "label_rounding",
    "rule below including form value",
    """
    energy . . step 1
    macronutrient 0.5 yes less_than 0.5
    macronutrient 10 no step 0.1
    macronutrient . . step 1
    saturates 0.1 yes less_than 0.1
    saturates 10 no step 0.1
    saturates . . step 1
    salt 0.0125 yes less_than 0.01
    salt 1 no step 0.01
    salt . . step 0.1
    three_figures . . figures 3
    two_figures . . figures 2
    """,
    scheme="eu",
    source=f"{EU_GUIDANCE}, as quoted at hellaschem.gr (the nutrition declaration table)",
    seen="quoted",
)
_EU_PERCENT = stated(
    "label_rounding",
    "rule below including form value",
    "percent . . step 1",
    scheme="eu",
    source="our choice of a whole per cent, as labels are printed; no text sets it",
    seen="memory",
)


def _rounding_of(rdi: float) -> str:
    return "rdi_below_25" if rdi < 25 else "rdi_below_250" if rdi < 250 else "rdi_from_250"


# 21 CFR 101.9(c): what must stand, in its order, and what may. Rounding of vitamins and minerals follows
# from the RDI.
_PANEL = """
ENERC kcal 0 calories . required
FAT g 0 fat percent_drv required
FASAT g 1 fat percent_drv required
FATRN g 1 fat . required
FAPU g 1 fat . voluntary
FAMS g 1 fat . voluntary
CHOLE mg 0 cholesterol percent_drv required
NA mg 0 sodium percent_drv required
CHOCDF g 0 carbohydrate percent_drv required
FIBTG g 1 carbohydrate percent_drv required
SUGAR g 1 carbohydrate . required
ADDED_SUGARS g 2 carbohydrate percent_drv required
PROCNT g 0 carbohydrate . required
"""
_MUST = ("VITD", "CA", "FE", "K")
_MAY = """
VITA_RAE VITC TOCPHA VITK THIA RIBF NIA VITB6A FOLDFE VITB12 PANTAC CHOLN P MG ZN SE CU MN
"""


def _fda_panel() -> list[Stated]:
    rdi = {
        tag: (unit, float(value))
        for tag, unit, value, *_ in map(str.split, _DAILY_VALUES.strip().splitlines())
    }
    presence = dict.fromkeys(_MUST, "required") | dict.fromkeys(_MAY.split(), "voluntary")
    small = "\n".join(
        f"{tag} {rdi[tag][0]} 0 {_rounding_of(rdi[tag][1])} percent_rdi {must}"
        for tag, must in presence.items()
    )
    return stated(
        "label_rules_fda",
        "tag unit depth rounding percent presence",
        _PANEL + small,
        source="21 CFR 101.9(c)(1) to (8) in its order; percent by (d)(7)(ii), of vitamins "
        "and minerals by (c)(8)(iii)",
        seen="memory",
    )


# Annex XV's order; Annex XIII part A for vitamins and minerals; the front of pack by Article 30(3)(b).
_EU_PANEL = stated(
    "label_rules_eu",
    "tag unit depth rounding percent presence front",
    """
    ENERC_KJ kJ 0 energy percent required yes
    ENERC kcal 0 energy percent required yes
    FAT g 0 macronutrient percent required yes
    FASAT g 1 saturates percent required yes
    FAMS g 1 saturates . voluntary no
    FAPU g 1 saturates . voluntary no
    CHOAVL g 0 macronutrient percent required no
    SUGAR g 1 macronutrient percent required yes
    FIBTG g 0 macronutrient . voluntary no
    PROCNT g 0 macronutrient percent required no
    SALT g 0 salt percent required yes
    """,
    source="Regulation (EU) No 1169/2011, Articles 30 and 32, Annexes XIII part B and XV",
    seen="memory",
)
_EU_SMALL = [
    each
    for rounding, lines in (
        ("three_figures", "VITA_RAE µg\nFOL µg\nK mg\nCA mg\nP mg\nMG mg"),
        (
            "two_figures",
            "VITD µg\nTOCPHA mg\nVITK µg\nVITC mg\nTHIA mg\nRIBF mg\nNIA mg\nVITB6A "
            "mg\nVITB12 µg\nPANTAC mg\n"
            "FE mg\nZN mg\nCU mg\nMN mg\nSE µg",
        ),
    )
    for each in stated(
        "label_rules_eu",
        "tag unit",
        lines,
        depth=0,
        rounding=rounding,
        percent="percent",
        presence="significant",
        front="no",
        source="Regulation (EU) No 1169/2011, Annex XIII part A; figures by the guidance of December 2012 "
        "(vitamin A, folic acid, Cl, Ca, P, Mg, I and K three, all others two), as quoted at hellaschem.gr",
        seen="quoted",
    )
]
_ORDER_EU = """
ENERC_KJ ENERC FAT FASAT FAMS FAPU CHOAVL SUGAR FIBTG PROCNT SALT VITA_RAE VITD TOCPHA VITK VITC
THIA RIBF NIA VITB6A FOL VITB12 PANTAC K CA P MG FE ZN CU MN SE
"""
ORDER_EU = _ORDER_EU.split()
"""Annex XV, then Annex XIII part A in its order, as far as the dataset knows the nutrient."""
ORDER_FDA = [line.split()[0] for line in _PANEL.strip().splitlines()] + [*_MUST, *_MAY.split()]

# 21 CFR 101.9(g)(4) and (5): at least 80 % of what is good to have, at most 120 % of what is not.
_US_TOLERANCE = stated(
    "label_tolerances",
    "tags down up",
    f"""
    ENERC SUGAR ADDED_SUGARS FAT FASAT FATRN CHOLE NA | . | {120 - 100}
    PROCNT CHOCDF FIBTG FAPU FAMS VITD CA FE K VITA_RAE VITC TOCPHA VITK THIA RIBF NIA VITB6A \
FOLDFE VITB12 PANTAC CHOLN P MG ZN SE CU MN | {100 - 80} | .
    """,
    split="|",
    scheme="fda",
    below="",
    including="",
    unit="percent",
    source="21 CFR 101.9(g)(4)(ii) and (g)(5)",
    seen="memory",
)
_EU_TOLERANCE = stated(
    "label_tolerances",
    "tags below including down up unit",
    f"""
    CHOAVL SUGAR PROCNT FIBTG | 10 | no | 2 | 2 | g
    CHOAVL SUGAR PROCNT FIBTG | 40 | yes | 20 | 20 | percent
    CHOAVL SUGAR PROCNT FIBTG | . | . | 8 | 8 | g
    FAT | 10 | no | 1.5 | 1.5 | g
    FAT | 40 | yes | 20 | 20 | percent
    FAT | . | . | 8 | 8 | g
    FASAT FAMS FAPU | 4 | no | 0.8 | 0.8 | g
    FASAT FAMS FAPU | . | . | 20 | 20 | percent
    SALT | {0.5 * 2.5:g} | no | {0.15 * 2.5:g} | {0.15 * 2.5:g} | g
    SALT | . | . | 20 | 20 | percent
    """,
    split="|",
    scheme="eu",
    source=f"{EU_GUIDANCE}, tolerances for foods other than supplements; salt as sodium "
    f"(0.15 g below 0.5 g) times 2.5",
    seen="memory",
)
_EU_TOLERANCE_OF_SMALL = stated(
    "label_tolerances",
    "tags down up",
    """
    VITA_RAE VITD TOCPHA VITK VITC THIA RIBF NIA VITB6A FOL VITB12 PANTAC | 35 | 50
    K CA P MG FE ZN CU MN SE | 35 | 45
    """,
    split="|",
    scheme="eu",
    below="",
    including="",
    unit="percent",
    source=f"{EU_GUIDANCE}, table 1, as the Finnish Food Authority gives it (ruokavirasto.fi)",
    seen="quoted",
)
_ATWATER = stated(
    "energy_factors",
    "tag kcal_per_g kj_per_g",
    """
    PROCNT 4 17
    CHOCDF 4 17
    FAT 9 37
    ALC 7 29
    """,
    scheme="atwater_general",
    source="21 CFR 101.9(c)(1)(i)(B); FAO Food and Nutrition Paper 77: kcal as the DRI books give them, "
    "kJ as the Food Standards Code does, both as others quote them",
    seen="quoted",
)
_ENERGY = stated(
    "energy_factors",
    "tag kcal_per_g kj_per_g",
    """
    CHOAVL 4 17
    PROCNT 4 17
    FAT 9 37
    ALC 7 29
    FIBTG 2 8
    """,
    scheme="eu",
    source="Regulation (EU) No 1169/2011, Annex XIV, the text in force on 13 March 2024 "
    "(vethyqua.scenari.eu, in French)",
    seen="read",
)
_SCHEMES = stated(
    "label_schemes",
    "scheme rounding bases tolerance_bases energy references by_audience significant_percent "
    "small_reference_g front_per_100g",
    """
    fda | fda | per_serving per_reference_amount | per_serving per_reference_amount | . \
| fda_daily_value | yes | . | 30 | .
    eu | eu | per_100g per_serving | per_100g | eu \
| eu_reference_intake eu_nutrient_reference_value | no | 15 | . | .
    uk | eu | per_100g per_serving | per_100g | eu \
| eu_reference_intake eu_nutrient_reference_value | no | . | . | ENERC_KJ ENERC
    """,
    split="|",
    source="21 CFR 101.9(b) and 101.61(b)(1) (30 g or less); Regulation (EU) No 1169/2011, Annex XIII part "
    "A, point 2 (15 % in 100 g), Annex XIV and Articles 30(3)(b), 32 and 33",
    seen="memory",
)
STATED = [
    *_SCHEMES,
    *_SODIUM_CLAIMS,
    *_DISCLOSURE,
    *_HEALTHY,
    *_EU_CLAIMS,
    *_FDA_ROUNDING,
    *_FDA_AMOUNTS,
    *_EU_ROUNDING,
    *_EU_PERCENT,
    *_fda_panel(),
    *_EU_PANEL,
    *_EU_SMALL,
    *_US_TOLERANCE,
    *_EU_TOLERANCE,
    *_EU_TOLERANCE_OF_SMALL,
    *_ATWATER,
    *_ENERGY,
]
