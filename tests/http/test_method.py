"""The page of the method: made from the tables and the measurements, for people without a key too."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest
from flask.testing import FlaskClient
from saltledger.app import create_app
from saltledger.core.tables import rows
from saltledger.evidence.cases import sources
from saltledger.evidence.figure_rows import MARKS, audit, figure_tables, law_tables, mark_of


@pytest.fixture(scope="module")
def page() -> str:
    client: FlaskClient = create_app().test_client()
    response = client.get("/method")
    assert response.status_code == 200
    return response.get_data(as_text=True)


def test_it_shows_every_table_and_every_source(page: str) -> None:
    for name in figure_tables():
        assert f'<details id="{name}">' in page
    for source in sources().values():
        assert source.citation[:40].replace("&", "&amp;").replace("'", "&#39;") in page


def test_it_shows_every_row_of_law_and_safety_and_who_states_it_again(page: str) -> None:
    for name, told in law_tables().items():
        assert f'<details id="{name}">' in page
        assert all(f'<tr id="{row.name}">' in page for row in told)
    assert "from memory of it: nobody outside holds it" in page


def test_it_counts_the_measurements_of_the_kept_table(page: str) -> None:
    for row in rows("evidence_coverage"):
        assert f"{row['inside']} of {row['of']}" in page


def test_it_is_sound(page: str) -> None:
    open_tags: list[str] = []

    class Check(HTMLParser):
        def handle_starttag(self, tag: str, attrs: object) -> None:
            if tag not in ("meta", "link", "circle", "line"):
                open_tags.append(tag)

        def handle_endtag(self, tag: str) -> None:
            if tag not in ("meta", "link", "circle", "line"):
                assert open_tags.pop() == tag

    Check().feed(page)
    assert open_tags == []


def test_every_figure_has_a_mark() -> None:
    assert audit()
    for counted in audit().values():
        assert set(counted) <= set(MARKS)


@pytest.mark.parametrize(
    ("source", "mark"),
    [
        ("Bianchi et al., Food Chem 271:479 (2019)", "verified"),
        ("from memory: yields of boiled vegetables", "memory"),
        ("common practice, no source: overnight", "common practice"),
        ("derived: SR28 roasted beef", "derived"),
        ("salt industry handbook figures", "verified-2nd"),
    ],
)
def test_a_mark_is_read_off_the_source(source: str, mark: str) -> None:
    assert mark_of({"source": source}) == mark
    assert mark_of({"source": source, "mark": "memory"}) == "memory"
