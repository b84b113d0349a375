"""Label schemes are data: an invented one, by rows of tables alone, gets a label and a panel."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from saltledger.core import tables
from saltledger.nutrition import label_rounding, label_schemes, tolerances
from saltledger.nutrition.labels import label_view
from saltledger.render.panel import panel_of

ROWS = (
    {"tag": "ENERC_KJ", "name": "Energy", "unit": "kJ", "rounding": "whole", "presence": "required"},
    {"tag": "NA", "name": "Sodium", "unit": "mg", "rounding": "sparing", "presence": "required"},
    {"tag": "CA", "name": "Calcium", "unit": "mg", "rounding": "whole", "presence": "significant"},
    {"tag": "VITC", "name": "Vitamin C", "unit": "mg", "rounding": "whole", "presence": "significant"},
)
"""Of the invented island of Skerry."""

ROUNDING = (
    ("whole", "", "step", "1"),
    ("whole_percent", "", "step", "1"),
    ("sparing", "20", "less_than", "20"),
    ("sparing", "", "step", "25"),
)


@pytest.fixture
def skerry(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The scheme added to every table that it needs, and taken away again."""
    bundled = {name: tables.rows(name) for name in ("label_schemes", "label_rounding", "label_tolerances")}
    scheme = {
        **bundled["label_schemes"][0],
        **{"scheme": "skerry", "rows": "label_rules_skerry", "rounding": "skerry", "bases": "per_100g"},
        **{"tolerance_bases": "per_100g", "energy": "eu", "references": "who_adult fda_daily_value"},
        **{"by_audience": "no", "significant_percent": "20", "caption": "What is in it"},
        **{"lead": "For {servings}|Each {weight} g", "first_head": "In", "percent_head": "% of a day"},
        **{"less_than": "under {}", "statement": "A day is a day.", "conventions": "By hand.|By law."},
    }
    bands = [
        {"scheme": "skerry", "rule": rule, "below": below, "including": "no", "form": form, "value": value}
        for rule, below, form, value in ROUNDING
    ]
    band = {"scheme": "skerry", "tags": "NA", "below": "", "including": "", "down": "", "up": "10"}
    added = {
        "label_schemes": (*bundled["label_schemes"], scheme),
        "label_rounding": (*bundled["label_rounding"], *bands),
        "label_tolerances": (
            *bundled["label_tolerances"],
            {**band, "unit": "percent", "source": "the law of Skerry", "mark": "memory"},
        ),
        "label_rules_skerry": tuple({**row, "depth": "0", "percent": "whole_percent"} for row in ROWS),
    }
    kept = tables.rows
    monkeypatch.setattr(tables, "rows", lambda name: added.get(name) or kept(name))
    caches = (
        label_schemes.label_schemes,
        label_rounding._by_rule,
        label_rounding.bands,
        label_rounding._less_than,
        tolerances._rules,
    )
    for cached in caches:
        cached.cache_clear()
    yield
    for cached in caches:
        cached.cache_clear()


HUNDRED = {"NA": 440.0, "CA": 280.0, "VITC": 1.0, "PROCNT": 10.0, "FAT": 5.0, "CHOCDF": 20.0, "FIBTG": 2.0}


def test_a_scheme_is_rows_alone(skerry: None) -> None:
    serving = {tag: 2 * amount for tag, amount in HUNDRED.items()}
    label = label_view("skerry", serving, HUNDRED, serving_weight_g=200)
    (column,) = label["columns"]
    declared = {row["tag"]: (row["declared"], row["percent"]) for row in column["rows"]}
    # 17 kJ x (18 + 10) + 37 x 5 + 8 x 2 = 677; WHO has a value for sodium (2,000 mg), the FDA for calcium.
    assert declared == {"ENERC_KJ": ("677 kJ", None), "NA": ("450 mg", 22), "CA": ("280 mg", 22)}
    assert next(row for row in column["rows"] if row["tag"] == "NA")["tolerance"]["high"] == 495
    assert label["conventions"] == ["By hand.", "By law."]

    shown = panel_of(
        {
            "servings": 1,
            "per_serving": {"weight_g": 200, "nutrients": {}},
            "sodium": {"complete": True},
            "notices": [],
            "label": label,
        }
    )
    assert (shown.caption, shown.lead) == ("What is in it", ("For 1", "Each 200 g"))
    assert shown.head == ("In", "Per 100 g", "% of a day")
    assert shown.notes[0] == "A day is a day."


def test_what_is_less_has_the_words_of_the_scheme(skerry: None) -> None:
    label = label_view("skerry", {"NA": 30.0}, {"NA": 15.0}, serving_weight_g=200)
    assert [row["declared"] for row in label["columns"][0]["rows"]] == [None, "under 20 mg"]


def test_bundled_schemes_name_tables_and_rules_that_there_are() -> None:
    for scheme in label_schemes.label_schemes().values():
        for row in scheme.rows:
            assert label_rounding.bands(scheme.rounding, row.rounding)
            assert not row.percent or label_rounding.bands(scheme.rounding, row.percent)
        assert any(scheme.reference(row.tag) for row in scheme.rows)
