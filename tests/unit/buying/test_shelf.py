"""The shelf of offcuts: using and undoing it, and its file."""

from __future__ import annotations

from dataclasses import replace

import pytest
import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from lathlight.buying import Offcut, Shelf, read_shelf, undo, use, write_shelf
from lathlight.catalog import load_catalog
from lathlight.errors import InputError

CATALOG = load_catalog()
TEXT = """\
# What lies behind the door.
format = 1
units = "metric" # as on the tape
jobs = []

# a good one
[[offcuts]]
id = "1" # blue chalk
section = "38x63"
length = "1.2 m"

# from the hall
[[offcuts]]
id = 7
sheet = "ply 9 mm"
length = 900
width = "600 mm"
note = "one corner broken"

# keep this line last
"""
LEFT = (
    Offcut(id="", stock="38x63", length=455.0),
    Offcut(id="", stock="ply 9 mm", length=800.0, width=310.5, note="under the bench"),
)


def read(text: str = TEXT) -> Shelf:
    return read_shelf(text, catalog=CATALOG)


def problems(text: str) -> list[str]:
    with pytest.raises(InputError) as caught:
        read(text)
    return [str(each) for each in caught.value.problems]


# --- using -----------------------------------------------------------------------------------------------------------


def test_a_job_takes_its_pieces_off_the_shelf_and_puts_its_offcuts_on() -> None:
    used = use(read(), "parlour", ["1"], LEFT)
    assert [(o.id, o.stock, o.length, o.width) for o in used.lying] == [
        ("7", "ply 9 mm", 900.0, 600.0),
        ("8", "38x63", 455.0, None),
        ("9", "ply 9 mm", 800.0, 310.5),
    ]


def test_a_job_uses_the_shelf_once_however_often_it_is_run() -> None:
    once = use(read(), "parlour", ["1"], LEFT)
    assert use(once, "parlour", ["1"], LEFT) == once
    assert use(once, "parlour", ["7"], ()) == once


def test_a_job_that_takes_and_leaves_nothing_has_used_the_shelf_too() -> None:
    used = use(read(), "parlour", [], ())
    assert used.jobs == ("parlour",)
    assert use(used, "parlour", ["1"], LEFT) == used


def test_undoing_a_job_that_has_not_used_the_shelf_changes_nothing() -> None:
    assert undo(read(), "parlour") == read()


def test_a_job_cannot_be_undone_before_the_later_one_that_took_what_it_left() -> None:
    first = use(read(), "parlour", ["1"], LEFT)
    second = use(first, "hall", ["8"], ())
    with pytest.raises(InputError, match='Undo job "hall" first'):
        undo(second, "parlour")
    assert undo(undo(second, "hall"), "parlour") == read()


@pytest.mark.parametrize("taken", [["2"], ["1", "1"]])
def test_a_piece_that_does_not_lie_on_the_shelf_cannot_be_taken(taken: list[str]) -> None:
    with pytest.raises(InputError, match="offcuts that lie on the shelf"):
        use(read(), "parlour", taken, ())


def test_a_piece_that_another_job_has_taken_is_named_with_that_job() -> None:
    with pytest.raises(InputError, match='taken by job "hall"'):
        use(use(read(), "hall", ["1"], ()), "parlour", ["1"], ())


def test_an_offcut_is_not_left_under_an_id_that_is_there_already() -> None:
    with pytest.raises(InputError, match='a second offcut "7"'):
        use(read(), "parlour", [], [replace(LEFT[0], id="7")])


@st.composite
def jobs(draw: st.DrawFn) -> tuple[Shelf, list[str], list[Offcut]]:
    number = draw(st.integers(0, 6))
    shelf = Shelf(
        system=draw(st.sampled_from(["metric", "imperial"])),
        offcuts=tuple(Offcut(id=f"{n}", stock="2x2", length=draw(st.floats(1, 9000))) for n in range(number)),
    )
    for name in draw(st.sampled_from([(), ("hall",), ("hall", "shed")])):
        ids = [o.id for o in shelf.lying]
        shelf = use(shelf, name, draw(st.lists(st.sampled_from(ids), unique=True)) if ids else [], draw(offcuts()))
    ids = [o.id for o in shelf.lying]
    return shelf, draw(st.lists(st.sampled_from(ids), unique=True)) if ids else [], draw(offcuts())


def offcuts() -> st.SearchStrategy[list[Offcut]]:
    width = st.none() | st.floats(1, 2000)
    made = st.builds(
        lambda length, width, note: Offcut(
            id="", stock="2x2" if width is None else "ply 9 mm", length=length, width=width, note=note
        ),
        st.floats(1, 9000),
        width,
        st.sampled_from(["", "split at one end", 'says "keep"']),
    )
    return st.lists(made, max_size=4)


@given(job=jobs())
def test_undoing_a_job_gives_the_shelf_before_it(job: tuple[Shelf, list[str], list[Offcut]]) -> None:
    shelf, taken, left = job
    used = use(shelf, "parlour", taken, left)
    assert len(used.lying) == len(shelf.lying) - len(taken) + len(left)
    assert undo(used, "parlour") == shelf


@given(job=jobs())
def test_a_shelf_reads_back_from_its_file_before_and_after_a_job(job: tuple[Shelf, list[str], list[Offcut]]) -> None:
    shelf, taken, left = job
    text = write_shelf(shelf)
    assert read(text) == shelf
    used = use(shelf, "parlour", taken, left)
    after = write_shelf(used, text=text)
    assert read(after) == used
    assert write_shelf(undo(read(after), "parlour"), text=after) == text


# --- writing ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        TEXT,
        TEXT.rstrip("\n"),
        TEXT.replace("\n", "\r\n"),
        'format = 1\nunits = "metric"\noffcuts = [{ id = "1", section = "38x63", length = 900 }]\n',
        'format = 1\nunits = "metric"\n',
    ],
)
def test_a_file_that_is_written_unchanged_keeps_every_letter(text: str) -> None:
    assert write_shelf(read(text), text=text) == text


def test_using_the_shelf_keeps_every_comment_where_it_was() -> None:
    after = write_shelf(use(read(), "parlour", ["1"], LEFT), text=TEXT)
    assert after == (
        TEXT.replace("jobs = []", 'jobs = ["parlour"]').replace(
            'length = "1.2 m"\n', 'length = "1.2 m"\ntaken_by = "parlour"\n'
        )
        + """
[[offcuts]]
id = "8"
section = "38x63"
length = "455 mm"
left_by = "parlour"

[[offcuts]]
id = "9"
sheet = "ply 9 mm"
length = "800 mm"
width = "310.5 mm"
note = "under the bench"
left_by = "parlour"
"""
    )


@pytest.mark.parametrize("text", [TEXT, TEXT.replace("\n", "\r\n")])
def test_undoing_a_job_gives_the_file_before_it_letter_by_letter(text: str) -> None:
    after = write_shelf(use(read(text), "parlour", ["7"], LEFT), text=text)
    assert after != text
    assert write_shelf(undo(read(after), "parlour"), text=after) == text


def test_what_the_user_writes_below_a_jobs_offcut_stays_when_the_job_is_undone() -> None:
    after = write_shelf(use(read(), "parlour", ["1"], LEFT), text=TEXT)
    mine = after + '\n# found under the stairs\n[[offcuts]]\nid = "20"\nsection = "38x38"\nlength = 700 # dry\n'
    back = write_shelf(undo(read(mine), "parlour"), text=mine)
    assert back == TEXT + '\n# found under the stairs\n[[offcuts]]\nid = "20"\nsection = "38x38"\nlength = 700 # dry\n'


def test_a_comment_below_the_last_of_a_jobs_offcuts_stays_when_the_job_is_undone() -> None:
    bare = 'format = 1\nunits = "metric"\njobs = []\n'
    after = write_shelf(use(read(bare), "parlour", [], LEFT), text=bare) + "\n# the end\n"
    back = write_shelf(undo(read(after), "parlour"), text=after)
    assert back == bare + "\n# the end\n"


def test_a_file_without_a_list_of_jobs_gets_one_below_its_format() -> None:
    text = TEXT.replace("jobs = []\n", "")
    after = write_shelf(use(read(text), "parlour", ["1"], ()), text=text)
    assert 'format = 1\njobs = ["parlour"]\nunits' in after
    assert read(after) == use(read(text), "parlour", ["1"], ())


def test_a_file_with_offcuts_on_one_line_can_be_used_and_undone() -> None:
    text = 'format = 1\nunits = "metric"\njobs = []\noffcuts = [{ id = "1", section = "38x63", length = 900 }]\n'
    used = use(read(text), "parlour", ["1"], LEFT)
    after = write_shelf(used, text=text)
    assert read(after) == used
    assert read(write_shelf(undo(used, "parlour"), text=after)) == read(text)


def test_a_fresh_file_says_its_format_and_units() -> None:
    text = write_shelf(use(Shelf(system="imperial"), "hall", [], [Offcut(id="", stock="2x2", length=914.4)]))
    assert tomlkit.parse(text).unwrap() == {
        "format": 1,
        "units": "imperial",
        "jobs": ["hall"],
        "offcuts": [{"id": "1", "section": "2x2", "length": "3ft 0in", "left_by": "hall"}],
    }


# --- reading ---------------------------------------------------------------------------------------------------------


def test_every_problem_of_a_shelf_is_named_with_its_line() -> None:
    text = """\
format = 1
units = "metric"

[[offcuts]]
id = "1"
section = "38x36"
length = 900

[[offcuts]]
id = "1"
section = "38x63"

[[offcuts]]
id = "2"
sheet = "ply 9 mm"
length = 900

[[offcuts]]
id = "3"
section = "38x63"
length = 0
widht = 20

[[offcuts]]
length = 20
"""
    found = problems(text)
    assert [each.split(": found")[0] for each in found] == [
        'shelf.toml:4 offcuts[0] "1" section',
        'shelf.toml:9 offcuts[1] "1" length',
        'shelf.toml:9 offcuts[1] "1" id',
        'shelf.toml:13 offcuts[2] "2" width',
        'shelf.toml:18 offcuts[3] "3" widht',
        'shelf.toml:18 offcuts[3] "3" length',
        "shelf.toml:24 offcuts[4]",
        "shelf.toml:24 offcuts[4] id",
    ]
    assert 'offcut "1" a second time' in found[2]
    assert 'Did you mean "width"?' in found[4]


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("format = ", "shelf.toml"),
        ('units = "metric"', "shelf.toml format"),
        ('format = 2\nunits = "metric"', "shelf.toml format"),
        ('format = true\nunits = "metric"', "shelf.toml format"),
        ("format = 1", "shelf.toml units"),
        ('format = 1\nunits = ["metric"]', "shelf.toml units"),
        ('format = 1\nunits = "metric"\nofcuts = 1', "shelf.toml ofcuts"),
        ('format = 1\nunits = "metric"\noffcuts = 1', "shelf.toml offcuts"),
        ('format = 1\nunits = "metric"\njobs = ["a", "a"]', "shelf.toml jobs"),
        ('format = 1\nunits = "metric"\njobs = [1]', "shelf.toml jobs"),
    ],
)
def test_a_file_that_is_no_shelf_says_why(text: str, place: str) -> None:
    assert [each.split(": found")[0] for each in problems(text)] == [place]


def test_a_length_without_a_unit_is_refused_in_feet_and_inches() -> None:
    text = TEXT.replace('"metric"', '"imperial"').replace("length = 900", 'length = "35"')
    assert any("without a unit" in each for each in problems(text))
