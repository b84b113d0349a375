"""The picture of where sodium came from and went: bands from components to the places where it ended.

Only geometry, in the picture's own units; the page draws it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

EATEN = "eaten"
WIDTH, BAR, LABEL_ROOM = 800.0, 14.0, 225.0
GAP, TALL, LEAST, LABEL = 28.0, 260.0, 2.0, 16.0


@dataclass(frozen=True, slots=True)
class Bar:
    """One end of the picture: a component on the left or a place on the right."""

    name: str
    mg: float
    percent: float
    x: float
    y: float
    height: float

    @property
    def middle(self) -> float:
        return self.y + self.height / 2


@dataclass(frozen=True, slots=True)
class Band:
    """Sodium of one component that ended in one place; `path` is SVG path data."""

    origin: str
    place: str
    mg: float
    path: str
    eaten: bool


@dataclass(frozen=True, slots=True)
class Picture:
    """All of it, `width` by `height`."""

    width: float
    height: float
    origins: tuple[Bar, ...]
    places: tuple[Bar, ...]
    bands: tuple[Band, ...]


def picture(origins: Sequence[Mapping[str, Any]]) -> Picture:
    """Lay out `sodium.origins` of an answer: heights in proportion to mg, never thinner than a hair."""
    flows = {(each["component"], each["place"]): float(each["mg"]) for each in origins}
    whole = sum(flows.values())
    if whole <= 0:
        return Picture(WIDTH, 0.0, (), (), ())
    scale = TALL / whole
    givers = _bars(_sums(flows, 0), LABEL_ROOM, scale)
    places = sorted(_sums(flows, 1).items(), key=lambda pair: pair[0] != EATEN)
    takers = _bars(dict(places), WIDTH - LABEL_ROOM - BAR, scale)
    height = max(max(bars[-1].y + bars[-1].height, bars[-1].middle + LABEL) for bars in (givers, takers)) + 4
    return Picture(WIDTH, height, givers, takers, _bands(flows, givers, takers, scale))


def _sums(flows: Mapping[tuple[str, str], float], end: int) -> dict[str, float]:
    """mg by component (end 0) or by place (end 1)."""
    found: dict[str, float] = {}
    for ends, mg in flows.items():
        found[ends[end]] = found.get(ends[end], 0.0) + mg
    return found


def _bars(amounts: Mapping[str, float], x: float, scale: float) -> tuple[Bar, ...]:
    bars: list[Bar] = []
    y, whole = GAP / 2, sum(amounts.values())
    for name, mg in amounts.items():
        if mg <= 0:
            continue
        height = max(mg * scale, LEAST)
        bars.append(Bar(name, mg, 100 * mg / whole, x, y, height))
        y += max(height, 8.0) + GAP
    return tuple(bars)


def _bands(
    flows: Mapping[tuple[str, str], float], origins: Sequence[Bar], places: Sequence[Bar], scale: float
) -> tuple[Band, ...]:
    leaving = {bar.name: bar.y for bar in origins}
    arriving = {bar.name: bar.y for bar in places}
    bands: list[Band] = []
    for origin in origins:
        for place in places:
            mg = flows.get((origin.name, place.name), 0.0)
            if mg <= 0:
                continue
            path = _ribbon(
                origin.x + BAR,
                leaving[origin.name],
                place.x,
                arriving[place.name],
                max(mg * scale, LEAST / 2),
            )
            bands.append(Band(origin.name, place.name, mg, path, place.name == EATEN))
            leaving[origin.name] += mg * scale
            arriving[place.name] += mg * scale
    return tuple(bands)


def _ribbon(x0: float, y0: float, x1: float, y1: float, thick: float) -> str:
    """Path data of a band from (x0, y0) to (x1, y1), its upper edge, `thick` units high."""
    bend, lower0, lower1 = (x0 + x1) / 2, y0 + thick, y1 + thick
    return (
        f"M{x0:.1f},{y0:.1f} C{bend:.1f},{y0:.1f} {bend:.1f},{y1:.1f} {x1:.1f},{y1:.1f} "
        f"V{lower1:.1f} C{bend:.1f},{lower1:.1f} {bend:.1f},{lower0:.1f} {x0:.1f},{lower0:.1f} Z"
    )
