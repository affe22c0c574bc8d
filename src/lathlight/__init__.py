"""Lathlight plans a photographer's wall set backwards from the pictures."""

__version__ = "0.1.0"
