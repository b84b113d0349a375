import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.core.errors import NotFound
from saltledger.core.notices import DEFER
from saltledger.curing.agents import (
    curing_salt,
    curing_salts,
    equilibrium_ppm,
    mixed_in_ppm,
    permitted_mix_g,
    permitted_rub_g,
    pumped_ppm,
    smallest_meat_g,
)
from saltledger.curing.assessment import assess
from saltledger.curing.cure_notices import caution, limit_notices
from saltledger.curing.curing_limits import limit_for, product_classes, schemes

from ..broken_tables import refuses

grams = st.floats(0.01, 1e5)
limits = st.floats(1, 1000)


def codes(cure):
    return {notice.code for notice in cure.notices}


def immersed(nitrite_g, **changes):
    request = {"meat_g": 2000.0, "pickle_g": 2120.0 + nitrite_g, "product_class": "immersion_cured"}
    return assess(nitrite_g=nitrite_g, **(request | changes))


@given(limits, grams, st.floats(0.003, 1))
def test_permitted_mix_lands_on_the_limit(limit_ppm, other_g, share):
    mix_g = permitted_mix_g(limit_ppm, other_g, share)
    assert equilibrium_ppm(mix_g * share, other_g, mix_g) == pytest.approx(limit_ppm)


@given(limits, grams, st.floats(0.003, 1))
def test_permitted_rub_lands_on_the_limit(limit_ppm, meat_g, share):
    assert mixed_in_ppm(permitted_rub_g(limit_ppm, meat_g, share) * share, meat_g) == pytest.approx(limit_ppm)


@given(limits, st.floats(0.01, 100), grams)
def test_smallest_meat_is_just_inside(limit_ppm, nitrite_g, pickle_g):
    meat_g = smallest_meat_g(limit_ppm, nitrite_g, pickle_g)
    assert equilibrium_ppm(nitrite_g, meat_g, pickle_g) <= limit_ppm * (1 + 1e-9)


@given(grams, grams, grams)
def test_more_pickle_dilutes(nitrite_g, meat_g, pickle_g):
    assert equilibrium_ppm(nitrite_g, meat_g, 2 * pickle_g) < equilibrium_ppm(nitrite_g, meat_g, pickle_g)


def test_formulas_take_draws():
    shares = np.array([0.05, 0.10, 0.20])
    assert pumped_ppm(np.full(3, 3.0), np.full(3, 2000.0), shares) == pytest.approx([75, 150, 300])


def test_immersion_is_judged_by_the_higher_method():
    high_pick_up = immersed(0.8, pick_up_share=0.6)
    assert high_pick_up.judged_ppm == high_pick_up.pick_up_ppm > high_pick_up.equilibrium_ppm
    assert high_pick_up.is_refused


def test_pumped_is_judged_by_the_pump():
    cure = immersed(2.0, product_class="pumped")
    assert cure.equilibrium_ppm > cure.limit_ppm > cure.judged_ppm == cure.pick_up_ppm
    assert not cure.is_refused


@pytest.mark.parametrize(("product_class", "nitrite_g"), [("dry_cured", 1.3), ("comminuted", 0.32)])
def test_mixed_in_cures_count_the_whole(product_class, nitrite_g):
    cure = assess(nitrite_g=nitrite_g, meat_g=2000, pickle_g=50, product_class=product_class)
    assert cure.pick_up_ppm == cure.equilibrium_ppm == cure.judged_ppm == pytest.approx(nitrite_g * 500)
    assert cure.is_refused


def test_exactly_at_the_limit_is_allowed():
    assert not assess(nitrite_g=0.4, meat_g=2000, pickle_g=9, product_class="bacon_dry").is_refused


def test_stop_names_the_remedy_and_the_remedy_works():
    cure = immersed(3.0)
    message = next(n.message for n in cure.notices if n.code == "cure-nitrite-over-limit")
    assert "at most 0.824 g" in message
    assert not immersed(0.824).is_refused
    assert "at least 12877 g of meat" in message
    assert not immersed(3.0, meat_g=12877.0).is_refused


@pytest.mark.parametrize(
    ("nitrite_g", "code"), [(0.05, "cure-not-useful"), (0.4, "cure-weak"), (0.6, "cure-methods-differ")]
)
def test_weak_cures(nitrite_g, code):
    assert code in codes(immersed(nitrite_g))


def test_a_cure_at_the_limit_of_skin_on_bacon_is_not_called_weak():
    cure = assess(nitrite_g=0.108, meat_g=1000, pickle_g=9, product_class="bacon_immersion_skin_on")
    assert "cure-weak" not in codes(cure)


def test_pumped_bacon_under_its_rule():
    cure = immersed(1.8, product_class="bacon_pumped")
    assert {"cure-nitrite-under-rule", "cure-bacon-ascorbate"} <= codes(cure)


def test_class_left_out_is_said():
    assert "cure-class-assumed" in codes(immersed(0.5, product_class=None))
    assert "cure-class-assumed" not in codes(immersed(0.5))


def test_nitrate_in_bacon_stops():
    cure = immersed(0.4, product_class="bacon_immersion", nitrate_g=0.1)
    assert "cure-nitrate-over-limit" in codes(cure)
    assert cure.is_refused


def test_nitrate_without_a_rule_is_said():
    assert "cure-nitrate-no-rule" in codes(immersed(0.4, scheme="eu", nitrate_g=0.1))


def test_other_foods_are_told_that_the_limits_are_for_meat():
    assert "cure-food-not-meat" in codes(immersed(0.5, food_class="fish_lean"))


def test_cautions_go_with_nitrite_only():
    assert {"nitrite-caution", "cure-no-guarantee"} <= codes(immersed(0.5))
    assert codes(immersed(0.0)) == set()


def test_every_message_defers_or_names_a_source():
    cautions = [n.message for n in immersed(0.5).notices if n.severity == "info"]
    assert any("Local codes and licensed practice come first" in message for message in cautions)


def test_unknown_class_is_not_found():
    with pytest.raises(NotFound, match="There is no product class 'cheese"):
        limit_for("cheese")


def test_tables_are_whole():
    assert set(schemes()) == {"us", "eu"}
    assert "sterilised" in product_classes("eu")
    for name in product_classes():
        assert limit_for(name, "nitrate").limit_ppm >= 0
        assert limit_for(name).source
    for salt in curing_salts().values():
        assert 0 <= salt.salt_share < 1
        assert salt.source


def test_pointers_name_what_a_bath_and_a_step_both_have():
    said = [
        *immersed(3.0, product_class=None, food_class="fish").notices,
        *immersed(1.8, product_class="bacon_pumped").notices,
        *immersed(0.05).notices,
    ]
    assert {notice.pointer for notice in said} == {"", "/bath", "/food", "/product_class"}


NITRATE_BATH = {"nitrite_g": 0.0, "meat_g": 2000.0, "pickle_g": 2000.0, "product_class": "immersion_cured"}


def message(cure, code):
    return next(n.message for n in cure.notices if n.code == code)


def test_every_notice_ends_by_deferring():
    said = [
        *immersed(3.0, product_class=None, food_class="fish", nitrate_g=3.0).notices,
        *immersed(1.8, product_class="bacon_pumped").notices,
        *immersed(0.4, scheme="eu", nitrate_g=0.1).notices,
        *immersed(0.05).notices,
        *assess(**NITRATE_BATH, nitrate_g=5.0).notices,
    ]
    assert len({n.code for n in said}) >= 12
    assert [n.code for n in said if not n.message.endswith(DEFER)] == []


def test_a_bath_of_nitrate_alone():
    """7 lb in 100 gal at 10 % pump: 700 ppm (9 CFR 424.21(c)), on 4,000 g of meat and pickle 2.8 g."""
    within, over = (assess(**NITRATE_BATH, nitrate_g=grams) for grams in (2.7, 2.9))
    assert {"nitrate-caution", "cure-nitrate-alone", "cure-no-guarantee"} <= codes(within)
    assert not within.is_refused
    assert over.is_refused
    assert "at most 2.79 g of sodium nitrate" in message(over, "cure-nitrate-over-limit")


@given(st.floats(0.05, 20), st.floats(0.03, 0.6))
def test_the_remedy_of_a_pump_works_and_wastes_nothing(nitrite_g, pump):
    def pumped(grams):
        return immersed(grams, product_class="pumped", pickle_g=2000.0 + grams, pick_up_share=pump)

    cure = pumped(nitrite_g)
    if cure.is_refused:
        said = message(cure, "cure-nitrite-over-limit").split("at most ")[1].split(" g")[0]
        assert not pumped(float(said)).is_refused
        assert pumped(float(said) * 1.011).is_refused


def test_a_pump_of_nothing_is_no_fault():
    assert not immersed(3.0, product_class="pumped", pick_up_share=0.0).is_refused
    only_rest = immersed(3.0, pick_up_share=0.0)
    assert only_rest.judged_ppm == only_rest.equilibrium_ppm
    assert "at most 0.824 g" in message(only_rest, "cure-nitrite-over-limit")


def test_more_meat_is_no_remedy_for_a_high_pick_up():
    assert "of meat in it" not in message(immersed(0.9, pick_up_share=0.6), "cure-nitrite-over-limit")


def test_dry_cures_and_the_eu_have_words_of_their_own():
    dry = assess(nitrite_g=0.5, meat_g=1000, pickle_g=20, product_class="dry_cured")
    assert "cure-dry-finished" in codes(dry)
    european = immersed(0.3, scheme="eu")
    assert "cure-scheme-eu" in codes(european)
    assert european.limit_ppm == 120
    assert "cure-dry-finished" not in codes(european)


def test_at_the_least_that_a_rule_asks_for_nothing_is_said():
    rule = limit_for("bacon_pumped")
    assert rule.lowest_ppm == pytest.approx(96)
    assert list(limit_notices(rule.lowest_ppm, rule, "")) == []
    (told,) = limit_notices(rule.lowest_ppm * (1 - 1e-6), rule, "")
    assert told.code == "cure-nitrite-under-rule"


def test_the_salt_of_a_curing_salt_is_what_is_no_agent():
    salt = curing_salt("type_1")
    assert salt.nitrite_share == pytest.approx(0.0625)
    assert salt.salt_share == pytest.approx(0.9375)


@pytest.mark.parametrize(
    ("table", "read", "cells"),
    [
        ("curing_salts", curing_salts, {"nitrite_percent": "0"}),
        ("curing_salts", curing_salts, {"nitrite_percent": "60", "nitrate_percent": "41"}),
        ("curing_salts", curing_salts, {"nitrite_percent": "101"}),
        ("curing_limits", product_classes, {"method": "rubbed"}),
    ],
)
def test_a_cell_that_cannot_be_is_named_with_its_row(monkeypatch, table, read, cells):
    refuses(monkeypatch, table, read, **cells)


def test_cautions_are_of_what_is_there():
    def told(*grams):
        return {notice.code for notice in caution(*grams)}

    assert told(0.0) == told(0.0, 0.0) == set()
    assert told(0.5) == {"nitrite-caution", "cure-no-guarantee"}
    assert told(0.0, 0.5) == {"nitrate-caution", "cure-no-guarantee"}
    assert told(0.5, 0.5) == {"nitrite-caution", "nitrate-caution", "cure-no-guarantee"}
