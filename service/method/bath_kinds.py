"""What kind of cold step food lies in: told by what is in the bath and by what the method calls it."""

from __future__ import annotations

from collections.abc import Collection

from .happenings import SALTING, WET

_AS_SAID = {"brine": "brine", "pickle": "brine", "cure": "cure", "marinate": "marinade"}
_SOAKED = frozenset({"soak", "steep"})
STARCHES = frozenset({"pasta", "grain", "potato"})
"""What "toss all the ingredients" means only later, when it is cooked: nothing marinates in it."""
_FLAVOURS = SALTING | {"savoury", "acid"}


_WETS = WET | {"egg"}
"""What food lies wet in, beaten egg among that."""


_OF_JARS = frozenset({"salty"})
"""The juice that pickles are sold in."""


def kind_of_bath(
    said: str, kinds: Collection[str], *, watery: bool = False, salty: bool = False, is_paste: bool = False
) -> str:
    """brine, marinate, soak or dry_cure. said: its verb or its name, "" where the method has none.

    kinds: of the lines in it; watery, salty: water or salt is in it, of a line or of the method alone;
    is_paste: what is wet in it only makes its salt stick.
    """
    of = frozenset(kinds)
    watery, salty = watery or "water" in of, salty or bool(of & SALTING)
    wet = watery or bool(of & _WETS)
    if said in _SOAKED and not (watery and salty):
        return "soak" if watery or not of & _FLAVOURS else "marinate"
    name = _AS_SAID.get(said, said)
    if name == "marinade" and watery:
        return "marinate" if salty or of - {"water"} else "soak"
    if name == "brine":
        return "brine" if watery or of & (WET - {"oil"}) or of == _OF_JARS else "dry_cure"
    if watery and (salty or name == "cure"):
        return "brine"
    if wet and not (is_paste or (name == "cure" and not of & (_WETS - {"oil"}))):
        return "marinate"
    return "dry_cure" if salty or name == "cure" else "marinate"
