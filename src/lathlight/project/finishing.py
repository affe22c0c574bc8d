"""Which paint, how often, and with what it is put on; how much of it there must be is worked out later."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.project.brief import FinishBrief
from lathlight.project.defaults import usual

if TYPE_CHECKING:
    from lathlight.catalog import Paint
    from lathlight.project.defaults import Filled
    from lathlight.project.known import Known
    from lathlight.project.model import Finish


def finish_brief(known: Known, filled: Filled) -> FinishBrief:
    """Return the paint and how it is put on; what the file does not state is kept in `filled`.

    Where no paint is named the usual flat one of the project's own system is taken, so that every set has its paint
    worked out; with no coats there is none of it. Bare walls (no coats, no word on primer) take no primer either.
    """
    finish, table = known.project.finish, filled.within("finish")
    paint, primer = _paint(known, table), _primer(known, table)
    if paint or primer:
        _keep_unstated(finish, table, paint=paint, primer=primer)
    return FinishBrief(
        paint=paint,
        primer=primer,
        colour=finish.colour,
        coats=finish.coats if paint else 0,
        primer_coats=finish.primer_coats if primer else 0,
        mouldings=finish.mouldings,
        mouldings_primed=finish.mouldings_primed,
        edges=finish.paint_edges,
        backs=finish.paint_backs,
        touch_up=finish.touch_up_percent / 100,
        raw_loss=finish.raw_loss_percent / 100,
        paint_at_hand=finish.paint_at_hand,
        primer_at_hand=finish.primer_at_hand,
        roller=table.size("roller", finish.roller, known.usual.roller, what="width of the narrowest roller"),
        brush=table.size("brush", finish.brush, known.usual.brush, what="width of the narrowest brush"),
        flashed=_flashed(known, filled.within("lights")),
    )


def _paint(known: Known, table: Filled) -> Paint | None:
    finish = known.project.finish
    if finish.coats == 0:
        return None
    name = table.unless("paint", finish.paint, known.usual.paint, usual("paint of a set", known.usual.paint))
    return known.catalog.paints[name]


def _primer(known: Known, table: Filled) -> Paint | None:
    finish = known.project.finish
    unmentioned = not {"primer", "primer_coats"} & finish.model_fields_set
    if finish.primer_coats == 0 or (finish.coats == 0 and unmentioned):
        return None
    name = table.unless("primer", finish.primer, known.usual.primer, usual("primer on raw board", known.usual.primer))
    return known.catalog.paints[name]


def _keep_unstated(finish: Finish, table: Filled, *, paint: Paint | None, primer: Paint | None) -> None:
    if paint:
        table.unstated(finish, "coats", usual("number of coats", finish.coats))
        share = usual("share kept for touching up", finish.touch_up_percent, "%")
        table.unstated(finish, "touch_up_percent", share)
    if primer:
        table.unstated(finish, "primer_coats", usual("number of coats of primer", finish.primer_coats))
    loss = usual("more on bare sheet or timber", finish.raw_loss_percent, "%")
    table.unstated(finish, "raw_loss_percent", loss)
    table.unstated(finish, "mouldings", usual("time to paint mouldings", finish.mouldings))
    table.unstated(finish, "mouldings_primed", usual("state of bought mouldings", "bare"))
    table.unstated(finish, "paint_edges", usual("care for edges at joints", "painted"))
    table.unstated(finish, "paint_backs", usual("care for backs", "bare"))


def _flashed(known: Known, lights: Filled) -> bool:
    """Return True unless the project has lights and all are ambient."""
    roles = {light.role for light in known.project.lights}
    if not roles:
        lights.keep("flashed", usual("light of a built set", "flash"))
    return roles != {"ambient"}
