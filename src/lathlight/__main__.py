"""Runs the command line, as ``lathlight`` or as ``python -m lathlight``.

Decides what a Ctrl-C does while no command is at work: before, it ends the process without a word; after, there is
nothing left to stop. What it does to a command at work is left to ``lathlight.cli``, and what it does before this
module is read to the interpreter.
"""

from __future__ import annotations

import os
import sys

STOPPED = 130  # as shells say it of Ctrl-C; lathlight.cli.complain says the same of a running command

try:
    import signal  # takes some milliseconds, and nothing of ours takes the Ctrl-C before it is there
except KeyboardInterrupt:
    os._exit(STOPPED)


def main() -> None:
    """Run the command line of this process and leave with its exit code."""
    watched = signal.getsignal(signal.SIGINT) is signal.default_int_handler  # a shell may have it ignored
    if watched:
        signal.signal(signal.SIGINT, _leave)
    from lathlight.cli import run

    try:
        if watched:
            signal.signal(signal.SIGINT, signal.default_int_handler)
        code = run(sys.argv[1:])
        if watched:
            signal.signal(signal.SIGINT, signal.SIG_IGN)
    except KeyboardInterrupt:  # just before or after the command's own handling of it
        code = STOPPED
    sys.exit(code)


def _leave(_number: int, _frame: object) -> None:
    """End at once: so far there are only imports, and nothing to be put away."""
    os._exit(STOPPED)


if __name__ == "__main__":
    main()
