"""What is asked of a board cutter and what it answers: pieces, stock, layouts, a plan with its proof.

Lengths are whole numbers on one grid of the caller's choice (tenths of a millimetre, sixteenths of an inch), prices
whole numbers of the smallest coin. Nothing here computes. Mitred ends that share one cut are not known here yet: a
shared end will be a property of two neighbours in a layout, so it has its place beside `Layout.pieces`, not in `Piece`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Ended = Literal["finished", "work limit", "clock", "asked to stop"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """Pieces of one length."""

    length: int  # grid steps, above 0
    count: int = 1
    name: str = ""  # what messages call it


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Boards of one length: to be bought, or lying on the offcut shelf."""

    length: int  # grid steps, above 0
    price: int  # of one board, smallest coin; 0 on the shelf
    limit: int | None = None  # most boards to be had; None: as many as wanted
    offcut: bool = False  # from the shelf: its ends are sawn already, so it needs no trim cut
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardJob:
    """Boards of one section and grade, cut apart from all others."""

    pieces: tuple[Piece, ...]
    stocks: tuple[Stock, ...]
    kerf: int = 0  # grid steps lost to each cut
    trim_cut: int = 0  # grid steps taken off the factory end of a bought board, kerf included
    least_offcut: int = 0  # shorter leavings are waste


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkLimit:
    """How much work a search may do; never the clock, so that equal jobs give equal plans."""

    rounds: int = 60_000  # pricing rounds in all
    dives: int = 6  # attempts at rounding the relaxed answer, for each choice of bars and each turn
    turns: int = 3  # how often the undecided choices are taken up again, each time with more of everything
    patterns: int = 20_000  # most patterns listed at once
    nodes: int = 2_000  # most nodes of one search in whole numbers
    aim_patterns: int = 1_500  # most patterns listed for the aims after cost
    aim_layouts: int = 400  # most patterns among which the fewest layouts and the longest offcut are sought
    aim_thrifty: int = 150  # most patterns taken where all of them would be too many
    aim_nodes: int = 20  # most nodes for each of those aims


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """What is cut from one board, and from how many boards alike."""

    stock: int  # place in the job's stocks
    pieces: tuple[int, ...]  # places in the job's pieces, in the order of cutting
    times: int
    cuts: int  # saw cuts on one board, trim cut included
    left: int  # length left over on one board [grid steps]


@dataclass(frozen=True, slots=True, kw_only=True)
class Inequality:
    """An inequality that every plan keeps, with the worths that prove it: worth of the bars >= worth of the pieces."""

    piece_values: tuple[int, ...]  # worth of each of the job's pieces
    bar_values: tuple[int, ...]  # most worth that one board of each of the job's stocks can hold
    wanted: int  # worth of all pieces


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """Why no plan costs less than the bound."""

    cuts: tuple[Inequality, ...]
    searched: tuple[tuple[int, ...], ...]  # boards of each bought stock that were searched through in vain
    by_cuts: int  # the bound that the inequalities alone give: checked again in whole numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPlan:
    """How to cut the job; `proven` speaks of the cost, the later aims speak for themselves."""

    layouts: tuple[Layout, ...]  # longest stock first, then in order of their pieces
    cost: int
    lower_bound: int  # no plan costs less
    proven: bool  # cost == lower_bound
    cuts: int
    cuts_proven: bool
    different: int  # how many layouts are unlike each other
    different_proven: bool
    longest_offcut: int  # longest usable leaving [grid steps], 0 where none is usable
    longest_offcut_proven: bool
    proof: Proof
    ended: Ended

    @property
    def gap(self) -> float:
        """Cost above the bound, as a share of the bound; 0 where the cost is proven."""
        return 0.0 if self.proven else self.cost / self.lower_bound - 1 if self.lower_bound else float("inf")
