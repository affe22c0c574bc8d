"""What would go wrong with a plan: a catalogue of checks, each a figure against a limit."""

from lathlight.snags.check import Check
from lathlight.snags.model import Severity, Snag
from lathlight.snags.reference import reference_page
from lathlight.snags.registry import CHECKS, find_snags

__all__ = ["CHECKS", "Check", "Severity", "Snag", "find_snags", "reference_page"]
