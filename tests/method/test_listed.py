"""What the lines of a list may be called in a method."""

from saltledger.method.listed import Index, listed_of


def test_the_name_of_a_kind_speaks_of_what_ends_in_it():
    index = Index.of(listed_of(["200 g beansprouts", "1 watermelon"]))
    assert [line.index for line in index.by_word["sprout"]] == [0]
    assert [line.index for line in index.by_word["melon"]] == [1]
