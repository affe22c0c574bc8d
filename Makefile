# Everything runs in .venv, which is made on the first call. Only python3 (3.11 or newer) and make are needed.

PYTHON ?= python3
BIN := .venv/bin
PIP := $(BIN)/python -m pip install --quiet --disable-pip-version-check

.DEFAULT_GOAL := help
.PHONY: help demo test test-slow lint format types contract checks golden docs bench

help: ## list these targets
	@grep -hE '^[a-z-]+:.*## ' $(MAKEFILE_LIST) | sed -E 's/^([a-z-]+):.*## /\1\t/' | awk -F '\t' '{printf "make %-11s %s\n", $$1, $$2}'

demo: .venv/installed ## plan a demo set and say where its set book lies
	@$(BIN)/lathlight demo out

test: .venv/installed-dev ## run the tests, two to three minutes on two cores
	$(BIN)/python -m pytest -q -n auto -m "not slow"

test-slow: .venv/installed-dev ## run the suites that take minutes
	$(BIN)/python -m pytest -q -n auto -m slow || [ $$? -eq 5 ] # 5: there is no slow test yet

lint: .venv/installed-dev ## check layout and style
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .

format: .venv/installed-dev ## lay the code out
	$(BIN)/ruff format .
	$(BIN)/ruff check --fix-only .

types: .venv/installed-dev ## check the types
	$(BIN)/pyright

contract: .venv/installed-dev ## check that imports run downwards
	$(BIN)/lint-imports

checks: .venv/installed-dev ## write the table of published checks anew
	$(BIN)/python -m pytest -q --collect-only --write-checks

golden: .venv/installed-dev ## write the golden files anew; then look at what changed
	$(BIN)/python -m pytest -q -n auto tests/golden --write-golden

docs: .venv/installed-docs ## build the documents, warnings as errors
	$(BIN)/sphinx-build -q -W --keep-going -b html docs docs/_build/html
	@echo docs/_build/html/index.html

bench: .venv/installed-dev ## run the benchmarks
	@for bench in benchmarks/bench_*.py; do echo "== $$bench"; $(BIN)/python $$bench || exit 1; done

.venv/bin/python:
	@$(PYTHON) -c 'import sys; sys.exit(None if sys.version_info >= (3, 11) else "Lathlight needs Python 3.11 or newer: make PYTHON=python3.12")'
	$(PYTHON) -m venv .venv
	$(PIP) --upgrade pip

.venv/installed: pyproject.toml constraints.txt | .venv/bin/python
	$(PIP) -c constraints.txt -e .
	@touch $@

.venv/installed-dev: .venv/installed
	$(PIP) -c constraints.txt -e . --group dev
	@touch $@

.venv/installed-docs: .venv/installed
	$(PIP) -c constraints.txt -e . --group docs
	@touch $@
