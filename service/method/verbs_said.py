"""Which verb a clause has, and what it means by it: "give it a rinse", "off with the cure", "put to soak"."""

from __future__ import annotations

from collections.abc import Sequence

from .adjectives import SAYS_HOW
from .method_words import Verb, nouns, small_words, verbs
from .prose_tokens import Token
from .strewn_on import SPRINKLE, is_of_salt
from .verb_or_noun import BE, LIFTING, acts_alone, is_of_water, is_verb

AWAY_VERBS = small_words("away_verb")
_THROWS = frozenset({"throw", "chuck", "toss", "sling", "fling", "cast"})
_ONLY_OFF = frozenset({"run", "draw"})
"""Verbs that throw away with "off" alone: salt draws water out, and water runs out by itself."""
_GONE = frozenset({"sink", "drain", "bin", "garbage", "trash", "plughole", "compost"})
_AWAY = _GONE | {"away", "off"}
_LIQUIDS = small_words("thrown_liquid")
_WHEN = frozenset({"when", "once", "as", "while", "after"})
BY_ITSELF = frozenset({"wilt", "soften", "crisp", "thicken", "bubble", "ripen", "mature"})
"""What salted or dressed food does while it stands, said as if it were heated."""
_TO_PLACE = frozenset({"bring", "set", "put", "get", "use"})
_AIMS = _TO_PLACE | {"let", "allow", "leave", "start", "begin", "continue", "keep"}
_NOUN_BEHIND = frozenset({"a", "an", "the", "to", "rolling", "your"})


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
    salts = tokens[begin].text == "salt" and (
        (begin > 0 and acts_alone(tokens, begin, end)) or is_of_water(tokens, begin + 1)
    )
    opens = at != begin or salts or _opens_with_verb(tokens, begin, named)
    verb = table.get(tokens[at].text) if opens else None
    if tokens[begin].text in _PARTICLES and (said := _by_particle(tokens, begin, named)) is not None:
        return said
    if verb is None or (verb.form == "ing" and at + 1 < end and _is_of_vessel(tokens[at + 1])):
        return _fallback(tokens, begin, end, named)
    for k in range(at + 1, end - 1):
        if tokens[k].text == "by" and (said := _done_by(tokens, k, end, verb)) is not None:
            return said
    if verb.base == "make":
        said = _made_sure(tokens, at, end) or _made_to(tokens, at, end, named)
        if said is not None:
            return said
    if verb.base in _LIGHT and (said := _light(tokens, at, end)) is not None:
        return said
    if verb.base in AWAY_VERBS and _is_away(tokens[at + 1 : min(end, at + 7)], verb):
        return Verb("discard", "discard", verb.form, False)
    if verb.base == "let" and (slid := _let_in(tokens, at + 1, end)) is not None:
        return slid
    if verb.base in _MOVES and any(tokens[k].text in _BOARDS for k in range(at + 1, end)):
        return Verb("remove", "remove", verb.form, False)
    if verb.base in _AIMS:
        return _aimed_at(tokens, at, end, verb, named) or verb
    return verb


_OWN_WORDS = frozenset({"boil", "simmer", "reduce", "fry", "roast", "brine", "cure", "ferment"})
"""Acts that say themselves what is done: "brine it by laying it in salted water"."""
_DONE_BY = frozenset(
    {"boil", "simmer", "soak", "drain", "rinse", "dry", "brine", "marinate", "cure", "season"}
)


def _done_by(tokens: Sequence[Token], by: int, end: int, verb: Verb) -> Verb | None:
    """ "Prepare the beans by blanching them", "get the salt out by soaking it": the verb behind "by"."""
    k = by + 1 + (tokens[by + 1].text.endswith("ly") and by + 2 < end)
    how = verbs().get(tokens[k].text)
    acts = how is not None and how.form == "ing" and how.act in _DONE_BY
    return how if acts and verb.act not in _OWN_WORDS else None


def _aimed_at(tokens: Sequence[Token], at: int, end: int, verb: Verb, named: set[int]) -> Verb | None:
    """What "let", "put to", "start" are followed by: "put the peas to soak"."""
    for k in range(at + 1, end):
        later = verbs().get(tokens[k].text)
        if tokens[k].text in _WHO and tokens[k - 1].text in _BY_WHEN:
            break
        if later is None or later.act in ("put", "let", "other", "remove"):
            continue
        if k in named and not (later.act in _LAID_TO and tokens[k - 1].text in ("it", "them", "to")):
            continue
        if later.base == "boil" and [t.text for t in tokens[k - 2 : k]] == ["on", "the"]:
            return later  # "put them on the boil"
        if later.form == "base" and tokens[k - 1].text in ("a", "an") and verb.base == "leave":
            continue  # "leave for a quarter of an hour"
        if later.form == "ing" and (tokens[k - 1].text in _ARTICLES or _is_use(tokens, k, named)):
            continue  # "let it sit on a baking sheet", "leave on the cooling rack"
        if later.base in SAYS_HOW and tokens[k - 1].text in _BEFORE_HOW:
            continue  # "keep the leaves in warm salted water"
        forms = later.form in ("base", "ing") or (later.form == "past" and _is_to_be(tokens, k))
        if not forms or _is_end_of_waiting(tokens, k, later):
            continue
        if verb.base not in _TO_PLACE or later.base == "steep" or later.act in _LAID_TO:
            return later if verb.base != "use" or tokens[k - 1].text == "to" else None
    return None


def _is_use(tokens: Sequence[Token], k: int, named: set[int]) -> bool:
    """ "Leave them with the salt for washing"."""
    return tokens[k - 1].text == "for" and k - 2 in named


_ARTICLES = frozenset({"a", "an", "the", "your"})
_BEFORE_HOW = _ARTICLES | {"in", "into", "under", "some"}
_LAID_TO = frozenset({"boil", "simmer", "cook", "marinate", "soak", "brine", "drain", "pickle"})


def _is_to_be(tokens: Sequence[Token], k: int) -> bool:
    """ "Let it be well washed"."""
    return "be" in (tokens[k - 1].text, tokens[k - 2].text)


def _made_sure(tokens: Sequence[Token], at: int, end: int) -> Verb | None:
    """ "Make sure to rinse the capers", "make sure that you drain it": the verb behind."""
    words = [token.text for token in tokens[at + 1 : min(end, at + 5)]]
    if words[:1] not in (["sure"], ["certain"]):
        return None
    k = 1 + (words[1:2] == ["that"])
    verb = verbs().get(words[k + 1]) if words[k : k + 1] in (["to"], ["you"]) and k + 1 < len(words) else None
    return verb if verb is not None and verb.form == "base" else None


def _made_to(tokens: Sequence[Token], at: int, end: int, named: set[int]) -> Verb | None:
    """ "Make soak the cod", "make the potatoes boil", as they say who think in another language."""
    k = at + 1
    while k < end and k - at < 5 and (tokens[k].text in ("the", "it", "them") or k in named):
        k += 1
    verb = verbs().get(tokens[k].text) if k < end else None
    made = verb is not None and verb.form == "base" and verb.act in _MADE_TO
    return verb if made and tokens[k - 1].text != "the" else None


_MADE_TO = frozenset({"soak", "boil", "simmer", "hold", "drain", "cook", "marinate", "fry"})
_LIGHT = frozenset({"get", "give", "take"})
_PARTICLES = _LIQUIDS | small_words("acts_alone")
DISCARD = Verb("discard", "discard", "base", False)
_LIFT = Verb("lift", "remove", "base", False)
_REACH = 9


def _by_particle(tokens: Sequence[Token], begin: int, named: set[int]) -> Verb | None:
    """ "Out.", "off with the cure", "down the sink", "lose the water": words that act without a verb."""
    text = tokens[begin].text
    after = [token.text for token in tokens[begin + 1 : begin + 4]]
    if text == "out" and (not after or not after[0].isalpha() or after[0] == "of"):
        return _LIFT
    if text == "over":  # "over the carrots, hot"
        over = begin + 1 in named or begin + 2 in named
        return Verb("pour", "put", "base", False) if over else None
    if text == "into":
        return Verb("put", "put", "base", False)
    if text in _LIQUIDS:  # "brine down the drain", "water away"
        gone = after[:1] in (["away"], ["off"], ["out"]) or not _THROWN_TO.isdisjoint(after)
        return DISCARD if gone or (after[:1] == ["down"] and "drain" in after) else None
    if text in ("do", "say", "wave"):
        return DISCARD if after[:2] == ["away", "with"] or after[:1] == ["goodbye"] else None
    if text == "lose" or (text == "down" and not _GONE.isdisjoint(after)):
        return DISCARD
    if text in ("out", "off", "away", "goodbye", "bye") and after[:1] in (["with"], ["to"]):
        tool = any(token.text in LIFTING for token in tokens[begin + 2 : begin + 6])
        return _LIFT if tool else DISCARD  # "out with a slotted spoon"
    if text == "in" and after[:1] in (["with"], ["go"], ["goes"]):
        return Verb("put", "put", "base", False)
    return None


def _light(tokens: Sequence[Token], at: int, end: int) -> Verb | None:
    """ "Give it a good rinse", "get rid of the brine": the verb is the noun behind one that says little."""
    words = [token.text for token in tokens[at + 1 : min(end, at + 1 + _REACH)]]
    if words[:1] == ["rid"] and words[1:4] != ["of", "the", "salt"]:
        return DISCARD
    if words[:1] in (["it"], ["them"], ["each"]) and is_of_salt(words[1:]):
        return SPRINKLE  # "give them salt"
    article = next((k for k, word in enumerate(words) if word in ("a", "an", "another", "one")), None)
    if article is None:
        return None
    for k in range(article + 1, min(article + 7, len(words))):
        verb = verbs().get(words[k])
        acts = verb is not None and verb.form in ("base", "ing") and verb.act in _GIVEN
        if verb is not None and acts and (k + 1 == len(words) or words[k + 1] in _BEHIND_NOUN):
            return verb
    return None


_GIVEN = frozenset({"rinse", "dry", "soak", "brine", "drain", "boil", "simmer", "cure", "mix", "coat"})
_BEHIND_NOUN = small_words("behind_noun")


def _is_end_of_waiting(tokens: Sequence[Token], k: int, verb: Verb) -> bool:
    """Whether a verb tells what waiting is for, or a noun where food is: "leave to wilt", "off the heat"."""
    before = tokens[k - 1].text
    named = verb.noun and before in ("the", "off") and tokens[k - 2].text != "to"  # "bring to the boil"
    return named or (before == "to" and (verb.base in BY_ITSELF or verb.act in ("remove", "discard")))


_ENDS = frozenset(
    {"(", "–", "—", "-", ".", ",", ";", ")", "after", "once", "when", "afterwards", "now", "too"}
)


def _is_away(after: Sequence[Token], verb: Verb) -> bool:
    """ "Pour off", "tip down the sink", "pour out the brine", "toss the liquid" with nothing behind."""
    words = [token.text for token in after]
    if verb.base == "go":  # "the liquid goes down the sink"
        return not _GONE.isdisjoint(words)
    if verb.base in _ONLY_OFF:
        return "off" in words[:1]
    if words[:1] in _THIS and words[1:2] == ["out"] and words[2:3] not in _ONTO:
        return verb.base != "take"  # "pour this out"
    if verb.form == "past" and verb.base == "pour" and words[:1] == ["out"] and words[1:2] not in _ONTO:
        return True  # "the juice is poured out"
    if not _AWAY.isdisjoint(words) or (verb.base in _THROWS and "out" in words[:4]):
        return True
    if words[:2] == ["everything", "out"] or words[:3] == ["it", "all", "out"]:
        return True  # "pour everything out", of a pot that begins again
    said = next((k for k, word in enumerate(words) if word in _LIQUIDS), None)
    if said is not None and words[said + 1 : said + 2] == ["and"] and words[said + 2 : said + 3]:
        words = words[: said + 1 if words[said + 2] in verbs() else len(words)]  # "and fry it in"
    if said is None or not {"into", "over", "onto", "in", "on", "with"}.isdisjoint(words):
        return False
    alone = (
        verb.base in ("toss", "dump", "chuck", "throw")
        and said <= 2
        and (words[said + 1 :] in ([], ["and"], ["then"]) or words[said + 1] in _ENDS)
    )
    return "out" in words or alone


_THIS = (["this"], ["it"], ["that"], ["these"])
_ONTO = (["onto"], ["on"], ["in"], ["into"], ["to"], ["over"])


def _opens_with_verb(tokens: Sequence[Token], begin: int, named: set[int]) -> bool:
    word = verbs().get(tokens[begin].text)
    if word is None or tokens[begin].text == "rolling" or (word.form == "s" and begin in named):
        return False
    if word.form == "base":
        return is_verb(tokens, begin, named, opens=True)
    return begin + 1 not in named or word.form == "ing" or tokens[begin + 1].text in ("it", "them")


def _tells_only(tokens: Sequence[Token], k: int, verb: Verb) -> bool:
    """ "The water it was boiled in should be thrown out", "in a covered tray", "3 minutes left on the timer",
    "it takes 25 minutes": nothing is done by these; but it is by "then it is boiled in fresh water"."""
    before, after = tokens[k - 1], tokens[k + 1].text if k + 1 < len(tokens) else "."
    if verb.form != "past":
        return verb.base == "take" and verb.form == "s"
    told = after == "in" and before.text in BE and tokens[k - 2].text in ("it", "they")
    told = told and (k + 2 >= len(tokens) or tokens[k + 2].text not in _IN_WHAT)
    return told or before.text in ("a", "an") or (verb.base == "leave" and before.stem in _UNITS_OF_TIME)


_IN_WHAT = small_words("in_what")
"""Behind "it is boiled in": in what, and not "the water it was boiled in"."""
_UNITS_OF_TIME = frozenset({"second", "minute", "min", "hour", "hr"})


def _commanded(tokens: Sequence[Token], begin: int, end: int, named: set[int]) -> Verb | None:
    """In "when it's boiling add the pasta" the verb that is to be done: add."""
    for k in range(begin + 2, end):
        verb = verbs().get(tokens[k].text)
        if verb is None or verb.form != "base" or verb.noun or k in named:
            continue
        if tokens[k - 1].text not in ("to", "a", "the", "you", "they", "it", "not"):
            away = verb.base in AWAY_VERBS and _is_away(tokens[k + 1 : min(end, k + 7)], verb)
            return DISCARD if away else verb
    return None


_OF_WATER = frozenset({"boiling", "simmering", "hot", "cold"})


_BOUGHT_SO = frozenset({"pickle", "brine", "cure", "marinate"})


def _names_more(tokens: Sequence[Token], k: int, end: int) -> bool:
    """ "With pickled onions", of a list that has none: a word behind that no preposition is."""
    return k < end and tokens[k].text.isalpha() and tokens[k].text not in _LEAD_ON


_LEAD_ON = small_words("preposition") | small_words("time") | {"and", "or", "then", "until", "for", "it"}


def _is_told_of(tokens: Sequence[Token], k: int, named: set[int]) -> bool:
    """ "Salted water", "salted boiling water": a participle that only says what something is like."""
    return k in named or (k + 1 in named and tokens[k].text in _OF_WATER)


def _is_of_vessel(token: Token) -> bool:
    return token.text == "hot" or token.stem in nouns("vessel")


def _fallback(tokens: Sequence[Token], begin: int, end: int, named: set[int]) -> Verb | None:
    """In a sentence that commands nothing ("the pork goes into the brine"), its first verb that acts."""
    table, kept = verbs(), None
    if tokens[begin].text in _WHEN and (commanded := _commanded(tokens, begin, end, named)) is not None:
        return commanded
    for k in range(begin, end):
        verb = table.get(tokens[k].text)
        if k > begin and tokens[k].text in _WHO and tokens[k - 1].text in _BY_WHEN:
            break  # "they want 6 hours before they are fried"
        if (
            verb is None
            or k in named
            or (verb.form == "past" and tokens[k - 1].text not in BE and _is_told_of(tokens, k + 1, named))
            or (verb.form == "past" and verb.act in _BOUGHT_SO and _names_more(tokens, k + 1, end))
        ):
            continue
        if k > 1 and (_tells_only(tokens, k, verb) or (k + 1 < end and tokens[k + 1].text == "side")):
            continue  # "skin side up"
        if verb.base == "combine" and verb.form == "past" and k - 1 in named:
            continue  # "by weight of the meat and water combined"
        noun = verb.form == "base" and verb.noun and k > begin
        if noun and verb.base in ("boil", "simmer") and k > begin + 1 and tokens[k - 2].text == "to":
            return Verb(verb.base, verb.act, "base", True)  # "all of it to the boil"
        behind = noun and tokens[k - 1].text in _NOUN_BEHIND and not _is_to_do(tokens, k, named)
        if tokens[k].text == "rolling" or behind:
            continue
        if k > begin and verb.form == "s" and _names_pieces(tokens, k, end, verb, named):
            continue
        if verb.form == "ing" and k + 1 < end and _is_of_vessel(tokens[k + 1]):
            continue  # "smoking wok, oil, beef"
        if k > begin and tokens[k].text == "filling" and tokens[k - 1].text not in BE:
            continue  # "a wet filling bursts"
        told = (
            k == begin + 1 and tokens[begin].text == "after"
        )  # "after soaking the beans for a night, drain"
        if k > begin and verb.form == "ing" and tokens[k - 1].text in _TELL_WHEN and not told:
            continue  # "before boiling it should be laid in water", "for the last hour of cooking add"
        if k == begin and verb.base in _FOODS_ALONE and end - begin == 1:
            continue  # "Bread", a heading
        if noun and verb.base in _FOODS_ALONE and k + 2 >= end and tokens[k - 1].text in ("and", "with"):
            continue  # "with cream and bread."
        if verb.base == "remain" and verb.form == "ing":
            continue  # "remaining 2 tbsp salt"
        if verb.base == "stay" and k + 1 < end and tokens[k + 1].text in _AS_IT_IS:
            continue  # "they stay firm"
        if verb.act in ("let", "other", "serve") or verb.base in ("get", "make", "use"):
            kept = kept or verb
            continue
        if verb.base in AWAY_VERBS and _is_away(tokens[k + 1 : min(end, k + 7)], verb):
            return Verb("discard", "discard", verb.form, False)
        if verb.base == "work" and tokens[k - 1].text == "their":
            return DISCARD  # "the vegetables have done their work"
        if verb.base in ("put", "set", "leave") and verb.form == "base":
            return _aimed_at(tokens, k, end, verb, named) or verb
        return verb
    if kept is None and any(tokens[k].text in _THROWN_TO for k in range(begin, end)):
        return DISCARD  # "liquor to waste", "marinade in the bin"
    return kept


def _names_pieces(tokens: Sequence[Token], k: int, end: int, verb: Verb, named: set[int]) -> bool:
    """ "It makes the pickles crisp", "aubergine slices are salted", "stems first, then leaves": a noun, and
    nothing is done by it."""
    if verb.act == "cut" and k - 1 in named:
        return True
    told = k + 1 < end and tokens[k + 1].text in _IS_TOLD_OF
    last = k + 1 >= end or not tokens[k + 1].text.isalnum()
    return told or tokens[k - 1].text in ("the", "your", "these") or (last and tokens[k - 1].text == "then")


_IS_TOLD_OF = BE | {"must", "should", "have", "need"}
_FOODS_ALONE = frozenset({"bread", "flour", "cream", "roll", "spread", "crumb"})
_AS_IT_IS = small_words("as_it_is")
_NEEDS = frozenset({"need", "needs", "have", "has", "want", "wants", "got", "ought"})


def _is_to_do(tokens: Sequence[Token], k: int, named: set[int]) -> bool:
    """ "You will have to boil the potatoes", "they need to boil for an hour", not "bring to boil"."""
    if k < 2 or tokens[k - 1].text != "to":
        return False
    after = tokens[k + 1].text if k + 1 < len(tokens) else "."
    return k + 1 in named or after in _OBJECTS or tokens[k - 2].text in _NEEDS


_OBJECTS = frozenset({"the", "your", "them", "all", "both", "these", "those", "some"})
_TELL_WHEN = frozenset({"before", "after", "of"})
_BY_WHEN = frozenset({"before", "when", "whenever"})
_WHO = frozenset({"you", "it", "they", "we", "i"})


_THROWN_TO = _GONE - {"drain"} | {"waste", "bye", "goodbye"}
