"""The floor covering of a set from its brief: what ``lathlight.flooring`` needs, and nothing more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.flooring import FloorJob, FloorPlan, PictureFrame, plan_floor

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lathlight.carpentry import BuiltWall
    from lathlight.layout import Layout
    from lathlight.plan.cache import Memo
    from lathlight.project import Brief, PictureBrief, SitterBrief


def derive_floor(brief: Brief, walls: Sequence[BuiltWall], layout: Layout, memo: Memo) -> FloorPlan | None:
    """Return the floor covering of the set; None where the project asks for none."""
    floor = brief.floor
    if floor.covering == "none":
        return None
    job = FloorJob(
        covering=floor.covering,
        walls=layout.walls,
        depths=tuple(max(f.sheet.thickness + f.stock.depth for f in wall.flats) for wall in walls),
        under_flats=floor.stands_on == "covering",
        width=floor.width,
        depth=floor.depth,
        gap=floor.expansion_gap,
        strip_width=floor.strip_width,
        strip_length=floor.strip_length,
        strips=floor.strips,
        pictures=tuple(map(_frame, brief.pictures)),
        sitters=tuple(map(_place, brief.sitters)),
        grid=brief.style,
        kerf=brief.saw.kerf,
    )
    return memo.run("floor", plan_floor, job)


def _place(sitter: SitterBrief) -> tuple[float, float]:
    return sitter.right, -sitter.forward


def _frame(picture: PictureBrief) -> PictureFrame:
    return PictureFrame(
        picture=picture.name,
        sitter=_place(picture.sitter),
        angles=picture.angles,
        lens=picture.lens,
        sensor=picture.sensor,
        height=picture.frame_height,
        bottom=picture.frame_top - picture.frame_height,
        camera=picture.camera_height,
    )
