"""What a reading is not sure of: questions with choices, and the answers that settle them."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import Any, NamedTuple

from ..core.errors import Fault, InvalidRequest
from ..core.tables import rows


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to settle a question; label: for people."""

    choice: str
    label: str


@dataclass(frozen=True, slots=True)
class Question:
    """Something that a person knows better. id: the same as long as the sentence stands. taken: the choice
    that the reading went on with; answered: whether a person chose it. component: what it is about."""

    id: str
    message: str
    choices: tuple[Choice, ...]
    taken: str
    answered: bool
    component: str
    field: str = ""


@dataclass(slots=True)
class Doubts:
    """The questions of one reading, and the answers that came with it."""

    answers: Mapping[str, str]
    asked: list[Question] = field(default_factory=list)

    def ask(
        self, question: str, sentence: str, likely: str, component: str, without: str = "", /, **told: Any
    ) -> str:
        """The choice to go on with, of a question of method_questions.csv. without: a choice that is not
        offered here; told: what its words leave open."""
        asked = _table()[question]
        labels = [each for each in asked.labels.items() if each[0] != without]
        choices = [Choice(name, label.format(**told)) for name, label in labels]
        message = asked.message.format(**told)
        return self.settle(asked.topic, sentence, message, choices, likely, component, asked.field)

    def figure(self, question: str, *where: str, **told: Any) -> float:
        """The figure of the choice to go on with; where: as `ask` takes it."""
        return figures_of(question)[self.ask(question, *where, **told)]

    def settle(
        self,
        topic: str,
        sentence: str,
        message: str,
        choices: Sequence[Choice],
        likely: str,
        component: str,
        field: str = "",
    ) -> str:
        """The choice to go on with: as answered, or the likely one; the question is kept either way."""
        identity = self._id(topic, sentence)
        given = self.answers.get(identity)
        known = {each.choice for each in choices}
        if given is not None and given not in known:
            listed = ", ".join(sorted(known))
            raise InvalidRequest(
                [Fault(f"/answers/{identity}", f"Found {given[:40]!r}, wanted one of {listed}.")]
            )
        taken = given or likely
        self.asked.append(
            Question(identity, message, tuple(choices), taken, given is not None, component, field)
        )
        return taken

    def _id(self, topic: str, sentence: str) -> str:
        found = identity_of(topic, sentence)
        if all(each.id != found for each in self.asked):
            return found
        return identity_of(topic, sentence, sum(each.id.startswith(topic) for each in self.asked))


def identity_of(topic: str, sentence: str, before: int = 0) -> str:
    """The id of a question about a sentence or a line, the same as long as that stands. before: how many are
    asked that it might be taken for."""
    words = " ".join(sentence.casefold().split())
    digest = hashlib.sha256(f"{topic}\n{words}".encode()).hexdigest()[:10]
    return f"{topic}-{digest}-{before}" if before else f"{topic}-{digest}"


class _Asked(NamedTuple):
    """A question of the table: its words, and of each choice the label and the figure."""

    topic: str
    field: str
    message: str
    labels: dict[str, str]
    figures: dict[str, float]


@cache
def _table() -> Mapping[str, _Asked]:
    found: dict[str, _Asked] = {}
    for row in rows("method_questions"):
        if not row["choice"]:
            found[row["question"]] = _Asked(row["topic"], row["field"], row["text"], {}, {})
            continue
        found[row["question"]].labels[row["choice"]] = row["text"]
        found[row["question"]].figures[row["choice"]] = float(row["figure"] or 0.0)
    return found


def figures_of(question: str) -> Mapping[str, float]:
    """What the choices of a question stand for."""
    return _table()[question].figures
