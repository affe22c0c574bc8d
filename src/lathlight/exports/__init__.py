"""Files for other programs: the set as glTF, lists as CSV and spreadsheet, the plan as JSON."""

from lathlight.exports.gltf import set_glb

__all__ = ["set_glb"]
