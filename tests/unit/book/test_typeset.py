"""The typesetter: bytes, dates, and what it refuses."""

from __future__ import annotations

import datetime as dt
import io

import pypdf
import pytest

from lathlight.book import compile_book
from lathlight.book.typeset import find_value

SOURCE = '#set text(font: "IBM Plex Sans")\n#read("words.txt")\n#metadata(7) <seven>'
FILES = {"words.txt": b"a half: \xc2\xbd"}
DATE = dt.date(2025, 4, 7)


def test_equal_input_gives_equal_bytes() -> None:
    assert compile_book(SOURCE, FILES, date=DATE) == compile_book(SOURCE, FILES, date=DATE)


def test_the_date_is_the_projects() -> None:
    reader = pypdf.PdfReader(io.BytesIO(compile_book(SOURCE, FILES, date=DATE)))
    assert reader.metadata.creation_date.date() == DATE
    assert "a half: ½" in reader.pages[0].extract_text()


def test_a_value_is_found_under_its_label() -> None:
    assert find_value(SOURCE, FILES, label="seven") == 7


@pytest.mark.parametrize("source", ["#panic()", '#set text(font: "No Such Font")\nwords', '#image("missing.svg")'])
def test_a_source_with_a_fault_or_a_strange_font_is_refused(source) -> None:
    with pytest.raises(ValueError, match="the set book's source"):
        compile_book(source, {}, date=DATE)


def test_a_missing_value_is_a_fault() -> None:
    with pytest.raises(ValueError, match="nowhere"):
        find_value("words", {}, label="nowhere")
