"""All rules that a project is held to before anything is looked up: one table, run in order, everything collected."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lathlight.project.names import name_findings
from lathlight.project.scene import scene_findings
from lathlight.project.walls import wall_findings

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from lathlight.project.draft import Draft
    from lathlight.project.findings import Finding

RULES: tuple[Callable[[Draft], Iterable[Finding]], ...] = (name_findings, wall_findings, scene_findings)


def broken_rules(draft: Draft) -> list[Finding]:
    """Return everything that is wrong with a project as a whole, as far as it could be read."""
    return [finding for rule in RULES for finding in rule(draft)]
