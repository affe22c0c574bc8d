"""The house's rules that no other tool holds: who imports whose face, what starts light, what a file may not say."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).parents[1]
SOURCE = ROOT / "src"
PACKAGE = SOURCE / "lathlight"
MODULES = sorted(PACKAGE.rglob("*.py"))
FACES = sorted(path for path in PACKAGE.glob("*/__init__.py"))
GROUND = {"lathlight", "lathlight.errors", "lathlight.progress", "lathlight.units"}
HEAVY = ("ezdxf", "highspy", "manifold3d", "mitsuba", "numpy", "openpyxl", "ortools", "pydantic", "pygltflib", "rich",
         "shapely", "tomlkit", "trimesh", "typst")  # fmt: skip


# --- imports -----------------------------------------------------------------------------------------------------


def name_of(path: Path) -> str:
    """Return a module's full name; a face is called by its package."""
    parts = path.relative_to(SOURCE).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def room_of(module: str) -> str:
    """Return the package directly under lathlight that a module belongs to, or the module itself on the ground."""
    return ".".join(module.split(".")[:2])


def imports(path: Path) -> Iterator[tuple[int, str, str | None]]:
    """Yield every import of the project's own: line, module, imported name."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "lathlight":
            assert node.level == 0, f"{path}: relative import"
            yield from ((node.lineno, str(node.module), alias.name) for alias in node.names)
        elif isinstance(node, ast.Import):
            yield from (
                (node.lineno, alias.name, None) for alias in node.names if alias.name.split(".")[0] == "lathlight"
            )


def is_face(module: str) -> bool:
    """Return True for a package that has a face, the whole project's aside."""
    return "." in module and (SOURCE / Path(*module.split(".")) / "__init__.py").exists()


def is_module(name: str) -> bool:
    """Return True where a full name is a module's, not that of something a module holds."""
    return (SOURCE / Path(*name.split("."))).with_suffix(".py").exists()


def face_of(package: str) -> set[str]:
    """Return what a package's face offers: its __all__."""
    tree = ast.parse((SOURCE / Path(*package.split(".")) / "__init__.py").read_text(encoding="utf-8"))
    for node in tree.body:
        if isinstance(node, ast.Assign) and any(isinstance(t, ast.Name) and t.id == "__all__" for t in node.targets):
            return set(ast.literal_eval(node.value))
    return set()


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_modules_import_each_other_by_full_name_and_others_through_the_face(path: Path) -> None:
    module, wrong = name_of(path), []
    for line, target, name in imports(path):
        own = room_of(target) == room_of(module)
        if own and is_face(target) and path.name != "__init__.py" and not is_module(f"{target}.{name}"):
            wrong.append(f"line {line}: imports its own face {target}")
        elif not own and target.count(".") > 1 and path.name != "__main__.py":
            wrong.append(f"line {line}: reaches past the face of {room_of(target)} for {target}")
        elif not own and name and is_face(target) and name not in face_of(target):
            wrong.append(f"line {line}: {target} does not offer {name}")
    assert not wrong


@pytest.mark.parametrize("path", sorted((PACKAGE / "cli").glob("*.py")), ids=name_of)
def test_the_command_line_leans_on_app_and_the_ground_floor_only(path: Path) -> None:
    for_types = {node.lineno for node in ast.walk(type_checking_only(path)) if isinstance(node, ast.ImportFrom)}
    reached = {target for line, target, _ in imports(path) if line not in for_types}
    assert {each for each in reached if room_of(each) not in ("lathlight.app", "lathlight.cli")} <= GROUND


def type_checking_only(path: Path) -> ast.Module:
    """Return what a module imports for its annotations alone."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    body = [
        line
        for node in tree.body
        if isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"
        for line in node.body
    ]
    return ast.Module(body=body, type_ignores=[])


@pytest.mark.parametrize("path", FACES, ids=name_of)
def test_a_face_holds_no_code(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    docstring, *rest = tree.body
    assert isinstance(docstring, ast.Expr), "a face begins with its docstring"
    assert all(isinstance(node, ast.ImportFrom | ast.Assign) for node in rest)
    assert [t.id for n in rest if isinstance(n, ast.Assign) for t in n.targets if isinstance(t, ast.Name)] == [
        "__all__"
    ]


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_every_module_says_what_it_is_for(path: Path) -> None:
    assert ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))


# --- a light start -----------------------------------------------------------------------------------------------


def test_help_loads_no_heavy_library() -> None:
    code = (
        "import sys\n"
        "from lathlight.cli.commands import run\n"
        "code = run(['--help'])\n"
        f"print('loaded:', sorted(set(sys.modules) & set({HEAVY!r})))\n"
        "print('ours:', sorted(name for name in sys.modules if name.startswith('lathlight.app')))\n"
        "sys.exit(code)\n"
    )
    child = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, env=with_source())
    assert "Usage: lathlight" in child.stdout
    assert child.stdout.splitlines()[-2:] == ["loaded: []", "ours: []"]


def with_source() -> dict[str, str]:
    """Return the environment in which a child process finds the source."""
    return {**os.environ, "PYTHONPATH": str(SOURCE), "PYTHONIOENCODING": "utf-8"}


# --- what no file of the project says ----------------------------------------------------------------------------

FORBIDDEN = re.compile(
    "|".join(
        re.escape(first + second)  # in two halves, so that this file does not say it either
        for first, second in (
            ("pypi", ".org"),
            ("python", "hosted.org"),
            ("registry.", "npmjs"),
            ("registry.", "yarnpkg"),
            ("npmjs", ".com"),
            ("deb.", "debian.org"),
            ("/wo", "rk/"),
            ("/ro", "ot/"),
            ("C:", "\\Users"),
        )
    )
)
BINARY = {".ttf", ".png", ".pdf", ".glb", ".xlsx", ".dxf", ".ico", ".gz"}


def tracked_files() -> list[Path]:
    """Return what git keeps or would keep."""
    command = ["git", "-C", str(ROOT), "ls-files", "--cached", "--others", "--exclude-standard"]
    try:
        listed = subprocess.run(command, capture_output=True, text=True, check=True).stdout.splitlines()
    except (OSError, subprocess.CalledProcessError):
        pytest.skip("no git here: what is tracked cannot be told")
    return [ROOT / name for name in listed if (ROOT / name).is_file()]


def test_no_file_names_a_registry_or_a_path_of_somebodys_machine() -> None:
    files = [path for path in tracked_files() if path.suffix not in BINARY]
    assert files
    found = {
        f"{path.relative_to(ROOT)}: {match[0]}"
        for path in files
        for match in FORBIDDEN.finditer(path.read_text(encoding="utf-8"))
    }
    assert not found


def test_constraints_are_plain_versions() -> None:
    lines = (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    pins = [line for line in lines if line and not line.startswith("#")]
    assert pins
    assert all(re.fullmatch(r"[A-Za-z0-9._-]+==[A-Za-z0-9.+!]+", pin) for pin in pins)


# --- the documents -----------------------------------------------------------------------------------------------


def test_the_table_of_published_checks_is_current(request: pytest.FixtureRequest) -> None:
    conftest = request.config.pluginmanager.get_plugin(str(ROOT / "tests" / "conftest.py"))
    assert conftest is not None
    wanted = {ROOT, ROOT / "tests"}
    chosen = {Path(argument.split("::")[0]).resolve() for argument in request.config.args}
    if not wanted & chosen:
        pytest.skip("only some of the tests were collected")
    assert conftest.CHECKS.read_text(encoding="utf-8") == request.config.stash[conftest.PUBLISHED], "run: make checks"
