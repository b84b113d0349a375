from saltledger.core.documents import assumption_document, figure, notice_document, range_document
from saltledger.core.notices import Assumption, Notice
from saltledger.core.spread import Spread


def test_figures_have_twelve_significant_digits():
    assert figure(1234.567890123456) == 1234.56789012
    assert figure(1.234567890123456e-10) == 1.23456789012e-10
    assert figure(0) == 0


def test_a_range_an_assumption_and_a_notice():
    spread = Spread(1, 2, 3.0000000000049)
    assert range_document(spread) == {"low": 1, "likely": 2, "high": 3}
    assert assumption_document(Assumption("a", spread, "g", "measured", 0)) == {
        "id": "a",
        "value": 2,
        "low": 1,
        "high": 3,
        "unit": "g",
        "source": "measured",
        "row": None,
        "step": 0,
        "checked_against": [],
    }
    assert notice_document(Notice("c", "check", "Look.", "/x")) == {
        "code": "c",
        "severity": "check",
        "message": "Look.",
        "pointer": "/x",
    }
