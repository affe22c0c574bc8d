"""The catalogue's rows as frozen values; every row names its source."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True, kw_only=True)
class Lumber:
    """Framing timber, planed; actual sizes [mm]."""

    name: str  # "38x38", "2x2"
    nominal: str  # what the shop calls it; "" where it is sold by its actual size
    system: str  # "us" or "metric"
    width: float  # along the wall [mm]
    depth: float  # behind the wall [mm]
    lengths: tuple[float, ...]  # stock lengths on sale [mm], ascending
    density: float  # [kg/m3]
    modulus: float  # bending stiffness E [N/mm2]
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Facing panel; actual sizes [mm]."""

    name: str  # "ply-9"
    material: str  # "plywood", "hardboard", "MDF", "plasterboard"
    width: float  # short side [mm]
    length: float  # long side [mm]
    thickness: float  # [mm]
    nominal: str  # what the shop calls its thickness
    density: float  # [kg/m3]
    stud_spacing: float  # largest distance between studs, centre to centre [mm]
    grain: bool  # True where turning it shows
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """Moulding; the section as a closed polyline from the back's bottom corner, anticlockwise [mm]."""

    name: str
    kind: str  # "base", "rail", "picture rail", "cornice", "casing", "panel", "cover strip"
    points: tuple[tuple[float, float], ...]  # (out from the wall, up)
    spring: float | None  # [rad], cornices only
    lengths: tuple[float, ...]  # [mm]
    density: float  # [kg/m3]
    coping: bool  # True where the profile can be coped
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Paint:
    """Coating."""

    name: str
    use: str  # "primer", "wall", "sealer"
    sheen: str  # "flat", "matt", "eggshell", "satin", "semi-gloss", "gloss"
    solids: float  # share of the volume that stays, 0 to 1
    spread: float  # [m2/l] a coat, sealed surface
    recoat_hours: float
    containers: tuple[float, ...]  # [l], ascending
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Adhesive:
    """Glue or filler."""

    name: str
    use: str  # "sheet to timber", "moulding", "joint", "seam", "filling"
    container: float  # [l]
    bead: float  # diameter of the bead [mm]
    clamp_hours: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """Screw, nail, brad or bolt."""

    name: str
    kind: str  # "screw", "nail", "brad", "pin", "bolt"
    diameter: float  # [mm]
    length: float  # [mm]
    box: int  # pieces in a box
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Bracket:
    """Fitting of metal, ply or rubber."""

    name: str
    kind: str  # "angle bracket", "corner plate", "sill strap", "connector", "bumper"
    width: float  # [mm]
    height: float  # [mm]
    thickness: float  # [mm]
    mass: float  # [kg]
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """Ballast or clamping weight."""

    name: str
    mass: float  # [kg]
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalog:
    """All tables, by row name."""

    lumber: Mapping[str, Lumber] = field(default_factory=dict[str, Lumber])
    sheets: Mapping[str, Sheet] = field(default_factory=dict[str, Sheet])
    profiles: Mapping[str, Profile] = field(default_factory=dict[str, Profile])
    paints: Mapping[str, Paint] = field(default_factory=dict[str, Paint])
    adhesives: Mapping[str, Adhesive] = field(default_factory=dict[str, Adhesive])
    fasteners: Mapping[str, Fastener] = field(default_factory=dict[str, Fastener])
    brackets: Mapping[str, Bracket] = field(default_factory=dict[str, Bracket])
    weights: Mapping[str, Weight] = field(default_factory=dict[str, Weight])
