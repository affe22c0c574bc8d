"""What mouldings look like on a face: their outlines, the edges of their profiles, mitres and returned ends.

Every piece is laid over what stands behind it, so that seams under a moulding do not show. Which pieces there are and
where they lie is decided by ``lathlight.mouldings``; a profile's top lies outwards in a frame or round an opening.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, pi, sin
from typing import TYPE_CHECKING

from lathlight.catalog import drop, face
from lathlight.drawings.cells import moved
from lathlight.drawings.outlines import rectangle
from lathlight.drawings.sheets import Line, Path, Pen, Tone

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from lathlight.catalog import Profile
    from lathlight.drawings.sheets import Item, Point
    from lathlight.mouldings import CasingCurve, Strip, TrimPiece

LEAST_APART = 0.6  # two edges of a profile that are nearer read as one [mm of paper]; common practice, no source
MOST_EDGES = 4  # edges drawn between the two outer ones
NEAR = 0.01  # two places that differ less are one [mm]
ARC_STEPS = 24  # straight pieces that stand for a curved head
JOINED = frozenset({"scarf", "at a joint"})  # ends of trim that meet the next piece of their line
BROAD = 1.6  # narrower mouldings have thin outer edges, or they run together [mm of paper]
SHARPEST = 0.15  # a turn of less is part of a curve [rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bar:
    """One straight piece: its inner and its outer edge, each from end to end, across the other way."""

    strip: Strip
    inner: tuple[Point, Point]
    outer: tuple[Point, Point]

    @property
    def ring(self) -> tuple[Point, ...]:
        """Corners in order."""
        return (*self.inner, *reversed(self.outer))

    def along(self, share: float) -> tuple[Point, Point]:
        """Return the line at a share of the width, 0 at the inner edge."""
        a, b = (
            (i[0] + share * (o[0] - i[0]), i[1] + share * (o[1] - i[1]))
            for i, o in zip(self.inner, self.outer, strict=True)
        )
        return a, b


def profile_edges(profile: Profile, *, scale: float) -> tuple[float, ...]:
    """Heights over a profile's lower edge at which its front has an edge that reads at this scale [mm].

    Parameters
    ----------
    profile
        The section; the sharper its front turns, the sooner an edge is chosen.
    scale
        Model mm for one mm of paper.

    Returns
    -------
    tuple of float
        At most four, upwards, each at least 0.6 mm of paper from the next and from both outer edges.
    """
    apart = LEAST_APART * scale
    low, high = min(up for _, up in profile.points), max(up for _, up in profile.points)
    kept = [low, high]
    for up, turn in sorted(_turns(face(profile)), key=lambda pair: (-round(pair[1], 6), pair[0])):
        if turn < SHARPEST or len(kept) == MOST_EDGES + 2:
            break
        if all(abs(up - other) >= apart - NEAR for other in kept):
            kept.append(up)
    return tuple(up - low for up in sorted(kept[2:]))


def _turns(front: Sequence[Point]) -> list[tuple[float, float]]:
    """Return height and turn of the front's points between its ends [mm, rad]."""
    ways = [atan2(b[1] - a[1], b[0] - a[0]) for a, b in pairwise(front)]
    turns = [abs((b - a + pi) % (2 * pi) - pi) for a, b in pairwise(ways)]
    return [(up, turn) for (_, up), turn in zip(front[1:-1], turns, strict=True)]


def moulding_items(
    strips: Iterable[Strip], pieces: Iterable[TrimPiece] = (), *, left: float = 0.0, scale: float
) -> list[Item]:
    """Return mouldings on one face as they look from the front.

    Parameters
    ----------
    strips
        Straight pieces of one wall: trim, casing, moulding frames, blocks.
    pieces
        Its pieces of trim, for their joints and returned ends.
    left
        Where the wall's left face corner lies on the drawing [model mm].
    scale
        Model mm for one mm of paper.
    """
    own = list(strips)
    known = {piece.id: piece for piece in pieces}
    items: list[Item] = []
    for group in _groups(own):
        for bar in _bars(group):
            items += _bar_items(bar, scale)
    for strip in own:
        if strip.use == "trim":
            items += _trim_items(strip, known.get(strip.id), scale)
    items += [_plain(strip) for strip in own if strip.profile is None]
    items += _joints(known.values())
    return [moved(item, (left, 0.0)) for item in items]


def curve_items(curve: CasingCurve, profile: Profile, *, left: float = 0.0, scale: float) -> list[Item]:
    """Return the curved head over an arch: its two edges, and those of its profile between them."""
    shares = [0.0, *(up / drop(profile) for up in profile_edges(profile, scale=scale)), 1.0]
    radii = [curve.inner_radius + share * (curve.outer_radius - curve.inner_radius) for share in shares]
    inner, *between, outer = (_arc(curve, radius, left) for radius in radii)
    pen = _edge_pen(curve.outer_radius - curve.inner_radius, scale)
    ring = Path(points=(*inner, *reversed(outer)), closed=True, pen=pen, fill=Tone.WHITE)
    return [ring, *(Path(points=arc, closed=False, pen=Pen.LIGHT) for arc in between)]


def _arc(curve: CasingCurve, radius: float, left: float) -> tuple[Point, ...]:
    x, z = curve.centre
    turns = [curve.angle * (k / ARC_STEPS - 0.5) for k in range(ARC_STEPS + 1)]
    return tuple((left + x + radius * sin(turn), z + radius * cos(turn)) for turn in turns)


def _groups(strips: Sequence[Strip]) -> list[list[Strip]]:
    """Return the pieces that go round together: four sides of a frame, the casing of an opening with its blocks."""
    found: dict[tuple[str, str], list[Strip]] = {}
    for strip in strips:
        if strip.use == "moulding frame":
            found.setdefault((strip.use, strip.id.rpartition("/")[0]), []).append(strip)
        elif strip.use == "casing":
            found.setdefault((strip.use, strip.belongs_to), []).append(strip)
    return list(found.values())


def _bars(group: Sequence[Strip]) -> list[_Bar]:
    """Return the pieces of a group, mitred where two of them share a corner."""
    middle = (
        (min(s.x0 for s in group) + max(s.x1 for s in group)) / 2,
        (min(s.z0 for s in group) + max(s.z1 for s in group)) / 2,
    )
    return [_upright(s, group, middle) if s.upright else _level(s, group, middle) for s in group]


def _level(strip: Strip, group: Sequence[Strip], middle: Point) -> _Bar:
    legs = [s for s in group if s.upright]
    over = len([s for s in group if not s.upright]) == 1 or (strip.z0 + strip.z1) / 2 > middle[1]
    inner, outer = (strip.z0, strip.z1) if over else (strip.z1, strip.z0)
    first = next((leg for leg in legs if _meets(leg.x0, leg.x1, strip.x0) and _shares(leg, outer, inner)), None)
    last = next((leg for leg in legs if _meets(leg.x0, leg.x1, strip.x1) and _shares(leg, outer, inner)), None)
    return _Bar(
        strip=strip,
        inner=(
            (strip.x0 if first is None else first.x1, inner),
            (strip.x1 if last is None else last.x0, inner),
        ),
        outer=(
            (strip.x0 if first is None else first.x0, outer),
            (strip.x1 if last is None else last.x1, outer),
        ),
    )


def _upright(strip: Strip, group: Sequence[Strip], middle: Point) -> _Bar:
    bars = [s for s in group if not s.upright]
    to_right = (strip.x0 + strip.x1) / 2 > middle[0]
    inner, outer = (strip.x0, strip.x1) if to_right else (strip.x1, strip.x0)
    foot = next((b for b in bars if _meets(b.z0, b.z1, strip.z0) and _reaches(b, outer, inner)), None)
    head = next((b for b in bars if _meets(b.z0, b.z1, strip.z1) and _reaches(b, outer, inner)), None)
    return _Bar(
        strip=strip,
        inner=(
            (inner, strip.z0 if foot is None else foot.z1),
            (inner, strip.z1 if head is None else head.z0),
        ),
        outer=(
            (outer, strip.z0 if foot is None else foot.z0),
            (outer, strip.z1 if head is None else head.z1),
        ),
    )


def _meets(low: float, high: float, at: float) -> bool:
    """Return True where a place is one of two edges."""
    return min(abs(at - low), abs(at - high)) < NEAR


def _shares(leg: Strip, outer: float, inner: float) -> bool:
    """Return True where a leg ends at one of a level piece's two edges."""
    return any(_meets(outer, inner, end) for end in (leg.z0, leg.z1))


def _reaches(bar: Strip, outer: float, inner: float) -> bool:
    """Return True where a level piece ends at one of an upright piece's two edges."""
    return any(_meets(outer, inner, end) for end in (bar.x0, bar.x1))


def _edge_pen(broad: float, scale: float) -> Pen:
    return Pen.OUTLINE if broad >= BROAD * scale else Pen.LIGHT


def _bar_items(bar: _Bar, scale: float) -> list[Item]:
    items: list[Item] = [Path(points=bar.ring, closed=True, pen=_edge_pen(bar.strip.broad, scale), fill=Tone.WHITE)]
    profile = bar.strip.profile
    if profile is not None:
        lines = (bar.along(up / drop(profile)) for up in profile_edges(profile, scale=scale))
        items += [Line(a=a, b=b, pen=Pen.LIGHT) for a, b in lines]
    return items


def _trim_items(strip: Strip, piece: TrimPiece | None, scale: float) -> list[Item]:
    """Return one piece of trim; an end that is returned to the wall shows its profile."""
    profile = strip.profile
    if profile is None:
        return []
    first, last = ((strip.x0, up) for up in (strip.z0, strip.z1)), ((strip.x1, up) for up in (strip.z0, strip.z1))
    ends = [list(first), list(last)]
    for k, (end, way) in enumerate(((piece.left, -1), (piece.right, 1)) if piece else ()):
        if end.kind == "returned":
            ends[k] = _silhouette(profile, end.back, strip.z0, way)
    ring = (*ends[1], *reversed(ends[0]))
    items: list[Item] = [Path(points=tuple(ring), closed=True, pen=_edge_pen(strip.broad, scale), fill=Tone.WHITE)]
    for up in profile_edges(profile, scale=scale):
        a, b = (_at_height(end, strip.z0 + up) for end in ends)
        items.append(Line(a=(a, strip.z0 + up), b=(b, strip.z0 + up), pen=Pen.LIGHT))
    return items


def _silhouette(profile: Profile, back: float, foot: float, way: int) -> list[Point]:
    """Return the outline of a returned end from its foot up."""
    low = min(up for _, up in profile.points)
    front = [(back + way * out, foot + up - low) for out, up in face(profile)]
    return front if front[0][1] <= foot + NEAR else [(front[0][0], foot), *front]


def _at_height(edge: Sequence[Point], z: float) -> float:
    """Return where an edge that runs up lies at a height; the first place where it lies there."""
    for (ax, az), (bx, bz) in pairwise(edge):
        if min(az, bz) - NEAR <= z <= max(az, bz) + NEAR:
            return ax if abs(bz - az) < NEAR else ax + (bx - ax) * (z - az) / (bz - az)
    return edge[-1][0]


def _plain(strip: Strip) -> Path:
    return Path(points=rectangle(strip.x0, strip.z0, strip.x1, strip.z1), closed=True, pen=Pen.OUTLINE, fill=Tone.WHITE)


def _joints(pieces: Iterable[TrimPiece]) -> list[Line]:
    """Return a stroke across the moulding wherever two pieces of a line are joined."""
    found = {(p.end, p.bottom, p.top) for p in pieces if p.right.kind in JOINED}
    return [Line(a=(x, low), b=(x, high), pen=Pen.OUTLINE) for x, low, high in sorted(found)]
