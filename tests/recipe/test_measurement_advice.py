"""What a person can measure in place of an assumption."""

from __future__ import annotations

import pytest
from saltledger.core.notices import Assumption
from saltledger.core.spread import Spread
from saltledger.recipe.measurement_advice import remedy


@pytest.mark.parametrize(
    ("id", "words"),
    [
        ("weight:/ingredients/0", "give its grams"),
        ("step-0/loin/salt-diffusivity", "sodium_after_mg_per_100g"),
        ("step-0/loin/thickness", "thickness_cm"),
        ("step-0/loin/reached", "duration_h"),
        ("step-0/beans/sodium-kept", "drained food's sodium"),
        ("step-1/loin/pot-time", "duration_h and thickness_cm"),
        ("step-1/loin/yield", "weight_after_g"),
        ("step-0/loin/pick-up", "weight_after_g"),
        ("step-1/loin/drip", "sodium_after_mg_per_100g"),
        ("step-1/loin/partition", "drained food's sodium"),
        ("step-0/loin/wetted", "cover the food"),
        ("step-0/loin/cure-run-off", "sodium_after_mg_per_100g"),
        ("step-1/loin/fat-kept", "weight_after_g"),
        ("step-1/loin/fat-uptake", "absorption_factor"),
        ("step-1/stew/alcohol-kept", "duration_h"),
        ("step-0/flour/sticks", "absorption_factor"),
        ("reading", "questions about the method"),
        ("step-0/loin/anything", "in your own kitchen"),
    ],
)
def test_each_figure_has_its_remedy(id, words):
    assert words in remedy(Assumption(id, Spread(1, 2, 3), "g", "a table"))
