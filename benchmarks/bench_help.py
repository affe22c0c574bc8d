"""Somebody asks for help: ``lathlight --help`` from a cold start.

Baseline in the same run: the interpreter starting and stopping.
"""

from __future__ import annotations

from measuring import machine, python, seconds, table

RUNS = 9


def main() -> None:
    print(machine())
    bare = seconds(lambda: python("-c", "pass"), runs=RUNS)
    asked = seconds(lambda: python("-m", "lathlight", "--help"), runs=RUNS)
    rows = [
        ["python -c pass", f"{bare * 1e3:.0f} ms", "1.0"],
        ["--help", f"{asked * 1e3:.0f} ms", f"{asked / bare:.1f}"],
    ]
    table(("work, cold", "median", "ratio"), rows)


if __name__ == "__main__":
    main()
