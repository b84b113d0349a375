"""Words before a command that change nothing of it: "Now drain", "You need to drain", "Start by draining"."""

from __future__ import annotations

from .method_words import small_words, verbs
from .prose_tokens import Token

OPENERS = small_words("opener")
_MODALS = small_words("modal")
_BEGINS, _SUBJECTS = frozenset({"start", "begin"}), frozenset({"you", "we"})


def without_openers(tokens: list[Token]) -> list[Token]:
    """A sentence from its command on, where only such words stand before that; else as it is."""
    if tokens[0].text in _BEGINS:
        return _begun(tokens)
    k, modal = 0, False
    while k + 1 < len(tokens) and (tokens[k].text in OPENERS or (modal and tokens[k].text in _MODALS)):
        modal = modal or tokens[k].text in _SUBJECTS
        k += 1
    verb = verbs().get(tokens[k].text)
    return tokens[k:] if verb is not None and verb.form == "base" else tokens


def _begun(tokens: list[Token]) -> list[Token]:
    """ "Start by lifting it out": lift it out."""
    by = [token.text for token in tokens[1:2]] == ["by"]
    verb = verbs().get(tokens[2].text) if by and len(tokens) > 3 else None
    if verb is None or verb.form != "ing":
        return tokens
    return [tokens[2]._replace(text=verb.base, stem=verb.base), *tokens[3:]]
