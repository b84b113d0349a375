"""Sources know the row they stand in, wherever their words go."""

from __future__ import annotations

from collections import Counter

from saltledger.core.tables import Source, row_of, rows, seed_foods, with_words
from saltledger.transfer.diffusivity import effective_diffusivity
from saltledger.transfer.pots import cooking_yield, drip_share
from saltledger.transfer.water_uptake import pick_up


def test_a_source_is_its_words():
    assert Source("a book", "drip:any/roast") == "a book"
    assert row_of("a book") == ""
    assert row_of(with_words(Source("a book", "drip:any/roast"), "a log, and more")) == "drip:any/roast"


def test_figures_name_their_rows():
    assert row_of(drip_share("meat", "roast").source).startswith("drip:")
    assert row_of(cooking_yield("meat/lamb", "roast").source) == "cooking_yields:meat/lamb/roast"
    assert row_of(pick_up("poultry", 6.0).source) == "water_uptake:poultry/brine/5"
    assert row_of(effective_diffusivity("pork", "nitrite", 5).source) == "diffusivities:pork"


def test_every_row_with_a_source_has_a_name_of_its_own():
    for file in seed_foods().iterdir():
        if file.name.endswith(".csv"):
            found = [row_of(row["source"]) for row in rows(file.name[:-4]) if "source" in row]
            assert [name for name, count in Counter(found).items() if count > 1] == []
