"""The pages of the documents, and the fenced blocks on them.

What stands behind a fence's language says what is done with the block:

- ``toml plan``: a whole project file, which has to plan; ``file=NAME``: it is there for the page's session.
- ``toml saw file=NAME``: a list of pieces and stock, which is there for the page's session.
- ``pycon doctest``: examples in the form of an interactive session.
- ``sh run``, ``python run``, ``diff edit=FILE``: steps of one session, done from the top of the page to its bottom.
- ``text output``: what the step before it prints, every word of it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
PAGES = sorted(page for page in DOCS.rglob("*.md") if "_build" not in page.parts)
FENCE = re.compile(r"(?P<marks>`{3,})(?P<info>[^`]*)$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """One fenced block: lines are numbered from 0, those of the fences left out."""

    page: Path
    first: int
    last: int  # one past its last line
    info: tuple[str, ...]  # ("toml", "plan")
    text: str

    @property
    def place(self) -> str:
        """Where it is, for a test's name."""
        return f"{self.page.relative_to(DOCS).as_posix()}:{self.first + 1}"


def blocks_of(page: Path) -> list[Block]:
    """Return the fenced blocks of a page, in order."""
    lines = page.read_text(encoding="utf-8").splitlines()
    found: list[Block] = []
    opened: tuple[int, str, tuple[str, ...]] | None = None
    for number, line in enumerate(lines):
        fence = FENCE.fullmatch(line.strip())
        if fence is None:
            continue
        if opened is None:
            opened = number + 1, fence["marks"], tuple(fence["info"].split())
        elif fence["marks"] == opened[1] and not fence["info"].strip():
            first, _, info = opened
            text = "".join(f"{each}\n" for each in lines[first:number])
            found.append(Block(page=page, first=first, last=number, info=info, text=text))
            opened = None
    assert opened is None, f"{page}: a fence is not closed"
    return found


def all_blocks(*info: str) -> list[Block]:
    """Return the blocks of all pages whose fences say this, word for word from the start."""
    return [block for page in PAGES for block in blocks_of(page) if block.info[: len(info)] == info]


def prose_of(page: Path) -> str:
    """Return a page without its fenced blocks."""
    lines = page.read_text(encoding="utf-8").splitlines()
    for block in reversed(blocks_of(page)):
        del lines[block.first - 1 : block.last + 1]
    return "\n".join(lines)


def command_lines(text: str) -> list[str]:
    """Return the command lines of a block, those that go on behind a backslash as one."""
    return [line for line in text.replace("\\\n", " ").splitlines() if line.strip()]
