"""How everything is sawn: boards by section, sheets by kind, mouldings by profile; and how many that makes to buy.

Puts the sections together and says in words how each count came about. Choosing the plans is left to the cutting.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lathlight.carpentry import Packed
from lathlight.finishing import MouldingStock
from lathlight.plan.saw_boards import Bench, Length, SectionSawing, saw_section
from lathlight.plan.saw_sheets import SheetBench, SheetSawing, saw_sheets
from lathlight.working import COMMON_PRACTICE, GEOMETRY, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from lathlight.carpentry import BoardPart, CutSheet, SheetPart
    from lathlight.catalog import Profile
    from lathlight.finishing import MouldingCut
    from lathlight.plan.cache import Memo
    from lathlight.plan.saw_boards import SawnBoard
    from lathlight.project import Brief

NOT_IN_CATALOGUE = "no such board in the catalogue: counted as boards as long as the longest piece"
TOO_LONG = "longer than any length that is sold: each piece a length of its own"
WEIGHED = {
    "by price": "least money",
    "by length": "least length in all, no price stated",
    "by price, the others by length": "least money; lengths without a price by their length",
}
NO_FEWER = "proven: nothing less will do"
FIRST_FIT = "counted by first fit"
GAP = "not proven: at most {:.1f} % above the least"
AIM_OFF = "more than the shop is said to have"
PAST_EDGE = "some cuts are longer than the straight edge, as nothing else yields the pieces"
STAGES = "straight cuts through whole parts, in three stages at most"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sawing:
    """How all boards, mouldings and sheets are cut."""

    boards: tuple[SectionSawing, ...] = ()  # by the section's name
    mouldings: tuple[SectionSawing, ...] = ()  # by the moulding's name
    sheets: tuple[SheetSawing, ...] = ()  # by the sheet's name

    @property
    def cut_sheets(self) -> tuple[CutSheet, ...]:
        """Every sheet with where its pieces lie."""
        return tuple(sheet for kind in self.sheets for sheet in kind.sheets)


def derive_sawing(
    brief: Brief,
    boards: Sequence[BoardPart],
    sheets: Sequence[SheetPart],
    mouldings: Sequence[MouldingCut],
    memo: Memo,
) -> Sawing:
    """Return how everything is cut.

    Parameters
    ----------
    brief
        Kerf, trim cut, straight edge, least offcut and prices.
    boards, sheets, mouldings
        All that is sawn, neighbours together.
    memo
        Remembers solved jobs by their content.

    Notes
    -----
    Pieces that may be offcuts are pieces like others here: what this job leaves yields them wherever there is room.
    Mouldings are taken from long point to long point; that two neighbours may share a mitre cut is not used.
    """
    style, workshop, prices = brief.style, brief.project.workshop, brief.project.prices
    least = workshop.least_offcut or 0.0
    bench = Bench(style=style, kerf=brief.saw.kerf, trim_cut=brief.saw.trim_cut, least_offcut=least)
    by_section: dict[str, list[BoardPart]] = {}
    for part in boards:
        by_section.setdefault(part.stock, []).append(part)
    by_profile: dict[str, list[MouldingCut]] = {}
    for cut in mouldings:
        by_profile.setdefault(cut.profile.name, []).append(cut)
    by_sheet: dict[str, list[SheetPart]] = {}
    for piece in sheets:
        by_sheet.setdefault(piece.sheet.name, []).append(piece)
    flat = SheetBench(style=style, kerf=brief.saw.kerf, straight_edge=workshop.straight_edge)
    return Sawing(
        boards=tuple(
            saw_section(name, [_length(p) for p in own], own[0].on_sale, bench, prices, memo)
            for name, own in sorted(by_section.items())
        ),
        mouldings=tuple(
            saw_section(
                name, [Length(id=c.id, length=c.length) for c in own], own[0].profile.lengths, bench, prices, memo
            )
            for name, own in sorted(by_profile.items())
        ),
        sheets=tuple(saw_sheets(own[0].sheet, own, flat, memo) for _, own in sorted(by_sheet.items())),
    )


def _length(part: BoardPart) -> Length:
    return Length(id=part.id, length=part.length, may_be_offcut=part.may_be_offcut)


# --- boards ------------------------------------------------------------------------------------------------------


def boards_to_buy(sawing: Sawing, brief: Brief) -> tuple[Packed, ...]:
    """Return boards by section and length, shortest first; the spare is the shortest that holds the longest piece."""
    return tuple(packed for section in sawing.boards for packed in _packed_section(section, brief))


def _packed_section(section: SectionSawing, brief: Brief) -> Iterator[Packed]:
    longest = max((p.length for board in section.boards for p in board.pieces), default=0.0)
    holding = [board.length for board in section.boards if any(p.length == longest for p in board.pieces)]
    for length, own in _by_length(section.boards):
        spare = brief.saw.spare_boards and length == min(holding)
        yield Packed(
            stock=section.stock,
            length=length,
            width=None,
            number=len(own),
            pieces=_ids(own),
            spare=int(spare),
            why=_board_working(section, length, own, brief.saw.kerf),
            proven=section.proven,
            gap=section.gap,
        )
    for length, own in _by_length(section.too_long):
        why = Working(
            formula=TOO_LONG,
            inputs=(("pieces", len(own), ""), ("board", length, "mm")),
            source=COMMON_PRACTICE,
            value=len(own),
        )
        yield Packed(
            stock=section.stock, length=length, width=None, number=len(own), pieces=_ids(own), spare=0, why=why
        )


def _by_length(boards: Iterable[SawnBoard]) -> list[tuple[float, list[SawnBoard]]]:
    found: dict[float, list[SawnBoard]] = {}
    for board in boards:
        found.setdefault(board.length, []).append(board)
    return sorted(found.items())


def _ids(boards: Iterable[SawnBoard]) -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(piece.id for piece in board.pieces) for board in boards)


def _board_working(section: SectionSawing, length: float, own: Sequence[SawnBoard], kerf: float) -> Working:
    run = sum(piece.length for board in section.boards for piece in board.pieces)
    return Working(
        formula="; ".join(_board_words(section)),
        inputs=(
            ("pieces of the section", sum(len(board.pieces) for board in section.boards), ""),
            ("run in all", run, "mm"),
            ("kerf", kerf, "mm"),
            ("board", length, "mm"),
            ("boards of the section", len(section.boards), ""),
            *_bound_inputs(section),
        ),
        source=GEOMETRY if section.sold is not None else COMMON_PRACTICE,
        value=len(own),
    )


def _board_words(section: SectionSawing) -> Iterator[str]:
    if section.sold is None:
        yield NOT_IN_CATALOGUE
    else:
        yield f"cut from the lengths that are sold for {WEIGHED[section.sold.weighed]}"
    yield proof_words(proven=section.proven, gap=section.gap)
    if section.short_in_shop:
        yield AIM_OFF


def _bound_inputs(section: SectionSawing) -> Iterator[tuple[str, float | str, str]]:
    if section.sold is None:
        return
    if section.sold.weighed == "by length":
        unit = section.sold.lengths[0].length / section.sold.lengths[0].weight
        yield "length of all boards", section.cost * unit, "mm"
        yield "no plan takes less than", section.lower_bound * unit, "mm"
    else:
        yield "cost of all boards", f"{section.cost // 100}.{section.cost % 100:02d}", ""
        yield "no plan costs less than", f"{section.lower_bound // 100}.{section.lower_bound % 100:02d}", ""
    for length in section.sold.left_out:
        yield "sold too, but no price stated", length, "mm"


def proof_words(*, proven: bool, gap: float | None) -> str:
    """Return how near a count is to the least that will do, in words; no gap: it was never bounded."""
    if gap is None:
        return FIRST_FIT
    return NO_FEWER if proven else GAP.format(gap * 100)


# --- sheets ------------------------------------------------------------------------------------------------------


def sheets_to_buy(sawing: Sawing, kerf: float) -> tuple[Packed, ...]:
    """Return sheets by kind."""
    return tuple(_packed_kind(kind, kerf) for kind in sawing.sheets)


def _packed_kind(kind: SheetSawing, kerf: float) -> Packed:
    words = [STAGES, proof_words(proven=kind.proven, gap=kind.gap)]
    words += [PAST_EDGE] if kind.past_straight_edge else []
    return Packed(
        stock=kind.sheet.name,
        length=kind.sheet.length,
        width=kind.sheet.width,
        number=len(kind.sheets),
        pieces=tuple(tuple(p.piece for p in sheet.pieces) for sheet in kind.sheets),
        spare=0,
        why=Working(
            formula="; ".join(words),
            inputs=(
                ("pieces", sum(len(sheet.pieces) for sheet in kind.sheets), ""),
                ("kerf", kerf, "mm"),
                ("no plan takes fewer than", kind.lower_bound + kind.too_large, ""),
            ),
            source=GEOMETRY,
            value=len(kind.sheets),
        ),
        proven=kind.proven,
        gap=kind.gap,
    )


# --- mouldings ---------------------------------------------------------------------------------------------------


def moulding_stocks(sawing: Sawing, cuts: Iterable[MouldingCut]) -> tuple[MouldingStock, ...]:
    """Return whole lengths of every moulding by name and length; pieces longer than any that is sold stand apart."""
    profiles = {cut.profile.name: cut.profile for cut in cuts}
    return tuple(
        _moulding_stock(section, profiles[section.stock], length, own, on_sale=boards is section.boards)
        for section in sawing.mouldings
        for boards in (section.boards, section.too_long)
        for length, own in _by_length(boards)
    )


def _moulding_stock(
    section: SectionSawing, profile: Profile, length: float, own: Sequence[SawnBoard], *, on_sale: bool
) -> MouldingStock:
    return MouldingStock(
        profile=profile,
        length=length,
        on_sale=on_sale,
        cuts=_ids(own),
        net=sum(piece.length for board in own for piece in board.pieces),
        counted=proof_words(proven=section.proven, gap=section.gap),
    )
