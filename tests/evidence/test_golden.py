"""What a change moved: figures by a thousandth, words by a letter, and why."""

from saltledger.core.step_kinds import step_kinds
from saltledger.evidence.figure_lock import Difference
from saltledger.evidence.golden import CODE_DID, Moved, moved, recipes, said_by, why

ANSWER = {"assumptions": [{"row": "drip:meat/roast"}, {"row": None}], "notices": []}


def test_there_are_a_hundred_over_all_kinds_of_steps():
    listed = recipes()
    assert len({each.id for each in listed}) == 100
    steps = {step["kind"] for each in listed for step in each.body.get("steps", ())}
    assert steps == set(step_kinds())
    assert {each.path.partition("?")[0] for each in listed} >= {
        "/v1/calculations",
        "/v1/baths",
        "/v1/targets",
    }


def test_a_figure_moves_by_more_than_a_thousandth():
    was = {"NA": "100", "K": "50", "notices": "a=info"}
    assert moved("pie", was, {"NA": "100.09", "K": "50", "notices": "a=info"}) == []
    assert moved("pie", was, {"NA": "100.2", "K": "50", "notices": "a=info"}) == [
        Moved("pie", "NA", "100", "100.2")
    ]
    assert moved("pie", was, was | {"notices": "a=stop"}) == [Moved("pie", "notices", "a=info", "a=stop")]


def test_what_comes_and_goes_has_moved():
    assert [str(each) for each in moved("pie", {"NA": "1"}, {"K": "2"})] == [
        "pie: K was not there and is 2",
        "pie: NA was 1 and is not there",
    ]


def test_nothing_that_becomes_something_has_moved():
    assert moved("pie", {"NA": "0"}, {"NA": "0.4"}) == [Moved("pie", "NA", "0", "0.4")]


def test_those_that_moved_most_come_first():
    found = moved("pie", {"A": "100", "B": "100"}, {"A": "101", "B": "150"})
    assert [each.figure for each in found] == ["B", "A"]


def test_why_names_the_row_that_an_answer_rests_on():
    changed = [Difference("drip", "meat/roast", "low", "1", "2"), Difference("drip", "x", "low", "1", "2")]
    assert why(ANSWER, changed) == "rests on drip:meat/roast"
    assert why(ANSWER, changed[1:]) == "tables that changed: drip"
    assert why(ANSWER, []) == CODE_DID


def test_notices_are_told_with_their_severity():
    said = said_by({"notices": [{"code": "b", "severity": "stop"}, {"code": "a", "severity": "info"}]})
    assert said["notices"] == "a=info b=stop"
