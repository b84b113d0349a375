"""Ways to write a recipe that change nothing of what it says, each a function from a document to another.

A form gives None where it does not suit a recipe. A form of lines in another order, or with more of them,
says in `_places` which line of the document each of its lines is, None for none of them.
"""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterator
from typing import Any

from saltledger.method.method_words import verbs

from .sentence_cuts import Document, command, has_no_parts, is_head, sentences_in

Form = Callable[[Document], Document | None]


def _method(change: Callable[[str], str]) -> Form:
    return lambda document: {**document, "method": [change(each) for each in document["method"]]}


def _lines(change: Callable[[str], str]) -> Form:
    return lambda document: {**document, "ingredients": [change(each) for each in document["ingredients"]]}


def _both(change: Callable[[str], str]) -> Form:
    return lambda document: {
        **document,
        "ingredients": [change(each) for each in document["ingredients"]],
        "method": [change(each) for each in document["method"]],
    }


def _sentences(change: Callable[[str, int], str], between: str = " ") -> Form:
    def paragraph(text: str) -> str:
        if is_head(text):
            return text
        return between.join(change(each, i) for i, each in enumerate(sentences_in(text)))

    return _method(paragraph)


def _numbered(pattern: str) -> Form:
    def steps(document: Document) -> Document:
        n, found = 0, []
        for each in document["method"]:
            n += not is_head(each)
            found.append(each if is_head(each) else pattern.format(n=n, p=each))
        return {**document, "method": found}

    return steps


def _parted(document: Document) -> Document | None:
    if not has_no_parts(document):
        return None
    return {**document, "method": [each for p in document["method"] for each in sentences_in(p)]}


def _joined(document: Document) -> Document | None:
    if not has_no_parts(document):
        return None
    whole = " ".join(p if p.rstrip()[-1:] in ".!?;" else f"{p}." for p in document["method"])
    return {**document, "method": [whole]}


def _linked(told: Callable[[list[str]], Any], line: Callable[[str], str] = str) -> Form:
    return lambda document: {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": document["title"],
        "recipeYield": str(document["servings"]),
        "recipeIngredient": [line(each) for each in document["ingredients"]],
        "recipeInstructions": told(document["method"]),
    }


_ENTITIES = {"½": "&frac12;", "¼": "&frac14;", "°": "&deg;", "’": "&rsquo;", "–": "&ndash;", "é": "&eacute;"}


def _with_entities(text: str) -> str:
    text = text.replace("&", "&amp;")
    for sign, entity in _ENTITIES.items():
        text = text.replace(sign, entity)
    return re.sub(r"(?<=\d) (?=[a-z°C&])", "&nbsp;", text)


def _respelt(words: dict[str, str]) -> Callable[[str], str]:
    both = {**words, **{old.capitalize(): new.capitalize() for old, new in words.items()}}
    rule = re.compile(r"\b(" + "|".join(sorted(map(re.escape, both), key=len, reverse=True)) + r")\b")
    return lambda text: rule.sub(lambda found: both[found[1]], text)


_AMERICAN = {
    "litre": "liter", "litres": "liters", "millilitres": "milliliters", "colour": "color",
    "flavour": "flavor", "centimetre": "centimeter", "centimetres": "centimeters", "chilli": "chili",
    "chillies": "chilies", "savoury": "savory", "yoghurt": "yogurt",
    "mould": "mold", "fillet": "filet", "fillets": "filets",
}  # fmt: skip


def _replaced(*pairs: tuple[str, str]) -> Callable[[str], str]:
    def change(text: str) -> str:
        for pattern, new in pairs:
            text = re.sub(pattern, new, text)
        return text

    return change


_RANGE = r"(?<=\d) ?(?:–|-|to) ?(?=\d[\d.]* ?(?:min|h|sec|cm|g\b|ml|°|C\b|days|inch))"
_NUMBERS = "one two three four five six seven eight nine ten eleven twelve"
_WORDS = dict(enumerate(_NUMBERS.split(), 1))
_COUNTED = r"(?=(?:minutes?|hours?|days?|litres?|cups?|tablespoons?|teaspoons?|changes?|quarts?|weeks?)\b)"


def _in_words(text: str) -> str:
    number = rf"(?<![\d.,/½¼¾:x×–-])\b([1-9]|1[0-2]) {_COUNTED}"
    return re.sub(number, lambda found: f"{_WORDS[int(found[1])]} ", text)


def _small(sentence: str, i: int) -> str:
    return sentence if re.match(r"I\b", sentence) else sentence[:1].lower() + sentence[1:]


def _run_on(sign: str) -> Form:
    def paragraph(text: str) -> str:
        said = sentences_in(text)
        if is_head(text) or len(said) == 1:
            return text
        ends = [each.rstrip(".") for each in said[:-1]]
        return sign.join([ends[0], *(_small(each, 1) for each in (*ends[1:], said[-1]))])

    return _method(paragraph)


def _commanded(pattern: str, *, first: bool = True) -> Form:
    def change(sentence: str, i: int) -> str:
        if command(sentence) is None or not (first or i):
            return sentence
        return pattern.format(s=sentence[0].lower() + sentence[1:])

    return _sentences(change)


def _begun(sentence: str, i: int) -> str:
    verb = command(sentence)
    words = re.findall(r"[a-z]+", sentence[1:])
    if verb is None or any((v := verbs().get(word)) and v.form == "base" for word in words):
        return sentence
    base = verbs()[verb.lower()].base
    ing = next((word for word, v in verbs().items() if v.base == base and v.form == "ing"), None)
    return sentence if ing is None else f"Start by {ing}{sentence[len(verb) :]}"


def _with_lines(document: Document, pairs: Iterator[tuple[str, int | None]]) -> Document:
    found = list(pairs)
    return {**document, "ingredients": [line for line, _ in found], "_places": [place for _, place in found]}


def _headed(text: str) -> Form:
    def change(document: Document) -> Document:
        lines = document["ingredients"]
        return _with_lines(document, iter([(text, None), *((line, i) for i, line in enumerate(lines))]))

    return change


def _backwards(document: Document) -> Document | None:
    lines = document["ingredients"]
    if any((not re.search(r"[\d½¼¾]", each) and each[:1].isupper()) or each[:1] == "#" for each in lines):
        return None  # a line that may head others
    return _with_lines(document, ((lines[i], i) for i in reversed(range(len(lines)))))


_BEHIND = re.compile(
    r"^([\d½¼¾/.]+(?: \d/\d)? ?(?:k?g|m?l|tbsp|tsp|cups?|oz|lbs?)) ((?!of )[a-z][a-z -]+)((?:,| \().*)?$"
)


def _amount_behind(how: str) -> Callable[[str], str]:
    def change(line: str) -> str:
        found = _BEHIND.match(line)
        return line if found is None else how.format(found[1], found[2].capitalize(), found[3] or "")

    return change


def _spoons(tablespoon: str, teaspoon: str) -> Callable[[str], str]:
    return _replaced(
        (r"\b(?:tsp|teaspoons?)\b\.?", teaspoon), (r"\b(?:[Tt]bsp|tablespoons?)\b\.?", tablespoon)
    )


def _before(*told: str) -> Form:
    return lambda document: {**document, "method": [*told, *document["method"]]}


def _behind(*told: str) -> Form:
    return lambda document: {**document, "method": [*document["method"], *told]}


def _between(told: str) -> Form:
    return _sentences(lambda s, i: f"{s if s[-1:] in '.!?' else s + '.'} {told}")


def _apart(told: str) -> Form:
    return lambda document: {**document, "method": [x for p in document["method"] for x in (p, told)]}


_HTML = {
    "ol": ("<ol>\n{}\n</ol>", "  <li><span>{}</span></li>\n"),
    "p": ("{}", "<p>{}</p>"),
    "br": ("{}", "{}<br />"),
}
_STEP = "@type", "HowToStep"

PARAGRAPHS: dict[str, Form] = {
    "a sentence a paragraph": _parted,
    "one paragraph": _joined,
    "one text": lambda document: {**document, "method": "\r\n\r\n".join(document["method"])},
} | {
    f"steps {pattern}": _numbered(pattern)
    for pattern in (
        "{n}. {p}", "{n}) {p}", "({n}) {p}", "{n} - {p}", "Step {n}: {p}", "STEP {n} {p}", "Step {n} – {p}",
        "Step {n}\n{p}", "**Step {n}:** {p}", "Step {n} – The next part\n{p}", "{n}\n{p}", "- {p}", "• {p}",
        "* {p}", "▢ {p}", "[ ] {p}",
    )
}  # fmt: skip
LINKED: dict[str, Form] = {
    "JSON-LD text": _linked("\n".join),
    "JSON-LD steps": _linked(lambda told: [dict([_STEP], text=each) for each in told]),
    "JSON-LD section": _linked(
        lambda told: [
            {
                "@type": "HowToSection",
                "name": "Method",
                "itemListElement": [dict([_STEP], text=each) for each in told],
            }
        ]
    ),
    "HTML entities": _linked(lambda told: [_with_entities(each) for each in told], _with_entities),
} | {
    f"HTML {name}": _linked(
        lambda told, whole=whole, each=each: whole.format(
            "".join(each.format(html.escape(p, quote=False)) for p in told)
        )
    )
    for name, (whole, each) in _HTML.items()
}
SPELLING: dict[str, Form] = {
    "American": _both(_respelt(_AMERICAN)),
    "British": _both(_respelt({new: old for old, new in _AMERICAN.items()})),
    "10 min": _method(_replaced((r"(?<=\d) ?minutes?\b", " min"))),
    "10 mins": _method(_replaced((r"(?<=\d) ?minutes\b", " mins"))),
    "10 min.": _method(_replaced((r"(?<=\d) ?minutes?\b(?! ?[.,;:)])", " min."))),
    "10min": _method(_replaced((r"(?<=\d) ?minutes?\b", "min"))),
    "2 hrs": _method(_replaced((r"(?<=\d) ?hours\b", " hrs"), (r"(?<=\d) ?hour\b", " hr"))),
    "2 h": _method(_replaced((r"(?<=\d) ?hours?\b", " h"))),
    "200C": _method(_replaced((r" ?°C\b", "C"))),
    "200 degrees C": _method(_replaced((r"(?<=\d) ?° ?C\b", " degrees C"))),
    "numbers in words": _method(_in_words),
    "curly quotes": _both(_replaced((r"(?<=\w)'(?=\w)", "’"))),
    "long dashes": _both(_replaced((r" [–-] ", " — "))),
    "hard blanks": _both(lambda text: text.replace(" ", "\u00a0")),
    "double blanks": _both(lambda text: text.replace(" ", "  ")),
    "unseen signs": _both(lambda text: text.replace(" ", " \u200b", 2)),
    "soft hyphens": _method(_replaced((r"\b([a-z]{4})([a-z]{4,})\b", "\\1\u00ad\\2"))),
    "capitals in the method": _method(str.upper),
    "capitals in the list": _lines(str.upper),
    "no capitals": _method(str.lower),
    "no last stop": _method(lambda text: text if text.endswith("..") else text.rstrip(".")),
    "semicolons": _run_on("; "),
    "three dots": _run_on("... "),
    "cries": _sentences(lambda s, i: re.sub(r"\.$", "!", s)),
    "no blank behind a stop": _sentences(lambda s, i: s, ""),
} | {f"2{sign}3 minutes": _both(_replaced((_RANGE, sign))) for sign in ("–", "-", " to ", " - ", "—")}
BESIDE: dict[str, Form] = (
    {
        f"between: {told}": _between(told)
        for told in (
            "This is my favourite part.", "Enjoy!", "Take your time.", "(See photo.)", "[image]", "Trust me.",
            "It will smell wonderful.",
        )
    }
    | {
        f"apart: {told}": _apart(told)
        for told in ("Advertisement", "Sign up to our newsletter for more recipes like this.")
    }
    | {
        f"behind: {told[0]}": _behind(*told)
        for told in (
            ("Leftovers keep for 3 days in the fridge.",),
            ("Notes", "It keeps for 3 days in the fridge.", "They can be frozen for up to 2 months."),
            ("Tip: it tastes even better the next day.",),
            ("Per serving: 420 kcal, 12 g fat, 30 g protein, 1.8 g salt.",),
            ("Nutrition", "Calories 420, sodium 800 mg, fat 12 g"),
            ("Prep time: 15 minutes. Cook time: 40 minutes.",),
        )
    }
    | {
        f"before: {told[0]}": _before(*told)
        for told in (
            ("Method",), ("Directions:",), ("Equipment: large pot, colander, sharp knife.",),
            ("Gather all your ingredients.",), ("Wash your hands.",), ("Serves 4.",),
        )
    }
)  # fmt: skip
LIST: dict[str, Form] = (
    {
        f"lines {mark}": _lines(lambda line, mark=mark: line if line[:1] in "#*" else f"{mark}{line}")
        for mark in ("- ", "• ", "* ", "▢ ", "[ ] ", "·")
    }
    | {
        "lines numbered": lambda document: {
            **document,
            "ingredients": [f"{i}. {line}" for i, line in enumerate(document["ingredients"], 1)]
            if all(re.search(r"\d", line) for line in document["ingredients"])
            else document["ingredients"],
        },
        "lines backwards": _backwards,
        "lines in HTML": _lines(lambda line: f"<li><span>{html.escape(line, quote=False)}</span></li>"),
        "bold names": _lines(_replaced((r"^([\d/.]+ ?(?:k?g|m?l|tbsp|tsp|cups?)\b) ([a-z]+)", r"\1 **\2**"))),
        "½": _lines(_replaced((r"(?<![\d/])1/2(?![\d/])", "½"), (r"(?<=\d) ½", "½"))),
        "1/2": _lines(_replaced((r"(?<=\d) ?½", " 1/2"), ("½", "1/2"))),
        "0.5": _lines(_replaced((r"^(\d+) (?:½|1/2)(?= )", r"\1.5"), (r"^(?:½|1/2)(?= )", "0.5"))),
        "500g": _lines(_replaced((r"^(\d+) (g|kg|ml|l)\b", r"\1\2"))),
        "500 grams": _lines(_replaced((r"^(\d+) ?g\b", r"\1 grams"))),
        "a link behind": _lines(lambda line: f"{line} (see link)" if re.search(r"\d", line) else line),
    }
    | {
        f"spoons: {a}": _lines(_spoons(a, b))
        for a, b in (("Tbsp.", "Tsp."), ("tablespoon", "teaspoon"), ("T", "t"))
    }
    | {
        f"amount behind{how}": _lines(_amount_behind(how))
        for how in ("{1} – {0}{2}", "{1}: {0}{2}", "{1}, {0}{2}", "{1} ({0}){2}")
    }
    | {
        f"list headed {text}": _headed(text)
        for text in ("Ingredients:", "INGREDIENTS", "You will need (serves 4)")
    }
)
PERSON: dict[str, Form] = {
    pattern: _commanded(pattern)
    for pattern in (
        "You {s}", "We {s}", "I {s}", "Now {s}", "Now, {s}", "Next, {s}", "Next {s}", "Please {s}",
        "Simply {s}", "Go ahead and {s}", "You need to {s}", "You'll want to {s}",
        "You have to {s}", "You should {s}", "Make sure to {s}", "Don't forget to {s}", "I like to {s}",
        "Let's {s}", "It's time to {s}", "So {s}", "All you do is {s}", "The next step is to {s}",
        "We are going to {s}", "Afterwards {s}", "After that, {s}",
        "Carefully {s}", "Quickly {s}",
    )
} | {
    "Then {s}": _commanded("Then {s}", first=False),
    "Then you {s}": _commanded("Then you {s}", first=False),
    "Start by": _sentences(_begun),
}  # fmt: skip
FORMS: dict[str, Form] = PARAGRAPHS | LINKED | SPELLING | BESIDE | LIST | PERSON
"""All forms by their names."""
