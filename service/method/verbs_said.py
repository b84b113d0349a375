"""Which word of a sentence is its verb: commands, participles, and nouns that only look like one."""

from __future__ import annotations

from collections.abc import Sequence

from .method_words import Verb, small_words, verbs
from .prose_tokens import Token

_FOOD_VERBS = frozenset(
    ["fish", "marinade", "salt", "brine", "cure", "rub", "flour", "bread", "roll", "cream", "brown", "spread"]
)
_LASTING = frozenset({"rub", "brine", "cure", "marinade"})
_HOW = frozenset({"with", "in", "into", "inside", "for", "overnight", "all"})
_SPLIT_PAST = frozenset(
    {"drain", "rinse", "discard", "dry", "reserve", "roast", "fry", "boil", "remove", "brine", "hold"}
)
_SPLIT_ING = frozenset({"drain", "discard", "dry", "reserve", "rinse", "brine", "soak", "marinate", "remove"})
_ALWAYS_ACTS = frozenset({"boil", "simmer", "cook", "fry", "roast"})
AWAY_VERBS = frozenset({"throw", "toss", "pour", "tip", "dump", "chuck", "empty", "go"})
"""Verbs that throw away with one of these words behind them."""
_THROWS = frozenset({"throw", "chuck", "toss"})
_GONE = frozenset({"sink", "drain", "bin", "garbage", "trash", "plughole", "compost"})
_AWAY = _GONE | {"away", "off"}
_LIQUIDS = frozenset(
    ["liquid", "liquids", "brine", "marinade", "water", "juice", "juices", "cure", "soaking", "oil"]
)
_BE = frozenset({"is", "are", "be", "been", "being", "was", "were", "get", "gets"})
_WHEN = frozenset({"when", "once", "as", "while", "after"})
_BY_ITSELF = frozenset({"wilt", "soften", "crisp", "thicken", "bubble", "ripen", "mature"})
"""What salted or dressed food does while it stands, said as if it were heated."""
_AIMS = frozenset({"let", "allow", "leave", "start", "begin", "continue", "bring", "keep", "set", "put"})
_OBJECT_NEXT = small_words("object")
_STRICT_NEXT = small_words("strict")


def is_verb(tokens: Sequence[Token], i: int, named: set[int], *, opens: bool) -> bool:
    verb = verbs().get(tokens[i].text)
    if verb is None or verb.form != "base":
        return False
    after = tokens[i + 1].text if i + 1 < len(tokens) else "."
    if verb.act == "let" and (goes_on := verbs().get(after)) is not None and goes_on.form == "ing":
        return True  # "start preheating the oven"
    if verb.base == "fish" and after == "out":
        return True
    if verb.act == "pickle" and not opens and after in (",", ".", ")", ";"):
        return False
    if verb.base == "salt" and opens and after == "," and _acts_next(tokens, i + 2):
        return True  # "Salt, stand for 10 minutes"
    if verb.base in _FOOD_VERBS and not (opens and after != ":"):
        return (
            after in _STRICT_NEXT
            or (verb.base in _LASTING and (after in _HOW or after[0].isdecimal()))
            or (i not in named and i + 1 in named)
        )
    if verb.base in _LASTING and after == "to":
        return False  # "brine to drain"
    if verb.base in _FOOD_VERBS:
        lasts = verb.base in _LASTING and after[0].isdecimal()
        names = after in _OBJECT_NEXT or i + 1 in named
        return lasts or (names and after not in ("and", ",", ".", ":", "is", "or"))
    aside = i > 0 and tokens[i - 1].text == "("  # "(roast potatoes!)"
    if verb.noun and not opens and (aside or verb.act not in _ALWAYS_ACTS):
        return after in _OBJECT_NEXT or i + 1 in named or after.endswith("ly") or after[0].isdecimal()
    return not (i in named and after not in _OBJECT_NEXT)


def _acts_next(tokens: Sequence[Token], i: int) -> bool:
    verb = verbs().get(tokens[i].text) if i < len(tokens) else None
    return verb is not None and verb.form == "base" and verb.act in ("hold", "let", "mix", "put")


def is_participle(tokens: Sequence[Token], i: int, named: set[int]) -> bool:
    verb = verbs().get(tokens[i].text)
    if verb is None or (i + 1 in named and verb.form == "past"):
        return False
    return (verb.form == "past" and verb.act in _SPLIT_PAST) or (
        verb.form == "ing" and verb.act in _SPLIT_ING
    )


def _given(tokens: Sequence[Token], begin: int, end: int, named: set[int]) -> Verb | None:
    """ "Give it a quick rinse": rinse."""
    article = False
    for k in range(begin, end):
        article = article or tokens[k].text in ("a", "an", "another", "one")
        verb = verbs().get(tokens[k].text)
        if article and verb is not None and verb.form == "base" and verb.act in _GIVEN and k not in named:
            return verb
    return None


_GIVEN = frozenset({"rinse", "soak", "boil", "simmer", "dry", "mix", "drain"})


def _let_in(tokens: Sequence[Token], begin: int, end: int) -> Verb | None:
    """ "Let the dumplings slide in": slide."""
    for k in range(begin, end - 1):
        verb = verbs().get(tokens[k].text)
        if verb is not None and verb.act == "put" and tokens[k + 1].text in ("in", "into"):
            return verb
    return None


_MOVES = frozenset({"transfer", "move"})
_BOARDS = frozenset({"platter", "plate", "board", "rack"})
"""Where food is put that was taken out of what it cooked in."""


def verb_of(tokens: Sequence[Token], begin: int, end: int, at: int, named: set[int]) -> Verb | None:
    """The verb of a clause; behind "let", "start" and their like the one that follows."""
    table = verbs()
    verb = table.get(tokens[at].text) if (at != begin or _opens_with_verb(tokens, begin, named)) else None
    if verb is None:
        return _fallback(tokens, begin, end, named)
    if verb.base in AWAY_VERBS and _is_away(tokens[at + 1 : min(end, at + 7)], verb):
        return Verb("discard", "discard", verb.form, False)
    if verb.base == "give" and (given := _given(tokens, at + 1, end, named)) is not None:
        return given
    if verb.base == "let" and (slid := _let_in(tokens, at + 1, end)) is not None:
        return slid
    if verb.base in _MOVES and any(tokens[k].text in _BOARDS for k in range(at + 1, end)):
        return Verb("remove", "remove", verb.form, False)
    if verb.base in _AIMS:
        for k in range(at + 1, end):
            later = table.get(tokens[k].text)
            if (
                later
                and k not in named
                and later.form in ("base", "ing")
                and later.act not in ("put", "let", "other")
                and not _is_end_of_waiting(tokens, k, later)
            ):
                if (
                    later.base != "steep"
                    and verb.base in ("bring", "set", "put")
                    and later.act
                    not in (
                        "boil",
                        "simmer",
                        "marinate",
                        "soak",
                        "brine",
                        "drain",
                        "pickle",
                    )
                ):
                    continue
                return later
    return verb


def _is_end_of_waiting(tokens: Sequence[Token], k: int, verb: Verb) -> bool:
    """Whether a verb tells what waiting is for, or a noun where food is: "leave to wilt", "off the heat"."""
    before = tokens[k - 1].text
    named = verb.noun and before in ("the", "off") and tokens[k - 2].text != "to"  # "bring to the boil"
    return named or (before == "to" and verb.base in _BY_ITSELF)


def _is_away(after: Sequence[Token], verb: Verb) -> bool:
    """ "Pour off", "tip down the sink", "pour out the brine", "toss the liquid" with nothing behind."""
    words = [token.text for token in after]
    if verb.base == "go":  # "the liquid goes down the sink"
        return not _GONE.isdisjoint(words)
    if not _AWAY.isdisjoint(words) or (verb.base in _THROWS and words[:1] == ["out"]):
        return True
    said = next((k for k, word in enumerate(words) if word in _LIQUIDS), None)
    if said is None or not {"into", "over", "onto", "in", "on"}.isdisjoint(words):
        return False
    alone = (
        verb.base in ("toss", "dump", "chuck", "throw")
        and said <= 2
        and all(w in ".,;" for w in words[said + 1 : said + 2])
    )
    return "out" in words or alone


def _opens_with_verb(tokens: Sequence[Token], begin: int, named: set[int]) -> bool:
    word = verbs().get(tokens[begin].text)
    if word is None:
        return False
    if word.form == "base":
        return is_verb(tokens, begin, named, opens=True)
    return begin + 1 not in named or word.form == "ing"


def _tells_only(tokens: Sequence[Token], k: int, verb: Verb) -> bool:
    """ "The water it was boiled in should be thrown out", "in a covered tray", "3 minutes left on the timer",
    "it takes 25 minutes": nothing is done by these."""
    before, after = tokens[k - 1], tokens[k + 1].text if k + 1 < len(tokens) else "."
    if verb.form != "past":
        return verb.base == "take" and verb.form == "s"
    told = after == "in" and before.text in _BE and tokens[k - 2].text in ("it", "they")
    return told or before.text in ("a", "an") or (verb.base == "leave" and before.stem in _UNITS_OF_TIME)


_UNITS_OF_TIME = frozenset({"second", "minute", "min", "hour", "hr"})


def _commanded(tokens: Sequence[Token], begin: int, end: int, named: set[int]) -> Verb | None:
    """In "when it's boiling add the pasta" the verb that is to be done: add."""
    for k in range(begin + 2, end):
        verb = verbs().get(tokens[k].text)
        plain = verb is not None and verb.form == "base" and not verb.noun and k not in named
        if plain and tokens[k - 1].text not in ("to", "a", "the", "you", "they", "it", "not"):
            return verb
    return None


def _fallback(tokens: Sequence[Token], begin: int, end: int, named: set[int]) -> Verb | None:
    """In a sentence that commands nothing ("the pork goes into the brine"), its first verb that acts."""
    table, kept = verbs(), None
    if tokens[begin].text in _WHEN and (commanded := _commanded(tokens, begin, end, named)) is not None:
        return commanded
    for k in range(begin, end):
        verb = table.get(tokens[k].text)
        if (
            verb is None
            or k in named
            or (k + 1 in named and verb.form == "past" and tokens[k - 1].text not in _BE)
        ):
            continue
        if k > 1 and _tells_only(tokens, k, verb):
            continue
        noun = verb.form == "base" and verb.noun and k > begin
        if tokens[k].text == "rolling" or (noun and tokens[k - 1].text in ("a", "an", "the", "to")):
            continue
        if k == begin and verb.base in _LASTING and [t.text for t in tokens[k + 1 : k + 2]] == ["to"]:
            continue  # "brine to drain"
        if verb.act in ("let", "other", "serve") or verb.base in ("get", "make", "use"):
            kept = kept or verb
            continue
        if verb.base in AWAY_VERBS and _is_away(tokens[k + 1 : min(end, k + 7)], verb):
            return Verb("discard", "discard", verb.form, False)
        return verb
    return kept
