"""A bath's uptake over time as one SVG picture: mean and centre with their ranges, and the stated time.

Drawn with presentation attributes alone (no style, script or outside file), so that it may stand inline in a
page with a strict content policy. Text takes the page's own colour; the two hues hold 3:1 on white and black.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from html import escape

from ..core.numbers import percent, shown, whole
from ..core.spread import Spread

WIDTH, HEIGHT = 640, 380
_LEFT, _RIGHT, _TOP, _BOTTOM = 56, 18, 44, 52
_MEAN, _CENTRE = "#188a9c", "#b8672a"
_FEWEST_TICKS = 5
_DAY_H = 24.0


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """Shares of equilibrium (0 to 1) on average and at the centre after `time_h`."""

    time_h: float
    mean: Spread
    centre: Spread


@dataclass(frozen=True, slots=True)
class UptakeCurve:
    """What the picture shows: a piece of food that takes up salt, in a bath or under dry salt.

    points: from the start on. duration_h: as stated; mean, centre: likely shares of equilibrium (0 to 1) by
    then.
    ready_h: when the centre has likely come to ready_share (0 to 1).
    """

    food_class: str
    thickness_cm: float
    in_bath: bool
    points: tuple[CurvePoint, ...]
    duration_h: float
    mean: float
    centre: float
    ready_share: float
    ready_h: float


@dataclass(frozen=True, slots=True)
class _Frame:
    """The plane of the plot: hours to the right, percent of equilibrium up."""

    last_h: float

    def x(self, hour: float) -> float:
        return _LEFT + (WIDTH - _LEFT - _RIGHT) * hour / self.last_h

    def y(self, share: float) -> float:
        return HEIGHT - _BOTTOM - (HEIGHT - _TOP - _BOTTOM) * share

    def point(self, hour: float, share: float) -> str:
        return f"{self.x(hour):.1f},{self.y(share):.1f}"


def uptake_svg(uptake: UptakeCurve, name: str = "uptake") -> str:
    """The picture; `name` prefixes its ids, so that several may stand in one page."""
    points = uptake.points
    frame = _Frame(points[-1].time_h or 1.0)
    prefix = escape(name, quote=True)
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" '
            f'aria-labelledby="{prefix}-title {prefix}-desc" font-family="system-ui, sans-serif" '
            'font-size="13" fill="currentColor">',
            f'<title id="{prefix}-title">{escape(_title(uptake))}</title>',
            f'<desc id="{prefix}-desc">{escape(_description(uptake))}</desc>',
            *_grid(frame, "in the bath" if uptake.in_bath else "under the salt"),
            _band(points, frame, _mean_of, _MEAN),
            _band(points, frame, _centre_of, _CENTRE),
            _line(points, frame, _mean_of, _MEAN, "none"),
            _line(points, frame, _centre_of, _CENTRE, "7 4"),
            *_marks(uptake, frame),
            *_legend(),
            "</svg>",
            "",
        )
    )


def _mean_of(point: CurvePoint) -> Spread:
    return point.mean


def _centre_of(point: CurvePoint) -> Spread:
    return point.centre


def _title(uptake: UptakeCurve) -> str:
    return f"Salt uptake of {uptake.food_class.replace('_', ' ')}, {shown(uptake.thickness_cm)} cm thick"


def _description(uptake: UptakeCurve) -> str:
    return (
        f"Percent of equilibrium over time. After {shown(uptake.duration_h)} h the food is at "
        f"{percent(uptake.mean)} on average and at {percent(uptake.centre)} at its centre. The centre comes "
        f"to {percent(uptake.ready_share)} after about {whole(uptake.ready_h)} h. Shaded: nine times in ten."
    )


def _grid(frame: _Frame, where: str) -> Iterator[str]:
    for mark in range(0, 101, 20):
        y = frame.y(mark / 100)
        yield (
            f'<line x1="{_LEFT}" y1="{y:.1f}" x2="{WIDTH - _RIGHT}" y2="{y:.1f}" stroke="currentColor" '
            f'stroke-opacity="{0.6 if mark == 0 else 0.15}"/>'
        )
        yield f'<text x="{_LEFT - 8}" y="{y + 4:.1f}" text-anchor="end">{mark} %</text>'
    step, unit_h, unit = tick_step(frame.last_h)
    for count in range(math.floor(frame.last_h / step + 1e-9) + 1):
        x = frame.x(count * step)
        y = HEIGHT - _BOTTOM
        yield f'<path d="M{x:.1f} {y}v5" stroke="currentColor" stroke-opacity="0.6"/>'
        yield f'<text x="{x:.1f}" y="{y + 20}" text-anchor="middle">{shown(count * step / unit_h)}</text>'
    middle = (_LEFT + WIDTH - _RIGHT) / 2
    yield f'<text x="{middle:.1f}" y="{HEIGHT - 10}" text-anchor="middle">{unit} {where}</text>'


def tick_step(last_h: float) -> tuple[float, float, str]:
    """Hours between ticks, hours per shown unit, and the unit's name, for five to a dozen round ticks."""
    unit_h, unit = (_DAY_H, "days") if last_h > 5 * _DAY_H else (1.0, "hours")
    rough = last_h / unit_h / _FEWEST_TICKS
    power = 10.0 ** math.floor(math.log10(rough))
    nice = max(size for size in (1, 2, 5) if size * power <= rough * (1 + 1e-9))
    return nice * power * unit_h, unit_h, unit


_Share = Callable[[CurvePoint], Spread]


def _band(points: Sequence[CurvePoint], frame: _Frame, share: _Share, colour: str) -> str:
    upper = [frame.point(point.time_h, share(point).high) for point in points]
    lower = [frame.point(point.time_h, share(point).low) for point in reversed(points)]
    return f'<polygon points="{" ".join(upper + lower)}" fill="{colour}" fill-opacity="0.18"/>'


def _line(points: Sequence[CurvePoint], frame: _Frame, share: _Share, colour: str, dashes: str) -> str:
    likely = " ".join(frame.point(point.time_h, share(point).likely) for point in points)
    return (
        f'<polyline points="{likely}" fill="none" stroke="{colour}" stroke-width="2.5" '
        f'stroke-dasharray="{dashes}" stroke-linejoin="round"/>'
    )


def _marks(uptake: UptakeCurve, frame: _Frame) -> Iterator[str]:
    """The stated time, and the share that counts as ready."""
    hours = uptake.duration_h
    x, top, bottom = frame.x(hours), frame.y(1), frame.y(0)
    side, shift = ("end", -6) if x > WIDTH / 2 else ("start", 6)
    yield (
        f'<line x1="{x:.1f}" y1="{top:.1f}" x2="{x:.1f}" y2="{bottom:.1f}" stroke="currentColor" '
        'stroke-width="1.5" stroke-dasharray="2 3"/>'
    )
    place = f'x="{x + shift:.1f}" y="{bottom - 8:.1f}" text-anchor="{side}"'
    yield f"<text {place}>{shown(hours)} h stated</text>"


def _legend() -> Iterator[str]:
    for x, label, colour, dashes in ((_LEFT, "mean", _MEAN, "none"), (_LEFT + 110, "centre", _CENTRE, "7 4")):
        yield (
            f'<line x1="{x}" y1="20" x2="{x + 34}" y2="20" stroke="{colour}" stroke-width="2.5" '
            f'stroke-dasharray="{dashes}"/>'
        )
        yield f'<text x="{x + 42}" y="24">{label}</text>'
    yield f'<text x="{WIDTH - _RIGHT}" y="24" text-anchor="end">percent of equilibrium</text>'
