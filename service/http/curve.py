"""The picture of a bath: how much of equilibrium the food has on average and at its centre, over time."""

from __future__ import annotations

from typing import Any

from flask import render_template

WIDTH, HEIGHT = 640, 360
LEFT, RIGHT, TOP, BOTTOM = 56, 16, 40, 48
TICKS = 6


def curve_picture(document: dict[str, Any]) -> str:
    """SVG of the curve in a bath's answer."""
    points = document["curve"]
    longest = max((point["time_h"] for point in points), default=0.0) or 1.0
    return render_template(
        "curve.svg",
        width=WIDTH,
        height=HEIGHT,
        left=LEFT,
        right=WIDTH - RIGHT,
        top=TOP,
        bottom=HEIGHT - BOTTOM,
        mean=_line(points, "mean_percent", longest),
        centre=_line(points, "centre_percent", longest),
        hours=[(_x(hour, longest), f"{hour:g}") for hour in _ticks(longest)],
        percents=[(_y(percent), percent) for percent in range(0, 101, 20)],
        summary=_summary(document),
    )


def _x(hour: float, longest: float) -> float:
    return round(LEFT + (WIDTH - LEFT - RIGHT) * hour / longest, 2)


def _y(percent: float) -> float:
    return round(HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * min(max(percent, 0.0), 100.0) / 100, 2)


def _line(points: list[dict[str, float]], key: str, longest: float) -> str:
    return " ".join(f"{_x(point['time_h'], longest)},{_y(point[key])}" for point in points)


def _ticks(longest: float) -> list[float]:
    """About TICKS round hours from 0 to `longest`."""
    rough = longest / TICKS
    size = 10.0 ** (len(f"{int(rough)}") - 1) if rough >= 1 else 0.1
    step = next((size * nice for nice in (1, 2, 5) if size * nice >= rough), size * 10)
    return [round(step * i, 6) for i in range(int(longest / step) + 1)]


def _summary(document: dict[str, Any]) -> str:
    reached = document["reached"]
    return (
        f"At the stated time the food has {reached['mean_percent']:.0f} % of equilibrium on average and "
        f"{reached['centre_percent']:.0f} % at its centre."
    )
