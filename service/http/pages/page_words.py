"""What every template of the review pages knows: words for what is shown, and how figures are written."""

from __future__ import annotations

from ..schemas.saves import MOST_NAME_CHARACTERS, MOST_REASON_CHARACTERS
from .trade_words import (
    WORDS as PAGE_WORDS,
)
from .trade_words import (
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
    "FIELD_WORDS": PAGE_WORDS["fields"],
    "LAST": LAST,
    "PACKET": PAGE_WORDS["packet"],
    "ONLY_WORDS": PAGE_WORDS["only"],
    "ORDER_WORDS": PAGE_WORDS["order"],
    "STATUS_WORDS": PAGE_WORDS["status"],
    "UNTYPED": UNTYPED,
    "CAUSE_WORDS": PAGE_WORDS["causes"],
    "MOST_REASON": MOST_REASON_CHARACTERS,
    "MOST_NAME": MOST_NAME_CHARACTERS,
}
"""What every template of the pages knows, the parts they share too."""
