"""A hundred whole recipes of our own, every step kind among them, against what was pinned of their answers.

Where a figure moved, this says what it was and is, and which row of a table or which modules moved it; what
is right is taken by `saltledger figures --accept "why"`.
"""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.commands.figures import asking, code_since_pinned
from saltledger.evidence.figure_lock import differences
from saltledger.evidence.golden import (
    CODE_DID,
    EVIDENCE,
    Golden,
    evidence_counts,
    moved,
    pinned,
    recipes,
    said_by,
    why,
)


@pytest.fixture(scope="module")
def ask() -> Any:
    return asking()


@pytest.mark.parametrize("golden", recipes(), ids=lambda golden: golden.id)
def test_a_recipe_says_what_was_pinned(golden: Golden, ask: Any) -> None:
    answer = ask(golden.path, golden.body)
    found = moved(golden.id, pinned().get(golden.id, {}), said_by(answer))
    if not found:
        return
    reason = why(answer, differences())
    modules = code_since_pinned() if reason == CODE_DID else []
    told = "\n".join([*map(str, found[:20]), reason, *modules])
    pytest.fail(f"{told}\nIf that is right: saltledger figures --accept 'why'", pytrace=False)


def test_nothing_is_pinned_of_a_recipe_that_is_gone() -> None:
    assert set(pinned()) == {golden.id for golden in recipes()} | {EVIDENCE}


def test_the_counts_of_measurements_are_those_that_were_pinned() -> None:
    assert [str(each) for each in moved(EVIDENCE, pinned()[EVIDENCE], evidence_counts())] == []
