"""``lathlight saw``: pieces and stock without a set, cut to proven cost.

Decides what the command line shows of it, and that the first Ctrl-C ends the search with the best plan that it has.
"""

from __future__ import annotations

import contextlib
import math
import os
import signal
import threading
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from lathlight.cli import complain, show
from lathlight.errors import InputError, LathlightError

if TYPE_CHECKING:
    from collections.abc import Generator, Sequence

    from lathlight.app import SawJob, Sawn
    from lathlight.errors import Problem
    from lathlight.progress import Progress

Job = Annotated[Path, typer.Argument(metavar="JOB", help="Pieces and stock: TOML, CSV or JSON lines.")]
Limit = Annotated[
    float | None, typer.Option("--limit", metavar="SECONDS", help="Most seconds for each job.", show_default=False)
]
Stages = Annotated[
    str | None,
    typer.Option("--stages", metavar="NUMBER", help="Most stages of cuts through sheets, or any.", show_default=False),
]
Out = Annotated[
    Path | None,
    typer.Option("--out", metavar="FILE|DIR", help="Write there in place of printing.", show_default=False),
]
Overwrite = Annotated[bool, typer.Option("--overwrite", help="Replace a file that is there.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document a job, one a line.")]


def saw(
    job: Job,
    limit: Limit = None,
    stages: Stages = None,
    out: Out = None,
    overwrite: Overwrite = False,
    as_json: Json = False,
) -> int:
    """Cut a plain list of pieces from boards or sheets, at the least cost."""
    from lathlight.app import read_saw_jobs, refuse_saw_out, with_stages, write_saw

    if limit is not None and not (math.isfinite(limit) and limit > 0):
        raise _wrong_option("--limit", f"{limit:g}", "a number of seconds above 0", "Type --limit 10, or leave it out.")
    jobs = read_saw_jobs(job)
    if stages is not None:
        jobs = with_stages(jobs, _stages(stages))
    if out is not None:
        refuse_saw_out(out, overwrite=overwrite)
    plans, problems = _solve(jobs, limit=limit, quiet=out is not None, as_json=as_json)
    if problems is not None:
        raise problems
    if out is not None and plans:
        _tell_written(write_saw(plans, out, as_json=as_json, overwrite=overwrite), plans, as_json=as_json)
    if len(plans) < len(jobs):
        if not as_json:
            show.note(f"{len(jobs) - len(plans)} of {len(jobs)} jobs were not begun.")
        return complain.STOPPED
    return complain.DONE


def _wrong_option(place: str, found: str, expected: str, remedy: str) -> LathlightError:
    return InputError.of(place=place, found=found, expected=expected, remedy=remedy)


def _stages(typed: str) -> int | None:
    from lathlight.app import stages_of

    try:
        return stages_of(typed)
    except ValueError as error:
        remedy = "Type --stages 3, or --stages any."
        raise _wrong_option("--stages", f'"{typed}"', "a whole number from 1, or any", remedy) from error


# --- solving -----------------------------------------------------------------------------------------------------


def _solve(
    jobs: Sequence[SawJob], *, limit: float | None, quiet: bool, as_json: bool
) -> tuple[list[Sawn], LathlightError | None]:
    """Return the plans, and what went wrong with other jobs; each plan is shown as soon as it is there."""
    from lathlight.app import saw as saw_job

    plans: list[Sawn] = []
    failed: list[LathlightError] = []
    with show.progress() as line, _stoppable(line) as progress:
        for number, job in enumerate(jobs):
            if progress.stop_requested():
                break
            progress.begin(job.name, number, len(jobs))
            try:
                sawn = saw_job(job, limit=limit, progress=progress)
            except LathlightError as error:
                failed.append(error)
                continue
            plans.append(sawn)
            if not quiet:
                progress.clear()
                _show(sawn, first=len(plans) == 1, as_json=as_json)
    problems: list[Problem] = [problem for error in failed for problem in error.problems]
    return plans, type(failed[0])(problems) if failed else None


def _show(sawn: Sawn, *, first: bool, as_json: bool) -> None:
    from lathlight.app import saw_line, saw_page

    if as_json:
        show.say(saw_line(sawn))
        return
    if not first:
        show.say("\n")
    for line in saw_page(sawn).split("\n"):
        show.say(line if line.startswith(" ") else show.wrapped(line))


def _tell_written(path: Path, plans: Sequence[Sawn], *, as_json: bool) -> None:
    from lathlight.app import proof_in_words

    if as_json:
        show.say_json({"file": str(path), "jobs": len(plans), "proven": sum(sawn.plan.proven for sawn in plans)})
        return
    for sawn in plans:
        show.say(f"{sawn.job.name}: {proof_in_words(sawn)}")
    show.say(f"Wrote {path}")


class _Stoppable:
    """A receiver of progress that remembers a Ctrl-C and says which job is at work."""

    def __init__(self, line: Progress) -> None:
        self._line = line
        self._doing = ""
        self._stop = False

    def begin(self, name: str, number: int, count: int) -> None:
        """Say which job comes now."""
        self._doing = f"{name}: " if count == 1 else f"{name} ({number + 1} of {count}): "
        self.report(done=0.0, text="reading")

    def clear(self) -> None:
        """Take the line away, where there is one."""
        if isinstance(self._line, show.ProgressLine):
            self._line.clear()

    def ask_to_stop(self) -> None:
        """Remember that the user wants the best plan so far."""
        self._stop = True

    def report(self, *, done: float, text: str) -> None:
        """Pass a report on."""
        self._line.report(done=done, text=f"{self._doing}{text}; Ctrl-C takes the best so far")

    def stop_requested(self) -> bool:
        """Return True once Ctrl-C was pressed."""
        return self._stop or self._line.stop_requested()


@contextlib.contextmanager
def _stoppable(line: Progress) -> Generator[_Stoppable, None, None]:
    """Let the first Ctrl-C ask for the best plan so far, and the second one end the program."""
    progress = _Stoppable(line)
    if threading.current_thread() is not threading.main_thread():
        yield progress
        return
    before = signal.getsignal(signal.SIGINT)

    def asked(_number: int, _frame: object) -> None:
        progress.ask_to_stop()
        signal.signal(signal.SIGINT, signal.default_int_handler)
        with contextlib.suppress(OSError):  # past the stream, which may be in the middle of a write
            os.write(2, b"\nStopping with the best plan so far; Ctrl-C again ends at once.\n")

    signal.signal(signal.SIGINT, asked)
    try:
        yield progress
    finally:
        signal.signal(signal.SIGINT, before)
