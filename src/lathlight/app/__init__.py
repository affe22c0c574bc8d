"""What every face of the program does: open, plan, explain, save whole or not at all."""

from lathlight.app.answers import Question, next_question
from lathlight.app.cautions import CAUTION
from lathlight.app.examples import QUICK_START, example_names, read_example
from lathlight.app.export import Written, make_files, set_book_folder, write_set_book
from lathlight.app.log import log_fault, log_folder
from lathlight.app.new import compose_project, file_name, sketch_answers, write_project
from lathlight.app.open import brief_of_text, read_brief, schema_document
from lathlight.app.rows import Rows, find_rows, numbered_sources, words_meant
from lathlight.app.run import (
    Planned,
    StoppedError,
    new_memo,
    plan_document,
    plan_project,
    quantities_in_words,
    snag_documents,
)
from lathlight.app.save import refuse_existing, replace_folder, write_file
from lathlight.app.saw_entries import stages_of
from lathlight.app.saw_job import SawJob
from lathlight.app.saw_read import parse_saw_jobs, read_saw_jobs, with_stages
from lathlight.app.saw_run import Sawn, saw, saw_document
from lathlight.app.saw_words import proof_in_words
from lathlight.app.saw_write import refuse_saw_out, saw_line, saw_page, write_saw
from lathlight.app.sketch import sketch_plan
from lathlight.app.watch import each_save
from lathlight.app.why import (
    Subject,
    by_kind,
    find_subject,
    subject_document,
    subjects,
    working_in_words,
)

__all__ = [
    "CAUTION",
    "QUICK_START",
    "Planned",
    "Question",
    "Rows",
    "SawJob",
    "Sawn",
    "StoppedError",
    "Subject",
    "Written",
    "brief_of_text",
    "by_kind",
    "compose_project",
    "each_save",
    "example_names",
    "file_name",
    "find_rows",
    "find_subject",
    "log_fault",
    "log_folder",
    "make_files",
    "new_memo",
    "next_question",
    "numbered_sources",
    "parse_saw_jobs",
    "plan_document",
    "plan_project",
    "proof_in_words",
    "quantities_in_words",
    "read_brief",
    "read_example",
    "read_saw_jobs",
    "refuse_existing",
    "refuse_saw_out",
    "replace_folder",
    "saw",
    "saw_document",
    "saw_line",
    "saw_page",
    "schema_document",
    "set_book_folder",
    "sketch_answers",
    "sketch_plan",
    "snag_documents",
    "stages_of",
    "subject_document",
    "subjects",
    "with_stages",
    "words_meant",
    "working_in_words",
    "write_file",
    "write_project",
    "write_saw",
    "write_set_book",
]
