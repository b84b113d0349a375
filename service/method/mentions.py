"""What the words of a sentence speak of: lines, baths, vessels, pronouns; water and salt of no line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import pairwise

from ..units.kitchen_units import find
from .amounts_behind import with_amount_behind
from .listed import Index
from .mention import Kind, Mention
from .method_words import nouns, phrases, small_words, verbs
from .pasta_shapes import pasta_of
from .prose_tokens import Token
from .times_and_sizes import is_number, number_at

_PREPS = small_words("preposition")
_PRONOUNS = frozenset({"it", "them", "they", "this", "these", "those", "pieces", "everything"})
_PARTS = {"half": 0.5, "halves": 0.5, "third": 1 / 3, "quarter": 0.25, "most": 0.8}
_AWAY = frozenset({"away", "off", "out", "down"})
_REST = small_words("rest")
_ASIDE = small_words("aside")
_WATERS = frozenset({"water", "saltwater", "waters"})
_OPENERS = frozenset({",", ".", ";", ":", "and", "then", "(", "or"})
_HOW = frozenset({"with", "in", "into", "inside", "for", "overnight", "all"})
_COMMANDS = frozenset({"mix", "coat", "drain", "strain"})
_NOUN_NEXT = frozenset({",", ".", "and", "is", "are", "should", "into", "over", "to"})
_WITH_PARTICLE = small_words("particle")
"""Verbs that "in" goes with: "stir in the cream" says what is stirred, not where."""
_PUTS = frozenset({"in", "out", "off", "away", "on"})
"""Before "with" these say what goes: "in with the onion", "off with the cure"."""
_POURS_IN = frozenset({"pour", "tip", "stir", "whisk", "add"})
"""Of these, those whose "in" is also that of a liquid: "pour in the marinade", but "put in the brine"."""
_FOR_A_USE = frozenset({"baking", "roasting", "cooking", "pickling", "canning", "frying"})
"""Words of a line that by themselves name no food of it."""
_FAR = 6
"""Words between a food and its amount, at the most."""
_BARE_UNITS = frozenset({"pinch", "dash"})
_HEAPED = frozenset(
    {"good", "heaped", "heaping", "rounded", "level", "scant", "generous", "big", "large", "small", "full"}
)
_STIRS = frozenset({"mix", "boil", "heat", "simmer"})
_BREAKS = frozenset({",", "and", "or", "&", "plus", "+", "/", "then", "(", ")"})


def mentions_of(tokens: Sequence[Token], index: Index, heading: str = "") -> list[Mention]:
    """Everything a sentence speaks of, in order; of lines alike, those under the same heading are meant."""
    found: list[Mention] = []
    done = 0
    always = _starters()
    starters = index.starters(always)
    roomy = "enough" in [token.text for token in tokens]
    for i, (text, stem, _, _) in enumerate(tokens):
        if i < done or (stem not in starters and text not in always):
            continue
        mention = _at(tokens, i, index, heading)
        if mention is not None and not (roomy and _is_held(tokens, i)):
            found.append(_placed(tokens, mention, done, found[-1] if found else None))
            done = mention.j
    if not _THROUGH.isdisjoint([token.text for token in tokens]):
        found = list(_with_those_between(tokens, found, index))
    return [m if m.amount else with_amount_behind(tokens, m) for m in found]


_THROUGH = frozenset({"through", "thru"})


def _with_those_between(tokens: Sequence[Token], found: Sequence[Mention], index: Index) -> Iterator[Mention]:
    """ "Mix the flour through the salt": those and all lines between them in the list."""
    for last, mention in pairwise((None, *found)):
        assert mention is not None
        if last is not None and last.lines and mention.lines and mention.i > last.j:
            between = [token.text for token in tokens[last.j : mention.i] if token.text != "the"]
            order = [line.index for line in index.lines]
            at, end = order.index(last.lines[0]), order.index(mention.lines[-1])
            if len(between) == 1 and between[0] in _THROUGH and at < end:
                yield mention._replace(lines=tuple(order[at + 1 : end + 1]), prep=last.prep)
                continue
        yield mention


def _is_held(tokens: Sequence[Token], i: int) -> bool:
    """ "A pot just large enough to hold the meat": tells how large it is, and not what is put there now."""
    words = [token.text for token in tokens[max(0, i - 4) : i]]
    words = words[:-1] if words[-1:] and words[-1] in _ARTICLES else words
    return words[-2:-1] == ["to"] and words[-1] in _HOLDS and "enough" in words


_ARTICLES, _HOLDS = frozenset({"the", "all", "your"}), frozenset({"hold", "fit", "contain", "accommodate"})


@cache
def _starters() -> frozenset[str]:
    """Words that something other than a line's own words can begin with."""
    phrased = {first for role in ("bath", "vessel") for first in phrases(role)}
    roles = {word for role in ("group", "animal", "made", "shape") for word in nouns(role)}
    return frozenset(phrased | roles | _OTHERS | _WATERS | _PRONOUNS)


_OTHERS = frozenset(
    {"greens", "all", "cans", "tins", "fresh", "clean", "rest", "salt", "salts", "salty"}
    | {"ingredient", "ingredients", "seasoning", "seasonings"}
)


def _at(tokens: Sequence[Token], i: int, index: Index, heading: str) -> Mention | None:
    text = tokens[i].text
    if not text[0].isalpha():
        return None
    if text in ("salt", "salty", "saltwater") and (water := _salt_water(tokens, i)):
        return water
    if text == "salt" and _tells_how_salty(tokens, i):
        return None
    if text == "salts" and (lines := index.of_kinds("salt", "curing")):
        return Mention(i, i + 1, "line", lines)
    bath = _phrase(tokens, i, "bath") if text != "pickles" else None  # those are food
    if text == "liquids" and i and (verb := verbs().get(tokens[i - 1].text)) and verb.act in _STIRS:
        if liquids := index.of_kinds("water", "acid", "wine", "stock"):
            return Mention(i, i + 1, "line", liquids)  # "boil liquids with the salt"
    if text in _WATERS and tokens[i].stem in index.by_word and not index.of_kinds("water"):
        return Mention(i, i + 1, "water")  # and no "brine: water 5 l, salt 500 g"
    if tokens[i].stem in index.by_word and not (bath and bath[1] - i > 1):
        if _is_verb_here(tokens, i):
            return None
        lines, j = index.named(tokens, i, heading)
        if text == "salt" and lines and j == i + 1:
            lines = index.of_kinds("salt") or lines
        if text == "beans" and i and tokens[i - 1].text == "all":  # chickpeas too
            lines = tuple(sorted({*lines, *index.of_kinds("legume")}))
        if lines and not (
            bath and bath[0] != "other" and bath[1] >= j and not _is_listed(tokens, i, lines, index)
        ):
            only = _only_adjective(tokens, j) or _of_another(tokens, i, j, index)
            only = only or (j == i + 1 and text in _FOR_A_USE)  # "baking sheet", of a list with baking soda
            return None if only else Mention(i, j, "line", lines)
    if bath and tokens[bath[1] - 1].text == "water" and (own := index.waters_for(text)):
        return Mention(i, bath[1], "line", own)  # "leave them in the soaking water"
    if bath and not _is_verb_here(tokens, i):
        return Mention(i, bath[1], "bath", name=bath[0])
    if text in ("fresh", "clean") and i and tokens[i - 1].text in ("with", "in") and _ends(tokens, i + 1):
        return Mention(i, i + 1, "water")  # "pour that off and cover with fresh"
    if text in _WATERS:
        waters = index.waters()
        return Mention(i, i + 1, "line", waters) if waters else Mention(i, i + 1, "water")
    if text == "salt" and not _is_verb_here(tokens, i):
        salts = index.of_kinds("salt")
        return Mention(i, i + 1, "line", salts) if salts else Mention(i, i + 1, "salt")
    if text == "rest" and _is_rest(tokens, i):
        return Mention(i, i + 1, "rest")
    if (shaped := _of_shape(tokens, i, index)) is not None:
        return shaped
    if text in _PRONOUNS:
        return _pronoun(tokens, i) or _of_group(tokens, i, index) or _vessel(tokens, i)
    return _of_group(tokens, i, index) or _vessel(tokens, i)


def _is_rest(tokens: Sequence[Token], i: int) -> bool:
    """ "Stir the rest together": all the lines that were not spoken of yet."""
    verb = verbs().get(tokens[i - 2].text) if i > 1 and tokens[i - 1].text == "the" else None
    after = tokens[i + 1].text if i + 1 < len(tokens) else "."
    return verb is not None and verb.act == "mix" and after in ("together", "in", "until", ".", ",", ";")


def _pronoun(tokens: Sequence[Token], i: int) -> Mention | None:
    if tokens[i].text != "everything":
        if tokens[i].text == "this" and not (_ends(tokens, i + 1) or tokens[i + 1].text in _AWAY):
            return None  # "this mixture"
        return Mention(i, i + 1, "it")
    if i + 1 < len(tokens) and tokens[i + 1].text == "else":
        return Mention(i, i + 2, "rest")
    return Mention(i, i + 1, "all")


def _of_shape(tokens: Sequence[Token], i: int, index: Index) -> Mention | None:
    """ "The chips", where one line is cut in chips."""
    if (
        i == 0
        or tokens[i].stem not in nouns("shape")
        or tokens[i - 1].text not in ("the", "these", "your", "all")
    ):
        return None
    lines = index.of_shape(tokens[i].stem)
    return Mention(i, i + 1, "line", lines) if len(lines) == 1 else Mention(i, i + 1, "it")


def _ends(tokens: Sequence[Token], i: int) -> bool:
    return i >= len(tokens) or not tokens[i].text[0].isalpha() or tokens[i].text in ("and", "to", "then")


_VERY = frozenset({"too", "very", "so", "quite", "rather", "fairly", "really", "how", "terribly", "far"})
_IS = frozenset({"is", "are", "be", "was", "were", "it's", "they're", "tastes", "taste"})


def _tells_how_salty(tokens: Sequence[Token], i: int) -> bool:
    """ "It is salt enough", "the meat is far too salt to eat": what something is like, and no salt."""
    before = tokens[i - 1].text if i else ""
    if before in _VERY:
        return True
    return before in _IS and i + 1 < len(tokens) and tokens[i + 1].text in ("enough", "already", ",", ".")


def _is_listed(tokens: Sequence[Token], i: int, lines: tuple[int, ...], index: Index) -> bool:
    """Whether "cure" is a curing salt among other things ("mix the salt, sugar and cure"), and no bath."""
    return set(lines) <= set(index.of_kinds("curing")) and i > 0 and tokens[i - 1].text in _BREAKS


def _salt_water(tokens: Sequence[Token], i: int) -> Mention | None:
    """ "In saltwater", "in salt water": water, and none of the list's."""
    if tokens[i].text == "saltwater":
        return Mention(i, i + 1, "water")
    if i and tokens[i - 1].text == "the" and i + 1 < len(tokens) and tokens[i + 1].text == "water":
        return Mention(i, i + 2, "bath", name="brine")  # the one that was made
    follows = i + 1 < len(tokens) and tokens[i + 1].text == "water"
    return Mention(i, i + 2, "water") if follows else None


def _of_group(tokens: Sequence[Token], i: int, index: Index) -> Mention | None:
    text = tokens[i].text
    if text in ("ingredients", "ingredient"):
        before = [token.text for token in tokens[max(0, i - 3) : i]]
        if (lines := _of_rank(tokens, i, index)) is not None:
            return Mention(i - 2, i + 1, "line", lines)
        kind: Kind = "rest" if _REST.intersection(before) else "all"
        return Mention(i, i + 1, kind)
    if text == "seasoning" or text == "seasonings":
        lines = index.of_kinds("salt", "spice")
        return Mention(i, i + 1, "line", lines) if lines else Mention(i, i + 1, "salt")
    if text == "all" and i + 1 < len(tokens) and tokens[i + 1].text in ("except", "but"):
        return Mention(i, i + 1, "all")
    if text in ("cans", "tins") and (canned := index.canned()):
        return Mention(i, i + 1, "line", canned)  # "empty both cans"
    if text == "greens" and (leaves := index.leaves()):
        return Mention(i, i + 1, "line", leaves)
    if (animal := nouns("animal").get(text)) and len(lines := index.of_kinds(animal)) == 1:
        return Mention(i, i + 1, "line", lines)  # "the beef", of a rump steak
    classes = nouns("group").get(text)
    if classes in ("spice", "herb") and i and tokens[i - 1].text in ("some", "whole", "few"):
        classes = None  # "with some whole spices": none of the list's
    if text in verbs() and (i == 0 or tokens[i - 1].text in _OPENERS):
        classes = None
    if classes and (lines := index.of_kinds(*classes.split("|"))):
        return Mention(i, i + 1, "line", lines)
    if text == "beans" and (lines := index.green_beans()):
        return Mention(i, i + 1, "line", lines)
    if text in nouns("made"):
        return Mention(i, i + 1, "made")
    return pasta_of(index, i) if classes == "pasta" else None


def _of_rank(tokens: Sequence[Token], i: int, index: Index) -> tuple[int, ...] | None:
    """The lines of "the first 8 ingredients", "the last three ingredients"; None of other words."""
    rank = tokens[i - 2].text if i > 1 else ""
    if rank not in ("first", "last") or (number := number_at(tokens, i - 1)) is None:
        return None
    lines, many = tuple(line.index for line in index.lines), int(number[0])
    return lines[:many] if rank == "first" else lines[-many:]


def _vessel(tokens: Sequence[Token], i: int) -> Mention | None:
    found = _phrase(tokens, i, "vessel")
    return Mention(i, found[1], "vessel", name=found[0]) if found else None


def _phrase(tokens: Sequence[Token], i: int, role: str) -> tuple[str, int] | None:
    table = phrases(role)
    for words, name in table.get(tokens[i].text, ()) or table.get(tokens[i].stem, ()):
        j = i + len(words)
        if j == i + 1 or (j <= len(tokens) and _says(tokens[i:j], words)):
            return name, j
    return None


def _says(tokens: Sequence[Token], words: Sequence[str]) -> bool:
    """Whether these are the words of a phrase, in the singular or as written."""
    for token, word in zip(tokens, words, strict=True):
        if word != token.text and word != token.stem:
            return False
    return True


def _is_verb_here(tokens: Sequence[Token], i: int) -> bool:
    """Whether a word that is a noun too ("brine", "salt") is a verb at its place."""
    verb = verbs().get(tokens[i].text)
    if verb is None or verb.form == "past":
        return False
    if verb.form == "ing":
        return False
    after = tokens[i + 1].text if i + 1 < len(tokens) else "."
    if verb.base == "mix" and i > 1 and tokens[i - 1].stem in nouns("vessel"):
        return True  # "in a large bowl mix the yogurt with the salt"
    if (i == 0 or tokens[i - 1].text in _OPENERS) and verb.base in _COMMANDS:
        return after not in _NOUN_NEXT
    if (
        verb.base in ("rub", "brine", "cure", "marinade")
        and after in _HOW
        and (i == 0 or tokens[i - 1].text in _OPENERS)
    ):
        return True
    opens = i == 0 or tokens[i - 1].text in (",", ".", ";", ":", "and", "then", "to", "or", "(")
    if verb.base == "salt" and after == "for" and i and tokens[i - 1].text in ("and", ",", "or"):
        return False  # "simmer with the water and salt for three hours"
    return opens and after in _OBJECTS


_OBJECTS = frozenset(
    {"the", "it", "them", "your", "all", "both", "well", "for", "this", "each"}
    | {"generously", "lightly", "liberally"}
)


def _only_adjective(tokens: Sequence[Token], j: int) -> bool:
    """Whether a food only names a tool: "butter knife", "pepper grinder"."""
    return j < len(tokens) and tokens[j].text in ("knife", "grinder", "shaker", "spoon", "bomb", "bombs")


def _of_another(tokens: Sequence[Token], i: int, j: int, index: Index) -> bool:
    """Whether "salted", of a line of salted butter, stands before what is none of that line's: water."""
    if j != i + 1 or j >= len(tokens) or tokens[i].stem in (foods := nouns("class")):
        return False
    return tokens[j].stem in foods and tokens[j].stem not in index.by_word


def _placed(tokens: Sequence[Token], mention: Mention, since: int, last: Mention | None) -> Mention:
    """The mention with its preposition, the portion meant, and the words of its amount."""
    prep, portion, amount, joined, apart = "", None, None, last is not None, False
    k = mention.i - 1
    while k >= since:
        text = tokens[k].text
        if text in _PREPS and not (text == "with" and k > 0 and _puts(tokens, k - 1)):
            particle = text in ("in", "on", "over") and k > 0 and tokens[k - 1].text in _WITH_PARTICLE
            ended = apart and tokens[k + 1].text in ("the", "your") and _has_comma(tokens, k, mention.i)
            liquid = mention.kind == "bath" and k > 0 and tokens[k - 1].text in _POURS_IN
            goes = (particle or ended) and mention.kind == "line"
            prep, joined = "" if goes or (particle and liquid) else text, False
            break
        if text in _PARTS and portion is None and _of_unit(tokens, k + 1):
            whole = [token.text for token in tokens[max(k - 2, 0) : k]] == ["and", "a"] and k > 2
            k -= 3 * (whole and is_number(tokens[k - 3].text))  # "one and a half tablespoons"
            amount = (k, mention.i)  # "the half teaspoon of salt", "half a teaspoon"
        elif text in _PARTS and portion is None:
            portion = _PARTS[text]
        elif text in _REST and portion is None:
            portion = -1.0
        elif text == "," or (text == "and" and tokens[k + 1].text in ("the", "a")):
            apart = True
        elif portion is None and tokens[k + 1].text == "of" and (part := _part(tokens, k, since)) is not None:
            portion = part  # "2/3 of the salt", "two thirds of the salt"
        elif amount is None and not apart and _counts_food(tokens, k, mention.i):
            first = k
            while first - 1 >= since and is_number(tokens[first - 1].text):
                first -= 1
            amount = (first, mention.i)
            k = first
        elif (
            amount is None
            and not apart
            and tokens[k].text in ("the", "a", "an")
            and k + 1 < mention.i
            and _is_unit(tokens, k + 1)
        ):
            amount = (k, mention.i)  # "the tablespoon of salt"
        elif amount is None and not apart and text in _BARE_UNITS and _is_bare(tokens, k):
            amount = (k, mention.i)  # "pinch salt"
        elif _acts(tokens, k) or text in (".", ";", ":", "until", "while", "when"):
            joined = False
            break
        k -= 1
    if prep == "on" and apart and mention.kind == "line":
        prep = ""  # "3 minutes left on the timer, broccoli in"
    if (
        joined
        and last is not None
        and not prep
        and not (last.kind == "it" or (apart and last.kind == "vessel"))
    ):
        prep = last.prep
    if (
        portion is not None
        and amount is not None
        and number_at(tokens, amount[0]) == (portion, amount[0] + 1)
    ):
        amount = None
    return Mention(mention.i, mention.j, mention.kind, mention.lines, mention.name, prep, portion, amount)


def _part(tokens: Sequence[Token], k: int, since: int) -> float | None:
    """The share in "2/3 of", "two thirds of", "three quarters of", at word k."""
    whole = {"thirds": 3.0, "quarters": 4.0}.get(tokens[k].text)
    number = number_at(tokens, k - 1 if whole else k) if k > since or not whole else None
    if number is None:
        return None
    share = number[0] / whole if whole else number[0]
    return share if 0.0 < share < 1.0 else None


def _has_comma(tokens: Sequence[Token], i: int, j: int) -> bool:
    """Whether what a preposition is about ends before word j: "on the timer, broccoli"."""
    return any(token.text == "," for token in tokens[i + 2 : j])


def _puts(tokens: Sequence[Token], i: int) -> bool:
    """Whether "in" or "off" at word i begins "in with the onion", "off with the cure"."""
    begins = i == 0 or not tokens[i - 1].text.isalpha() or tokens[i - 1].text in ("and", "then", "goes", "go")
    return tokens[i].text in _PUTS and begins


def _is_unit(tokens: Sequence[Token], i: int) -> bool:
    """Whether a unit stands at a word ("a teaspoon"), or a spoon behind how full it is ("a good spoon")."""
    heaped = tokens[i].text in _HEAPED
    word = tokens[i + heaped].text
    return find(word) is not None and not (heaped and word in _BARE_UNITS)


def _is_bare(tokens: Sequence[Token], k: int) -> bool:
    """Whether a unit stands in a list of things, with no word before it: "vinegar, pinch salt"."""
    return k == 0 or tokens[k - 1].text in _BREAKS or tokens[k - 1].text in (":", ";", ".")


def _of_unit(tokens: Sequence[Token], i: int) -> bool:
    """Whether a unit follows, so that "half" is an amount and no share."""
    i += i < len(tokens) and tokens[i].text in ("a", "an")
    return i < len(tokens) and find(tokens[i].text) is not None


def _acts(tokens: Sequence[Token], k: int) -> bool:
    """Whether a word is a verb whose object follows, so that no preposition reaches over it."""
    verb = verbs().get(tokens[k].text)
    if verb is None or verb.form not in ("base", "ing") or tokens[k].text in _ASIDE:
        return False
    before = tokens[k - 1].text if k else "."
    if verb.form == "ing" and verb.act in ("boil", "simmer"):
        return False
    return before not in ("a", "an", "the", "of") and not (verb.act == "heat" and before in _PREPS)


_TIMES = frozenset({"day", "hour", "minute", "week", "night", "min", "hr", "h", "second", "month"})


def _counts_food(tokens: Sequence[Token], k: int, i: int) -> bool:
    """Whether the number at word k may be of the food at word i: not in "two days and you have made salt"."""
    return i - k <= _FAR and is_number(tokens[k].text) and tokens[k + 1].stem not in _TIMES
