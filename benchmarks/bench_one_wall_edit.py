"""Somebody drags a wall: from a change of one wall to the new Plan, in one process that remembers its stages.

Baseline in the same run: the same change planned with nothing remembered.
"""

from __future__ import annotations

from lathlight.catalog import Catalog, load_catalog
from lathlight.plan import Memo, derive
from lathlight.project import Brief, Project, parse_project, resolve
from measuring import DEMOS, EXAMPLES, machine, seconds, set_of_walls, table

RUNS = 11


def measured(name: str, project: Project, catalog: Catalog) -> list[str]:
    steps = iter(range(1, 1000))

    def changed() -> Brief:
        wall = project.walls[0]
        wider = wall.model_copy(update={"length": wall.length + 25.4 * next(steps)})
        return resolve(project.model_copy(update={"walls": (wider, *project.walls[1:])}), catalog, place=name)

    memo = Memo()
    derive(resolve(project, catalog, place=name), memo=memo)
    warm = seconds(lambda: derive(changed(), memo=memo), runs=RUNS)
    cold = seconds(lambda: derive(changed()), runs=RUNS)
    return [name, f"{warm * 1e3:.1f} ms", f"{cold * 1e3:.1f} ms", f"{warm / cold:.2f}"]


def main() -> None:
    print(machine())
    catalog = load_catalog()
    texts = {name: (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8") for name in DEMOS}
    texts |= {f"{count} walls": set_of_walls(count) for count in (10, 100)}
    rows = [measured(name, parse_project(text, name=name), catalog) for name, text in texts.items()]
    table(("set", "remembered", "nothing remembered", "ratio"), rows)


if __name__ == "__main__":
    main()
