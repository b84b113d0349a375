"""Temperatures and times: FSIS Appendix A and guideline of 2021, FDA Food Code, chart of "
"safe temperatures."""

from . import Stated, stated

# Appendix A (FSIS, 1999), as reprinted by others: 6.5-log and 7-log, in min
# or s.
_APPENDIX_A = """
130 112min 121min
131 89min 97min
132 71min 77min
133 56min 62min
134 45min 47min
135 36min 37min
136 28min 32min
137 23min 24min
138 18min 19min
139 15min 15min
140 12min 12min
141 9min 10min
142 8min 8min
143 6min 6min
144 5min 5min
145 4min 4min
146 169s 182s
147 134s 144s
148 107s 115s
149 85s 91s
150 67s 72s
151 54s 58s
152 43s 46s
153 34s 37s
154 27s 29s
155 22s 23s
156 17s 19s
157 14s 15s
158 0s 0s
"""


def _minutes(words: str) -> str:
    return words[:-3] if words.endswith("min") else f"{float(words[:-1]) / 60:.4f}"


def _columns(table: str, text: str, column: int, source: str, seen: str) -> list[Stated]:
    lines = [line.split() for line in text.strip().splitlines()]
    wanted = "\n".join(f"{line[0]} {_minutes(line[column])}" for line in lines if line[column] != "-")
    return stated("lethality_times", "temperature_f minutes", wanted, table=table, source=source, seen=seen)


_APPENDIX = "FSIS Appendix A (1999), Compliance Guidelines for Meeting Lethality Performance Standards"
_WHOLE = _columns("whole", _APPENDIX_A, 1, f"{_APPENDIX}: 6.5-log", "read")
_BELOW_145 = _columns(
    "pierced", "\n".join(_APPENDIX_A.strip().splitlines()[:15]), 2, f"{_APPENDIX}: 7-log", "read"
)
_FOOD_CODE = _columns(
    "pierced",
    "145 3min\n150 1min\n155 17s\n158 0s",
    1,
    "FDA Food Code (2017 and 2022) 3-401.11(A)(2): ground, injected, tenderised meat, as Florida quotes it",
    "quoted",
)
_EGGS = _columns(
    "egg",
    "145 3min\n150 1min\n155 17s\n158 0s",
    1,
    "FDA Food Code (2017 and 2022) 3-401.11(A)(2)(b): raw eggs, but for those made to order",
    "memory",
)
# FSIS tables of 2005 for ready-to-eat poultry, 7-log: chicken with 1 and 12 % of fat, turkey with 1 %. The
# table keeps the
# 12 % column of chicken for all other poultry, rounded up to a minute at 145 and 150 F.
_POULTRY = """
136 63.3min 81.4min 64min
137 50.1min 65.5min -
138 - 52.9min -
139 - 43min -
140 25.2min 35min 28.1min
141 - 28.7min -
142 - 23.7min -
143 - 19.8min -
144 - 16.6min -
145 8.4min 14min 10.5min
150 2.7min 5min 3.8min
155 44.2s - 1.2min
160 13.7s 26.9s 25.6s
165 0s 0s 0s
"""
_TABLES = (
    "FSIS, time-temperature tables for cooking ready-to-eat poultry products, 7-log; "
    "165 F at once by the chart"
)
_BIRDS = [
    each
    for column, table in enumerate(("chicken_lean", "poultry", "turkey_lean"), 1)
    for each in _columns(table, _POULTRY, column, _TABLES, "memory")
]

_CHART = stated(
    "food_safety",
    "food_class form temperature_f rest_min",
    """
    beef whole 145 3
    beef ground 160 0
    pork whole 145 3
    pork ham 145 3
    pork ground 160 0
    poultry whole 165 0
    poultry ground 165 0
    fish whole 145 0
    egg dish 160 0
    any reheated 165 0
    """,
    source="USDA FSIS, safe minimum internal temperature chart, as of April 2025",
    seen="read",
)
_KEEPING = stated(
    "food_safety",
    "form temperature_f",
    f"""
    cold {5 * 1.8 + 32:g}
    cure 40
    hot 140
    ice {-1 * 1.8 + 32:g}
    """,
    food_class="any",
    rest_min=0,
    source="FDA Food Code 3-501.16 (5 C); USDA's danger zone of 40 to 140 F; lean meat "
    "begins to freeze at -1 C",
    seen="memory",
)
_FSIS = stated(
    "safety_limits",
    "id value unit",
    f"""
    short 2 h
    come_up 6 h
    growth_from {(50 - 32) / 1.8:g} °C
    growth_to {(130 - 32) / 1.8:.1f} °C
    lean_poultry_fat 1 g/100_g
    """,
    source="USDA FSIS: two hours out of the cold; guideline of 2021: six hours from 50 to "
    "130 F; first column of its tables 1 %",
    seen="memory",
)
_PARASITES = stated(
    "safety_limits",
    "id value unit",
    f"""
    parasites_frozen_c -20 °C
    parasites_frozen {7 * 24} h
    parasites_deep_c -35 °C
    parasites_deep 15 h
    """,
    source="FDA Food Code 3-402.11(A): -20 C for seven days, or frozen at -35 C and kept there for 15 hours, "
    "as the State of Washington took it over (WAC 246-215-03425)",
    seen="quoted",
)
_BEANS = stated(
    "safety_limits",
    "id value unit",
    """
    lectin_boil 10 min
    lectin_advised 30 min
    """,
    source="US FDA, Bad Bug Book, 2nd edition: soak, drain, boil for at least 30 minutes; "
    "10 minutes at 100 C destroy it; both as later pages quote it",
    seen="quoted",
)
_KEPT = stated(
    "safety_limits",
    "id value unit",
    f"""
    oil_days 4 d
    ferment_usual_salt 2.25 g/100_g
    ferment_warm_c {(80 - 32) / 1.8:.1f} °C
    ferment_cool_c {(60 - 32) / 1.8:.1f} °C
    """,
    source="National Center for Home Food Preservation (garlic in oil at most four days; "
    "vegetables spoil above 80 F); "
    "extension services (2.25 % of salt; may not ferment below 60 F)",
    seen="memory",
)
_PRACTICE = stated(
    "safety_limits",
    "id value unit",
    f"""
    sear {6 / 60} h
    boiling 98 °C
    oil_share 0.4 g/g
    ferment_least_salt 1.5 g/100_g
    nitrate_cure {30 * 24} h
    """,
    source="common practice, no source: six minutes, two degrees under the boil, two "
    "fifths, 1.5 %, thirty days",
    seen="memory",
)


def _with_spaces(each: Stated) -> Stated:
    cells = tuple((column, cell.replace("_", " ")) for column, cell in each.cells)
    return Stated(each.table, each.key, cells, each.source, each.seen)


STATED = [
    *_WHOLE,
    *_BELOW_145,
    *_FOOD_CODE,
    *_EGGS,
    *_BIRDS,
    *_CHART,
    *_KEEPING,
    *map(_with_spaces, (*_FSIS, *_PARASITES, *_BEANS, *_KEPT, *_PRACTICE)),
]
