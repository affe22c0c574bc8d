"""The reference page of the checks, written from the catalogue itself so that the two cannot part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.snags.registry import CHECKS
from lathlight.snags.wording import in_both_units

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lathlight.snags.check import Check

OPENING = """# Snags

A snag is something that can be drawn but would go wrong: a figure against a limit, with its place, the reason, and
what would mend it.
`lathlight snags FILE` lists them, `lathlight why FILE ID` shows how one came about.
Worst first, a snag *stops the job*, *spoils the picture or a part*, *costs money*, or is *worth knowing*.

The checks are arithmetic on the plan, not an approval.
Whether a wall stands is not checked by any of them.
Local codes, the makers' instructions and a qualified person come first.
"""


def reference_page() -> str:
    """Return the reference page in Markdown: every check under its family, with a heading of its own."""
    families = dict.fromkeys(entry.family for entry in CHECKS)
    parts = [OPENING]
    for family in families:
        parts.append(f"## {family.capitalize()}\n")
        parts += ["\n".join(_section(entry)) for entry in CHECKS if entry.family == family]
    return "\n".join(parts)


def _section(entry: Check) -> Iterator[str]:
    yield f"### {entry.name}\n"
    yield f"{entry.title}: {entry.why}.\n"
    yield f"- Severity: {entry.severity.words}"
    yield f"- Limit: {in_both_units(entry.limit)}"
    yield f"- Source: {entry.source}"
    yield f"- To mend it: {entry.remedy}\n"
