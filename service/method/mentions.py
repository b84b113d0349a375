"""What the words of a sentence speak of: lines, baths, vessels, pronouns; water and salt of no line."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from .amounts_behind import with_amount_behind
from .flesh_named import FLESH, flesh_named
from .listed import Index
from .mention import Kind, Mention
from .method_words import nouns, phrases, small_words, verbs
from .pasta_shapes import pasta_of
from .placing import BREAKS, placed
from .prose_tokens import Token
from .runs_of_lines import THROUGH, of_rank, with_those_between
from .salted_words import (
    HOW_SALTED,
    NEVER_SALT,
    WATERS,
    is_of_salted,
    is_of_water,
    is_plenty,
    is_to_be_salted,
)
from .verb_or_noun import HOW, is_verb

_WHEN = small_words("time")
_PRONOUNS = frozenset({"it", "them", "they", "this", "these", "those", "pieces", "everything"})
_AWAY = frozenset({"away", "off", "out", "down"})
_BEHIND_THIS = _AWAY | {"for", "overnight", "until", "till", "over", "into", "on", "with"}
_REST = small_words("rest")
_OPENERS = frozenset({",", ".", ";", ":", "and", "then", "(", "or"})
_COMMANDS = frozenset({"mix", "coat", "drain", "strain"})
_NOUN_NEXT = frozenset({",", ".", "and", "is", "are", "should", "into", "over", "to"})
_FOR_A_USE = frozenset({"baking", "roasting", "cooking", "pickling", "canning", "frying"})
"""Words of a line that by themselves name no food of it."""
_STIRS = frozenset({"mix", "boil", "heat", "simmer"})


def mentions_of(
    tokens: Sequence[Token],
    words: Sequence[str],
    stems: Sequence[str],
    index: Index,
    heading: str = "",
    *,
    counted: bool = True,
) -> list[Mention]:
    """Everything a sentence speaks of, in order; of lines alike, those under the same heading are meant.
    words, stems: those of the tokens; counted: whether there is a number among them."""
    found: list[Mention] = []
    done = 0
    always = _starters()
    starters = index.starters(always)
    roomy = not _ROOMY.isdisjoint(words)
    for i, stem in enumerate(stems):
        if (stem not in starters and words[i] not in always) or i < done:
            continue
        mention = _at(tokens, i, index, heading)
        if mention is not None and not (roomy and _is_held(tokens, i)):
            last = found[-1] if found else None
            found.append(placed(tokens, words, mention, done, last, counted=counted))
            done = mention.j
    if not THROUGH.isdisjoint(words):
        found = list(with_those_between(tokens, found, index))
    return [m if m.amount else with_amount_behind(tokens, m) for m in found] if counted else found


def _is_held(tokens: Sequence[Token], i: int) -> bool:
    """ "A pot just large enough to hold the meat", "that fits the bird": tells how large it is."""
    words = [token.text for token in tokens[max(0, i - 4) : i]]
    words = words[:-1] if words[-1:] and words[-1] in _ARTICLES else words
    return (words[-2:-1] == ["to"] and words[-1] in _HOLDS and "enough" in words) or (
        words[-2:-1] in (["that"], ["which"]) and words[-1] in _HOLDS
    )


_ARTICLES, _HOLDS = (
    frozenset({"the", "all", "your"}),
    frozenset({"hold", "holds", "fit", "fits", "contain", "accommodate"}),
)
_ROOMY = frozenset({"enough", "fits", "holds"})


@cache
def _starters() -> frozenset[str]:
    """Words that something other than a line's own words can begin with."""
    phrased = {first for role in ("bath", "vessel") for first in phrases(role)}
    roles = {word for role in ("group", "animal", "minced", "made", "shape") for word in nouns(role)}
    return frozenset(phrased | roles | _OTHERS | WATERS | _PRONOUNS)


_OTHERS = small_words("starter")
_OF_FISH = frozenset({"kettle", "pan", "poacher"})
"""What fish is handled with: "a fish kettle" holds none yet."""
_POURED = frozenset({"with", "in", "into", "on"})
"""Between a verb and the water that it pours."""


def _at(tokens: Sequence[Token], i: int, index: Index, heading: str) -> Mention | None:
    text = tokens[i].text
    if text in index.letters:
        return Mention(i, i + 1, "line", index.letters[text])
    if text in {"salt", "salty", "saltwater"} and (water := _salt_water(tokens, i)):
        return water
    if text == "salt" and (_tells_how_salty(tokens, i) or is_of_salted(tokens, i, index)):
        return None
    if text == "salts" and (lines := index.of_kinds("salt", "curing")):
        return Mention(i, i + 1, "line", lines)
    if text in HOW_SALTED and is_of_water(tokens, i):
        return None
    if text == "fish" and i + 1 < len(tokens) and tokens[i + 1].text in _OF_FISH:
        return _vessel(tokens, i)
    stem, table = tokens[i].stem, phrases("bath")
    may_be = (text in table or stem in table) and text != "pickles"  # those are food
    bath = _phrase(tokens, i, "bath") if may_be else None
    if text == "liquids" and i and (verb := verbs().get(tokens[i - 1].text)) and verb.act in _STIRS:
        if liquids := index.of_kinds("water", "acid", "wine", "stock"):
            return Mention(i, i + 1, "line", liquids)  # "boil liquids with the salt"
    if (
        text in WATERS
        and stem in index.by_word
        and (not index.of_kinds("water") or (is_plenty(tokens, i) and not index.potfuls()))
    ):
        return Mention(i, i + 1, "water")  # and no "brine: water 5 l, salt 500 g"
    if stem in index.by_word and not (bath and bath[1] - i > 1):
        if _is_verb_here(tokens, i):
            return None
        lines, j = index.named(tokens, i, heading)
        lines = () if stem in index.shaped and j == i + 1 else lines
        if i and tokens[i - 1].text in ("canned", "tinned"):
            lines = tuple(n for n in lines if n in index.canned()) or lines
        if j == i + 1 and lines and text in FLESH:
            lines = flesh_named(text, lines, index)
        if text == "salt" and lines and j == i + 1:
            lines = _by_pepper(tokens, j, index.of_kinds("salt"), index) or tuple(
                sorted(set(lines).difference(index.of_kinds(*NEVER_SALT)))
            )
        if text == "beans" and i and tokens[i - 1].text == "all":  # chickpeas too
            lines = tuple(sorted({*lines, *index.of_kinds("legume")}))
        if lines and not (
            bath and bath[0] != "other" and bath[1] >= j and not _is_listed(tokens, i, lines, index)
        ):
            only = j < len(tokens) and _says_which(tokens, i, j, index)
            only = only or (j == i + 1 and text in _FOR_A_USE)  # "baking sheet", of a list with baking soda
            if only or not (j < len(tokens) and tokens[j].text == "water" and tokens[i - 1].text == "the"):
                return None if only else Mention(i, j, "line", lines)
            if is_to_be_salted(tokens, i):
                return Mention(i, j + 1, "water")
            return Mention(i, j + 1, "bath", name="other")  # "a spoonful of the asparagus water"
    if bath and tokens[bath[1] - 1].text == "water" and (own := index.waters_for(text)):
        return Mention(i, bath[1], "line", own)  # "leave them in the soaking water"
    if bath and not _is_verb_here(tokens, i):
        coming = bath[0] == "other" and tokens[bath[1] - 1].text == "water" and is_to_be_salted(tokens, i)
        return Mention(i, bath[1], "water") if coming else Mention(i, bath[1], "bath", name=bath[0])
    if text in ("fresh", "clean") and i and tokens[i - 1].text in _POURED and _ends(tokens, i + 1):
        return Mention(i, i + 1, "water")  # "pour that off and cover with fresh"
    if text in WATERS:
        waters = index.waters()
        return Mention(i, i + 1, "line", waters) if waters else Mention(i, i + 1, "water")
    if text == "salt" and not _is_verb_here(tokens, i):
        salts = _by_pepper(tokens, i + 1, index.of_kinds("salt"), index)
        return Mention(i, i + 1, "line", salts) if salts else Mention(i, i + 1, "salt")
    if text == "rest" and _is_rest(tokens, i):
        return Mention(i, i + 1, "rest")
    if stem in nouns("shape") and i and tokens[i - 1].text in ("the", "these", "your", "all"):
        return _of_shape(i, stem, index.of_shape(stem))
    if text in _PRONOUNS:
        return _pronoun(tokens, i) or _of_group(tokens, i, index) or _vessel(tokens, i)
    return _of_group(tokens, i, index) or _vessel(tokens, i)


def _by_pepper(tokens: Sequence[Token], j: int, salts: tuple[int, ...], index: Index) -> tuple[int, ...]:
    """Of two lines of salt of which one names pepper, too, the one that is meant: "a pot of water with salt",
    "season with salt and pepper"."""
    if len(salts) < _TWO:
        return salts
    with_it = {line.index for line in index.by_word.get("pepper", ())}
    peppered = tuple(n for n in salts if n in with_it)
    headings = {line.heading for line in index.by_kind["salt"]}
    if not peppered or len(peppered) == len(salts) or len(headings) > 1:
        return salts
    said = "pepper" in [token.text for token in tokens[j : j + 4]]
    return peppered if said else tuple(n for n in salts if n not in peppered)


_TWO = 2


def _is_rest(tokens: Sequence[Token], i: int) -> bool:
    """ "Stir the rest together", "add all the rest": all the lines that were not spoken of yet."""
    if not i or tokens[i - 1].text != "the":
        return False
    at = i - 2 - (i > 2 and tokens[i - 2].text == "all")
    verb = verbs().get(tokens[at].text) if at >= 0 else None
    after = tokens[i + 1].text if i + 1 < len(tokens) else "."
    stirs = verb is not None and (verb.act == "mix" or (verb.base == "add" and at < i - 2))
    return stirs and after in ("together", "in", "until", "and", ".", ",", ";")


def _pronoun(tokens: Sequence[Token], i: int) -> Mention | None:
    if tokens[i].text != "everything":
        if tokens[i].text == "this" and not (_ends(tokens, i + 1) or tokens[i + 1].text in _BEHIND_THIS):
            return None  # "this mixture"
        return Mention(i, i + 1, "all", name="it") if _is_of_all(tokens, i) else Mention(i, i + 1, "it")
    if i + 1 < len(tokens) and tokens[i + 1].text == "else":
        return Mention(i, i + 2, "rest")
    return Mention(i, i + 1, "all")


def _is_of_all(tokens: Sequence[Token], i: int) -> bool:
    """ "Mix it all", "stir them all together"; not "rub it all over"."""
    if i == 0 or i + 1 >= len(tokens) or tokens[i + 1].text != "all":
        return False
    verb = verbs().get(tokens[i - 1].text)
    return verb is not None and verb.act == "mix"


def _of_shape(i: int, stem: str, lines: tuple[int, ...]) -> Mention:
    """ "The chips", where one line is cut in chips; else by name what the method may have cut so."""
    return Mention(i, i + 1, "line", lines) if len(lines) == 1 else Mention(i, i + 1, "it", name=stem)


def _ends(tokens: Sequence[Token], i: int) -> bool:
    return i >= len(tokens) or not tokens[i].text[0].isalpha() or tokens[i].text in ("and", "to", "then")


_VERY = small_words("very")
_IS = frozenset({"is", "are", "be", "was", "were", "it's", "they're", "tastes", "taste"})


def _tells_how_salty(tokens: Sequence[Token], i: int) -> bool:
    """ "It is salt enough", "the meat is far too salt to eat": what something is like, and no salt."""
    before = tokens[i - 1].text if i else ""
    if before in _VERY:
        return True
    return before in _IS and i + 1 < len(tokens) and tokens[i + 1].text in ("enough", "already", ",", ".")


def _ends_or_joins(tokens: Sequence[Token], i: int) -> bool:
    """ "The lot", "the lot together", "the lot in a bag"; not "the lot of them"."""
    return _ends(tokens, i) or tokens[i].text in ("together", "in", "with", "up")


def _is_listed(tokens: Sequence[Token], i: int, lines: tuple[int, ...], index: Index) -> bool:
    """Whether "cure" is a curing salt among other things ("mix the salt, sugar and cure"), and no bath."""
    return set(lines) <= set(index.of_kinds("curing")) and i > 0 and tokens[i - 1].text in BREAKS


def _salt_water(tokens: Sequence[Token], i: int) -> Mention | None:
    """ "In saltwater", "in salt water": water, and none of the list's."""
    if tokens[i].text == "saltwater":
        return Mention(i, i + 1, "water")
    if i and tokens[i - 1].text == "the" and i + 1 < len(tokens) and tokens[i + 1].text == "water":
        return Mention(i, i + 2, "bath", name="brine")  # the one that was made
    follows = i + 1 < len(tokens) and tokens[i + 1].text == "water"
    return Mention(i, i + 2, "water") if follows else None


_THOSE = frozenset({"those", "these"})
_SHAPED = _THOSE | {"the", "your", "all"}
_OF_WOOD = frozenset({"soak", "soaked", "soaking", "wooden", "bamboo", "metal", "wet"})


def _of_group(tokens: Sequence[Token], i: int, index: Index) -> Mention | None:
    text = tokens[i].text
    if text in ("ingredients", "ingredient"):
        before = [token.text for token in tokens[max(0, i - 3) : i]]
        if (ranked := of_rank(tokens, i, index)) is not None:
            return Mention(i - 2, i + 1, "line", ranked)
        if before and not _THOSE.isdisjoint(before):
            return Mention(i, i + 1, "it")  # "once those dry ingredients are mixed"
        kind: Kind = "rest" if _REST.intersection(before) else "all"
        return Mention(i, i + 1, kind)
    if text == "seasoning" or text == "seasonings":
        lines = index.of_kinds("salt", "spice")
        return Mention(i, i + 1, "line", lines) if lines else Mention(i, i + 1, "salt")
    if text == "all" and i + 1 < len(tokens) and tokens[i + 1].text in ("except", "but"):
        return None if _is_all_but(tokens, i) else Mention(i, i + 1, "all")
    if text == "lot" and i and tokens[i - 1].text in ("the", "whole") and _ends_or_joins(tokens, i + 1):
        return Mention(i, i + 1, "all", name="it")
    if text in ("cans", "tins") and (canned := index.canned()):
        return Mention(i, i + 1, "line", canned)  # "empty both cans"
    of_leaves = text == "greens" or (text == "leaves" and i and tokens[i - 1].text in ("the", "your"))
    if of_leaves and (leaves := index.leaves()):
        return Mention(i, i + 1, "line", leaves)
    if (animal := nouns("animal").get(text)) and len(lines := index.of_kinds(animal)) == 1:
        return Mention(i, i + 1, "line", lines)  # "the beef", of a rump steak
    if text in nouns("minced") and (not i or tokens[i - 1].text in _SHAPED) and (minced := index.minced()):
        return Mention(i, i + 1, "line", minced)  # "put in the meatballs", and not "roll into balls"
    classes = nouns("group").get(text)
    if tokens[i].stem == "skewer" and not _OF_WOOD.isdisjoint([token.text for token in tokens[:i]]):
        return None  # "soak the skewers"
    if classes in ("spice", "herb") and i and tokens[i - 1].text in ("some", "whole", "few"):
        classes = None  # "with some whole spices": none of the list's
    if text in verbs() and (i == 0 or tokens[i - 1].text in _OPENERS) and not _stands_in_list(tokens, i):
        opens = not i or tokens[i - 1].text not in ("and", ",")
        classes = None if is_verb(tokens, i, set(), opens=opens) else classes
    if classes == "meat" and not index.of_kinds("meat"):
        classes = "poultry"  # "shred the meat", of a chicken
    if classes and (lines := index.of_kinds(*classes.split("|"))):
        return Mention(i, i + 1, "line", lines)
    if text in nouns("made") or (text != tokens[i].stem and tokens[i].stem in nouns("made")):
        return Mention(i, i + 1, "made")
    return pasta_of(index, i) if classes == "pasta" else None


def _is_all_but(tokens: Sequence[Token], i: int) -> bool:
    """ "All but a teaspoon of the salt": of that line, and no word for all things."""
    behind = [token.text for token in tokens[i + 2 : i + 8]]
    return "of" in behind and "salt" in behind and behind[0] not in ("the", "salt", "half")


def _stands_in_list(tokens: Sequence[Token], i: int) -> bool:
    """Whether a word stands among the things of a list: "potatoes, fish, parsley", "peas and fish"."""
    if not i or tokens[i - 1].text not in (",", "and") or verbs()[tokens[i].text].act == "cut":
        return False
    return i + 1 == len(tokens) or tokens[i + 1].text in (",", "and", ".")


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


_LASTING = frozenset({"brine", "pickle", "cure"})
_LETS = frozenset({"let", "allow"})
_ENDS = frozenset({".", ",", ";", "overnight", "until", "at", "while"})
_BEFORE_NOUNS = small_words("before_noun")


def _is_verb_here(tokens: Sequence[Token], i: int) -> bool:
    """Whether a word that is a noun too ("brine", "salt") is a verb at its place."""
    verb = verbs().get(tokens[i].text)
    if verb is None:
        return False
    if verb.form in ("past", "ing"):
        return i > 0 and tokens[i - 1].text in _IS  # "it is cooked", of a list with cooked ham
    after = tokens[i + 1].text if i + 1 < len(tokens) else "."
    if (
        verb.base == "mix"
        and i > 1
        and (tokens[i - 1].stem in nouns("vessel") or tokens[i - 1].stem in _WHEN)
    ):
        return True  # "in a large bowl mix the yogurt with the salt", "in the evening mix"
    if (i == 0 or tokens[i - 1].text in _OPENERS) and verb.base in _COMMANDS:
        return after not in _NOUN_NEXT
    lasts = after in HOW or after in _ENDS or after[0].isdecimal()
    if lasts and verb.act in _LASTING and any(token.text in _LETS for token in tokens[max(i - 4, 0) : i]):
        return tokens[i - 1].text not in _BEFORE_NOUNS  # "let it pickle for 30 minutes"
    if (
        verb.base in ("rub", "brine", "cure", "marinade")
        and after in HOW
        and (i == 0 or tokens[i - 1].text in _OPENERS)
    ):
        return True
    opens = i == 0 or tokens[i - 1].text in _BEFORE_VERBS
    if verb.base == "salt" and after == "for" and i and tokens[i - 1].text in ("and", ",", "or"):
        return False  # "simmer with the water and salt for three hours"
    some = after in ("a", "an", "some", "plenty") and verb.base != "salt"  # "rub a good amount of salt on it"
    return opens and (after in _OBJECTS or some)


_BEFORE_VERBS = frozenset({",", ".", ";", ":", "and", "then", "to", "or", "(", "i", "we", "you"})
_OBJECTS = small_words("object_of_noun")


_DISHES = frozenset({"soup", "stew", "sauce", "salad"})


def _says_which(tokens: Sequence[Token], i: int, j: int, index: Index) -> bool:
    """Whether words i to j only tell which tool ("butter knife", "pepper grinder") or other food it is that
    stands behind them: "salted", of a line of salted butter, before water."""
    if tokens[j].text in {"knife", "grinder", "shaker", "spoon", "bomb", "bombs"}:
        return True
    stem, foods = tokens[j].stem, nouns("class")
    other = (stem in foods or stem in _DISHES) and stem not in index.by_word
    return j == i + 1 and other and tokens[i].stem not in foods
