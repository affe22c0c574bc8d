"""The set book as a PDF: its pages, numbers, fonts, words. Second opinion: an independent PDF reader."""

from __future__ import annotations

import datetime as dt
import hashlib
import io
import json
import os
import re
import subprocess
import sys
from dataclasses import asdict, replace
from pathlib import Path

import pypdf
import pytest

from lathlight.app import brief_of_text
from lathlight.book import compile_book, numbered_drawings, set_book
from lathlight.book.blocks import ListColumn
from lathlight.book.pages import MANUSCRIPT, _files, _look
from lathlight.drawings import STANDING_CAUTION
from lathlight.plan import derive
from lathlight.snags import Severity, Snag, find_snags
from lathlight.working import Working

ROOT = Path(__file__).parents[3]
POINT = 25.4 / 72  # [mm]
HOSTILE = 'Potter\'s *corner* #1 $x$ [a] <b> \\n @x `raw` _u_ // "q"'


def titled(plan, title: str, **changes):
    return replace(plan, brief=replace(plan.brief, title=replace(plan.brief.title, title=title, **changes)))


def read(pdf: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(pdf))


def plain(page: pypdf.PageObject) -> str:
    return " ".join(page.extract_text().split())


def outline(reader: pypdf.PdfReader) -> list[tuple[int, str, int]]:
    found = []

    def walk(items, depth) -> None:
        for item in items:
            if isinstance(item, list):
                walk(item, depth + 1)
            else:
                found.append((depth, item.title.strip(), reader.get_destination_page_number(item) + 1))

    walk(reader.outline, 0)
    return found


def in_book(drawings):
    """Return the drawings that are pages of the book."""
    return [page for page in drawings if page.number]


@pytest.fixture(scope="module")
def book(demo_plan):
    snags = find_snags(demo_plan)
    drawings = numbered_drawings(demo_plan, snags)
    return demo_plan, snags, drawings, read(set_book(demo_plan, snags, drawings=drawings))


@pytest.fixture(scope="module")
def texts(book):
    """Words of every page: taken out once, since the reader is slow."""
    return [plain(page) for page in book[3].pages]


def test_every_page_carries_its_number_and_how_many_there_are(book, texts) -> None:
    _, _, drawings, _ = book
    numbers = [page.number for page in in_book(drawings)]
    assert numbers == list(range(2, 2 + len(numbers)))
    for number, words in enumerate(texts, start=1):
        assert f"{number} of {len(texts)}" in words


def test_the_line_drawing_takes_no_page_but_the_first(book, texts) -> None:
    _, _, drawings, reader = book
    (apart,) = [page for page in drawings if not page.number]
    assert apart.name == "set"
    assert apart.views
    assert all(apart.title != title for depth, title, _ in outline(reader) if depth == 1)


def test_a_first_page_full_of_snags_keeps_its_warning_and_the_page_numbers_true(demo_plan) -> None:
    words = "The seam of the wall stands beside the sitter's ear, where a line grows out of the head. " * 3
    snags = tuple(
        Snag(
            id=f"made-up@{number}",
            check="made-up",
            severity=Severity.SPOILS,
            place=str(number),
            what=words,
            figure=1.0,
            limit=0.0,
            unit="",
            remedy=words,
            why=Working(formula="made up for a test"),
        )
        for number in range(4)
    )
    drawings = numbered_drawings(demo_plan, snags)
    pages = [plain(page) for page in read(set_book(demo_plan, snags, drawings=drawings)).pages]
    assert STANDING_CAUTION in pages[0]
    assert in_book(drawings)[0].number == 2
    for number, page in enumerate(pages, start=1):
        assert f"{number} of {len(pages)}" in page


def test_drawings_lie_at_their_true_size(book) -> None:
    _, _, drawings, reader = book
    for drawing in in_book(drawings):
        box = reader.pages[drawing.number - 1].mediabox
        assert (float(box.width) * POINT, float(box.height) * POINT) == pytest.approx(drawing.size, abs=0.01)


def test_the_first_page_says_what_matters(book, texts) -> None:
    plan, snags, _, _ = book
    first = texts[0]
    assert plan.brief.title.title in first
    assert "STANDING NOT CHECKED" in first
    assert "Planning aid only" in first
    assert "Boards, proven" in first
    for snag in sorted(snags, key=lambda s: (s.severity, s.id))[:4]:
        assert snag.check in first


def test_only_the_bundled_fonts_are_in_the_file(book) -> None:
    *_, reader = book
    names = {name for page in reader.pages for name in fonts(page)}
    assert names
    assert all("IBMPlexSans" in name for name in names)


def fonts(page: pypdf.PageObject) -> set[str]:
    """Names of all fonts that a page uses, those of the drawings on it included."""
    found: set[str] = set()

    def gather(resources) -> None:
        resources = resources.get_object()
        for font in resources.get("/Font", {}).values():
            found.add(str(font.get_object()["/BaseFont"]))
        for form in resources.get("/XObject", {}).values():
            if "/Resources" in form.get_object():
                gather(form.get_object()["/Resources"])

    gather(page["/Resources"])
    return found


def test_the_outline_leads_to_every_drawing_and_chapter(book) -> None:
    plan, snags, drawings, reader = book
    found = outline(reader)
    assert [(title, page) for depth, title, page in found if depth == 1] == [
        (d.title, d.number) for d in in_book(drawings)
    ]
    top = [title for depth, title, _ in found if depth == 0]
    assert top[:3] == [plan.brief.title.title, "Drawings", "Timber to cut"]
    assert {"Sheets to cut", "Flats", "To buy", "Order of work", "Cautions"} <= set(top)
    assert ("Snags" in top) == bool(snags)


def test_title_and_date_of_the_file_are_the_projects(book) -> None:
    plan, _, _, reader = book
    assert reader.metadata.title == plan.brief.title.title
    assert reader.metadata.creation_date.date() == plan.brief.title.date


def test_every_mark_stands_in_the_lists(book, texts) -> None:
    plan, _, drawings, _ = book
    words = " ".join(texts[1 + len(in_book(drawings)) :])
    for line in (*plan.timber, *plan.panels):
        assert line.mark in words


def test_every_snag_is_told_in_full(book, texts) -> None:
    _, snags, drawings, _ = book
    words = "".join("".join(texts[1 + len(in_book(drawings)) :]).split())
    for snag in snags:
        assert "".join(snag.what.split()) in words
        assert "".join(snag.remedy.split()) in words


def test_the_book_never_calls_anything_safe(texts) -> None:
    words = " ".join(texts)
    assert not re.search(r"\bsafe(ly|ty)?\b", words, re.IGNORECASE)


def test_words_stay_inside_the_paper(book) -> None:
    *_, reader = book
    for page in reader.pages:
        width, height = float(page.mediabox.width), float(page.mediabox.height)
        places: list[tuple[float, float]] = []

        def note(text, cm, tm, _font, _size, places=places) -> None:
            if text.strip():
                x, y = tm[4], tm[5]
                places.append((cm[0] * x + cm[2] * y + cm[4], cm[1] * x + cm[3] * y + cm[5]))

        page.extract_text(visitor_text=note)
        assert places
        assert all(0 <= x <= width and 0 <= y <= height for x, y in places)


def test_words_of_a_user_are_never_read_as_instructions(plan_of) -> None:
    plan = titled(plan_of("corner-metric"), HOSTILE, notes="#panic() $ \\end [")
    reader = read(set_book(plan, ()))
    first = plain(reader.pages[0])
    assert HOSTILE in first
    assert "#panic() $ \\end [" in first
    assert reader.metadata.title == HOSTILE


def test_a_snag_of_hostile_words_is_printed_as_it_is(plan_of) -> None:
    snag = Snag(
        id="x@set",
        check="x",
        severity=Severity.STOPS,
        place="set",
        what='#import "/etc/passwd" *bold*',
        figure=1.0,
        limit=2.0,
        unit="mm",
        remedy="$x$ <label>",
        why=Working(formula="_f_"),
    )
    first = plain(read(set_book(plan_of("corner-metric"), (snag,))).pages[0])
    assert '#import "/etc/passwd" *bold*' in first
    assert "$x$ <label>" in first


def test_long_names_wrap_inside_their_column() -> None:
    text = (ROOT / "examples" / "corner-metric.toml").read_text(encoding="utf-8")
    name = "w" * 60
    plan = derive(brief_of_text(text.replace('"back"', f'"{name}"'), name="long.toml"))
    assert name in {wall.name for wall in plan.walls}
    reader = read(set_book(plan, find_snags(plan)))
    joined = "".join("".join(plain(page).split()) for page in reader.pages)
    assert f"{name}/1" in joined.replace("\u200b", "")


@pytest.mark.parametrize("paper", ["A4", "A3", "Letter", "Tabloid"])
def test_every_paper_gives_a_book(plan_of, paper) -> None:
    plan = titled(plan_of("corner-metric"), "Corner", paper=paper)
    reader = read(set_book(plan, ()))
    sizes = {"A4": (210, 297), "A3": (297, 420), "Letter": (215.9, 279.4), "Tabloid": (279.4, 431.8)}
    box = reader.pages[0].mediabox
    assert (float(box.width) * POINT, float(box.height) * POINT) == pytest.approx(sizes[paper], abs=0.01)


def test_a_project_without_a_date_gets_a_fixed_one(plan_of) -> None:
    plan = titled(plan_of("corner-metric"), "Corner", date=None)
    assert read(set_book(plan, ())).metadata.creation_date == dt.datetime(2000, 1, 1, tzinfo=dt.UTC)


def test_the_same_plan_gives_the_same_bytes_in_another_process(plan_of) -> None:
    plan = plan_of("corner-imperial")
    pdf = set_book(plan, find_snags(plan))
    assert pdf == set_book(plan, find_snags(plan))
    code = (
        "import hashlib, sys\n"
        "from pathlib import Path\n"
        "from lathlight.app import read_brief\n"
        "from lathlight.book import set_book\n"
        "from lathlight.plan import derive\n"
        "from lathlight.snags import find_snags\n"
        "plan = derive(read_brief(Path(sys.argv[1])))\n"
        "print(hashlib.sha256(set_book(plan, find_snags(plan))).hexdigest())\n"
    )
    path = ROOT / "examples" / "corner-imperial.toml"
    environment = {**os.environ, "PYTHONHASHSEED": "7"}
    child = subprocess.run(
        [sys.executable, "-c", code, str(path)], capture_output=True, text=True, check=True, env=environment
    )
    assert child.stdout.strip() == hashlib.sha256(pdf).hexdigest()


@pytest.mark.parametrize("before", range(15, 25, 2))
def test_a_short_list_is_not_broken_over_two_pages(plan_of, before) -> None:
    plan = plan_of("corner-metric")
    files = _files(plan, (), ())
    manuscript = json.loads(files[MANUSCRIPT])
    column = asdict(ListColumn(title="Mark", kind="mark", grow=1))
    manuscript["lists"] = [
        {"title": title, "lead": "", "blocks": [{"kind": "grid", "columns": [column], "groups": [group]}]}
        for title, group in (
            ("Long", {"heading": "", "detail": "", "rows": [[f"long {n}"] for n in range(before)]}),
            ("Short", {"heading": "", "detail": "", "rows": [[f"short {n}"] for n in range(6)]}),
        )
    ]
    files[MANUSCRIPT] = json.dumps(manuscript).encode()
    pages = [plain(page) for page in read(compile_book(_look(), files, date=None)).pages]
    with_rows = [page for page in pages if "short " in page]
    assert len(with_rows) == 1
    assert all(f"short {n}" in with_rows[0] for n in range(6))
