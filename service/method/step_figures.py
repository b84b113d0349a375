"""The figures of a step: stated, else as is usual, with a question where much may hang on them."""

from __future__ import annotations

from ..core.numbers import shown
from ..transfer.usual import desalted_cm
from .clauses import Clause
from .coated_pieces import note_thin_pieces
from .happenings import PROTEINS, Happening
from .hours_meant import other_waits
from .layout import DISH, Step
from .left_to_the_cook import joint_cm, stated_cm, thickness_of
from .listed import ListedLine, is_thin_leaf
from .questions import Choice, Doubts, figures_of
from .reading_state import COLD, HOT, ReadingState
from .stakes import is_salty

COLD_C = 4.0
_LARDER_C = 18.0
_STANDS_H = 12.0
"""Hours from which on pickles stand in a larder."""
_TIMELESS = frozenset({"drain", "dredge", "inject", "squeeze", "press"})
_SCALDS = frozenset({"scald", "blanch"})
_SCALD_H = 0.05
"""Hours that something is scalded or blanched, where nobody says; common practice, no source."""
_LENGTHS = frozenset({"length", "lengths", "long"})
_OVEN_C = 95.0
"""Below this a temperature that a roast is said to have is that of its centre, not of the oven."""
_LONGEST_RINSE_H = 1.0
"""Above this a time beside "rinse" is that of what follows: "rinse, dry overnight"."""
_THOROUGH_H = 0.05
_THOROUGHLY = ("thoroughly", "well", "times", "twice", "several")


def state_figures(state: ReadingState, doubts: Doubts, happening: Happening, step: Step) -> None:
    if happening.kind == "dredge":
        note_thin_pieces(state, happening, step)
    if happening.kind in _TIMELESS:
        return
    body = step.body
    if happening.hours is not None:
        body["duration_h"] = round(_of_several(state, doubts, happening, step, happening.hours.likely), 4)
        step.stated.append("duration_h")
    elif happening.kind in HOT:
        if happening.clause.base in _SCALDS:
            body["duration_h"] = _SCALD_H
            step.assumed.append("duration_h")
    else:
        _asked_hours(doubts, happening, step)
    inside = happening.kind in ("roast", "fry") and (happening.celsius or 0) < _OVEN_C
    if (
        happening.celsius is not None
        and not inside
        and (happening.kind not in COLD or happening.celsius < 60)
    ):
        body["temperature_c"] = happening.celsius
        step.stated.append("temperature_c")
    elif (
        happening.celsius is None
        and happening.kind in ("brine", "marinate", "dry_cure")
        and happening.hours is not None
        and happening.hours.likely > 1
    ):
        if _is_kept_cold(state, happening):
            body["temperature_c"] = COLD_C
            step.assumed.append("temperature_c")
        elif happening.hours.likely >= _STANDS_H:
            body["temperature_c"] = _LARDER_C
            step.assumed.append("temperature_c")
    if happening.kind == "ferment" and "bath" in body:
        _thickness(state, doubts, happening, step)
    elif happening.kind in COLD:
        _thickness(state, doubts, happening, step)
        if happening.water_changes:
            body["water_changes"] = happening.water_changes
            step.stated.append("water_changes")
        elif happening.kind == "soak" and _draws_salt(state, happening):
            if changes := _asked_changes(doubts, happening, step):
                body["water_changes"] = changes
    elif happening.kind in HOT:
        _thickness_in_pot(state, happening, step)


def _thickness_in_pot(state: ReadingState, happening: Happening, step: Step) -> None:
    """What all that lies in a pot was cut to before, as stated; else how thick one joint or bird alone is."""
    kept = [line for line in happening.foods if line not in state.thrown_out]
    cuts = {_cut_before(state, line, happening) for line in kept}
    if len(cuts) == 1 and (cut := cuts.pop()) is not None:
        step.body["thickness_cm"] = round(cut, 2)
        step.stated.append("thickness_cm")
    elif len(kept) == 1 and not cuts and (usual := joint_cm(state.lines[kept[0]])) is not None:
        step.body["thickness_cm"] = round(usual, 2)
        step.assumed.append("thickness_cm")


def _cut_before(state: ReadingState, line: int, happening: Happening) -> float | None:
    """How thick the method, else its line, says that a food was cut; None where only afterwards, or not."""
    clause, listed = state.thickness.get(line), state.lines[line]
    if (
        listed.kind == "pasta"
        or is_thin_leaf(listed)
        or _LENGTHS & (set(listed.text.lower().split()) if clause is None else clause.words)
    ):
        return None  # "macaroni in 1-inch pieces", "beans in lengths of 3 cm": no thickness
    if clause is None:
        return stated_cm(listed)
    return _no_thicker(listed, clause.thickness) if _is_before(clause, happening) else None


def _is_before(clause: Clause, happening: Happening) -> bool:
    """Whether a clause stands before a step: what is cut afterwards lay there whole."""
    return clause.place <= happening.clause.place


def _no_thicker(listed: ListedLine, cut: float | None) -> float | None:
    """What a cook says of a size, in cm: no thickness of leaves, which large pieces keep."""
    usual = thickness_of([listed]) if cut is not None and is_thin_leaf(listed) else None
    return None if cut is None or (usual is not None and cut > usual) else cut


def _thickness(state: ReadingState, doubts: Doubts, happening: Happening, step: Step) -> None:
    cuts = state.thickness
    cut_up = [n for n in happening.foods if n in cuts and _is_before(cuts[n], happening)]
    said = [cm for n in cut_up if (cm := _no_thicker(state.lines[n], cuts[n].thickness)) is not None]
    if happening.thickness is not None:
        said.append(happening.thickness)
    if said:
        step.body["thickness_cm"] = round(said[0], 2)
        step.stated.append("thickness_cm")
    elif usual := thickness_of(state.lines[line] for line in happening.foods):
        if (cm := _asked_thickness(state, doubts, happening, step, usual)) is not None:
            step.body["thickness_cm"] = round(cm, 2)
            step.assumed.append("thickness_cm")


def _asked_thickness(
    state: ReadingState, doubts: Doubts, happening: Happening, step: Step, usual: float
) -> float | None:
    """The usual thickness, or as a person says: what a brine does hangs on it, and what salt fish loses.
    None where the hours tell it: salt fish is soaked until it can be eaten."""
    kind = happening.kind
    by_hours = kind == "soak" and usual >= _THICK_CM and _is_unsized_fish(state, happening)
    if by_hours:
        usual = desalted_cm("fish", happening.hours and happening.hours.likely)
    asked = kind in ("brine", "dry_cure") or (kind == "marinate" and happening.eaten != 1.0)
    times, likely = figures_of("thickness"), _size_said(state, happening, usual)
    if not (asked or (kind == "soak" and (_draws_salt(state, happening) or _is_salty(state, happening)))):
        return None if by_hours else usual * times[likely]
    told = {name: shown(usual * many, 2) for name, many in times.items()}
    chosen = _asked(doubts, "thickness", happening, likely, step, **told)
    return None if by_hours and chosen == "usual" else usual * times[chosen]


def _is_unsized_fish(state: ReadingState, happening: Happening) -> bool:
    """Whether all that lies there is fish, of which no line tells the thickness."""
    return all(state.kind(n) == "fish" and stated_cm(state.lines[n]) is None for n in happening.foods)


_THICK_CM = 1.5
"""Thickness of meat or fish, cm, from which on "thin" has not been counted yet: our own judgement."""


def _size_said(state: ReadingState, happening: Happening, usual: float) -> str:
    """What lines say of meat or fish that no figure tells: "4 thin beef steaks"."""
    texts = [state.lines[n].text for n in happening.foods if state.kind(n) in PROTEINS]
    thin = usual >= _THICK_CM and any("thin" in text.lower().split() for text in texts)
    return "thinner" if thin else "usual"


_DRAWS_SALT_H = 4.0


def _draws_salt(state: ReadingState, happening: Happening) -> bool:
    """Whether salt meat or fish lies in water so long that it is changed, said or not."""
    if "milk" in map(state.kind, happening.liquid):
        return False
    lies_long = happening.hours is None or happening.hours.likely >= _DRAWS_SALT_H
    return lies_long and bool(set(map(state.kind, happening.foods)) & PROTEINS)


def _is_salty(state: ReadingState, happening: Happening) -> bool:
    """Whether food that was salted before it was bought lies in water: greens, olives, cheese in brine."""
    return any(state.kind(n) in ("salty", "cheese") or is_salty(state.lines[n]) for n in happening.foods)


def _asked_changes(doubts: Doubts, happening: Happening, step: Step) -> int:
    """How often the water of salt meat or fish is changed, where nobody says so."""
    return int(figures_of("changes")[_asked(doubts, "changes", happening, "never", step)])


def _of_several(state: ReadingState, doubts: Doubts, happening: Happening, step: Step, hours: float) -> float:
    """The hours that were read, or another time that the method names, as a person says."""
    others = other_waits(state, hours) if happening.kind in ("brine", "dry_cure", "marinate") else ()
    if not others:
        return hours
    times = {f"{shown(h, 3)}": h for h in sorted((hours, *others))}
    choices = tuple(Choice(name, f"{name} h.") for name in times)
    message = f"How long does the {_names(step.body['food'])} lie there? The method names several times."
    bath, likely = step.body.get("bath", DISH), f"{shown(hours, 3)}"
    return times[doubts.settle("hours", happening.clause.sentence, message, choices, likely, bath)]


def _asked_hours(doubts: Doubts, happening: Happening, step: Step) -> None:
    """Hours that nobody says: left to what is usual, or as a person says."""
    if happening.kind not in ("brine", "dry_cure", "marinate"):
        return
    jars = happening.put_up or (happening.kind == "brine" and happening.clause.has("jar", "jars"))
    likely = "weeks" if jars else "unsaid"
    chosen = _asked(doubts, "hours", happening, likely, step)
    taken = figures_of("hours")[chosen]
    if taken:
        step.body["duration_h"] = taken
        (step.assumed if chosen == likely else step.stated).append("duration_h")


def _asked(doubts: Doubts, question: str, happening: Happening, likely: str, step: Step, **told: str) -> str:
    bath, food = step.body.get("bath", DISH), _names(step.body["food"])
    return doubts.ask(question, happening.clause.sentence, likely, bath, food=food, **told)


def _names(food: str | list[str]) -> str:
    return (food if isinstance(food, str) else " and ".join(food[:2])).replace("-", " ")


def _is_kept_cold(state: ReadingState, happening: Happening) -> bool:
    """Meat and fish lie in the cold; pickles stand where they are, unless the method names a fridge."""
    return bool(set(map(state.kind, happening.foods)) & (PROTEINS | {"cheese"}))


def rinse_step(clause: Clause, food: str | list[str], confidence: float) -> Step:
    """What comes out of a brine or cure, rinsed: as long as said, briefly where nothing is."""
    step = Step({"kind": "rinse", "food": food}, clause, confidence, [], [])
    if clause.hours and clause.hours[0].likely <= _LONGEST_RINSE_H:
        step.body["duration_h"] = round(clause.hours[0].likely, 4)
        step.stated.append("duration_h")
    elif clause.has(*_THOROUGHLY):
        step.body["duration_h"] = _THOROUGH_H
        step.assumed.append("duration_h")
    return step
