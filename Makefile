# Everything a person or CI does with this project. `make help` lists it.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.installed
# The resolver is pinned too, so that the same input gives the same lock.
UV_VERSION := 0.13.9

export PIP_DISABLE_PIP_VERSION_CHECK := 1
# A person's mirror may serve the packages, but no setting of theirs may decide which versions are locked.
unexport UV_CONSTRAINT UV_OVERRIDE UV_PRERELEASE UV_RESOLUTION UV_EXCLUDE_NEWER UV_FIND_LINKS

.DEFAULT_GOAL := help
.PHONY: help demo test lint types imports pytest bench lock fmt clean

help: ## this list
	@sed -n 's/^\([a-z]*\):.*## \(.*\)/make \1 - \2/p' $(MAKEFILE_LIST)

# One stamp: reinstall only when the lock or the project's own description is newer.
$(STAMP): requirements.lock pyproject.toml
	$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "halfsplit needs Python 3.11 or later: make PYTHON=python3.12 ...")'
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --require-hashes -r requirements.lock
	$(BIN)/python -m pip install --quiet --no-deps --no-build-isolation -e .
	touch $@

demo: $(STAMP) ## run the worked example
	$(BIN)/halfsplit demo

test: lint types imports pytest ## everything that CI runs

lint: $(STAMP)
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .

types: $(STAMP)
	$(BIN)/mypy

imports: $(STAMP)
	$(BIN)/lint-imports

pytest: $(STAMP)
	# Small matrices gain nothing from several threads, and lose much where a browser and a server run beside them.
	OPENBLAS_NUM_THREADS=1 $(BIN)/python -m pytest

bench: $(STAMP) ## measure speed and print it
	$(BIN)/python -m bench

fmt: $(STAMP) ## lay the code out and mend what can be mended by machine
	$(BIN)/ruff check --fix .
	$(BIN)/ruff format .

lock: .uv/bin/uv ## write requirements.lock anew (UPGRADE=--upgrade takes newer releases)
	.uv/bin/uv pip compile pyproject.toml --no-config --all-extras --universal --python-version 3.11 \
	    --generate-hashes --no-header --no-annotate --quiet $(UPGRADE) -o requirements.lock

.uv/bin/uv:
	$(PYTHON) -m venv .uv
	.uv/bin/python -m pip install --quiet uv==$(UV_VERSION)

clean: ## remove everything that can be made again
	rm -rf $(VENV) .uv build dist .mypy_cache .ruff_cache .pytest_cache .hypothesis .import_linter_cache
	find src tests -name __pycache__ -type d -prune -exec rm -rf {} +
