"""Somebody plans a maze: reading, checking and planning 1, 10, 100 and 1 000 walls in one process.

Baseline in the same run: tomllib reading the same file, which grows with it.
"""

from __future__ import annotations

import tomllib

from lathlight.catalog import load_catalog
from lathlight.plan import derive
from lathlight.project import parse_project, resolve
from lathlight.snags import find_snags
from measuring import machine, seconds, set_of_walls, table


def main() -> None:
    print(machine())
    catalog = load_catalog()
    rows: list[list[str]] = []
    for count in (1, 10, 100, 1000):
        text = set_of_walls(count)
        runs = 5 if count <= 100 else 1
        plain = seconds(lambda text=text: tomllib.loads(text), runs=runs)
        brief = resolve(parse_project(text, name="growth.toml"), catalog, place="growth.toml")
        reading = seconds(lambda text=text: resolve(parse_project(text, name="g"), catalog, place="g"), runs=runs)
        planning = seconds(lambda brief=brief: derive(brief), runs=runs)
        plan = derive(brief)
        checking = seconds(lambda plan=plan: find_snags(plan), runs=runs)
        total = reading + planning + checking
        rows.append(
            [
                str(count),
                f"{reading * 1e3:.1f}",
                f"{planning * 1e3:.1f}",
                f"{checking * 1e3:.1f}",
                f"{total * 1e3 / count:.2f}",
                f"{total / plain:.0f}",
            ]
        )
    table(("walls", "read and check, ms", "plan, ms", "snags, ms", "all, ms a wall", "ratio to tomllib"), rows)


if __name__ == "__main__":
    main()
