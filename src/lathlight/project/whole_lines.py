"""Lines put into a project file's text or taken out of it, without parting the others from their comments.

A comment above a table's head belongs to that table, though the file's grammar counts it to the table before. Decides
where new lines go and which comments stay; what the lines say is left to ``lathlight.project.write``.
"""

from __future__ import annotations

from itertools import takewhile

CRLF = "\r\n"


def with_line_ends_of(model: str, text: str) -> str:
    r"""Return a text of plain line ends with those of another.

    Examples
    --------
    >>> with_line_ends_of("a\r\nb\r\n", "a\nb\n")
    'a\r\nb\r\n'
    """
    return text.replace("\n", CRLF) if uses_crlf(model) else text


def uses_crlf(text: str) -> bool:
    """Return True where every line of a text ends as it does on Windows."""
    return CRLF in text and text.count("\n") == text.count(CRLF)


def comments_kept(before: str, after: str) -> str:
    r"""Return the text after a change, with the comments of the tables that follow where they were.

    Parameters
    ----------
    before, after
        The text on either side of one change; plain line ends.

    Examples
    --------
    >>> comments_kept("[a]\nx = 1\n\n# of b\n[b]\n", "[a]\nx = 1\n\n# of b\ny = 2\n[b]\n")
    '[a]\nx = 1\ny = 2\n\n# of b\n[b]\n'
    >>> comments_kept("[a]\nx = 1\n\n# of b\n[b]\n", "[b]\n")
    '\n# of b\n[b]\n'
    """
    if len(after) > len(before):
        start = _cut_out(after, before)
        return after if start is None else _moved_up(after, start, start + len(after) - len(before))
    start = _cut_out(before, after)
    if start is None:
        return after
    taken = before[start : start + len(before) - len(after)]
    return after[:start] + (_of_next(taken) if taken.startswith("[") else "") + after[start:]


def _cut_out(longer: str, shorter: str) -> int | None:
    """Return where whole lines of the longer text have to be cut out to leave the shorter; None where nowhere.

    Of several places, as between equal lines, the one where a table begins, else the last.
    """
    size = len(longer) - len(shorter)
    latest = sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(longer, shorter, strict=False)))
    starts: list[int] = []
    for start in range(latest, -1, -1):
        if longer[start + size :] != shorter[start:]:
            break
        if (start == 0 or longer[start - 1] == "\n") and longer[start : start + size].endswith("\n"):
            starts.append(start)
    return next((start for start in starts if longer[start] == "["), starts[0] if starts else None)


def _moved_up(text: str, start: int, end: int) -> str:
    """Return the text with new lines put before the comments of the table that follows them."""
    above, new, below = text[:start], text[start:end], text[end:]
    if not below.lstrip().startswith("["):
        return text
    comments = _of_next(above)
    return above[: len(above) - len(comments)] + new + comments + below


def _of_next(text: str) -> str:
    """Return the last lines of a text that belong to what follows: comments after a blank line, or all there are."""
    lines = text.splitlines(keepends=True)
    own = list(takewhile(lambda line: not line.strip() or line.lstrip().startswith("#"), reversed(lines)))[::-1]
    blank = next((number for number, line in enumerate(own) if not line.strip()), 0)
    return "".join(own[blank:])
