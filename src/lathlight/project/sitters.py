"""Sitters and pictures as far as the walls need them: where people stand, and where each picture points."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.project.brief import PictureBrief, SitterBrief
from lathlight.project.defaults import usual
from lathlight.project.framings import CROWN_TO_EYE, HEADROOM, SEAT_HEIGHT, eye_height, frame_height, frame_top
from lathlight.working import COMMON_PRACTICE, USER, Working

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.project.defaults import Defaults, Filled
    from lathlight.project.model import Picture, Project, Sitter

NOBODY = "sitter"  # whom a picture shows where the file names nobody
STRAIGHT_ON = (0.0, 0.0)  # camera angles of a picture that states none [rad]


def sitter_briefs(project: Project, usual_things: Defaults, filled: Filled) -> tuple[SitterBrief, ...]:
    """Return the project's sitters, in the order of the file; what they do not state is kept in `filled`."""
    return tuple(_sitter(sitter, usual_things, filled.within(f"sitters/{sitter.name}")) for sitter in project.sitters)


def _sitter(sitter: Sitter, usual_things: Defaults, filled: Filled) -> SitterBrief:
    filled.unstated(sitter, "right", usual("place, on the set's axis", 0.0, "mm"))
    filled.unstated(sitter, "seated", usual("pose", "standing"))
    if sitter.seated:
        filled.size("seat_height", sitter.seat_height, SEAT_HEIGHT, what="height of a seat")
    return SitterBrief(
        name=sitter.name,
        right=sitter.right,
        forward=filled.size("forward", sitter.forward, usual_things.forward, what="distance"),
        stature=filled.size("stature", sitter.stature, usual_things.stature, what="stature"),
        seated=sitter.seated,
    )


def picture_briefs(
    project: Project, sitters: Sequence[SitterBrief], usual_things: Defaults, filled: Filled
) -> tuple[PictureBrief, ...]:
    """Return the project's pictures, each with the one sitter, or the middle of the group, that it is aimed at.

    What they do not state is kept in `filled`.
    """
    somebody = list(sitters[:1])
    if project.pictures and not somebody:
        somebody = [_nobody(usual_things, filled.within(f"sitters/{NOBODY}"))]
    return tuple(
        _picture(project, picture, sitters, somebody, filled.within(f"pictures/{picture.name}"))
        for picture in project.pictures
    )


def _nobody(usual_things: Defaults, filled: Filled) -> SitterBrief:
    """Return whom a picture shows where the file has no sitters."""
    return SitterBrief(
        name=NOBODY,
        right=0.0,
        forward=filled.size("forward", None, usual_things.forward, what="distance"),
        stature=filled.size("stature", None, usual_things.stature, what="stature"),
        seated=False,
    )


def _picture(
    project: Project,
    picture: Picture,
    sitters: Sequence[SitterBrief],
    somebody: Sequence[SitterBrief],
    filled: Filled,
) -> PictureBrief:
    shown = [sitter for sitter in sitters if sitter.name in picture.sitters] or somebody
    sitter = _middle(shown)
    names = {each.name for each in shown}
    seats = [each.seat_height for each in project.sitters if each.name in names]
    seat = next((height for height in seats if height is not None), None)
    _keep_unstated(picture, sitter, filled)
    return PictureBrief(
        name=picture.name,
        sitter=sitter,
        angles=filled.unless(
            "angles", picture.angles, STRAIGHT_ON, usual("angle to the set's axis, straight on", 0.0, "rad")
        ),
        lens=picture.lens if isinstance(picture.lens, tuple) else (picture.lens, picture.lens),
        sensor=picture.sensor,
        frame_height=frame_height(picture, sitter, seat_height=seat),
        frame_top=frame_top(picture, sitter, seat_height=seat),
        camera_height=_camera_height(picture, eye_height(sitter, seat_height=seat), filled),
    )


def _keep_unstated(picture: Picture, sitter: SitterBrief, filled: Filled) -> None:
    """Keep what a picture takes without stating it."""
    if not picture.sitters:
        formula = "the first sitter of the file, as the picture names none"
        filled.keep("sitters", Working(formula=formula, source=USER, value=sitter.name))
    wide, high = picture.sensor
    filled.unstated(picture, "sensor", usual("frame, upright", f"{wide:g} × {high:g} mm"))
    if picture.framing_height is None and picture.distance is None:
        filled.unstated(picture, "framing", usual("framing", picture.framing))
        if picture.headroom is None:
            filled.keep("headroom", _headroom(sitter))


def _headroom(sitter: SitterBrief) -> Working:
    return Working(
        formula=f"{HEADROOM:.0%} of the stature",
        inputs=(("stature", sitter.stature, "mm"),),
        source=COMMON_PRACTICE,
        value=HEADROOM * sitter.stature,
        unit="mm",
    )


def _camera_height(picture: Picture, eyes: float, filled: Filled) -> tuple[float, float]:
    why = Working(
        formula="the sitter's eyes: height of the crown less crown to eye",
        inputs=(("height of the crown", eyes + CROWN_TO_EYE, "mm"), ("crown to eye", CROWN_TO_EYE, "mm")),
        source="means of a survey of body measures (ANSUR)",
        value=eyes,
        unit="mm",
    )
    height = filled.unless("camera_height", picture.camera_height, eyes, why)
    return height if isinstance(height, tuple) else (height, height)


def _middle(shown: Sequence[SitterBrief]) -> SitterBrief:
    """Return the one sitter shown, or somebody in the middle of the group, as tall as the tallest."""
    if len(shown) == 1:
        return shown[0]
    return SitterBrief(
        name=" and ".join(each.name for each in shown),
        right=sum(each.right for each in shown) / len(shown),
        forward=sum(each.forward for each in shown) / len(shown),
        stature=max(each.stature for each in shown),
        seated=all(each.seated for each in shown),
    )
