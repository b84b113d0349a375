"""What a component remembers: shares that go along when it is weighed again, loses or is mixed."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.recipe.steps.history import History, is_nothing, of_weight

OWN_G, MOVED_G = np.array([100.0, 50.0]), np.array([300.0, 50.0])


def test_nothing_is_nothing_in_every_draw():
    assert is_nothing(0.0)
    assert is_nothing(np.zeros(2))
    assert not is_nothing(np.array([0.0, 1e-9]))
    assert not is_nothing(1.0)


def test_a_share_is_grams_of_a_weight():
    assert of_weight(0.0, OWN_G) == 0.0
    assert of_weight(0.5, OWN_G) == pytest.approx(OWN_G / 2)
    assert of_weight(np.array([0.0, 1.0]), OWN_G) == pytest.approx([0, 50])


def test_weighed_again_it_holds_the_same_grams():
    history = History(water=np.array([0.1, 0.2]), coat=np.array([0.3, 0.4]))
    history.weigh_again(OWN_G, 2 * OWN_G)
    assert history.water == pytest.approx([0.05, 0.1])
    assert history.coat == pytest.approx([0.15, 0.2])
    assert history.film == 0.0


def test_what_dried_off_is_gone_on_the_way_to_an_end():
    history = History(weight_kept=np.array([0.8, 0.8]))
    history.lose(OWN_G, np.array([50.0, 50.0]))
    assert history.weight_kept == pytest.approx([0.4, 0.8])


def test_mixed_it_remembers_the_grams_of_both():
    """Heat goes by raw weights: 100 g raw, and 300 g of what was 600 g raw."""
    cooked = History(water=np.array([0.4, 0.2]), weight_kept=np.array([0.5, 1.0]), alcohol_min=60.0)
    raw = History(dissolved=np.array([0.1, 0.3]))
    raw.join(cooked, OWN_G, MOVED_G)
    assert raw.water == pytest.approx([0.3, 0.1])
    assert raw.dissolved == pytest.approx([0.1, 0.3])  # its own were weighed again before
    assert raw.weight_kept == pytest.approx([400 / 700, 1.0])
    assert raw.fat_kept == pytest.approx([1.0, 1.0])
    assert raw.alcohol_min == pytest.approx(45.0)


def test_mixed_with_nothing_into_nothing_it_stays():
    none = np.zeros(2)
    history = History(weight_kept=np.array([0.5, 0.7]), alcohol_min=10.0)
    history.join(History(alcohol_min=90.0), none, none)
    assert history.weight_kept == pytest.approx([0.5, 0.7])
    assert history.alcohol_min == pytest.approx(10.0)
