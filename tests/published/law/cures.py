"""Nitrite and nitrate: 9 CFR 424.21(c) and 424.22(b), FSIS Directive 7620.3, Regulation (EU) 2023/2108."""

from . import stated

OZ_A_HUNDRED_POUNDS = 1e6 / 16 / 100
"""Parts per million of an ounce in a hundred pounds."""
POUND_A_HUNDRED_GALLONS = 1e6 / (100 * 10) * 0.10
"""Parts per million of a pound in a hundred gallons of pickle at ten pounds a gallon, "
"pumped at ten per cent."""
NANO2_A_NO2 = (22.990 + 14.007 + 2 * 15.999) / (14.007 + 2 * 15.999)
SKIN_OFF = 0.9

_US = stated(
    "curing_limits",
    "product_class agent method limit_ppm lowest_ppm",
    f"""
    comminuted nitrite comminuted {0.25 * OZ_A_HUNDRED_POUNDS} .
    dry_cured nitrite dry {1 * OZ_A_HUNDRED_POUNDS} .
    immersion_cured nitrite immersion {2 * POUND_A_HUNDRED_GALLONS} .
    pumped nitrite pumped {2 * POUND_A_HUNDRED_GALLONS} .
    comminuted nitrate comminuted {2.75 * OZ_A_HUNDRED_POUNDS} .
    dry_cured nitrate dry {3.5 * OZ_A_HUNDRED_POUNDS} .
    immersion_cured nitrate immersion {7 * POUND_A_HUNDRED_GALLONS} .
    pumped nitrate pumped {7 * POUND_A_HUNDRED_GALLONS} .
    """,
    scheme="us",
    source="9 CFR 424.21(c): nitrite 1/4 oz in 100 lb chopped, 1 oz dry, 2 lb in 100 gal at"
    " 10 % pump; nitrate 2 3/4 oz, "
    "3 1/2 oz, 7 lb",
    seen="quoted",
)
_BACON = stated(
    "curing_limits",
    "product_class agent method limit_ppm lowest_ppm",
    f"""
    bacon_pumped nitrite pumped 120 {120 * 0.8}
    bacon_immersion nitrite immersion 120 .
    bacon_dry nitrite dry 200 .
    bacon_pumped_skin_on nitrite pumped {120 * SKIN_OFF} {120 * SKIN_OFF * 0.8}
    bacon_immersion_skin_on nitrite immersion {120 * SKIN_OFF} .
    bacon_dry_skin_on nitrite dry {200 * SKIN_OFF} .
    bacon_pumped nitrate pumped 0 .
    bacon_immersion nitrate immersion 0 .
    bacon_dry nitrate dry 0 .
    bacon_pumped_skin_on nitrate pumped 0 .
    bacon_immersion_skin_on nitrate immersion 0 .
    bacon_dry_skin_on nitrate dry 0 .
    """,
    scheme="us",
    source="9 CFR 424.22(b): pumped and immersed 120, dry 200 ppm (as USDA's page on bacon, seen as others "
    "quote it, says); no nitrate, 424.21(c); skin a tenth less, Directive 7620.3",
    seen="quoted",
)
_EU = stated(
    "curing_limits",
    "product_class method limit_ppm lowest_ppm",
    f"""
    comminuted comminuted {80 * NANO2_A_NO2:.1f} .
    dry_cured dry {80 * NANO2_A_NO2:.1f} .
    immersion_cured immersion {80 * NANO2_A_NO2:.1f} .
    pumped pumped {80 * NANO2_A_NO2:.1f} .
    sterilised comminuted {55 * NANO2_A_NO2:.1f} .
    """,
    scheme="eu",
    agent="nitrite",
    source="Regulation (EU) 2023/2108: 80 mg/kg, sterilised 55, as the NO2 ion; one part of"
    " NaNO2 is 0.67 parts of NO2",
    seen="quoted",
)
_SALTS = stated(
    "curing_salts",
    "kind nitrite_percent nitrate_percent",
    f"""
    type_1 {100 / 16} 0
    type_1_by_ounce {100 / 17:.6f} 0
    type_2 {100 / 16} 4
    cure_0_4 0.4 0
    cure_0_6 0.6 0
    cure_0_75 0.75 0
    cure_0_9 0.9 0
    sodium_nitrite 100 0
    """,
    source="US practice: an ounce in 16 in all, or an ounce to 16 of salt; 0.64 oz nitrate "
    "in a pound with type 2; the figure "
    "that a European package names",
    seen="memory",
)
_STRENGTHS = stated(
    "safety_limits",
    "id value unit",
    """
    cure_useful 40 ppm
    cure_kept_cold 120 ppm
    """,
    source="FSIS Directive 7620.3, page 12: nitrite is useful from 40 ppm; 120 asked of what is kept cold",
    seen="quoted",
)
STATED = [*_US, *_BACON, *_EU, *_SALTS, *_STRENGTHS]
