"""Figures, pictures and lists that stand in the text of a page are the program's own."""

from __future__ import annotations

import math
import re
import runpy
import tomllib
from typing import get_args

from tests.docs.pages import DOCS, ROOT, blocks_of

from lathlight.app import brief_of_text
from lathlight.carpentry.model import Role
from lathlight.plan import Plan, derive


def planned(page: str) -> Plan:
    """Return the plan of a page's project file."""
    (block,) = [block for block in blocks_of(DOCS / page) if block.info[:2] == ("toml", "plan")]
    return derive(brief_of_text(block.text, name="page.toml"))


def text_of(page: str) -> str:
    return (DOCS / page).read_text(encoding="utf-8")


def test_the_drawn_corner_is_what_its_tool_draws() -> None:
    tool = runpy.run_path(str(ROOT / "tools" / "draw_corner.py"))
    assert tool["PICTURE"].read_text(encoding="utf-8") == tool["picture"](), "run: python tools/draw_corner.py"


def bevel(plan: Plan, wall: str, side: str) -> float:
    """Return how far a wall's sheet edge is cut from square [degrees]: a page asks for whole ones."""
    pieces = next(w for w in plan.walls if w.name == wall).flats[-1 if side == "right" else 0].pieces
    piece = pieces[-1 if side == "right" else 0]
    run = piece.bevel_right if side == "right" else piece.bevel_left
    return round(abs(math.degrees(math.atan2(run, piece.sheet.thickness))), 6)


def test_the_bevels_of_the_oblique_corners_are_those_in_the_table() -> None:
    plan, page = planned("how-to/oblique-corner.md"), "how-to/oblique-corner.md"
    assert (bevel(plan, "left", "right"), bevel(plan, "back", "left")) == (20, 0)
    assert (bevel(plan, "back", "right"), bevel(plan, "right", "left")) == (15, 15)
    assert "| angle − 90° | 20° |" in text_of(page)
    assert re.search(r"\| mitred \|.*\| 35° \| 15° \|", text_of(page))


def test_the_rough_width_of_the_door_is_worked_out_as_the_page_says() -> None:
    plan = planned("how-to/fit-a-door-or-window.md")
    door = next(opening for flat in plan.flats for opening in flat.openings if opening.name == "door")
    assert f"760 + 2 × (18 + 6) = {door.rough[2]:.0f} mm rough" in text_of("how-to/fit-a-door-or-window.md")
    assert [len(wall.joints) for wall in plan.walls] == [2], "a flat a sheet, as the page's wall of three sheets says"


def test_the_travelling_wall_passes_its_way_in_flat_by_flat() -> None:
    plan = planned("how-to/travel-in-a-van.md")
    assert all(passage.passes and len(passage.stages) == 3 for passage in plan.passages)
    assert max(flat.width for flat in plan.flats) <= 1220
    assert max(flat.weight.value for flat in plan.flats) <= 22


def test_the_drawing_to_read_has_the_mirrors_backing() -> None:
    plan = planned("how-to/read-a-framing-drawing.md")
    assert any("mirror" in member.id for member in plan.members if member.role == "backing")


def test_the_roles_on_the_page_are_those_of_the_program() -> None:
    table = text_of("how-to/read-a-framing-drawing.md").split("## The roles")[1].split("##")[0]
    rows = re.findall(r"^\| ([a-z, ]+) \|", table, flags=re.MULTILINE)
    assert {name for row in rows for name in row.split(", ")} - {"in the table"} == set(get_args(Role))


def test_the_floors_stand_on_the_map_in_the_order_of_the_contract() -> None:
    contract = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"]
    floors = [floor.split(" | ") for floor in contract["contracts"][0]["layers"]]
    page = text_of("contributing/where-things-live.md").split("## The way of the data")[0]
    rows = re.findall(r"^\| ((?:`[a-z]+`(?:, )?)+) \|", page, flags=re.MULTILINE)
    assert [row.replace("`", "").split(", ") for row in rows] == floors
