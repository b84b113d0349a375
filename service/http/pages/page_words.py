"""What every template of the review pages knows: words for what is shown, and how figures are written."""

from __future__ import annotations

from ..schemas.saves import MOST_NAME_CHARACTERS, MOST_REASON_CHARACTERS
from .queue import ONLY_WORDS, ORDER_WORDS, STATUS_WORDS
from .trade_words import (
    FIELD_WORDS,
    PACKET_FIELDS,
    amount_words,
    assumption_words,
    cause_words,
    milligrams,
    offered,
    plain,
    quantity,
    signed,
    thing_of,
    worded,
)

MOST_COUNTED = 1000
"""Of the other recipes that a change reaches, how many are worked out to be looked at before it is kept."""

CAUSE_WORDS = {
    "saved": "saved",
    "overruled": "changed by a reviewer",
    "recalculated": "moved by new data",
}
DONE = {
    "signed": "Signed off:",
    "sent_back": "Sent back:",
    "overruled": "Your change is kept, and the recipe was worked out again. It now waits for a sign-off.",
    "answered": "Your answer is kept, and the recipe was worked out again.",
    "measured": "The measurement is kept, and the recipe was worked out again on the kitchen's own figures.",
    "contradicted": "The measurement is kept. It contradicts the calculation and is not used: see whether "
    "the dish, its weights and the value are right, and if they are, enter it again and say so.",
    "withdrawn": "The change was taken back, and the recipe was worked out again.",
    "recalculated": "The recipe was worked out again on what is in it today; its figures moved.",
    "fresh": "The recipe was worked out again on what is in it today; no figure moved, and what was "
    "signed stands.",
}


UNTYPED = ("form_token", "at", "action", "verdict", "overrule", "question", "place")
"""Fields of forms in which nobody types."""
LAST = "That was the last of this list."

WORDS = {
    "MOST_COUNTED": MOST_COUNTED,
    "about": assumption_words,
    "amount_words": amount_words,
    "plain": plain,
    "mg": milligrams,
    "offered": offered,
    "quantity": quantity,
    "signed_mg": signed,
    "cause_words": cause_words,
    "thing_of": thing_of,
    "worded": worded,
    "FIELD_WORDS": FIELD_WORDS,
    "LAST": LAST,
    "PACKET_FIELDS": PACKET_FIELDS,
    "ONLY_WORDS": ONLY_WORDS,
    "ORDER_WORDS": ORDER_WORDS,
    "STATUS_WORDS": STATUS_WORDS,
    "UNTYPED": UNTYPED,
    "CAUSE_WORDS": CAUSE_WORDS,
    "MOST_REASON": MOST_REASON_CHARACTERS,
    "MOST_NAME": MOST_NAME_CHARACTERS,
}
"""What every template of the pages knows, the parts they share too."""
