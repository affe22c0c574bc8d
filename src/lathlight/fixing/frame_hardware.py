"""Fittings and fixings of the frames themselves: corner plates, sill straps, a corner's own screws, frame screws.

Decides what is counted and how. Screws along nailers and packing and through corner plates are not counted. What joins
the flats, and corners that are held otherwise, is left to ``joints``.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from lathlight.fixing.model import HardwareCount

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.carpentry import Corner, Flat
    from lathlight.catalog import Fastener
    from lathlight.fixing.model import CornerFixing
    from lathlight.project import Hardware

SCREWS_AN_END = 2  # screws in every end of a member that meets another: common practice, no source
LOOSE = frozenset({"packing", "wedge", "lining", "nailer", "backing"})  # fixed along their length, not at their ends


def frame_hardware(
    flats: Sequence[Flat], corners: Sequence[Corner], held: Sequence[CornerFixing], fittings: Hardware
) -> tuple[HardwareCount, ...]:
    """Return fittings and fixings of the frames, as counted.

    Parameters
    ----------
    flats, corners
        As built.
    held
        How the corners are held: only those with the carpentry's own screws count here.
    fittings
        Sill strap and frame screw.

    Notes
    -----
    Frame screws: two in every end of a member that stands between others (common practice, no source).
    """
    return (*_plates(flats), *_straps(flats, fittings), *_corner_screws(corners, held), *_frame_screws(flats, fittings))


def _plates(flats: Sequence[Flat]) -> Iterator[HardwareCount]:
    for name, number in Counter(p.bracket.name for f in flats for p in f.plates).items():
        yield HardwareCount(what="corner plate", name=name, use="squares the frame, on the back", number=number, box=1)


def _straps(flats: Sequence[Flat], fittings: Hardware) -> Iterator[HardwareCount]:
    number = sum(1 for f in flats for o in f.openings if o.strap is not None)
    if number:
        name = fittings.sill_strap.name
        yield HardwareCount(what="sill strap", name=name, use="across a door's foot", number=number, box=1)


def _corner_screws(corners: Sequence[Corner], held: Sequence[CornerFixing]) -> Iterator[HardwareCount]:
    own = {each.corner for each in held if each.by_carpentry}
    screws = [(c.screws.screw, len(c.screws.heights)) for c in corners if c.screws is not None and c.id in own]
    counts: Counter[str] = Counter()
    for screw, number in screws:
        counts[screw.name] += number
    rows = {screw.name: screw for screw, _ in screws}
    for name, number in counts.items():
        yield _screws(rows[name], "corners, through the end studs", number)


def _frame_screws(flats: Sequence[Flat], fittings: Hardware) -> Iterator[HardwareCount]:
    ends = sum(_joined_ends(flat) for flat in flats)
    if ends:
        yield _screws(fittings.frame_screw, "frame joints, two an end", SCREWS_AN_END * ends)


def _screws(screw: Fastener, use: str, number: int) -> HardwareCount:
    return HardwareCount(what=screw.kind, name=screw.name, use=use, number=number, box=screw.box)


def _joined_ends(flat: Flat) -> int:
    """Return how many member ends are screwed: both of every member but those that run through."""
    whole = {"top plate", "bottom plate"} if flat.through == "plates" else {"end stud"}
    return sum(2 for m in flat.members if m.role not in whole | LOOSE)
