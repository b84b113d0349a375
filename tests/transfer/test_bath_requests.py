import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.transfer.bath_requests import BathRequest


def document(food=(), bath=(), **changes):
    return {
        "food": {"class": "pork", "weight_g": 1400, "thickness_cm": 6, **dict(food)},
        "bath": {"water_g": 3000, "salt_g": 150, **dict(bath)},
        "temperature_c": 3,
        "duration_h": 72,
        **changes,
    }


def faults(*args, **kwargs):
    with pytest.raises(InvalidRequest) as caught:
        BathRequest.from_document(document(*args, **kwargs))
    return {fault.pointer: fault.message for fault in caught.value.faults}


def test_what_is_left_out_has_its_usual_value():
    request = BathRequest.from_document(document())
    assert request.food.shape == "sheet"
    assert request.food.water_fraction is None
    assert request.scheme == "us"
    assert request.liquid.all_nitrite_g == 0
    assert request.liquid.pickle_g == 3150


def test_the_schemas_own_name_for_the_class_is_read_too():
    asked = document()
    asked["food"]["food_class"] = asked["food"].pop("class")
    assert BathRequest.from_document(asked) == BathRequest.from_document(document())


def test_curing_salt_adds_its_salt_and_nitrite_and_is_weighed_once():
    request = BathRequest.from_document(
        document(bath={"curing_salt_g": 32, "curing_salt": "type_1", "nitrite_g": 0.5, "sugar_g": 40})
    )
    assert request.liquid.all_nitrite_g == pytest.approx(0.5 + 2.0)
    assert request.liquid.all_salt_g == pytest.approx(150 + 30.0)
    assert request.liquid.pickle_g == pytest.approx(3000 + 150 + 0.5 + 40 + 32)


def test_type_2_brings_nitrate():
    liquid = BathRequest.from_document(document(bath={"curing_salt_g": 10, "curing_salt": "type_2"})).liquid
    assert liquid.all_nitrate_g == pytest.approx(0.4)


@pytest.mark.parametrize(
    ("changes", "pointer", "words"),
    [
        ({"food": {"class": "granite"}}, "/food/class", "take one of beef"),
        ({"food": {"shape": "cube"}}, "/food/shape", "take one of sheet"),
        ({"food": {"shape": "brick", "length_cm": 20}}, "/food/width_cm", "A brick needs its width_cm"),
        ({"food": {"length_cm": 20}}, "/food/length_cm", "A sheet has no length_cm"),
        ({"bath": {"curing_salt_g": 10}}, "/bath/curing_salt", "not the kind; add one of type_1"),
        ({"bath": {"curing_salt": "pink"}}, "/bath/curing_salt", "There is no curing salt 'pink'"),
        ({"scheme": "mars"}, "/scheme", "take one of us, eu"),
        ({"product_class": "candy"}, "/product_class", "There is no product class 'candy'"),
        ({"scheme": "eu", "product_class": "bacon_dry"}, "/product_class", "take one of comminuted"),
        (
            {"bath": {"water_g": 0}, "product_class": "immersion_cured"},
            "/product_class",
            "the bath has no water",
        ),
        ({"food": {"weight_after_g": 1500}, "pick_up_percent": 10}, "/pick_up_percent", "take one out"),
    ],
)
def test_what_does_not_fit_together_is_named(changes, pointer, words):
    assert words in faults(**changes)[pointer]


def test_every_fault_is_found_at_once():
    found = faults(food={"class": "granite", "shape": "cube"}, scheme="mars")
    assert set(found) == {"/food/class", "/food/shape", "/scheme"}


def test_a_bath_without_curing_salt_holds_what_is_stated_and_no_more():
    liquid = BathRequest.from_document(document(bath={"nitrite_g": 0.4, "nitrate_g": 0.2})).liquid
    assert (liquid.all_salt_g, liquid.all_nitrite_g, liquid.all_nitrate_g) == (150.0, 0.4, 0.2)
    assert liquid.pickle_g == pytest.approx(3150.6)
