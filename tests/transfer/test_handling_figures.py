from dataclasses import dataclass

import pytest
from saltledger.transfer.handling_figures import drain_and_rinse, fat_uptake


@dataclass(frozen=True)
class Named:
    name: str
    group_code: str


POTATO = Named("Potatoes, flesh and skin, raw", "1100")
COD = Named("Fish, cod, Atlantic, raw", "1500")
BEANS = Named("Beans, pinto, mature seeds, canned, solids and liquids", "1600")
DRAINED = Named("Beans, pinto, canned, drained solids", "1600")


@pytest.mark.parametrize("food", [POTATO, COD, None])
def test_fat_taken_up_stays_within_what_is_published(food):
    for coated in (False, True):
        spread = fat_uptake(food, coated=coated).spread
        assert 0 < spread.low <= spread.likely <= spread.high <= 0.25


def test_a_coat_takes_up_more():
    assert fat_uptake(COD, coated=True).spread.likely > fat_uptake(COD).spread.likely


def test_rinsing_takes_more_salt_than_draining_and_no_beans():
    drained, rinsed = drain_and_rinse(BEANS), drain_and_rinse(BEANS, rinsed=True)
    assert drained is not None
    assert rinsed is not None
    assert rinsed.sodium.likely < drained.sodium.likely < drained.weight.likely < 1
    assert rinsed.weight.likely == drained.weight.likely


def test_what_is_listed_drained_loses_nothing_more():
    again = drain_and_rinse(DRAINED)
    assert again is not None
    assert again.weight.is_exact
    assert again.sodium.likely == 1
    rinsed = drain_and_rinse(DRAINED, rinsed=True)
    assert rinsed is not None
    assert 0.8 < rinsed.sodium.likely < 1


@pytest.mark.parametrize("rinsed", [False, True])
def test_what_was_weighed_drained_loses_no_weight_and_as_much_sodium_as_its_share(rinsed):
    whole = drain_and_rinse(BEANS, rinsed=rinsed)
    again = drain_and_rinse(BEANS, rinsed=rinsed, weighed_drained=True)
    assert whole is not None
    assert again is not None
    assert again.weight.is_exact
    assert again.weight.likely == 1
    assert again.sodium.likely * whole.weight.likely == pytest.approx(whole.sodium.likely)


@pytest.mark.parametrize("food", [POTATO, None])
def test_what_stands_in_no_liquid_is_not_known(food):
    assert drain_and_rinse(food) is None
