"""Draws ``docs/explanation/corner.svg``, a lapped corner cut level, from the program's own reaches.

Run after a change of ``lathlight.carpentry.corners``: ``python tools/draw_corner.py``. Thicknesses are far greater than
real ones, so that the reaches can be told apart.
"""

from __future__ import annotations

import math
from pathlib import Path
from typing import NamedTuple

from lathlight.carpentry.corners import Thickness, butting_frame, butting_sheet, lapping_frame, lapping_sheet

PICTURE = Path(__file__).parents[1] / "docs" / "explanation" / "corner.svg"
ANGLE = math.radians(112)
A = B = Thickness(sheet=30.0, frame=80.0)
LONG = 230.0  # how much of each wall is shown
LEFT, TOP, WIDTH, HEIGHT = -265.0, -175.0, 500.0, 420.0  # of the picture, its y downwards
SHADES = {"sheet": "#d9d9d9", "frame": "#ffffff", "wedge": "#a6a6a6"}


class Spot(NamedTuple):
    """A place in plan: x along wall A past the corner line, y behind A's face."""

    x: float
    y: float


def main() -> None:
    """Write the picture."""
    PICTURE.write_text(picture(), encoding="utf-8", newline="\n")


def on_a(past: float, behind: float) -> Spot:
    """Return a place of wall A: past the corner line, behind its face."""
    return Spot(past, behind)


def on_b(past: float, behind: float) -> Spot:
    """Return a place of wall B, whose face leaves the corner line at the angle."""
    sine, cosine = math.sin(ANGLE), math.cos(ANGLE)
    return Spot(past * cosine + behind * sine, past * sine - behind * cosine)


def picture() -> str:
    """Return the picture as SVG."""
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{LEFT:g} {TOP:g} {WIDTH:g} {HEIGHT:g}" '
            'font-family="IBM Plex Sans, sans-serif" font-size="14" stroke-linejoin="round">',
            "<title>A lapped corner of 112 degrees, cut level</title>",
            f'<rect x="{LEFT:g}" y="{TOP:g}" width="{WIDTH:g}" height="{HEIGHT:g}" fill="#ffffff"/>',
            *parts(),
            *numbers(),
            *names(),
            "</svg>\n",
        )
    )


def parts() -> list[str]:
    """Return the cut parts: sheets, frames, and the wedge that a square end leaves."""
    sheet_a, sheet_b = butting_sheet(angle=ANGLE, own=A), lapping_sheet(angle=ANGLE, own=B, other=A)
    frame_a, frame_b = butting_frame(angle=ANGLE, own=A, other=B), lapping_frame(angle=ANGLE, own=B, other=A)
    t, total = A.sheet, A.total
    wedge = [on_a(frame_a.square, t), on_a(frame_a.front, t), on_a(frame_a.back, total)]
    return [
        shape([on_a(-LONG, 0), on_a(sheet_a.front, 0), on_a(sheet_a.back, t), on_a(-LONG, t)], "sheet"),
        shape([on_a(-LONG, t), on_a(frame_a.square, t), on_a(frame_a.square, total), on_a(-LONG, total)], "frame"),
        shape(wedge, "wedge"),
        shape([on_b(-LONG, 0), on_b(sheet_b.front, 0), on_b(sheet_b.back, t), on_b(-LONG, t)], "sheet"),
        shape([on_b(-LONG, t), on_b(frame_b.square, t), on_b(frame_b.square, total), on_b(-LONG, total)], "frame"),
    ]


def numbers() -> list[str]:
    """Return the numbers of the table's rows, beside the ends that they stand for."""
    t = A.sheet
    at = (
        on_a(-40, t / 2),
        on_a(butting_frame(angle=ANGLE, own=A, other=B).square - 18, t + 24),
        on_b(lapping_sheet(angle=ANGLE, own=B, other=A).square - 52, t / 2),
        on_b(lapping_frame(angle=ANGLE, own=B, other=A).square - 18, t + 40),
    )
    return [
        f'<circle cx="{x:.1f}" cy="{-y:.1f}" r="10" fill="#ffffff" stroke="#000000"/>'
        f'<text x="{x:.1f}" y="{5 - y:.1f}" text-anchor="middle">{number}</text>'
        for number, (x, y) in enumerate(at, start=1)
    ]


def names() -> list[str]:
    """Return what is written beside the parts, the angle and the two depths."""
    corner = Spot(0, 0)
    begin, end = on_a(-60, 0), on_b(-60, 0)
    middle = Spot(-46 * math.cos(ANGLE / 2), -46 * math.sin(ANGLE / 2))
    return [
        f'<path d="M {begin.x:.1f} {0.0 - begin.y:.1f} A 60 60 0 0 0 {end.x:.1f} {0.0 - end.y:.1f}" '
        'fill="none" stroke="#000000"/>',
        word("w", Spot(middle.x + 4, middle.y - 4)),
        f'<circle cx="{corner.x:g}" cy="{corner.y:g}" r="4"/>',
        word("corner line", Spot(-150, -66)),
        line(Spot(-106, -56), Spot(-4, -2)),
        word("A's sheet", on_a(-150, A.sheet / 2 - 5)),
        word("A's frame", on_a(-150, A.sheet + A.frame / 2 - 5)),
        word("B's sheet", Spot(-10, -150)),
        line(Spot(24, -146), on_b(-150, B.sheet / 2)),
        word("B's frame", on_b(-110, B.sheet + B.frame / 2)),
        word("wedge", Spot(-20, A.total + 40)),
        line(Spot(-14, A.total + 36), on_a(butting_frame(angle=ANGLE, own=A, other=B).square + 8, A.sheet + 24)),
        *depth("p", on_a(-235, 0), on_a(-235, A.total)),
        *depth("q", on_b(-238, 0), on_b(-238, B.total)),
        word("camera's side", Spot(-170, -190)),
    ]


def depth(name: str, face: Spot, back: Spot) -> list[str]:
    """Return an arrow from a wall's face to its back, with the letter of that depth."""
    along = math.atan2(back.y - face.y, back.x - face.x)
    barbs = [Spot(back.x - 9 * math.cos(along + turn), back.y - 9 * math.sin(along + turn)) for turn in (-0.4, 0.4)]
    beside = Spot(back.x + 14 * math.cos(along), back.y + 14 * math.sin(along) - 4)
    return [line(face, back), *(line(back, barb) for barb in barbs), word(name, beside)]


def shape(spots: list[Spot], kind: str) -> str:
    """Return one cut part."""
    points = " ".join(f"{x:.1f},{0.0 - y:.1f}" for x, y in spots)
    return f'<polygon points="{points}" fill="{SHADES[kind]}" stroke="#000000" stroke-width="1.5"/>'


def line(begin: Spot, end: Spot) -> str:
    """Return a thin line."""
    return f'<path d="M {begin.x:.1f} {0.0 - begin.y:.1f} L {end.x:.1f} {0.0 - end.y:.1f}" stroke="#000000"/>'


def word(text: str, at: Spot) -> str:
    """Return a word, centred on a place."""
    return f'<text x="{at.x:.1f}" y="{0.0 - at.y:.1f}" text-anchor="middle">{text}</text>'


if __name__ == "__main__":
    main()
