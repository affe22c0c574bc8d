"""The commands: one function each, which reads its options, calls a use case and shows what came of it.

Decides nothing about sets. What goes wrong is told by ``complain``; whatever is shown goes through ``show``.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

import lathlight
from lathlight.cli import complain, show
from lathlight.cli.saw import saw
from lathlight.errors import InputError, LathlightError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from lathlight.app import Planned, Rows
    from lathlight.plan import Memo

app = typer.Typer(
    name="lathlight",
    help="Plans a photographer's free-standing wall set backwards from the pictures.",
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
)

File = Annotated[Path, typer.Argument(metavar="FILE", help="The project file.", show_default=False)]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document for scripts.")]


def run(arguments: Sequence[str]) -> int:
    """Run one command line; return the exit code: 0 done, 1 stopping snags, 2 problems, 3 our fault, 130 stopped."""
    show.prepare_streams()
    as_json = complain.wants_json(arguments)
    try:
        code = app(args=list(arguments), prog_name="lathlight", standalone_mode=False)
    except LathlightError as error:
        return complain.about_error(error, as_json=as_json)
    except (KeyboardInterrupt, typer.Abort):
        return complain.about_stop(as_json=as_json)
    except Exception as fault:  # the last floor: a fault becomes one line and a log file
        return _about_other(fault, arguments, as_json=as_json)
    if code == complain.STOPPED:
        return complain.about_stop(as_json=as_json)
    return code if isinstance(code, int) else complain.DONE


def _about_other(fault: Exception, arguments: Sequence[str], *, as_json: bool) -> int:
    """Tell a wrong command line from a fault of ours."""
    say_it = getattr(fault, "format_message", None)  # how the command-line library marks its own complaints
    if say_it is None:
        return complain.about_fault(fault, doing=("lathlight", *arguments), as_json=as_json)
    path = getattr(getattr(fault, "ctx", None), "command_path", "lathlight")
    return complain.about_usage(say_it(), remedy=f"Try: {path} --help", as_json=as_json)


@app.callback(invoke_without_command=True)
def start(
    context: typer.Context,
    version: Annotated[bool, typer.Option("--version", help="Print the version and stop.")] = False,
    as_json: Json = False,
) -> int:
    """Plan a photographer's free-standing wall set backwards from the pictures.

    Start with `lathlight demo`, or describe a set of your own with `lathlight new`.
    """
    if version:
        if as_json:
            show.say_json({"version": lathlight.__version__})
        else:
            show.say(f"lathlight {lathlight.__version__}")
        raise typer.Exit(complain.DONE)
    if context.invoked_subcommand is None:
        show.say(context.get_help())
    return complain.DONE


@app.command()
def plan(
    file: File,
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="DIR", help="Folder of the set book; else beside FILE.", show_default=False),
    ] = None,
    watch: Annotated[bool, typer.Option("--watch", help="Plan again on every save, until Ctrl-C.")] = False,
    as_json: Json = False,
) -> int:
    """Plan a set and write its set book, drawings and lists."""
    if watch:
        return _plan_on_every_save(file, out, as_json=as_json)
    return _plan_once(file, out, as_json=as_json)


def _plan_once(file: Path, out: Path | None, *, as_json: bool, memo: Memo | None = None) -> int:
    from lathlight.app import plan_document, plan_project, set_book_folder, write_set_book

    with show.progress() as progress:
        planned = plan_project(file, memo=memo, progress=progress)
        folder = set_book_folder(file) if out is None else out
        written = write_set_book(planned, folder, progress=progress)
    if as_json:
        files = sorted(written.files)
        show.say_json({**plan_document(planned), "folder": str(written.folder), "files": files})
    else:
        _show_planned(planned, book=written.book)
    return complain.STOPPING_SNAGS if planned.stops else complain.DONE


def _show_planned(planned: Planned, *, book: Path) -> None:
    from lathlight.app import CAUTION, quantities_in_words

    show.say(planned.plan.brief.title.title)
    figures = quantities_in_words(planned)
    longest = max((len(label) for label, _ in figures), default=0)
    for label, value in figures:
        show.say(f"  {label.ljust(longest)}  {value}")
    show.say()
    complain.about_snags(planned.snags)
    show.say()
    show.say(show.wrapped(CAUTION))
    show.say()
    show.say(f"Set book: {book}")


def _plan_on_every_save(file: Path, out: Path | None, *, as_json: bool) -> int:
    from lathlight.app import each_save, new_memo

    memo = new_memo()
    try:
        for _ in each_save(file):
            try:
                _plan_once(file, out, as_json=as_json, memo=memo)
            except LathlightError as error:
                complain.about_error(error, as_json=as_json)
            if not as_json:
                show.note(f"Waiting for {file} to be saved; Ctrl-C ends.")
    except KeyboardInterrupt:
        if not as_json:
            show.note("Ended.")
    return complain.DONE


@app.command()
def snags(file: File, as_json: Json = False) -> int:
    """List what would go wrong, worst first."""
    from lathlight.app import plan_project, snag_documents

    with show.progress() as progress:
        planned = plan_project(file, progress=progress)
    if as_json:
        show.say_json({"project": str(file), "stops": planned.stops, "snags": snag_documents(planned.snags)})
    else:
        complain.about_snags(planned.snags)
    return complain.STOPPING_SNAGS if planned.stops else complain.DONE


@app.command()
def why(
    file: File,
    words: Annotated[
        list[str] | None,
        typer.Argument(metavar="[ID]", help="What to explain; without it, every id is listed.", show_default=False),
    ] = None,
    as_json: Json = False,
) -> int:
    """Say how a figure came about, and by which source."""
    from lathlight.app import by_kind, find_subject, plan_project, subject_document, subjects, working_in_words

    with show.progress() as progress:
        planned = plan_project(file, progress=progress)
    known = subjects(planned)
    if not words:
        kinds = by_kind(known.values())
        show.say_json(kinds) if as_json else _show_kinds(kinds)
        return complain.DONE
    subject = find_subject(known, " ".join(words))
    if as_json:
        show.say_json(subject_document(subject))
        return complain.DONE
    show.say(subject.id)
    for heading, text in working_in_words(subject, planned.plan.brief.style):
        show.say(show.wrapped(text, first=f"  {heading:8}", rest=" " * 10))
    return complain.DONE


def _show_kinds(kinds: Mapping[str, tuple[str, ...]]) -> None:
    for kind, identities in kinds.items():
        show.say(f"{kind}:")
        for identity in identities:
            show.say(f"  {identity}")


@app.command()
def new(  # one option a question
    file: Annotated[
        Path | None,
        typer.Argument(metavar="[FILE]", help="The project file to write; named after the title.", show_default=False),
    ] = None,
    example: Annotated[str | None, typer.Option(metavar="NAME", help="Copy a demo set instead of asking.")] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Ask nothing: take the proposed answers.")] = False,
    overwrite: Annotated[bool, typer.Option("--overwrite", help="Replace a file that is there.")] = False,
    units: Annotated[str | None, typer.Option(help="metric or imperial.")] = None,
    title: Annotated[str | None, typer.Option(help="What the set is called.")] = None,
    room_width: Annotated[str | None, typer.Option(metavar="LENGTH", help="Width of the room.")] = None,
    room_depth: Annotated[str | None, typer.Option(metavar="LENGTH", help="Depth of the room.")] = None,
    ceiling: Annotated[str | None, typer.Option(metavar="LENGTH", help="Height of the room.")] = None,
    door_width: Annotated[str | None, typer.Option(metavar="LENGTH", help="Clear width of its door.")] = None,
    door_height: Annotated[str | None, typer.Option(metavar="LENGTH", help="Clear height of its door.")] = None,
    wall: Annotated[list[str] | None, typer.Option(metavar="LENGTH", help="A wall; once each, left to right.")] = None,
    corner: Annotated[list[str] | None, typer.Option(metavar="ANGLE", help="Inside angle; once a corner.")] = None,
    height: Annotated[str | None, typer.Option(metavar="LENGTH", help="Height of the walls.")] = None,
    sheet: Annotated[str | None, typer.Option(metavar="NAME", help="Facing sheet, as the catalogue calls it.")] = None,
    timber: Annotated[str | None, typer.Option(metavar="NAME", help="Framing, as the catalogue calls it.")] = None,
    colour: Annotated[str | None, typer.Option(help="Colour of the paint.")] = None,
    framing: Annotated[str | None, typer.Option(help="How much of the sitter is in the picture.")] = None,
    lens: Annotated[str | None, typer.Option(metavar="MM", help="True focal length.")] = None,
    swing: Annotated[str | None, typer.Option(metavar="ANGLE", help="How far the camera goes to a side.")] = None,
    as_json: Json = False,
) -> int:
    """Describe a new set by answering plain questions."""
    from lathlight.app import refuse_existing

    if file is not None:
        refuse_existing(file, overwrite=overwrite)
    given = _given(
        units=units,
        title=title,
        room_width=room_width,
        room_depth=room_depth,
        ceiling=ceiling,
        door_width=door_width,
        door_height=door_height,
        height=height,
        sheet=sheet,
        timber=timber,
        colour=colour,
        framing=framing,
        lens=lens,
        swing=swing,
    )
    given |= _given_walls(wall or [], corner or [])
    if example is not None:
        return _new_from_example(example, file, given, overwrite=overwrite, as_json=as_json)
    return _new_from_answers(file, given, ask=not yes and not as_json, overwrite=overwrite, as_json=as_json)


def _given(**options: str | None) -> dict[str, str]:
    return {name.replace("_", " "): answer for name, answer in options.items() if answer is not None}


def _given_walls(walls: list[str], corners: list[str]) -> dict[str, str]:
    given = {"walls": str(len(walls))} if walls else {}
    given |= {f"wall {i}": length for i, length in enumerate(walls, start=1)}
    return given | {f"corner {i}": angle for i, angle in enumerate(corners, start=1)}


def _new_from_example(example: str, file: Path | None, given: dict[str, str], *, overwrite: bool, as_json: bool) -> int:
    from lathlight.app import read_example, write_project

    text = read_example(example)
    if given:
        raise InputError.of(
            place="command line",
            found=f"--example together with an answer about {' and '.join(given)}",
            expected="one or the other",
            remedy="Copy the demo set first and change the file, or leave --example out.",
        )
    return _tell_written(write_project(file or Path(f"{example}.toml"), text, overwrite=overwrite), as_json=as_json)


def _new_from_answers(file: Path | None, given: dict[str, str], *, ask: bool, overwrite: bool, as_json: bool) -> int:
    from lathlight.app import compose_project, file_name, write_project
    from lathlight.cli.ask import change_answers, choose_file, gather_answers, show_sketch

    answers = gather_answers(given, ask=ask)
    if ask:
        accepted = change_answers(answers)
        if accepted is None:
            show.say("Nothing was written.")
            return complain.DONE
        answers = accepted
    path = file or Path(file_name(answers["title"]))
    if ask and not overwrite:
        path, overwrite = choose_file(path)
    written = write_project(path, compose_project(answers, file=path.name), overwrite=overwrite)
    if not ask and not as_json:
        show_sketch(answers)
    return _tell_written(written, as_json=as_json)


def _tell_written(path: Path, *, as_json: bool) -> int:
    if as_json:
        show.say_json({"file": str(path)})
    else:
        show.say(f"Wrote {path}")
        show.say(f"Plan it with: lathlight plan {_shell(path)}")
    return complain.DONE


def _shell(path: Path) -> str:
    text = str(path)
    return f'"{text}"' if " " in text else text


@app.command()
def demo(
    folder: Annotated[Path, typer.Argument(metavar="[FOLDER]", help="Where to put it.")] = Path("lathlight-demo"),
    example: Annotated[str, typer.Option(metavar="NAME", help="Which demo set.")] = "corner-metric",
    as_json: Json = False,
) -> int:
    """Plan a demo set and say where its set book lies."""
    from lathlight.app import read_example, write_project

    file = folder / f"{example}.toml"
    text = read_example(example)
    if not file.exists():
        write_project(file, text, overwrite=False)
    if not as_json:
        show.say(f"Project file: {file.resolve()}")
    return _plan_once(file, None, as_json=as_json)


app.command()(saw)


@app.command()
def schema(as_json: Json = False) -> int:
    """Print the project file's JSON Schema, for editors."""
    from lathlight.app import schema_document

    document = schema_document()
    if as_json:
        show.say_json(document)
    else:
        show.say(show.indented_json(document))
    return complain.DONE


@app.command()
def catalog(
    words: Annotated[
        list[str] | None, typer.Argument(metavar="[WORDS]", help="What to look for.", show_default=False)
    ] = None,
    table: Annotated[str | None, typer.Option(metavar="NAME", help="Look in this table only.")] = None,
    units: Annotated[str | None, typer.Option(help="Show lengths in metric or imperial.")] = None,
    project: Annotated[
        Path | None, typer.Option("--project", metavar="FILE", help="Look among this project's own rows as well.")
    ] = None,
    as_json: Json = False,
) -> int:
    """Search timber, sheets, mouldings, paints and fixings."""
    from lathlight.app import find_rows, words_meant

    found = find_rows(" ".join(words or []), table=table, units=units, project=project)
    if as_json:
        show.say_json([each.document() for each in found])
        return complain.DONE
    if not found:
        meant = words_meant(" ".join(words or []), table=table, project=project)
        hint = "lathlight catalog lists them all." if meant is None else f'Did you mean "{meant}"?'
        show.say(f"No row has these words. {hint}")
        return complain.DONE
    if not found[0].exact:
        show.say("No row has all these words; the nearest are:")
    _show_rows(found)
    return complain.DONE


def _show_rows(found: Sequence[Rows]) -> None:
    """Show rows table by table, each with the number of its source; the sources come last, each once."""
    from lathlight.app import numbered_sources

    sources = numbered_sources(found)
    for each in found:
        show.say()
        show.say(f"{each.table}:")
        rows = [(*row, f"[{sources[source]}]") for row, source in zip(each.rows, each.row_sources, strict=True)]
        show.say(show.table((*each.header, "source"), rows))
    show.say()
    show.say("Sources:")
    for source, number in sources.items():
        show.say(show.wrapped(source, first=f"  [{number}] ", rest="      "))
