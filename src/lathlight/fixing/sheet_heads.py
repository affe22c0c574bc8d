"""Where the screws or pins of a sheet piece sit.

A glued sheet is screwed only where a moulding will hide the heads: one wherever a strip crosses timber, a row where it
runs along it. A screwed or pinned sheet has rows along all its timber, closer along its edges. Which fastener a place
takes is left to ``lengths``.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from lathlight.finishing import brad_places
from lathlight.fixing.lands import SHEET_EDGE, edge_distance, is_plain

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.carpentry import SheetPiece
    from lathlight.fixing.lands import Land
    from lathlight.fixing.model import Point
    from lathlight.mouldings import Strip

HIDING = frozenset({"trim", "casing", "moulding frame"})  # uses of a strip that hide heads
HEAD = 5.0  # a moulding covers a head where it reaches this far past its middle [mm]: common practice, no source
FROM_END = 50.0  # first head from a member's end or a sheet's corner [mm]: common practice, no source
FIELD = 300.0  # heads away from a sheet's edges, no further apart than this [mm]: common practice, no source
APART = 25.0  # two heads of one sheet are never nearer than this [mm]: common practice, no source
BROAD = 60.0  # a moulding no broader than this is fixed along its middle [mm]
OFF_MIDDLE = 12.0  # there a sheet's screw sits so far below it [mm], clear of the moulding's own fixings
TOUCH = 1e-6

Place = tuple["Point", "Land", "Strip | None"]


def hidden_places(
    piece: SheetPiece, lands: Sequence[Land], strips: Sequence[Strip], *, spacing: float
) -> tuple[Place, ...]:
    """Return the places where a strip hides a head over timber, no further apart than the spacing along either."""
    return _kept(
        piece,
        ((at, land, strip) for land in lands for strip in strips for at in _under(strip, land, spacing)),
    )


def all_places(
    piece: SheetPiece, lands: Sequence[Land], strips: Sequence[Strip], *, spacing: float
) -> tuple[Place, ...]:
    """Return rows along all timber, each place with the strip that hides it or None.

    Along the sheet's edges they are no further apart than the spacing; away from them twice that, up to 300 mm.
    """
    field = max(spacing, min(2 * spacing, FIELD))

    def places() -> Iterator[Place]:
        for land in lands:
            across = (land.low + land.high) / 2
            for along in _row(land.start, land.end, spacing if land.at_edge else field):
                at = (across, along) if land.upright else (along, across)
                yield at, land, next((s for s in strips if hides(s, at)), None)

    return _kept(piece, places())


def hides(strip: Strip, at: Point) -> bool:
    """Return True where a strip covers the whole head at a place."""
    x, z = at
    return (
        strip.use in HIDING
        and strip.x0 + HEAD - TOUCH <= x <= strip.x1 - HEAD + TOUCH
        and strip.z0 + HEAD - TOUCH <= z <= strip.z1 - HEAD + TOUCH
    )


def _under(strip: Strip, land: Land, spacing: float) -> Iterator[Point]:
    """Yield the places of a land under one strip: along the member, in the middle of what is shared across it.

    Where a level strip crosses a stud, the screw sits in the strip's middle; below it in a narrow one, whose own brads
    need the middle.
    """
    x0, x1, z0, z1 = strip.x0 + HEAD, strip.x1 - HEAD, strip.z0 + HEAD, strip.z1 - HEAD
    across, along = ((x0, x1), (z0, z1)) if land.upright else ((z0, z1), (x0, x1))
    low, high = max(land.low, across[0]), min(land.high, across[1])
    start, end = max(land.start, along[0]), min(land.end, along[1])
    if strip.use not in HIDING or high < low - TOUCH or end < start - TOUCH:
        return
    across_at = (low + high) / 2
    if land.upright and not strip.upright and end - start <= spacing:
        middle = (strip.z0 + strip.z1) / 2
        yield across_at, max(start, min(end, middle - OFF_MIDDLE if strip.broad <= BROAD else middle))
        return
    for place in _row(start, end, spacing):
        yield (across_at, place) if land.upright else (place, across_at)


def _row(start: float, end: float, spacing: float) -> Iterator[float]:
    """Yield even places between two ends; one in the middle where there is no room for two."""
    length = end - start
    inset = FROM_END - SHEET_EDGE  # the ends have kept that much already
    if length <= max(2 * inset, spacing / 2):
        yield (start + end) / 2
        return
    yield from (start + place for place in brad_places(length, spacing=spacing, end=inset))


def _kept(piece: SheetPiece, places: Iterable[Place]) -> tuple[Place, ...]:
    """Return the places that keep clear of every edge and of each other, earlier ones first."""
    plain = is_plain(piece)
    found: list[Place] = []
    for place in places:
        (x, z), *_ = place
        if any(abs(x - a) < APART and abs(z - b) < APART and math.hypot(x - a, z - b) < APART for (a, b), *_ in found):
            continue
        if plain or edge_distance((x, z), piece) >= SHEET_EDGE - TOUCH:
            found.append(place)
    return tuple(found)
