"""Measured against computed, one SVG picture: for each case a bar from low to high, a dot at likely.

Both axes are ratios on a logarithmic scale: the measurement is 1, so that cases of all units stand in one
picture. Drawn with presentation attributes alone, so that it may stand inline in a page.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape
from itertools import groupby

from ..core.numbers import shown
from ..core.spread import Spread

WIDTH, ROW, TOP, LEFT, RIGHT, FOOT = 720, 4, 34, 150, 20, 40
INSIDE, OUTSIDE = "#188a9c", "#c23b22"
NARROWEST, WIDEST = 0.25, 4.0
_TICKS = (0.25, 0.5, 1.0, 2.0, 4.0)


@dataclass(frozen=True, slots=True)
class Measured:
    """A published figure and the range that is computed for it. group: what it is drawn among, in words."""

    group: str
    name: str
    published: float
    range: Spread
    inside: bool

    @property
    def ratio(self) -> float:
        return self.range.likely / self.published


def evidence_svg(measured: Sequence[Measured]) -> str:
    """The picture: measurements above 0 group by group in the order given, each group by computed ratio."""
    drawable = [each for each in measured if each.published > 0]
    groups = {
        name: sorted(group, key=lambda each: each.ratio)
        for name, group in groupby(drawable, key=lambda each: each.group)
    }
    height = TOP + FOOT + sum(len(group) * ROW + 26 for group in groups.values())
    inside = sum(each.inside for each in measured)
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" role="img" '
            'font-family="system-ui, sans-serif" font-size="12" fill="currentColor">',
            f"<title>Computed range over measurement: {inside} of {len(measured)} measurements "
            "inside</title>",
            *_grid(height),
            *_groups(groups),
            "</svg>",
            "",
        )
    )


def _x(ratio: float) -> float:
    share = math.log(min(max(ratio, NARROWEST), WIDEST) / NARROWEST) / math.log(WIDEST / NARROWEST)
    return LEFT + (WIDTH - LEFT - RIGHT) * share


def _grid(height: int) -> list[str]:
    lines = []
    for tick in _TICKS:
        x, weight = _x(tick), 1.5 if tick == 1 else 0.5
        lines.append(
            f'<line x1="{x:.1f}" x2="{x:.1f}" y1="{TOP}" y2="{height - FOOT}" stroke="currentColor" '
            f'stroke-width="{weight}" stroke-opacity="0.4"/>'
            f'<text x="{x:.1f}" y="{height - FOOT + 16}" text-anchor="middle">{shown(tick)}</text>'
        )
    middle = (LEFT + WIDTH - RIGHT) / 2
    return [
        *lines,
        f'<text x="{middle:.0f}" y="18" text-anchor="middle">computed over measured</text>',
    ]


def _groups(groups: Mapping[str, Sequence[Measured]]) -> list[str]:
    drawn, y = [], TOP + 12
    for name, group in groups.items():
        inside = sum(each.inside for each in group)
        drawn.append(f'<text x="0" y="{y + 6}">{escape(name)}</text>')
        drawn.append(f'<text x="0" y="{y + 21}" fill-opacity="0.7">{inside} of {len(group)} inside</text>')
        for each in group:
            drawn.append(_bar(each, y))
            y += ROW
        y += 26
    return drawn


def _bar(each: Measured, y: int) -> str:
    colour = INSIDE if each.inside else OUTSIDE
    low, likely, high = (
        _x(value / each.published) for value in (each.range.low, each.range.likely, each.range.high)
    )
    told = escape(f"{each.name}: measured {shown(each.published, 6)}, computed {shown(each.range.likely)}")
    return (
        f'<g stroke="{colour}"><title>{told}</title><line x1="{low:.1f}" x2="{high:.1f}" y1="{y}" y2="{y}" '
        f'stroke-width="1.6"/><circle cx="{likely:.1f}" cy="{y}" r="1.6" fill="{colour}"/></g>'
    )
