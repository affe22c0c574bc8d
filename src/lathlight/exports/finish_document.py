"""Paint and takeoff as they stand in ``plan.json``: decides names and order; mm2, mm, litres."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.plain import to_amount, to_mm, to_mms, to_working
from lathlight.finishing import finish_schedule

if TYPE_CHECKING:
    from lathlight.exports.plain import Json
    from lathlight.finishing import Coating, Finish, FinishStep, Gap, PaintArea, TakeoffRow


def finish_document(finish: Finish) -> Json:
    """Return the paint as plain values."""
    return {
        "mouldings_painted": finish.painted,
        "brushwork": to_mm(finish.brushwork),
        "areas": [_area(area) for area in finish.areas],
        "coatings": [_coating(coating) for coating in finish.coatings],
        "schedule": [_step(each) for each in finish_schedule(finish)],
        "tools": [{"wall": r.wall, "roller": to_mm(r.roller), "brush": to_mm(r.brush)} for r in finish.reaches],
        "gaps": [_gap(gap) for gap in finish.gaps],
    }


def _area(area: PaintArea) -> Json:
    return {
        "id": area.id,
        "wall": area.wall,
        "kind": area.kind,
        "of": area.stuff,
        "material": area.material,
        "area": to_mm(area.area),
        "length": to_mm(area.length),
        "raw": area.raw,
        "painted": area.painted,
        "working": to_working(area.why),
    }


def _coating(coating: Coating) -> Json:
    need = coating.need
    tins = () if coating.tins is None else coating.tins.tins
    return {
        "coating": need.coating.name,
        "sheen": need.sheen,
        "coats": need.coats,
        "area": to_mm(need.area),
        "net": to_amount(need.net),
        "allowances": [{"reason": a.reason, "litres": to_amount(a.litres), "kept": a.kept} for a in need.allowances],
        "gross": to_amount(need.gross),
        "tins": [{"size": to_amount(size), "number": number} for size, number in tins],
        "at_hand": coating.tins is None,
        "note": coating.note,
        "working": to_working(coating.line.why),
    }


def _step(step: FinishStep) -> Json:
    return {
        "number": step.number,
        "surface": step.surface,
        "of": step.stuff,
        "area": to_mm(step.area),
        "length": to_mm(step.length),
        "coating": step.coating,
        "coats": step.coats,
        "tool": step.tool,
        "sheen": step.sheen,
        "note": step.note,
    }


def _gap(gap: Gap) -> Json:
    return {
        "wall": gap.wall,
        "between": list(gap.between),
        "width": to_mm(gap.width),
        "length": to_mm(gap.length),
        "at": to_mms((gap.x, gap.z)),
    }


def takeoff_document(row: TakeoffRow) -> Json:
    """Return one row of the takeoff as plain values."""
    line = row.line
    return {
        "trade": row.trade,
        "item": line.item,
        "unit": line.unit,
        "net": to_amount(line.net),
        "allowance": to_amount(line.allowance),
        "reason": line.reason,
        "gross": to_amount(line.gross),
        "packs": [{"size": to_amount(p.size), "unit": p.unit, "number": p.number} for p in row.packs],
        "size": None if row.size is None else to_mms(row.size),
        "working": to_working(line.why),
    }
