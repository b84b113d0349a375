"""A coat goes by the surface of the food, not by how much of it is set out."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.foods.dataset import bundled
from saltledger.transfer.handling_figures import clinging, clings_g, coat, wanted_g

grams = st.floats(0, 5000)


def share(code, thickness_cm):
    """What a flat piece takes, of its weight."""
    film = clinging(bundled().get(code) if code else None).spread.likely
    one = np.ones(1)
    return float(wanted_g(one, 2 / thickness_cm * one, film * one)[0])


@pytest.mark.parametrize(
    ("code", "least", "most"), [("20081", 0.02, 0.06), ("18079", 0.08, 0.2), ("01123", 0.04, 0.12)]
)
def test_a_cutlet_of_a_centimetre_and_a_half(code, least, most):
    """Flour 3 to 5 %, egg about 7 %, crumbs 10 to 15 % of the meat: common practice, no source."""
    assert least <= share(code, 1.5) <= most


def test_a_thin_piece_takes_more_of_its_weight():
    assert share("20081", 0.5) == pytest.approx(4 * share("20081", 2.0))


@given(grams, grams)
def test_never_more_than_is_set_out_nor_than_is_wanted(wanted, set_out):
    clings = float(clings_g(np.array([wanted]), np.array([set_out]))[0])
    assert clings <= min(wanted, set_out)
    assert clings == pytest.approx(wanted) or clings == pytest.approx(0.95 * set_out)


def test_what_is_set_out_beyond_that_stays_on_the_tray():
    little, much = (float(clings_g(np.array([20.0]), np.array([out]))[0]) for out in (100.0, 1000.0))
    assert little == much == 20


def test_an_unknown_coating_has_a_broad_figure():
    figure = clinging(None).spread
    assert figure.high / figure.low > 5


def test_a_film_is_by_the_surface_of_the_volume_that_the_weight_has():
    """106 g of meat are 100 cm3; at 2 cm2 a cm3 200 cm2; at 10 g on 100 cm2 20 g."""
    assert float(wanted_g(np.array(106.0), np.array(2.0), np.array(10.0))) == pytest.approx(20.0)


def test_a_twentieth_of_what_is_set_out_is_left():
    assert float(clings_g(np.array(1000.0), np.array(40.0))) == pytest.approx(38.0)


FLOUR, EGG, CRUMBS = "20081", "01123", "18079"


def film_of(**grams):
    """Likely film of a coating of these foods, by code, heaviest first."""
    foods = sorted(((bundled().get(code[1:]), g) for code, g in grams.items()), key=lambda pair: -pair[1])
    return coat(foods).spread.likely


def film(code):
    return clinging(bundled().get(code)).spread.likely


def test_flour_egg_and_crumbs_cling_in_layers():
    assert film_of(_20081=60, _01123=60, _18079=90) == film(FLOUR) + film(EGG) + film(CRUMBS)


def test_flour_stirred_with_more_liquid_is_a_batter():
    assert film_of(_20081=100, _01077=150) > 5 * film(FLOUR)


def test_a_trace_of_egg_makes_no_layer():
    assert film_of(_20081=100, _01123=2) == film(FLOUR)


def test_flour_with_salt_and_spice_is_flour():
    assert film_of(_20081=100, _02047=8, _02028=5) == film(FLOUR)


def test_a_coating_of_nothing_known_has_the_broad_figure():
    assert coat([]) == clinging(None)


def test_chicken_in_batter_takes_up_what_the_table_of_fried_chicken_holds():
    """SR28 05007: 9.4 g of carbohydrate in 100 g, of flour with 76 %; batter of 45 % flour, raw 105 g."""
    flour_g = 9.4 / 0.76
    batter_g = film_of(_20081=100, _01077=122) * 105 / 100
    assert batter_g * 0.45 == pytest.approx(flour_g, rel=0.3)
