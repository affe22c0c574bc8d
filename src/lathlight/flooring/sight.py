"""How much floor each picture sees: where the bottom ray of the frame meets it, and how wide the frame is behind that.

The camera stands as far from the sitter as its lens asks; between two camera angles the frame is looked at every few
degrees, which misses less than a margin makes up for. Floor beyond the set's farthest corner, along the view, is not
the set's. Whether the covering reaches is left to ``lathlight.flooring.extent``.
"""

from __future__ import annotations

import math
from itertools import product
from typing import TYPE_CHECKING

from lathlight.flooring.faces import in_front
from lathlight.flooring.model import FloorSeen

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from lathlight.flooring.model import PictureFrame, Ring
    from lathlight.layout import Point

STEP = math.radians(5)  # between the camera angles looked at: of a floor edge 3 m off it misses 3 mm


def camera_distance(*, lens: float, field: float, sensor: float) -> float:
    """How far the lens is from the sitter's plane [mm], from focal length, frame there and frame on the sensor [mm].

    Notes
    -----
    Thin lens: magnification sensor / field = lens / (distance - lens), so distance = lens x (1 + field / sensor).

    Examples
    --------
    >>> round(camera_distance(lens=85, field=2160, sensor=36))
    5185
    """
    return lens * (1 + field / sensor)


def nearest_floor(*, distance: float, camera: float, bottom: float) -> float | None:
    """How far from the camera the bottom ray of a frame meets the floor [mm]; None where it never does.

    Parameters
    ----------
    distance
        From the lens to the sitter's plane [mm], above 0.
    camera
        Height of the lens above the floor [mm].
    bottom
        Lower edge of the frame in the sitter's plane, above the floor [mm]; below 0 the ray meets it before the sitter.

    Notes
    -----
    The ray falls by camera - bottom over the distance, so it has fallen by the camera's height after
    distance x camera / (camera - bottom).

    Examples
    --------
    >>> nearest_floor(distance=3000.0, camera=1200.0, bottom=-300.0)
    2400.0
    """
    return distance * camera / (camera - bottom) if camera > bottom else None


def floor_seen(frame: PictureFrame, *, corners: Sequence[Point], behind: Ring) -> FloorSeen | None:
    """Return how far a picture sees the floor before the faces; None where it sees none of it.

    Parameters
    ----------
    frame
        The picture, with every angle, focal length and camera height that it may be taken from.
    corners
        Of the faces, set axes [mm].
    behind
        The ground behind the faces, as `behind_faces` gives it.
    """
    points = [point for seen in _views(frame, corners) for point in in_front(seen, behind)]
    if not points:
        return None
    xs = [x for x, _ in points]
    return FloorSeen(picture=frame.picture, left=min(xs), right=max(xs), front=min(y for _, y in points))


def _views(frame: PictureFrame, corners: Sequence[Point]) -> Iterator[Ring]:
    """Yield the floor in the frame from every place of the camera."""
    wide, high = frame.sensor
    for lens, camera in product(sorted(set(frame.lens)), sorted(set(frame.camera))):
        distance = camera_distance(lens=lens, field=frame.height, sensor=high)
        nearest = nearest_floor(distance=distance, camera=camera, bottom=frame.bottom)
        if nearest is None:
            continue
        half = frame.height * wide / high / 2 / distance  # of the frame, for every millimetre from the camera
        for angle in _angles(*frame.angles):
            farthest = distance + max(_beyond_sitter(frame, angle, corner) for corner in corners)
            if farthest > nearest:
                yield _view(frame, angle, distance, (nearest, farthest), half)


def _beyond_sitter(frame: PictureFrame, angle: float, corner: Point) -> float:
    """Return how far behind the sitter's plane a corner of the set lies, along the view [mm]."""
    x, y = corner[0] - frame.sitter[0], corner[1] - frame.sitter[1]
    return y * math.cos(angle) - x * math.sin(angle)


def _angles(low: float, high: float) -> list[float]:
    steps = max(1, math.ceil((high - low) / STEP - 1e-9))
    return [low + (high - low) * i / steps for i in range(steps + 1)] if high > low else [low]


def _view(frame: PictureFrame, angle: float, distance: float, along: tuple[float, float], half: float) -> Ring:
    """Return the floor in the frame between two distances from the camera, in set axes, anticlockwise."""
    c, s = math.cos(angle), math.sin(angle)
    x0, y0 = frame.sitter[0] + distance * s, frame.sitter[1] - distance * c  # the camera

    def at(away: float, across: float) -> Point:
        return x0 - away * s + across * c, y0 + away * c + across * s

    near, far = along
    return at(near, -half * near), at(near, half * near), at(far, half * far), at(far, -half * far)
