"""Sitters and pictures as far as the walls need them: where people stand, and where each picture points."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.project.brief import PictureBrief, SitterBrief
from lathlight.project.framings import eye_height, frame_height

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.project.defaults import Defaults
    from lathlight.project.model import Picture, Project, Sitter

NOBODY = "sitter"  # whom a picture shows where the file names nobody


def sitter_briefs(project: Project, usual: Defaults) -> tuple[SitterBrief, ...]:
    """Return the project's sitters, in the order of the file."""
    return tuple(_sitter(sitter, usual) for sitter in project.sitters)


def _sitter(sitter: Sitter, usual: Defaults) -> SitterBrief:
    return SitterBrief(
        name=sitter.name,
        right=sitter.right,
        forward=usual.forward if sitter.forward is None else sitter.forward,
        stature=usual.stature if sitter.stature is None else sitter.stature,
        seated=sitter.seated,
    )


def picture_briefs(project: Project, sitters: Sequence[SitterBrief], usual: Defaults) -> tuple[PictureBrief, ...]:
    """Return the project's pictures, each with the one sitter, or the middle of the group, that it is aimed at."""
    return tuple(_picture(project, picture, sitters, usual) for picture in project.pictures)


def _picture(project: Project, picture: Picture, sitters: Sequence[SitterBrief], usual: Defaults) -> PictureBrief:
    shown = [sitter for sitter in sitters if sitter.name in picture.sitters] or list(sitters[:1])
    sitter = _middle(shown, usual)
    names = {each.name for each in shown}
    seats = [each.seat_height for each in project.sitters if each.name in names]
    seat = next((height for height in seats if height is not None), None)
    eyes = eye_height(sitter, seat_height=seat)
    return PictureBrief(
        name=picture.name,
        sitter=sitter,
        angles=picture.angles or (0.0, 0.0),
        lens=picture.lens if isinstance(picture.lens, tuple) else (picture.lens, picture.lens),
        sensor=picture.sensor,
        frame_height=frame_height(picture, sitter, seat_height=seat),
        camera_height=_range(picture.camera_height, otherwise=eyes),
    )


def _middle(shown: Sequence[SitterBrief], usual: Defaults) -> SitterBrief:
    """Return the one sitter shown, or somebody in the middle of the group, as tall as the tallest."""
    if not shown:
        return SitterBrief(name=NOBODY, right=0.0, forward=usual.forward, stature=usual.stature, seated=False)
    if len(shown) == 1:
        return shown[0]
    return SitterBrief(
        name=" and ".join(each.name for each in shown),
        right=sum(each.right for each in shown) / len(shown),
        forward=sum(each.forward for each in shown) / len(shown),
        stature=max(each.stature for each in shown),
        seated=all(each.seated for each in shown),
    )


def _range(value: float | tuple[float, float] | None, *, otherwise: float) -> tuple[float, float]:
    if value is None:
        return otherwise, otherwise
    return value if isinstance(value, tuple) else (value, value)
