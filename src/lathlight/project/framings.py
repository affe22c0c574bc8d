"""How high the frame of a picture is in the sitter's plane, and where the camera stands, until it is measured.

Decides which part of the body each framing shows. Exact coverage is left to the pictures' own stage; these figures
only say where the middle line of a picture points and how much of the set it takes in.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from lathlight.project.brief import SitterBrief
    from lathlight.project.model import Picture

# Height of the frame's lower edge over the floor, as a part of the stature, standing. Common practice, no source;
# the parts of the body from memory (knee 0.285, hip 0.53, chest 0.72 of the stature).
LOWER_EDGE: Mapping[str, float] = {
    "head and shoulders": 0.72,
    "half length": 0.53,
    "three-quarter length": 0.36,
    "full length": 0.0,
}
SITTING_HEIGHT = 0.52  # seat to crown, as a part of the stature: mean of ANSUR 918 / 1756 and 857 / 1629
CROWN_TO_EYE = 113.0  # [mm] sitting height less sitting eye height, ANSUR means
SEAT_HEIGHT = 450.0  # [mm] common practice, no source
HEADROOM = 0.06  # of the stature: common practice, no source
FOOT_ROOM = 0.06  # of the stature, below the feet of a full length: common practice, no source


def crown_height(sitter: SitterBrief, *, seat_height: float | None) -> float:
    """Height of the sitter's crown above the floor [mm]."""
    if not sitter.seated:
        return sitter.stature
    return (SEAT_HEIGHT if seat_height is None else seat_height) + SITTING_HEIGHT * sitter.stature


def eye_height(sitter: SitterBrief, *, seat_height: float | None) -> float:
    """Height of the sitter's eyes above the floor [mm]."""
    return crown_height(sitter, seat_height=seat_height) - CROWN_TO_EYE


def frame_height(picture: Picture, sitter: SitterBrief, *, seat_height: float | None) -> float:
    """Height of the frame in the sitter's plane [mm]: as measured, from the distance, or from the framing.

    From the distance by similar triangles, the lens's shorter end, focus at infinity.
    """
    if picture.framing_height is not None:
        return picture.framing_height
    if picture.distance is not None:
        focal = picture.lens[0] if isinstance(picture.lens, tuple) else picture.lens
        return picture.sensor[1] * picture.distance / focal
    top = HEADROOM * sitter.stature if picture.headroom is None else picture.headroom
    if picture.framing in ("full length", "measured"):
        return crown_height(sitter, seat_height=seat_height) + top + FOOT_ROOM * sitter.stature
    if sitter.seated and picture.framing == "three-quarter length":
        return crown_height(sitter, seat_height=seat_height) + top - SEAT_HEIGHT / 2  # to the shins
    return (1 - LOWER_EDGE[picture.framing]) * sitter.stature + top


def frame_top(picture: Picture, sitter: SitterBrief, *, seat_height: float | None) -> float:
    """Height of the frame's upper edge in the sitter's plane [mm above the finished floor].

    The headroom above the crown, stated or usual. A measured frame or one that follows from a distance need not fit the
    body: a close one is lowered until the eyes are not below its middle, a high one raised until no more than the usual
    room is left below the feet (common practice, no source).
    """
    crown, room = crown_height(sitter, seat_height=seat_height), HEADROOM * sitter.stature
    if picture.headroom is not None:
        return crown + picture.headroom
    if picture.framing_height is None and picture.distance is None:
        return crown + room
    high = frame_height(picture, sitter, seat_height=seat_height)
    lowered = min(crown + room, crown - CROWN_TO_EYE + high / 2)
    return max(lowered, high - FOOT_ROOM * sitter.stature)
