"""How long work reports and is asked to stop."""

from __future__ import annotations

from typing import Protocol


class Progress(Protocol):
    """Receiver of reports; long work also asks it whether to stop."""

    def report(self, *, done: float, text: str) -> None:
        """Say how much is done (0 to 1) and what is being done now."""
        ...

    def stop_requested(self) -> bool:
        """Return True once the user has asked to stop."""
        ...


class Quiet:
    """A receiver that shows nothing and never stops."""

    def report(self, *, done: float, text: str) -> None:
        """Take a report and show nothing."""

    def stop_requested(self) -> bool:
        """Return False: nobody can ask."""
        return False
