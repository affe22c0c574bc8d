"""The moulding frames as they stand in ``plan.json``: decides names and order; wall axes, millimetres."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.exports.plain import to_maybe_mm, to_mm, to_mms, to_working

if TYPE_CHECKING:
    from lathlight.exports.plain import Json
    from lathlight.mouldings import FilledBay, FrameTier, MouldingFrame, MouldingLayout, TiersInLine


def frame_document(layout: MouldingLayout) -> Json:
    """Return tiers, bays with their gaps, and frames as plain values."""
    return {
        "tiers": [_tier(tier, group) for group in layout.in_line for tier in group.tiers],
        "bays": [_bay(bay) for group in layout.in_line for bay in group.bays],
        "frames": [_frame(frame) for frame in layout.frames],
    }


def _tier(tier: FrameTier, group: TiersInLine) -> Json:
    return {
        "name": tier.name,
        "profile": None if tier.profile is None else tier.profile.name,
        "moulding": to_mm(tier.moulding),
        "bottom": to_mm(tier.bottom),
        "top": to_mm(tier.top),
        "gap": to_mm(tier.gap),
        "end_gap": to_mm(tier.ends),
        "bought_width": to_maybe_mm(tier.bought_width),
        "walls": None if tier.walls is None else list(tier.walls),
        "part_at_joints": tier.part_at_joints,
        "loose": tier.loose,
        "working": to_working(group.why),
    }


def _bay(filled: FilledBay) -> Json:
    return {
        "wall": filled.bay.wall,
        "tiers": list(filled.bay.tiers),
        "left": to_mm(filled.bay.left),
        "right": to_mm(filled.bay.right),
        "width": to_mm(filled.pattern.width),
        "gaps": to_mms(filled.pattern.gaps),
    }


def _frame(frame: MouldingFrame) -> Json:
    return {
        "id": frame.id,
        "wall": frame.wall,
        "tier": frame.tier,
        "left": to_mm(frame.left),
        "bottom": to_mm(frame.bottom),
        "width": to_mm(frame.width),
        "height": to_mm(frame.height),
    }
