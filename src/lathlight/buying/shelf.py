"""The shelf of offcuts: what lies on it, and what a job takes off it and puts on it, once.

An offcut that a job has taken stays in the list with the job's name, so that the job can be undone; it no longer lies
on the shelf. Which offcuts a job takes is decided by cutting; the file is left to ``lathlight.buying.shelf_file``.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from lathlight.errors import InputError, Problem, nearest

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

PLACE = "shelf"  # how problems of using call it; a reader of the file has lines


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """One piece that was kept."""

    id: str  # what is chalked on it; "" for one that is still to be numbered
    stock: str  # section, moulding or sheet, by its name in the catalogue
    length: float  # [mm]; of a sheet along its long side
    width: float | None = None  # of a sheet [mm]; None for timber and mouldings
    note: str = ""
    taken_by: str | None = None  # the job that has sawn it up
    left_by: str | None = None  # the job that it is left from


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """Every offcut in the order of the file, and the jobs that have used the shelf."""

    system: Literal["metric", "imperial"]
    offcuts: tuple[Offcut, ...] = ()
    jobs: tuple[str, ...] = ()

    @property
    def lying(self) -> tuple[Offcut, ...]:
        """What lies on the shelf now."""
        return tuple(offcut for offcut in self.offcuts if offcut.taken_by is None)


def use(shelf: Shelf, job_id: str, taken: Sequence[str], left: Sequence[Offcut]) -> Shelf:
    """Return the shelf after a job: its pieces off, its offcuts on; unchanged where the job has used it before.

    Parameters
    ----------
    taken
        Ids of offcuts that lie on the shelf.
    left
        The job's own offcuts; those with the id "" are numbered on from the highest number on the shelf.

    Raises
    ------
    InputError
        An id that is not on the shelf, twice in the list, or taken by another job; one that is left under an id that
        the shelf has already.

    Examples
    --------
    >>> shelf = Shelf(system="metric", offcuts=(Offcut(id="1", stock="38x63", length=900.0),))
    >>> used = use(shelf, "parlour", ["1"], [Offcut(id="", stock="38x63", length=420.0)])
    >>> [(offcut.id, offcut.length) for offcut in used.lying]
    [('2', 420.0)]
    >>> undo(used, "parlour") == shelf
    True
    """
    if not job_id.strip():
        raise ValueError("a job that uses the shelf needs a name")
    if job_id in shelf.jobs:
        return shelf
    found = (*_not_there(shelf, taken), *_ids_twice(shelf, left))
    if found:
        raise InputError(found)
    kept = tuple(replace(o, taken_by=job_id) if o.id in taken else o for o in shelf.offcuts)
    added = (replace(offcut, taken_by=None, left_by=job_id) for offcut in _numbered(shelf, left))
    return replace(shelf, offcuts=(*kept, *added), jobs=(*shelf.jobs, job_id))


def undo(shelf: Shelf, job_id: str) -> Shelf:
    """Return the shelf as it would be had the job not used it; unchanged where it has not.

    Raises
    ------
    InputError
        A later job has taken what this one left: that job has to be undone first.
    """
    if job_id not in shelf.jobs:
        return shelf
    later = [o for o in shelf.offcuts if o.left_by == job_id and o.taken_by is not None]
    if later:
        raise InputError([_taken_since(offcut, job_id) for offcut in later])
    back = tuple(replace(o, taken_by=None) if o.taken_by == job_id else o for o in shelf.offcuts if o.left_by != job_id)
    return replace(shelf, offcuts=back, jobs=tuple(job for job in shelf.jobs if job != job_id))


def _taken_since(offcut: Offcut, job_id: str) -> Problem:
    return Problem(
        place=f'{PLACE} offcut "{offcut.id}"',
        found=f'an offcut of job "{job_id}" that job "{offcut.taken_by}" has taken',
        expected="offcuts that still lie on the shelf",
        remedy=f'Undo job "{offcut.taken_by}" first.',
    )


def _not_there(shelf: Shelf, taken: Sequence[str]) -> Iterator[Problem]:
    known = {offcut.id: offcut for offcut in shelf.offcuts}
    lying = [offcut.id for offcut in shelf.lying]
    seen: set[str] = set()
    for name in taken:
        offcut = known.get(name)
        if offcut is None or offcut.taken_by is not None or name in seen:
            near = nearest(name, lying)
            by = "" if offcut is None or offcut.taken_by is None else f', taken by job "{offcut.taken_by}"'
            yield Problem(
                place=PLACE,
                found=f'offcut "{name}"{" a second time" if name in seen else by}',
                expected="offcuts that lie on the shelf, each once",
                remedy=f'Did you mean "{near}"?' if near and near != name else "Plan the cutting anew.",
            )
        seen.add(name)


def _ids_twice(shelf: Shelf, left: Sequence[Offcut]) -> Iterator[Problem]:
    seen = {offcut.id for offcut in shelf.offcuts}
    for offcut in left:
        if offcut.id and offcut.id in seen:
            yield Problem(
                place=PLACE,
                found=f'a second offcut "{offcut.id}"',
                expected="an id of its own for every offcut",
                remedy="Chalk another one on it.",
            )
        seen.add(offcut.id)


def _numbered(shelf: Shelf, left: Sequence[Offcut]) -> Iterator[Offcut]:
    """Yield the offcuts with an id each, counted on from the highest number there is."""
    names = [offcut.id for offcut in (*shelf.offcuts, *left)]
    number = max((int(name) for name in names if name.isascii() and name.isdecimal() and len(name) < 10), default=0)
    for offcut in left:
        if offcut.id:
            yield offcut
        else:
            number += 1
            yield replace(offcut, id=str(number))
