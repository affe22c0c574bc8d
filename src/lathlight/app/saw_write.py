"""The pages and documents of saw jobs as one file, or as a folder with a page a job; whole or not at all."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING

from lathlight.app.save import refuse_existing, replace_folder, write_file
from lathlight.app.saw_board_page import board_page
from lathlight.app.saw_run import saw_document
from lathlight.app.saw_sheet_page import sheet_page
from lathlight.errors import OutputError

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from lathlight.app.saw_run import Sawn

ENDINGS = (".txt", ".json", ".jsonl", ".ndjson", ".md", ".log")
LINES = "plans.jsonl"  # beside the pages in a folder


def saw_page(sawn: Sawn) -> str:
    """Return the bench page of a job."""
    return "\n".join(board_page(sawn) if sawn.boards is not None else sheet_page(sawn))


def saw_line(sawn: Sawn) -> str:
    """Return the document of a job on one line."""
    return json.dumps(saw_document(sawn), ensure_ascii=False, allow_nan=False)


def refuse_saw_out(out: Path, *, overwrite: bool) -> None:
    """Raise OutputError where the plans could not be written, before any work is done for them."""
    if not _is_folder(out):
        refuse_existing(out, overwrite=overwrite)
    elif out.is_dir() and any(out.iterdir()):
        raise OutputError.of(
            place=str(out),
            found="a folder with things in it",
            expected="a new or an empty folder, or a file such as plans.txt",
            remedy="Choose another name; nothing in this folder was touched.",
        )


def write_saw(plans: Sequence[Sawn], out: Path, *, as_json: bool, overwrite: bool) -> Path:
    """Write the plans of all jobs; return the full path.

    Parameters
    ----------
    plans
        What was solved.
    out
        A name with an ending for text is one file; any other is a folder with a page a job and all documents.
    as_json
        A file holds documents, one a line, in place of pages.
    overwrite
        A file that is there may be replaced.

    Raises
    ------
    OutputError
        It is there already, or cannot be written; what was there before is untouched.
    """
    refuse_saw_out(out, overwrite=overwrite)
    lines = "".join(f"{saw_line(sawn)}\n" for sawn in plans)
    if not _is_folder(out):
        text = lines if as_json else "\n\n".join(f"{saw_page(sawn)}\n" for sawn in plans)
        return write_file(out, text.encode("utf-8"), overwrite=overwrite)
    files = {LINES: lines.encode("utf-8")}
    for sawn in plans:
        files[_free_name(sawn.job.name, files)] = f"{saw_page(sawn)}\n".encode()
    return replace_folder(out, files)


def _is_folder(out: Path) -> bool:
    return out.is_dir() or (not out.is_file() and out.suffix.lower() not in ENDINGS)


def _free_name(name: str, taken: dict[str, bytes]) -> str:
    """Return a file name for a job that no other job has."""
    stem = re.sub(r"[^\w.-]+", "-", name).strip("-.")[:80] or "job"
    number = 1
    while (candidate := f"{stem}.txt" if number == 1 else f"{stem}-{number}.txt").lower() in {t.lower() for t in taken}:
        number += 1
    return candidate
