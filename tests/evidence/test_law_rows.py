"""Rows of law and safety as /method tells them: each with who states it again, and how that was seen."""

from saltledger.core.tables import rows
from saltledger.evidence.figure_rows import SEEN, law_tables


def test_every_row_of_a_table_is_told_and_stated_again():
    for name, told in law_tables().items():
        assert len(told) == len(rows(name))
        assert {row.seen for row in told} <= set(SEEN), name
        assert all(row.again for row in told), name


def test_a_row_has_its_key_its_figures_and_its_sources():
    told = {row.name: row for row in law_tables()["curing_limits"]}
    bacon = told["curing_limits:us/bacon_pumped/nitrite"]
    assert bacon.key == "us, bacon_pumped, nitrite"
    assert dict(bacon.figures)["limit_ppm"] == "120"
    assert "424.22" in bacon.source
    assert bacon.again


def test_what_is_from_memory_is_held_by_nobody_outside():
    for told in law_tables().values():
        for row in told:
            assert row.is_held is (row.seen != "memory")
    held = [row for told in law_tables().values() for row in told if row.is_held]
    assert len(held) > 100


def test_words_for_people_are_no_figures():
    for told in law_tables().values():
        for row in told:
            assert not {column for column, _ in row.figures} & {"name", "source", "mark", "note"}
