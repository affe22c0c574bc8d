"""How the documents are built: ``make docs``, warnings as errors."""

import tomllib
from pathlib import Path

PROJECT = tomllib.loads((Path(__file__).parents[1] / "pyproject.toml").read_text(encoding="utf-8"))["project"]

project = "Lathlight"
author = PROJECT["authors"][0]["name"]
release = PROJECT["version"]
language = "en-GB"

extensions = ["myst_parser"]
myst_heading_anchors = 3
exclude_patterns = ["_build"]
nitpicky = True

html_theme = "alabaster"  # comes with Sphinx
html_theme_options = {"description": PROJECT["description"], "fixed_sidebar": True}
html_show_sourcelink = False
html_show_copyright = False
