"""Files for other programs: the set as glTF, lists as CSV and spreadsheet, the plan as JSON."""

from lathlight.exports.amounts import amount_words, packs_words, tin_words, volume_words
from lathlight.exports.contents import lists, panel_stocks, way_in_words
from lathlight.exports.document import plan_json
from lathlight.exports.figures import ends_words, figure_words, length_words, working_words
from lathlight.exports.gltf import set_glb
from lathlight.exports.hardware_list import HardwareLine, hardware
from lathlight.exports.model import set_parts
from lathlight.exports.shape import plan_schema
from lathlight.exports.tables import UNDATED, Column, Table, csv_bytes, workbook_bytes
from lathlight.exports.trim_cuts import EndCut, TrimCut, saw_words, trim_cuts

__all__ = [
    "UNDATED",
    "Column",
    "EndCut",
    "HardwareLine",
    "Table",
    "TrimCut",
    "amount_words",
    "csv_bytes",
    "ends_words",
    "figure_words",
    "hardware",
    "length_words",
    "lists",
    "packs_words",
    "panel_stocks",
    "plan_json",
    "plan_schema",
    "saw_words",
    "set_glb",
    "set_parts",
    "tin_words",
    "trim_cuts",
    "volume_words",
    "way_in_words",
    "workbook_bytes",
    "working_words",
]
