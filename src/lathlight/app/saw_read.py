"""From a file to saw jobs: TOML, CSV or JSON lines, told apart by the name's ending or else by the first sign.

Every problem of the file is told at once, in its order, with its line. Nothing is written.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from lathlight.app.saw_checks import check_job
from lathlight.app.saw_csv import read_csv
from lathlight.app.saw_entries import jobs_of
from lathlight.app.saw_lines import read_lines
from lathlight.app.saw_slips import Slips
from lathlight.app.saw_toml import read_toml
from lathlight.errors import InputError, nearest

if TYPE_CHECKING:
    from pathlib import Path

    from lathlight.app.saw_job import SawJob
    from lathlight.errors import LathlightError

LARGEST = 20_000_000  # bytes
ENDINGS = {".toml": "toml", ".csv": "csv", ".tsv": "csv", ".jsonl": "lines", ".ndjson": "lines", ".json": "lines"}


def read_saw_jobs(path: Path) -> tuple[SawJob, ...]:
    """Return the jobs in a file, in its order.

    Raises
    ------
    InputError
        The file cannot be used as it is: all problems at once.
    """
    return parse_saw_jobs(_text(path), name=path.name, stem=path.stem)


def parse_saw_jobs(text: str, *, name: str, stem: str = "job") -> tuple[SawJob, ...]:
    """Return the jobs in a text; the name stands in the places of problems, and its ending says what the text is.

    Raises
    ------
    InputError
        As :func:`read_saw_jobs`.

    Examples
    --------
    >>> (job,) = parse_saw_jobs('{"id": "two", "capacity": 10, "items": [[5, 2]]}', name="jobs.jsonl")
    >>> job.name, job.piece_count
    ('two', 2)
    """
    if not text.strip():
        raise _one(name, "an empty file", "pieces and stock", "List pieces and stock in it; see: lathlight saw --help.")
    slips = Slips()
    form = ENDINGS.get(f".{name.rpartition('.')[2].lower()}") or _guessed(text)
    if form == "lines":
        jobs = read_lines(text, file=name, slips=slips)
    else:
        read = read_toml if form == "toml" else read_csv
        jobs = jobs_of(read(text, file=name, stem=stem, slips=slips), slips)
    for job in jobs:
        check_job(job, slips, by_hand=form != "lines")
    slips.stop_here()
    return jobs


def with_stages(jobs: tuple[SawJob, ...], stages: int | None) -> tuple[SawJob, ...]:
    """Return the jobs with other most stages for their sheets; None: any number."""
    return tuple(replace(job, stages=stages) for job in jobs)


def _guessed(text: str) -> str:
    first = text.lstrip()
    if first.startswith("{"):
        return "lines"
    return "csv" if "kind" in first.split("\n", maxsplit=1)[0].lower() else "toml"


def _text(path: Path) -> str:
    name = path.name or str(path)
    try:
        if path.is_dir():
            raise _one(name, "a folder", "a list of pieces and stock", "Name the file inside it.")
        if not path.exists():
            raise _missing(path)
        if (size := path.stat().st_size) > LARGEST:
            raise _one(name, f"a file of {size / 1e6:.0f} MB", "at most 20 MB", "Split it into several files.")
        data = path.read_bytes()
    except InputError:
        raise
    except (OSError, ValueError) as error:
        remedy = "Check the name and that the file may be read."
        raise _one(name, f"a file that cannot be read ({error})", "a readable file", remedy) from error
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        remedy = 'Save it as UTF-8 (in the editor: "Save as", encoding UTF-8).'
        found = f"byte 0x{data[error.start]:02x}, which is not UTF-8"
        raise _one(f"{name}:{line}", found, "text in UTF-8", remedy) from error


def _missing(path: Path) -> LathlightError:
    folder = path.parent
    others = [each.name for each in folder.iterdir()] if folder.is_dir() else []
    near = nearest(path.name, others)
    remedy = f'Did you mean "{near}"?' if near else "Check the name and the folder."
    return _one(path.name, "no such file", "a list of pieces and stock", remedy)


def _one(place: str, found: str, expected: str, remedy: str) -> LathlightError:
    return InputError.of(place=place, found=found, expected=expected, remedy=remedy)
