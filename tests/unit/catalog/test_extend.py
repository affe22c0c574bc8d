"""A project's own rows laid over the catalogue."""

from __future__ import annotations

import pytest

from lathlight.catalog import Catalog, extended, load_catalog
from lathlight.errors import InputError, Problem
from lathlight.units import LengthStyle

METRIC, FEET = LengthStyle.metric(), LengthStyle.imperial()
SQUARE = [[0, 0], [12, 0], [12, 60], [0, 60]]
NEW_RAIL = {"name": "my rail", "kind": "rail", "points": SQUARE, "lengths": ["2.4 m"], "density": 450}


def laid(rows: dict[str, list[dict[str, object]]], style: LengthStyle = METRIC) -> Catalog:
    return extended(load_catalog(), rows, style=style, place="set.toml")


def problems(rows: dict[str, list[dict[str, object]]], style: LengthStyle = METRIC) -> tuple[Problem, ...]:
    with pytest.raises(InputError) as refused:
        laid(rows, style)
    return refused.value.problems


def only_problem(rows: dict[str, list[dict[str, object]]], style: LengthStyle = METRIC) -> Problem:
    (problem,) = problems(rows, style)
    return problem


def test_no_rows_leave_the_catalogue_as_it_is() -> None:
    assert laid({"lumber": [], "sheets": []}) is load_catalog()


def test_a_known_name_changes_only_the_columns_it_states() -> None:
    before = load_catalog().lumber["2x2"]
    after = laid({"lumber": [{"name": "2x2", "lengths": ["10 ft", "8 ft"]}]}, FEET).lumber["2x2"]
    assert after.lengths == (2438.4, 3048.0)
    assert (after.width, after.depth, after.density) == (before.width, before.depth, before.density)


def test_a_changed_row_says_what_the_project_changed_and_where_the_rest_is_from() -> None:
    before = load_catalog().lumber["2x2"]
    after = laid({"lumber": [{"name": "2x2", "lengths": ["8 ft"], "density": 500}]}).lumber["2x2"]
    assert after.source == f"the project file (lengths, density); else {before.source}"


def test_a_stated_source_is_kept() -> None:
    after = laid({"weights": [{"name": "brick", "mass": 3, "source": "my kitchen scales"}]}).weights["brick"]
    assert (after.mass, after.source) == (3, "my kitchen scales")


def test_a_changed_row_keeps_its_place_and_a_new_one_comes_last() -> None:
    before = list(load_catalog().weights)
    after = laid({"weights": [{"name": "iron", "mass": "20 lb"}, {"name": "brick", "mass": 3}]})
    assert list(after.weights) == [*before, "iron"]
    assert after.weights["iron"].mass == pytest.approx(9.0718, abs=1e-4)
    assert after.weights["iron"].source == "the project file"


def test_the_catalogue_itself_does_not_change() -> None:
    laid({"weights": [{"name": "brick", "mass": 3}]})
    assert load_catalog().weights["brick"].mass == 2.5


def test_lengths_are_read_in_the_projects_notation() -> None:
    row: dict[str, object] = {"name": "wide ply", "like": "ply 1-4 in", "width": "5 ft", "length": "5' 0\""}
    sheet = laid({"sheets": [row]}, FEET).sheets["wide ply"]
    assert (sheet.width, sheet.length) == (1524.0, 1524.0)


def test_a_new_row_may_be_like_another() -> None:
    row = laid({"lumber": [{"name": "40x60", "like": "38x63", "width": 40, "depth": 60}]}).lumber["40x60"]
    other = load_catalog().lumber["38x63"]
    assert (row.width, row.depth, row.lengths, row.modulus) == (40, 60, other.lengths, other.modulus)
    assert row.source.startswith("the project file (width, depth); else ")


def test_a_density_may_come_from_specific_gravity_and_moisture() -> None:
    rows: list[dict[str, object]] = [{"name": "38x63", "specific_gravity": 0.5, "moisture": 20}]
    assert laid({"lumber": rows}).lumber["38x63"].density == pytest.approx(600)


def test_twelve_percent_is_the_moisture_where_none_is_stated() -> None:
    rows: list[dict[str, object]] = [{"name": "38x63", "specific_gravity": 0.5}]
    assert laid({"lumber": rows}).lumber["38x63"].density == pytest.approx(560)


def test_a_new_row_fills_in_what_has_a_default() -> None:
    row = laid({"profiles": [dict(NEW_RAIL)]}).profiles["my rail"]
    assert (row.spring, row.coping, row.source) == (None, True, "the project file")


def test_a_section_drawn_clockwise_from_elsewhere_is_turned_round() -> None:
    clockwise = [[12, 60], [12, 0], [0, 0], [0, 60]]
    row = laid({"profiles": [{**NEW_RAIL, "points": clockwise}]}).profiles["my rail"]
    assert row.points == ((0, 0), (12, 0), (12, 60), (0, 60))


# --- what is refused -------------------------------------------------------------------------------------------------


def test_an_unknown_table_is_refused_with_the_nearest() -> None:
    problem = only_problem({"sheet": [{"name": "x"}]})
    assert problem.place == "set.toml catalog.sheet"
    assert problem.remedy == 'Did you mean "sheets"?'


def test_an_unknown_column_is_refused_with_the_nearest() -> None:
    problem = only_problem({"lumber": [{"name": "2x2", "lenghts": ["8 ft"]}]})
    assert problem.place == "set.toml catalog.lumber[0].lenghts"
    assert problem.remedy == 'Did you mean "lengths"?'


def test_a_new_row_that_lacks_columns_is_refused_with_a_row_to_be_like() -> None:
    problem = only_problem({"sheets": [{"name": "ply 10 mm", "thickness": 10}]})
    assert problem.place == "set.toml catalog.sheets[0]"
    assert problem.found == 'a new row "ply 10 mm" without material, width, length, density, stud_spacing'
    assert 'like = "ply 1' in problem.remedy


def test_a_row_without_a_name_is_refused() -> None:
    problem = only_problem({"weights": [{"mass": 3}]})
    assert problem.found == "a row without name"


def test_a_row_like_an_unknown_one_is_refused_with_the_nearest() -> None:
    problem = only_problem({"lumber": [{"name": "x", "like": "2 x 2", "width": 40}]})
    assert problem.place == "set.toml catalog.lumber[0].like"
    assert problem.remedy == 'Did you mean "2x2"?'


def test_two_rows_of_one_name_are_refused() -> None:
    problem = only_problem({"weights": [{"name": "brick", "mass": 3}, {"name": "brick", "mass": 2}]})
    assert problem.place == "set.toml catalog.weights[1].name"


def test_every_problem_is_told_in_the_files_order() -> None:
    found = problems(
        {
            "weights": [{"name": "a/b", "mass": -1}, {"name": "brick", "mass": True}],
            "paints": [{"name": "primer", "spread": 0, "sheen": "mat"}],
        }
    )
    assert [problem.place for problem in found] == [
        "set.toml catalog.weights[0].name",
        "set.toml catalog.weights[0].mass",
        "set.toml catalog.weights[1].mass",
        "set.toml catalog.paints[0].spread",
        "set.toml catalog.paints[0].sheen",
    ]
    assert found[0].remedy == 'Give it a short name such as "a-b".'
    assert found[4].remedy == 'Did you mean "matt"?'


def test_the_place_may_be_told_by_a_function() -> None:
    with pytest.raises(InputError) as refused:
        extended(
            load_catalog(),
            {"weights": [{"name": "brick", "mass": 0}]},
            style=METRIC,
            place=lambda path: f"set.toml:14 {path}",
        )
    assert refused.value.problems[0].place == "set.toml:14 ('catalog', 'weights', 0, 'mass')"


WRONG: list[tuple[str, dict[str, object], str]] = [
    ("lumber", {"name": "2x2", "width": "2x2"}, "width"),
    ("lumber", {"name": "2x2", "width": 0}, "width"),
    ("lumber", {"name": "2x2", "width": -38}, "width"),
    ("lumber", {"name": "2x2", "width": [38]}, "width"),
    ("lumber", {"name": "2x2", "lengths": []}, "lengths"),
    ("lumber", {"name": "2x2", "lengths": "8 ft"}, "lengths"),
    ("lumber", {"name": "2x2", "lengths": [2400] * 501}, "lengths"),
    ("lumber", {"name": "2x2", "density": "30 lb"}, "density"),
    ("lumber", {"name": "2x2", "density": float("nan")}, "density"),
    ("lumber", {"name": "2x2", "density": 500, "specific_gravity": 0.4}, "density"),
    ("lumber", {"name": "2x2", "moisture": 12}, "moisture"),
    ("lumber", {"name": "2x2", "modulus": "stiff"}, "modulus"),
    ("lumber", {"name": "2x2", "modulus": float("inf")}, "modulus"),
    ("lumber", {"name": "2x2", "modulus": float("nan")}, "modulus"),
    ("lumber", {"name": "2x2", "modulus": 10**400}, "modulus"),
    ("lumber", {"name": "2x2", "width": 10**400}, "width"),
    ("lumber", {"name": "2x" * 40}, "name"),
    ("fasteners", {"name": "screw 4x40", "box": 10**400}, "box"),
    ("profiles", {"name": "rail 57", "points": [[0, 0], [10**400, 0], [0, 40]]}, "points"),
    ("lumber", {"name": "2x2", "system": "imperial"}, "system"),
    ("lumber", {"name": "2x2", "source": " "}, "source"),
    ("lumber", {"name": 22}, "name"),
    ("lumber", {"name": " 2x2"}, "name"),
    ("sheets", {"name": "ply 9 mm", "grain": "yes"}, "grain"),
    ("sheets", {"name": "ply 9 mm", "width": 3000}, "width"),
    ("sheets", {"name": "ply 9 mm", "thickness": 1300}, "thickness"),
    ("paints", {"name": "primer", "spread": 0}, "spread"),
    ("paints", {"name": "primer", "solids": 1.2}, "solids"),
    ("paints", {"name": "primer", "containers": ["1 gal"]}, "containers"),
    ("paints", {"name": "primer", "containers": []}, "containers"),
    ("paints", {"name": "primer", "recoat_hours": -1}, "recoat_hours"),
    ("fasteners", {"name": "screw 4x40", "box": 2.5}, "box"),
    ("fasteners", {"name": "screw 4x40", "box": 0}, "box"),
    ("weights", {"name": "brick", "mass": "heavy"}, "mass"),
    ("profiles", {"name": "rail 57", "spring": "38 deg"}, "spring"),
    ("profiles", {"name": "cornice 67 at 45", "spring": "95 deg"}, "spring"),
    ("profiles", {"name": "rail 57", "kind": "cornice"}, "spring"),
    ("profiles", {"name": "rail 57", "points": [[0, 0], [1, 1]]}, "points"),
    ("profiles", {"name": "rail 57", "points": [[0, 0], [10, 0], [5]]}, "points"),
    ("profiles", {"name": "rail 57", "points": [[0, 0], [10, 40], [10, 0], [0, 40]]}, "points"),
    ("profiles", {"name": "rail 57", "points": [[5, 0], [15, 0], [15, 40], [5, 40]]}, "points"),
    ("profiles", {"name": "rail 57", "points": [[0, 0], [0, 10], [0, 20]]}, "points"),
    ("profiles", {"name": "rail 57", "points": [[0, 0], [1e9, 0], [0, 40]]}, "points"),
]


@pytest.mark.parametrize(("table", "row", "column"), WRONG)
def test_a_value_that_cannot_be_is_refused_at_its_place(table: str, row: dict[str, object], column: str) -> None:
    problem = only_problem({table: [row]})
    assert problem.place == f"set.toml catalog.{table}[0].{column}"
    assert problem.found
    assert problem.expected
    assert problem.remedy.endswith((".", "?"))


def test_a_length_without_unit_in_a_feet_and_inches_file_is_refused_with_both_readings() -> None:
    problem = only_problem({"lumber": [{"name": "2x2", "width": 2}]}, FEET)
    assert "2 in" in problem.remedy
    assert "2 ft" in problem.remedy


def test_a_cornice_without_spring_angle_is_refused() -> None:
    problem = only_problem({"profiles": [{**NEW_RAIL, "kind": "cornice"}]})
    assert problem.found == "a cornice without a spring angle"


def test_a_cornice_whose_back_lies_flat_on_the_wall_is_refused() -> None:
    problem = only_problem({"profiles": [{**NEW_RAIL, "kind": "cornice", "spring": "38 deg"}]})
    assert problem.place == "set.toml catalog.profiles[0].points"
    assert problem.found == "a cornice whose back lies flat on the wall"


def test_a_cornice_drawn_at_another_angle_than_its_spring_is_refused() -> None:
    problem = only_problem({"profiles": [{"name": "cornice 92 at 38", "spring": "45 deg"}]})
    assert problem.place == "set.toml catalog.profiles[0].spring"
    assert problem.found == "45°, and points whose back leans by 38°"


def test_a_section_that_crosses_itself_is_refused_with_the_two_sides() -> None:
    bow = [[0, 0], [10, 40], [10, 0], [0, 40]]
    problem = only_problem({"profiles": [{**NEW_RAIL, "points": bow}]})
    assert problem.found == "a polyline whose sides 1 and 3 cross or touch"
