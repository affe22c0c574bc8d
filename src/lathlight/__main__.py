"""Runs the command line as ``python -m lathlight``."""

from lathlight.cli.commands import main

main()
