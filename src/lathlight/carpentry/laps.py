"""Which frame and which sheet lap at a corner: fewest saw cuts, a tie keeps the file's order."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lathlight.carpentry.packing import pack_boards
from lathlight.working import COMMON_PRACTICE, Working

if TYPE_CHECKING:
    from collections.abc import Callable

    from lathlight.carpentry.corners import Style
    from lathlight.carpentry.model import BuiltWall
    from lathlight.project import Laps

Lap = Literal["this", "next"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LapChoice:
    """Whose frame and whose sheet run past: this wall's or the next one's."""

    style: Style
    frame: Lap
    sheet: Lap
    why: Working


def saw_cuts(wall: BuiltWall, *, kerf: float, trim_cut: float) -> int:
    """Return the cuts a wall needs: its timber flat by flat, first fit, and every sawn edge of its sheets."""
    cuts = 0
    for flat in wall.flats:
        lengths = [m.length for m in flat.members]
        cuts += pack_boards(lengths, stock=flat.stock.lengths, kerf=kerf, trim_cut=trim_cut).cuts
        cuts += sum(4 - len(piece.factory) for piece in flat.pieces)
    return cuts


def choose_laps(*, style: Style, frame: Laps, sheet: Laps, cuts: Callable[[Lap, Lap], int]) -> LapChoice:
    """Return who laps: as the file says, else whichever needs fewer cuts of the two walls together.

    Parameters
    ----------
    frame, sheet
        The file's word; "auto" leaves it open.
    cuts
        Saw cuts of both walls for a choice of frame and sheet; called only where something is open.
    """
    if style != "lap":
        why = Working(formula="nothing laps: the flats meet in the corner line", source=COMMON_PRACTICE)
        return LapChoice(style=style, frame="next", sheet="next", why=why)
    frames, sheets = _options(frame), _options(sheet)
    options: list[tuple[Lap, Lap]] = [(f, s) for f in frames for s in sheets]
    counted: list[tuple[int, int, Lap, Lap]] = [
        (cuts(f, s) if len(options) > 1 else 0, i, f, s) for i, (f, s) in enumerate(options)
    ]
    _, _, best_frame, best_sheet = min(counted)
    words = {"this": "left wall", "next": "right wall"}
    inputs = tuple((f"cuts, frame of the {words[f]} and sheet of the {words[s]} lap", n, "") for n, _, f, s in counted)
    formula = "fewest saw cuts; a tie keeps the file's order" if len(options) > 1 else "as the project file says"
    return LapChoice(
        style=style,
        frame=best_frame,
        sheet=best_sheet,
        why=Working(
            formula=formula,
            inputs=inputs if len(options) > 1 else (),
            source=COMMON_PRACTICE,
            value=f"{words[best_frame]}'s frame and {words[best_sheet]}'s sheet lap",
        ),
    )


def _options(laps: Laps) -> tuple[Lap, ...]:
    """Return what is open, the file's order first."""
    return ("next", "this") if laps == "auto" else (laps,)
