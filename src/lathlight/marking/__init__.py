"""Marking out: heights from one level line, the same lines for flats lying down, and the story stick."""
