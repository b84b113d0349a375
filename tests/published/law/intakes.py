"""What people should take in a day: 21 CFR 101.9, Regulation 1169/2011, WHO, the DRI "
"reports, United Kingdom."""

from . import Stated, stated

# Chart of 21 CFR 101.9(c)(8)(iv) and (c)(9), as amended in 2016: four years and over, one to three,
# pregnant or nursing.
# "-": the tables hold no figure for that group.
_DAILY_VALUES = """
VITA_RAE µg 900 300 1300
VITC mg 90 15 120
CA mg 1300 700 1300
FE mg 18 7 27
VITD µg 20 15 15
TOCPHA mg 15 6 19
VITK µg 120 30 90
THIA mg 1.2 0.5 1.4
RIBF mg 1.3 0.5 1.6
NIA mg 16 6 18
VITB6A mg 1.7 0.5 2.0
FOLDFE µg 400 150 600
VITB12 µg 2.4 0.9 2.8
BIOT µg 30 - -
PANTAC mg 5 2 7
P mg 1250 460 1250
ID µg 150 - -
MG mg 420 80 400
ZN mg 11 3 13
SE µg 55 20 70
CU mg 0.9 0.3 1.3
MN mg 2.3 1.2 2.6
CR µg 35 - -
MO µg 45 - -
CL mg 2300 - -
K mg 4700 3000 5100
CHOLN mg 550 200 550
ENERC kcal 2000 1000 2000
FAT g 78 39 78
FASAT g 20 10 20
CHOLE mg 300 300 300
NA mg 2300 1500 2300
CHOCDF g 275 150 275
FIBTG g 28 14 28
ADDED_SUGARS g 50 25 50
PROCNT g 50 13 71
"""
_GROUPS = ("four_and_over", "child_1_3", "pregnant_or_nursing")


_READ = """
VITA_RAE VITC CA FE VITD TOCPHA VITK THIA RIBF NIA VITB6A FOLDFE VITB12 BIOT PANTAC P ID MG
"""
"""Rows of the chart that were read for all groups; of zinc all but the last."""
_CHART = "FDA, questions and answers on the Nutrition Facts label, RDIs, a copy"


def _fda(column: int, source: str, seen: str) -> list[Stated]:
    lines = [line.split() for line in _DAILY_VALUES.strip().splitlines()]
    read = {*_READ.split(), *(("ZN",) if column < 2 else ())}
    return [
        each
        for tag, unit, *values in lines
        if values[column] != "-"
        for each in stated(
            "reference_values",
            "tag unit value",
            f"{tag} {unit} {values[column]}",
            reference="fda_daily_value",
            kind="daily_value",
            audience=_GROUPS[column],
            source=f"21 CFR 101.9(c)(8)(iv) and (c)(9), 2016; {_CHART if tag in read else source}",
            seen="read" if tag in read else seen,
        )
    ]


_SEEN = "as a page of reference values for labels of November 2019 prints them, on 2,000 calories"
_NOT_SEEN = "vitamins and minerals agree with the DRI tables, the rest from memory of the chart"
_DAILY = [*_fda(0, _SEEN, "quoted"), *_fda(1, _NOT_SEEN, "memory"), *_fda(2, _NOT_SEEN, "memory")]


_EU_INTAKES = stated(
    "reference_values",
    "tag value unit",
    f"""
    ENERC 2000 kcal
    ENERC_KJ 8400 kJ
    FAT 70 g
    FASAT 20 g
    CHOAVL 260 g
    SUGAR 90 g
    PROCNT 50 g
    SALT 6 g
    NA {6 / 2.5 * 1000:.0f} mg
    """,
    reference="eu_reference_intake",
    kind="reference_intake",
    audience="adult",
    source="Regulation (EU) No 1169/2011, Annex XIII part B, as the health service of the United Kingdom "
    "prints it, both as others quote them; sodium by Annex I, salt over 2.5",
    seen="quoted",
)
_EU_VALUES = stated(
    "reference_values",
    "tag value unit",
    """
    VITA_RAE 800 µg
    VITD 5 µg
    TOCPHA 12 mg
    VITK 75 µg
    VITC 80 mg
    THIA 1.1 mg
    RIBF 1.4 mg
    NIA 16 mg
    VITB6A 1.4 mg
    FOL 200 µg
    VITB12 2.5 µg
    BIOT 50 µg
    PANTAC 6 mg
    K 2000 mg
    CL 800 mg
    CA 800 mg
    P 700 mg
    MG 375 mg
    FE 14 mg
    ZN 10 mg
    CU 1 mg
    MN 2 mg
    FD 3.5 mg
    SE 55 µg
    CR 40 µg
    MO 50 µg
    ID 150 µg
    """,
    reference="eu_nutrient_reference_value",
    kind="nutrient_reference_value",
    audience="adult",
    source="Regulation (EU) No 1169/2011, Annex XIII part A; the shares printed on packages agree "
    "(75 mg of magnesium 20 %, 60 µg of selenium 109 %, 1.4 mg of thiamin 127 %)",
    seen="quoted",
)
_WHO = stated(
    "reference_values",
    "reference kind tag value",
    f"""
    who_adult daily_limit NA 2000
    who_adult daily_minimum K {90 * 39:.0f}
    """,
    audience="adult_any_state",
    unit="mg",
    source="WHO guidelines (2012): sodium under 2 g a day; potassium at least 90 mmol, at "
    "39 g a mole 3,510 mg",
    seen="quoted",
)
_SODIUM_AND_POTASSIUM = (
    "National Academies, Dietary Reference Intakes for Sodium and Potassium (2019), summary tables"
)
_ADEQUATE_SODIUM = stated(
    "reference_values",
    "audience value",
    """
    infant_0_6_months 110
    infant_7_12_months 370
    child_1_3 800
    child_4_8 1000
    child_9_13 1200
    fourteen_and_over 1500
    """,
    reference="nasem_ai",
    kind="adequate_intake",
    tag="NA",
    unit="mg",
    source=f"{_SODIUM_AND_POTASSIUM}: appendix J, table 3 (NCBI Bookshelf NBK545442)",
    seen="read",
)
_RISK_REDUCTION = stated(
    "reference_values",
    "audience value",
    """
    child_1_3 1200
    child_4_8 1500
    child_9_13 1800
    fourteen_and_over 2300
    """,
    reference="nasem_cdrr",
    kind="chronic_disease_risk_reduction",
    tag="NA",
    unit="mg",
    source=_SODIUM_AND_POTASSIUM,
    seen="quoted",
)
_ADEQUATE_POTASSIUM = stated(
    "reference_values",
    "audience value",
    """
    infant_0_6_months 400
    infant_7_12_months 860
    child_1_3 2000
    child_4_8 2300
    boy_9_13 2500
    girl_9_13 2300
    boy_14_18 3000
    girl_14_18 2300
    man 3400
    woman 2600
    pregnancy_14_18 2600
    pregnancy 2900
    lactation_14_18 2500
    lactation 2800
    """,
    reference="nasem_ai",
    kind="adequate_intake",
    tag="K",
    unit="mg",
    source=f"{_SODIUM_AND_POTASSIUM}: table S-1 (NCBI Bookshelf NBK545430)",
    seen="read",
)
# The report gives g a kg, and g a day for its reference weights; pregnancy and lactation add 25 g to a
# woman's.
_ALLOWANCES = stated(
    "reference_values",
    "audience value",
    f"""
    child_1_3 {1.05 * 12:.0f}
    child_4_8 {0.95 * 20:.0f}
    child_9_13 {0.95 * 36:.0f}
    boy_14_18 {0.85 * 61:.0f}
    girl_14_18 {0.85 * 54:.0f}
    man {0.8 * 70:.0f}
    woman {0.8 * 57:.0f}
    pregnancy_14_18 {round(0.8 * 57) + 25}
    pregnancy {round(0.8 * 57) + 25}
    lactation_14_18 {round(0.8 * 57) + 25}
    lactation {round(0.8 * 57) + 25}
    """,
    reference="iom_rda",
    kind="recommended_allowance",
    tag="PROCNT",
    unit="g",
    source="Institute of Medicine, Dietary Reference Intakes for Energy ... Protein (2005): g a kg and "
    "reference weights, which come to the g a day of its summary table 4 (NCBI Bookshelf NBK56068)",
    seen="read",
)
_UK_SALT = stated(
    "reference_values",
    "audience value",
    "\n".join(
        f"{audience} {salt_g / 2.5 * 1000:.0f}"
        for audience, salt_g in (
            ("uk_child_1_3", 2),
            ("uk_child_4_6", 3),
            ("uk_child_7_10", 5),
            ("uk_eleven_and_over", 6),
        )
    ),
    reference="uk_salt_target",
    kind="daily_limit",
    tag="NA",
    unit="mg",
    source="Scientific Advisory Committee on Nutrition, Salt and Health (2003): 2, 3, 5 and"
    " 6 g of salt, over 2.5",
    seen="quoted",
)
_UK_PROTEIN = stated(
    "reference_values",
    "audience value",
    """
    uk_child_1_3 14.5
    uk_child_4_6 19.7
    uk_child_7_10 28.3
    teen_11_14 42.1
    teen_15_18 55.2
    adult 55.5
    """,
    reference="uk_rni",
    kind="reference_nutrient_intake",
    tag="PROCNT",
    unit="g",
    source="Department of Health, Dietary Reference Values ... for the United Kingdom "
    "(1991), table 7.1: the boys' and men's, as others list them",
    seen="quoted",
)
_LIFE_STAGES = stated(
    "audiences",
    "audience covers",
    """
    infant_0_6_months | .
    infant_7_12_months | .
    child_1_3 | .
    child_4_8 | .
    boy_9_13 | .
    girl_9_13 | .
    boy_14_18 | .
    girl_14_18 | .
    man | .
    woman | .
    pregnancy_14_18 | .
    pregnancy | .
    lactation_14_18 | .
    lactation | .
    """,
    split="|",
    source="National Academies, Dietary Reference Intakes: Guiding Principles (2003), table C-1: boys and "
    "girls from 9 on, pregnancy and lactation by age (nap.edu, record 10872, page 180); young infants by the "
    "report on sodium (NBK545442)",
    seen="read",
)
_GROUPS_OF_FDA = stated(
    "audiences",
    "audience covers",
    """
    four_and_over | child_4_8 boy_9_13 girl_9_13 boy_14_18 girl_14_18 man woman
    pregnant_or_nursing | pregnancy_14_18 pregnancy lactation_14_18 lactation
    """,
    split="|",
    source=f"21 CFR 101.9(c)(8)(iv); {_CHART}: four years and over, pregnant women and lactating women",
    seen="read",
)
_GROUPS_OF_UK = stated(
    "audiences",
    "audience covers",
    """
    uk_child_1_3 | child_1_3
    uk_child_4_6 | .
    uk_child_7_10 | .
    teen_11_14 | .
    teen_15_18 | .
    uk_eleven_and_over | teen_11_14 teen_15_18 man woman pregnancy_14_18 pregnancy \
lactation_14_18 lactation boy_14_18 girl_14_18
    """,
    split="|",
    source="Department of Health (1991): 1 to 3, 4 to 6, 7 to 10, 11 to 14, 15 to 18, as others list "
    "them; salt from eleven on, as others list it too",
    seen="quoted",
)
_JOINED = stated(
    "audiences",
    "audience covers",
    """
    child_9_13 | boy_9_13 girl_9_13
    teen_14_18 | boy_14_18 girl_14_18
    adult | man woman
    adult_any_state | man woman pregnancy lactation
    fourteen_and_over | boy_14_18 girl_14_18 man woman pregnancy_14_18 pregnancy lactation_14_18 lactation
    """,
    split="|",
    source="our own joining of life stages that have one figure; no text names them so",
    seen="memory",
)
STATED = [
    *_DAILY,
    *_EU_INTAKES,
    *_EU_VALUES,
    *_WHO,
    *_ADEQUATE_SODIUM,
    *_RISK_REDUCTION,
    *_ADEQUATE_POTASSIUM,
    *_ALLOWANCES,
    *_UK_SALT,
    *_UK_PROTEIN,
    *_LIFE_STAGES,
    *_GROUPS_OF_FDA,
    *_GROUPS_OF_UK,
    *_JOINED,
]
