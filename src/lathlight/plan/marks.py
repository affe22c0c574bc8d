"""The letters that stand for walls on drawings and are pencilled on the backs of flats.

They come from the walls' names, so that a wall put in later leaves the other marks as they are.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence


def wall_marks(names: Sequence[str]) -> tuple[str, ...]:
    """Return one short mark a wall: the initials of its name, figures kept; one already taken gets more letters.

    Examples
    --------
    >>> wall_marks(["left return", "back", "right return", "bench", "wall 12"])
    ('LR', 'B', 'RR', 'BE', 'W12')
    """
    taken: dict[str, None] = {}
    for name in names:
        mark = next(m for m in _candidates(name) if m not in taken)
        taken[mark] = None
    return tuple(taken)


def _candidates(name: str) -> Iterator[str]:
    words = re.findall(r"[^\W\d_]+|\d+", name) or ["X"]
    initials = "".join(w if w.isdigit() else w[0].upper() for w in words)
    if initials[-1:].isdigit() and len(words) == 1:
        initials = f"W{initials}"
    yield initials
    first = words[0].upper()
    for length in range(2, len(first) + 1):
        yield first[:length] + "".join(w if w.isdigit() else w[0].upper() for w in words[1:])
    number = 2
    while True:
        yield f"{initials}x{number}"
        number += 1
