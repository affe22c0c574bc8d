"""Every link inside the documents leads somewhere, and every page can be reached from the first."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.docs.pages import DOCS, PAGES, ROOT, all_blocks, prose_of

LINK = re.compile(r"!?\[[^\]]*\]\((?P<target>[^)\s]+)\)")
ABROAD = ("http://", "https://", "mailto:")
AT_THE_TOP = [ROOT / name for name in ("README.md", "CONTRIBUTING.md", "CHANGELOG.md")]


def links_of(page: Path) -> list[str]:
    return [found["target"] for found in LINK.finditer(prose_of(page)) if not found["target"].startswith(ABROAD)]


def anchors_of(page: Path) -> set[str]:
    """Return what the headings of a page are called in links."""
    headings = re.findall(r"^#{1,6} (.+)$", prose_of(page), flags=re.MULTILINE)
    plain = (re.sub(r"[^\w\- ]", "", heading.replace("`", "")).strip().lower() for heading in headings)
    return {heading.replace(" ", "-") for heading in plain}


@pytest.mark.parametrize("page", [*PAGES, *AT_THE_TOP], ids=lambda page: page.relative_to(ROOT).as_posix())
def test_every_link_of_a_page_leads_somewhere(page: Path) -> None:
    broken = []
    for target in links_of(page):
        path, _, anchor = target.partition("#")
        place = (page.parent / path).resolve() if path else page
        if not place.is_file() or (anchor and anchor not in anchors_of(place)):
            broken.append(target)
    assert broken == []


def test_links_are_found_at_all() -> None:
    found = {target for page in PAGES for target in links_of(page)}
    assert {"where-things-live.md", "corner.svg", "../reference/snags.md#passes-no-door"} <= found


def test_every_page_can_be_reached_from_the_index() -> None:
    reached, waiting = set[Path](), [DOCS / "index.md"]
    while waiting:
        page = waiting.pop()
        reached.add(page)
        trees = [block for block in all_blocks("{toctree}") if block.page == page]
        names = [line for tree in trees for line in tree.text.splitlines() if line and not line.startswith(":")]
        waiting += [page.parent / f"{name}.md" for name in names]
    assert sorted(reached) == PAGES


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(DOCS).as_posix())
def test_every_picture_has_words_for_those_who_do_not_see_it(page: Path) -> None:
    assert re.findall(r"!\[\s*\]\(", prose_of(page)) == []


DECISIONS = sorted((DOCS / "contributing" / "decisions").glob("[0-9]*.md"))


@pytest.mark.parametrize("page", DECISIONS, ids=lambda page: page.stem)
def test_a_decision_gives_its_context_and_its_consequences(page: Path) -> None:
    headings = re.findall(r"^## (.+)$", page.read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert headings == ["Context", "Decision", "Consequences"]
    assert re.match(r"\d{4}-[a-z-]+$", page.stem)
    assert page.read_text(encoding="utf-8").startswith(f"# {DECISIONS.index(page) + 1}. "), "numbered without gaps"
