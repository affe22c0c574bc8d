"""The command line."""

from lathlight.cli.commands import run

__all__ = ["run"]
