"""What the camera sees of the walls alone."""

from lathlight.camera.aim import Aim, MiddleLine, middle_lines

__all__ = ["Aim", "MiddleLine", "middle_lines"]
