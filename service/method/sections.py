"""Lines of a list that only head those below them, known by the company that they keep."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sequence

from .method_words import class_of, nouns, phrasing, singular, small_words, verbs
from .prose_tokens import tokenize

_BRACKETS = re.compile(r"\s*\([^)]*\)")
AMOUNT_BEHIND = re.compile(r"\(\s*(?:[\d½¼¾⅓⅔⅛]|an? )")
"""An amount in brackets behind the name of a food: "Shallots (2, sliced)"."""
_LONGEST = 4
"""Words of such a heading, at the most."""
_ENOUGH = 2
"""Such lines from which on a list has parts, though it begins with none and marks none."""
_NAMED = frozenset(
    {"meat", "poultry", "fish", "seafood", "egg", "grain", "pasta", "potato", "vegetable", "legume"}
)
"""Kinds of food after which the part of a list is called that holds them."""
_TWO, _MIXED = 2, frozenset({"mix", "mixture", "blend"})
_STRANGE = frozenset({"seasoning", "mix", "blend", "powder", "extract", "sprinkle", "optional", "garnish"})
_SALTY, _FOR_WHAT = small_words("bought_sauce"), frozenset({"for", "to"})


def loose_headings(
    lines: Sequence[str], known: Collection[int], has_amount: Callable[[str], bool]
) -> set[int]:
    """The indices of lines that head a part ("Panada", "Soy bath", "Eggs"): they begin with a capital and
    give no amount, those below do, and the list has a heading elsewhere or begins with such a line."""
    capital = (i for i, text in enumerate(lines) if i not in known and text[:1].isupper())
    found = {i for i in capital if _may_head(lines[i], lines[i + 1 :], has_amount)}
    mixed = any(tokenize(lines[i])[-1].stem in _MIXED for i in found)
    return found if known or mixed or 0 in found or len(found) >= _ENOUGH else set()


_BATHS = frozenset({"brine", "marinade", "cure", "rub", "pickle", "brining", "pickling"})
_STUFF = frozenset({"ingredient", "ingredients", "mix", "mixture", "liquid", "solution", "base"})
_NEAR, _LEAST_BELOW = 5, 2


def of_what_is_below(bare: str, below: Sequence[str]) -> bool:
    """Whether bare words name what the lines below them make: "Pasta dough" above flour, "Chicken marinade",
    "Brine ingredients"."""
    stems = [token.stem for token in tokenize(bare)]
    if not (_BATHS - {"pickle"}).isdisjoint(stems[-1:]) or (
        stems[-1] in _STUFF and not _BATHS.isdisjoint(stems)
    ):
        return "," not in bare
    stuff = nouns("made_of").get(stems[-1])
    if stuff is None or "," in bare or not _SALTY.isdisjoint(stems):
        return False
    near = [{token.stem for token in tokenize(line)} for line in below[:_NEAR]]
    own = [words for words in near if not words.isdisjoint(stuff.split("|"))]
    return len(near) > _LEAST_BELOW and bool(own) and not any(set(stems) <= words for words in near)


LONGEST_HEADING = 5


def makes(text: str, below: Sequence[str], has_amount: Callable[[str], bool]) -> bool:
    """Whether a line names what those below it make, in a list that gives few amounts: "Pierogi dough"."""
    bare = _BRACKETS.sub("", text).strip(" :*")
    told = has_amount(bare) or not bare[:1].isupper() or len(bare.split()) > LONGEST_HEADING
    return not (told or AMOUNT_BEHIND.search(text)) and of_what_is_below(bare.lower(), below)


_HEADED = frozenset({"grain", "pasta", "meat", "poultry", "fish", "potato", "vegetable", "legume"})
_NEXT_LINES = 2


def is_food_below(words: Sequence[str], below: Sequence[str]) -> bool:
    """Whether bare words only name the food of the next lines: "Rice" above "300 g basmati", "Pork chops"
    above "pork chops, 1 per person"."""
    own = tuple(singular(word) for word in words)
    kind = class_of(own)
    near = [tuple(t.stem for t in tokenize(line) if t.text[0].isalpha()) for line in below[:_NEXT_LINES]]
    if len(own) > 1 and kind == "flour":  # "Bread crumbs" above "100 g panko breadcrumbs"
        return bool(near) and own[-1] in near[0] and class_of(near[0]) == kind
    if kind not in _HEADED:
        return False
    if len(own) > 1:
        return bool(near) and set(own) <= set(near[0])
    return any(class_of(stems) == kind for stems in near if stems)


_VOICES = small_words("voice")
_LONGEST_LABEL = 100


_FOR_A_PART = phrasing("for_a_part")


def labels(text: str) -> str | None:
    """What a line of a list says that ends with a colon and gives no amount: "Dressing (makes 2 cups):"."""
    bare = text.strip(" []*")
    if "(" in bare and (parted := _FOR_A_PART.match(bare)):
        return parted[1]
    if not bare.endswith(":") or not bare[:1].isalpha() or len(bare) > _LONGEST_LABEL:
        return None
    return bare.strip(" :")


_ELSEWHERE = phrasing("recipe_elsewhere")


def is_made_below(text: str, unit: str | None, words: Collection[str], headings: Collection[str]) -> bool:
    """Whether a line is what a part of the same list makes: "1 recipe tomato sauce" beside "Tomato sauce"."""
    if not words or not (unit == "recipe" or _ELSEWHERE.search(text)):
        return False
    named = (frozenset(token.stem for token in tokenize(heading)) for heading in headings)
    return any(stems and (stems <= set(words) or set(words) <= stems) for stems in named)


_NOTES = phrasing("note_in_list")


_OF_A_POT = phrasing("heads_a_pot")


def heads_a_pot(heading: str) -> bool:
    """Whether the lines below are of a pot that something only boils in: "Water for boiling", "Soda bath"."""
    return _OF_A_POT.search(heading) is not None


def bids(text: str) -> bool:
    """Whether a line among foods is a sentence of the method: "Stir in the boiling water.", "Let it sit for
    10 minutes, then add and mix in:", "[mix well:]"."""
    bare = text.strip(" []()*•-–")
    if not bare[:1].isalpha():
        return False
    if _NOTES.match(bare):
        return True
    words = [token.text for token in tokenize(bare[:_LONGEST_LABEL])]
    verb = verbs().get(words[0])
    if verb is None or verb.form != "base":
        return False
    if verb.noun and not (bare.endswith(":") or words[1:2] in (["the"], ["all"], ["together"])):
        return False
    return bare[-1] in ".:!" or (len(words) > _LONGEST and not _VOICES.isdisjoint(words))


def _may_head(text: str, below: Sequence[str], has_amount: Callable[[str], bool]) -> bool:
    bare = _BRACKETS.sub("", text).strip(" :*")
    if not bare[:1].isupper() or "," in bare or has_amount(bare) or len(bare.split()) > _LONGEST:
        return False
    if AMOUNT_BEHIND.search(text):
        return False
    if not below or not has_amount(below[0]):
        return False
    stems = tuple(t.stem for t in tokenize(bare) if t.text[0].isalpha())
    own = [tuple(t.stem for t in tokenize(line) if t.text[0].isalpha()) for line in below[:6]]
    if len(stems) == _TWO and stems[1] in _MIXED and any(stems[0] in words for words in own):
        return True  # "Flour mix", above "2 cups all-purpose flour"
    if not stems or not _STRANGE.isdisjoint(stems) or not _FOR_WHAT.isdisjoint(stems[1:]):
        return False  # "Salt to taste"
    kind, head = class_of(stems), class_of(stems[-1:])
    if kind == "other" or (len(stems) > 1 and head == "other"):
        return True
    if stems[-1] in nouns("dish") and _SALTY.isdisjoint(stems):
        return any(stem in words for words in own for stem in stems[:-1])
    if len(stems) == 1 and own and stems[0] in own[0] and kind != "salt" and class_of(own[0]) == kind:
        return True
    return len(stems) == 1 and kind in _NAMED and any(class_of(words) == kind for words in own[:2] if words)


PART_BEGINS, PART_ENDS = frozenset("Ff*"), ("ingredients", "ingredients:")
"""How such a part begins or ends."""


def is_named_part(bare: str) -> bool:
    """ "For brine", "*Marinade*", "Rub ingredients": a part that is known by its name, in other words."""
    plain = bare.strip("*: ").removeprefix("for ").removeprefix("the ").removesuffix(" ingredients")
    return plain in nouns("heading")
