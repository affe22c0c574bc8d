"""The command line."""

from lathlight.cli.commands import main, run

__all__ = ["main", "run"]
