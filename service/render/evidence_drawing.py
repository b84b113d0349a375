"""Measured against computed, one SVG picture: for each case a bar from low to high, a dot at likely.

Both axes are ratios on a logarithmic scale: the measurement is 1, so that cases of all units stand in one
picture. Drawn with presentation attributes alone, so that it may stand inline in a page.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from html import escape

from ..evidence.coverage import Held, kinds

WIDTH, ROW, TOP, LEFT, RIGHT, FOOT = 720, 4, 34, 150, 20, 40
INSIDE, OUTSIDE = "#188a9c", "#c23b22"
NARROWEST, WIDEST = 0.25, 4.0
_TICKS = (0.25, 0.5, 1.0, 2.0, 4.0)


def evidence_svg(held: Sequence[Held]) -> str:
    """The picture of cases, by kind, each kind sorted by likely over measured."""
    groups = [(kind, _sorted(held, kind)) for kind in kinds()]
    groups = [(kind, group) for kind, group in groups if group]
    height = TOP + FOOT + sum(len(group) * ROW + 26 for _, group in groups)
    inside = sum(each.inside for each in held)
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" role="img" '
            'font-family="system-ui, sans-serif" font-size="12" fill="currentColor">',
            f"<title>Computed range over measurement: {inside} of {len(held)} measurements inside</title>",
            *_grid(height),
            *_groups(groups),
            "</svg>",
            "",
        )
    )


def _sorted(held: Sequence[Held], kind: str) -> list[Held]:
    group = [each for each in held if each.case.kind == kind and each.case.published > 0]
    return sorted(group, key=lambda each: each.range.likely / each.case.published)


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
            f'<text x="{x:.1f}" y="{height - FOOT + 16}" text-anchor="middle">{tick:g}</text>'
        )
    middle = (LEFT + WIDTH - RIGHT) / 2
    return [
        *lines,
        f'<text x="{middle:.0f}" y="18" text-anchor="middle">computed over measured</text>',
    ]


def _groups(groups: Sequence[tuple[str, Sequence[Held]]]) -> list[str]:
    drawn, y = [], TOP + 12
    for kind, group in groups:
        inside = sum(each.inside for each in group)
        drawn.append(f'<text x="0" y="{y + 6}">{escape(kinds()[kind].label)}</text>')
        drawn.append(f'<text x="0" y="{y + 21}" fill-opacity="0.7">{inside} of {len(group)} inside</text>')
        for each in group:
            drawn.append(_bar(each, y))
            y += ROW
        y += 26
    return drawn


def _bar(each: Held, y: int) -> str:
    colour = INSIDE if each.inside else OUTSIDE
    low, likely, high = (
        _x(value / each.case.published) for value in (each.range.low, each.range.likely, each.range.high)
    )
    told = escape(f"{each.case.id}: measured {each.case.published:g}, computed {each.range.likely:.3g}")
    return (
        f'<g stroke="{colour}"><title>{told}</title><line x1="{low:.1f}" x2="{high:.1f}" y1="{y}" y2="{y}" '
        f'stroke-width="1.6"/><circle cx="{likely:.1f}" cy="{y}" r="1.6" fill="{colour}"/></g>'
    )
