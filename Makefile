PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.installed
JOB ?= scenes/demo.toml

.PHONY: demo test lint setup bench samples clean

demo: $(STAMP)
	$(BIN)/fidpath plan $(JOB)
	$(BIN)/fidpath build $(JOB)

test: lint
	$(BIN)/python -m pytest -n 2 --dist loadfile

lint: $(STAMP)
	$(BIN)/ruff check src tests benchmarks
	$(BIN)/ruff format --check src tests benchmarks
	$(BIN)/mypy
	$(BIN)/lint-imports

setup: $(STAMP)

$(STAMP): pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable ".[dev]"
	touch $(STAMP)

bench: $(STAMP)
	for program in benchmarks/bench_*.py; do echo "== $$program"; $(BIN)/python $$program || exit 1; done

clean:
	rm -rf $(VENV) exports/*/ build dist
