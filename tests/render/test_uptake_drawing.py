import re
from xml.etree import ElementTree as ET

import pytest
from saltledger.recipe.single_bath import bath_uptake, uptake_curve
from saltledger.render.uptake_drawing import HEIGHT, WIDTH, tick_step, uptake_svg
from saltledger.transfer.bath_requests import BathRequest

SVG = "{http://www.w3.org/2000/svg}"


def picture(name="uptake", **changes):
    document = {
        "food": {"class": "fish_lean", "weight_g": 800, "thickness_cm": 2.5},
        "bath": {"water_g": 2000, "salt_g": 200},
        "temperature_c": 3,
        "duration_h": 6,
        **changes,
    }
    return uptake_svg(uptake_curve(bath_uptake(BathRequest.from_document(document))), name)


def test_it_is_well_formed_and_named_for_those_who_cannot_see_it():
    root = ET.fromstring(picture())
    assert root.attrib["role"] == "img"
    assert root.attrib["aria-labelledby"] == "uptake-title uptake-desc"
    assert root.find(f"{SVG}title").text == "Salt uptake of fish lean, 2.5 cm thick"
    assert re.search(r"After 6 h the food is at \d+ % on average", root.find(f"{SVG}desc").text)


def test_it_needs_nothing_from_outside_and_no_style():
    drawing = picture().replace('xmlns="http://www.w3.org/2000/svg"', "")
    for word in ("http", "href", "style", "script", "url("):
        assert word not in drawing


def test_two_pictures_in_one_page_keep_their_ids_apart():
    ids = re.findall(r' id="([^"]+)"', picture("a") + picture('b"<'))
    assert len(set(ids)) == len(ids) == 4
    assert ET.fromstring(picture('b"<')).attrib["aria-labelledby"].startswith('b"<-title')


@pytest.mark.parametrize("duration_h", [0, 0.01, 6, 5000])
def test_everything_stays_inside_the_frame(duration_h):
    root = ET.fromstring(picture(duration_h=duration_h))
    lines = [*root.iter(f"{SVG}polyline"), *root.iter(f"{SVG}polygon")]
    assert len(lines) == 4
    for line in lines:
        for pair in line.attrib["points"].split():
            x, y = map(float, pair.split(","))
            assert 0 <= x <= WIDTH
            assert 0 <= y <= HEIGHT


def test_the_mean_line_ends_higher_than_it_begins():
    mean = next(ET.fromstring(picture()).iter(f"{SVG}polyline")).attrib["points"].split()
    assert float(mean[-1].split(",")[1]) < float(mean[0].split(",")[1])


@pytest.mark.parametrize("last_h", [0.02, 1, 7.3, 24, 119, 121, 400, 90_000])
def test_ticks_are_round_and_few(last_h):
    step, unit_h, unit = tick_step(last_h)
    assert 5 <= last_h / step < 13
    assert unit == ("days" if last_h > 120 else "hours")
    assert f"{step / unit_h:e}"[0] in "125"


def test_the_hours_of_a_dry_cure_are_under_salt():
    assert "in the bath" in picture()
    assert "hours under the salt" in picture(bath={"water_g": 0, "salt_g": 20})
