"""The set book: what a carpenter takes to the bench, as one PDF."""

from lathlight.book.order_of_work import assembly_order, work_steps
from lathlight.book.pages import numbered_drawings, set_book
from lathlight.book.typeset import compile_book

__all__ = ["assembly_order", "compile_book", "numbered_drawings", "set_book", "work_steps"]
