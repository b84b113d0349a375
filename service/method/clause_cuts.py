"""Where the clauses of a sentence begin: at the words that join them, where a verb follows."""

from __future__ import annotations

from collections.abc import Sequence, Set

from .done_before import RELATIVES, done_before
from .elided import goes_in_too
from .method_words import Verb, small_words, verbs
from .prose_tokens import Token
from .strewn_on import is_strewn
from .verb_or_noun import LIFTING, OF_SUBJECT, is_done_to, is_participle, is_verb
from .verbs_said import AWAY_VERBS

_JOINTS = small_words("joint")
_AIMS = frozenset({"to", "until", "before", "so"})
"""Behind these a verb says what for, and not what is done next; but "before draining", "before drying"."""
_WHILE = frozenset({"while", "whilst"})
_READER = frozenset({"you", "we", "i"})
_PAUSES = frozenset({",", ";", ":"})
_FILLERS = small_words("filler")
_SUBORDINATE = small_words("subordinate")
_TIME_WORDS = small_words("time")


def cuts_of(tokens: Sequence[Token], words: Sequence[str], named: set[int]) -> list[tuple[int, int]]:
    """Where clauses begin, each with the place of its verb (its own beginning where it has none there).
    words: those of the tokens; named: places of what is spoken of."""
    table, first = verbs(), _skip(words, 0)
    first += list(words[first : first + 2]) in _DRY_BRINE
    begins, lies, led = {0}, "on" in words or "over" in words, -1
    passive = not _PASSIVE.isdisjoint(words)
    cuts = [(0, first if first < len(words) and is_verb(tokens, first, named, opens=True) else 0)]
    if cuts[0][1] == 0 and words[0] in _LEADS and (made := _made_for(words)):
        cuts = [(0, made)]
    relative = "that" in words or "which" in words
    for i, joint in enumerate(words[:-1], 1):
        before = done_before(tokens, i, named) if relative and words[i] in RELATIVES else 0
        if joint not in _JOINTS and not before:
            continue
        m, since, word = _skip(words, i), cuts[-1][1], words[i]
        if m >= len(words) or m <= since or m in begins:
            continue
        verb = table.get(words[m])
        aims = joint in _AIMS and not (joint == "before" and verb is not None and _ends_waiting(verb))
        if aims or (joint in _WHILE and not (verb is not None and word in _READER and words[since] in table)):
            continue
        if before:
            cut = i, before
        elif joint in _WHILE:
            cut = i - 1, m  # "leave it for 20 minutes while you cut the carrots"
        elif verb is not None and (
            is_verb(
                tokens, m, named, opens=joint == "," and len(cuts) == 1 and _only_tells_when(tokens, i - 1)
            )
            or is_participle(tokens, m, named)
            or (passive and verb.form == "past" and _is_done_in_turn(words, m, verb))
            or (verb.form == "s" and m not in named and not _WHO_COOKS.isdisjoint(words[:_LONGEST_LEAD]))
        ):
            if len(cuts) == 1 and _is_first_verb(words, i, m, cuts[0][1], named):
                cuts[0] = (0, m)
                continue
            cut = m, m
            told = verb.form == "past" and _has_no_object(words, m, named)
            led = -1 if not told else led if led >= 0 else since
        elif led >= 0 and joint in _GOES_ON_LISTING and _lists_on(words, i, named):
            cut, led = (i, led), -1  # "add the beans, drained and rinsed, and the tomatoes"
        elif word in _UNSAID and _opens_unsaid(words, i, since, joint):
            cut = i, i
        elif joint == "then" and i > 1 and goes_in_too(tokens, i - 1, since, named):
            cut = i - 1, i - 1
        elif joint == "," and word == "which" and (gone := _which_goes(words, i)):
            cut, led = (i, gone), since  # "boil it in water, which you throw away"
        elif joint in _PAUSES and word in _SUBORDINATE and i > since and not _is_of_it(words, cuts[-1][0], i):
            cut = i, i
        elif (
            (lies and i in named and i > since and joint in _PAUSES)
            and is_strewn(words, i, named)
            and not all(k in named or words[k] in _BETWEEN for k in range(cuts[-1][0], i))
        ):
            cut = i, i  # "tear the tofu, soy sauce on"
        elif (i in named or word in OF_SUBJECT) and (
            (done := is_done_to(tokens, i, named))
            and any(words[k] in table and k not in named for k in range(cuts[-1][0], i))
        ):
            cut = i, done  # not "the cod and the potatoes are boiled", before which nothing is done
        elif (word == "after" or (passive and word in _PASSIVE)) and (
            done := _goes_on(tokens, words, i, since)
        ):
            cut = i, done
        else:
            continue
        cuts.append(cut)
        begins.add(cut[0])
    return cuts


def _opens_unsaid(words: Sequence[str], i: int, since: int, joint: str) -> bool:
    """ "Blanch for 2 minutes, cold water, squeeze", "2 minutes, out with a spoon", "peel, chunk, into a
    pan of water", "boil the vinegar and when cold pour it on": what begins with no verb."""
    word = words[i]
    if word in _COLD:  # but "potatoes, cold water, salt" is one thing
        return joint == "," and words[i + 1 : i + 2] == ["water"] and i > _NAMED
    if word == "out":
        return i > since and not LIFTING.isdisjoint(words[i + 1 : i + 6])
    if word == "into":
        return i > since + 1 and not _puts(words[since])
    return joint in ("and", "then") and i > since and (word in _ONCE or words[i : i + 2] == _AS_SOON)


_WHO_COOKS = frozenset({"she", "he", "mum", "mother", "grandma", "grandmother", "aunt", "dad", "uncle"})


def _is_first_verb(words: Sequence[str], i: int, m: int, since: int, named: Set[int]) -> bool:
    """ "Potatoes: boil", "flour, egg and crumb the fish": whether what stands before the verb at word m
    belongs to it."""
    if (words[i - 1] == ":" or words[m] == "crumb") and _names_objects(words, i - 1, named):
        return True
    return words[i - 1] == "," and since == 0 and _leads_to(words, i, m, verbs().get(words[m]), named)


def _leads_to(words: Sequence[str], i: int, m: int, verb: Verb | None, named: Set[int]) -> bool:
    """ "In the water with the salt, poach the fish", "sausages in the beer, simmer 10 minutes": what goes
    before the verb and belongs to it."""
    if words[0] == "in":  # and not "in the same water cook the pasta, drain"
        return "water" in words[:i] and _COOKED.isdisjoint(words[:i])
    boils = verb is not None and verb.act in ("boil", "simmer") and (0 in named or 1 in named)
    return boils and "in" in words[:i] and named.isdisjoint(range(m + 1, len(words)))


_COOKED = frozenset({"cook", "boil", "simmer", "blanch", "poach", "parboil", "soak"})


def _names_objects(words: Sequence[str], end: int, named: Set[int]) -> bool:
    """Whether all words before a colon name what is done something to."""
    return all(k in named or words[k] in _BETWEEN for k in range(end)) and any(k in named for k in range(end))


_BETWEEN = frozenset({"the", "a", "and", "&", "+", ",", "all", "both", "for", "rest", "of"})
_NAMED = 3
"""Words at the most, and a comma among them, that only name a food."""
_COLD = frozenset({"cold", "ice", "iced", "icy"})


def _lists_on(words: Sequence[str], i: int, named: Set[int]) -> bool:
    """ "The tomatoes", "with the potato": what goes along with food of which it was told how it is."""
    k = i + (words[i] in _ALONG)
    return k in named or (words[k : k + 1] == ["the"] and k + 1 in named)


_ALONG = frozenset({"with", "to", "into"})
_GOES_ON_LISTING = frozenset({",", ")", "and", "&"})


def _has_no_object(words: Sequence[str], m: int, named: set[int]) -> bool:
    """Whether a participle tells of what stands before it: "the beans, drained", not "drained the beans"."""
    return m + 1 < len(words) and m + 1 not in named and words[m + 1] not in _OBJECTS | _THIS


_DRY_BRINE = (["dry", "brine"], ["dry", "cure"])
_PASSIVE = frozenset({"be", "are", "is", "been", "was", "were"})


def _goes_on(tokens: Sequence[Token], words: Sequence[str], i: int, since: int) -> int:
    """ "Rub the salt in and after ten minutes wring them out", "it goes into a colander and is washed": where
    the verb stands of what is done next; 0 where there is none."""
    if words[i] == "after":
        return _done_after(tokens, i) if i > since else 0
    return _is_done_next(words, i) if i > since + 1 else 0


def _done_after(tokens: Sequence[Token], i: int) -> int:
    """Where the verb stands of "after ten minutes squeeze them dry", "after half an hour rinse"; 0 where no
    time is told, or nothing leaves its juice or water."""
    for k in range(i + 2, min(i + _LONGEST_WHEN, len(tokens))):
        if tokens[k - 1].stem in _TIME_WORDS:
            at = k + (tokens[k].text == ",") + 2 * (tokens[k].text == "or")  # "an hour or so"
            verb = verbs().get(tokens[at].text) if at < len(tokens) else None
            if verb is not None:
                return at if verb.form == "base" and _leaves_liquid(tokens, at, verb) else 0
    return 0


def _leaves_liquid(tokens: Sequence[Token], at: int, verb: Verb) -> bool:
    """ "Squeeze", "rinse", "pour off the juice", "throw the water away": what ends a wait."""
    if verb.base in AWAY_VERBS:
        return any(token.text in _AWAY for token in tokens[at + 1 : at + _LONGEST_WHEN])
    return verb.base in WRUNG_OUT or verb.act in _ENDS_WAIT


_AWAY = frozenset({"off", "away", "out"})
_ENDS_WAIT = frozenset({"rinse", "drain"})


def _is_done_next(words: Sequence[str], i: int) -> int:
    """Where the verb stands of "is (well) washed", behind what is done to the same food before; 0 where
    nothing is."""
    m = _skip(words, i + 1)
    verb = verbs().get(words[m]) if m < len(words) else None
    return m if verb is not None and verb.form == "past" and verb.act in _TAKES_SALT else 0


_TAKES_SALT = frozenset({"rinse", "drain", "soak", "dry", "boil", "discard"})
"""What is done next to food of which it was said where it goes: by these salt leaves it."""


def _is_done_in_turn(words: Sequence[str], m: int, verb: Verb) -> bool:
    """ "Should be grated, salted and left", "is put on in cold water and cooked for an hour"."""
    if verb.act in ("cook", "simmer"):
        return words[m - 1] == "and" and words[m + 1 : m + 2] == ["for"]
    return verb.act in _DONE_IN_TURN


_DONE_IN_TURN = frozenset({"season", "coat", "mix"})
"""What is done first or next where a sentence tells what is done: "should be grated, salted and left"."""


def _ends_waiting(verb: Verb) -> bool:
    """ "Leave for 20 minutes before squeezing": what is done then to what stood."""
    return verb.act in _LEAVE_LIQUID or verb.base in WRUNG_OUT


_LEAVE_LIQUID = frozenset({"drain", "rinse", "dry", "discard", "dredge"})
WRUNG_OUT = frozenset({"squeeze", "wring", "press"})


def _only_tells_when(tokens: Sequence[Token], comma: int) -> bool:
    """Whether what stands before a comma only tells when: "The night before, rub …"."""
    return comma <= _LONGEST_WHEN and any(t.stem in _TIME_WORDS or t.text == "before" for t in tokens[:comma])


_LONGEST_WHEN = 6
_LABEL_WORDS = 4


def _is_of_it(words: Sequence[str], begin: int, i: int) -> bool:
    """ "Cook the rice, in lots of salted water", "the rice is cooked apart, in salted water", "submerge the
    turkey, breast down, for 12 hours": one thing done, and not two."""
    if words[i] in _LASTS and i > 1 and words[i - 2] in _HOW_IT_LIES:
        return True
    i += 3 if list(words[i + 2 : i + 4]) == [",", "in"] else 0  # "in cubes, in salted water"
    if words[i] == "with" and words[begin] in _BOILS and "water" in words[begin:i]:
        return "then" not in words[i:]  # "boil the water in a pot, with the ginger and the salt"
    if words[i] != "in" or "water" not in words[i : i + _LONGEST_WHEN]:
        return False
    if words[i - 1] == ":" and i - begin <= _LABEL_WORDS:
        return True  # "Potatoes: in salted water, 20 minutes"
    said = (verbs().get(word) for word in words[begin:i])
    return any(verb is not None and verb.act in ("cook", "boil", "simmer") for verb in said)


_LASTS, _HOW_IT_LIES = frozenset({"for", "in"}), frozenset({"up", "down", "covered", "uncovered"})


def _which_goes(words: Sequence[str], which: int) -> int:
    """Where the verb stands of ", which you throw away", "which is poured off", "which have been drained"; 0
    where nothing goes, and nothing was done before."""
    before = not _DONE_BEFORE.isdisjoint(words[which + 1 : which + 3])
    for k in range(which + 1, min(which + 5, len(words))):
        verb = verbs().get(words[k])
        if before and verb is not None and verb.form == "past" and verb.act in _TAKES_SALT | _LAID:
            return k
        if verb is not None and (verb.base in AWAY_VERBS or verb.act == "discard"):
            return k if verb.act == "discard" or words[k + 1] in ("away", "off", "out") else 0
    return 0


_DONE_BEFORE = frozenset({"been", "have", "has", "had"})
_LAID = frozenset({"marinate", "brine", "cure", "season", "squeeze"})
"""What may have been done with food before: by these salt goes in, or leaves it."""
_BOILS = frozenset({"boil", "bring", "heat", "simmer"})


def _puts(word: str) -> bool:
    verb = verbs().get(word)
    return verb is not None and verb.act == "put"


_THIS = frozenset({"this", "these", "it", "them", "which", "that"})


_OBJECTS = frozenset({"the", "all", "together", "a", "your"})


def _made_for(words: Sequence[str]) -> int:
    """Where the verb stands of "For the dumplings mix flour, eggs and water", "In the evening mix the oil and
    salt", "next day drain"; 0 where there is none."""
    if words[0] != "for" and _TIME_WORDS.isdisjoint(words[1:_LONGEST_LEAD]):
        return 0
    for k in range(2, min(5, len(words) - 1)):
        verb = verbs().get(words[k])
        if verb is None or verb.form != "base":
            continue
        if words[k - 1] in _TIME_WORDS and verb.act in _ENDS_WAIT:
            return k
        if verb.act in ("mix", "boil", "heat", "put", "cut"):
            noun = words[k - 1] in ("the", "a", "your") or not words[k + 1].isalpha()
            return 0 if noun or words[k] == "spread" else k
    return 0


_LEADS = frozenset({"for", "in", "on", "at", "the", "next"})
_LONGEST_LEAD = 4
"""Words before a verb that tell what for or when."""
_ONCE, _AS_SOON = frozenset({"when", "once"}), ["as", "soon"]
_UNSAID = _ONCE | _COLD | {"as", "out", "into"}


def _skip(words: Sequence[str], i: int) -> int:
    while i < len(words) and (words[i] in _FILLERS or (words[i].endswith("ly") and len(words[i]) > 4)):
        if words[i] == "apply":
            break  # a verb, and no "thinly"
        i += 1
    return i
