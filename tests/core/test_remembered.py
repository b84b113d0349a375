from saltledger.core.remembered import Remembered


def test_what_is_remembered_is_not_made_again():
    made = []
    kept = Remembered[int](10)
    assert [kept.find("a", lambda: made.append(1) or 5) for _ in range(3)] == [5, 5, 5]
    assert made == [1]


def test_the_first_kept_is_given_up_first():
    kept = Remembered[str](2)
    for key in "abc":
        kept.find(key, lambda key=key: key)
    assert len(kept) == 2
    assert [kept.find(key, lambda: "new") for key in "bca"] == ["b", "c", "new"]


def test_what_does_not_last_is_not_kept():
    kept = Remembered[int](10)
    answers = iter([1, 2])
    assert [kept.find("a", lambda: next(answers), lasts=lambda made: made > 1) for _ in range(3)] == [1, 2, 2]
