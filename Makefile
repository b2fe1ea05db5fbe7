PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.installed
TOPOLOGY := $(BIN)/python -c "import tomllib; print(*tomllib.load(open('pyproject.toml', 'rb'))['project']['optional-dependencies']['topology'])"
JOB ?= scenes/demo.toml

.PHONY: demo test lint setup docs wheel coverage mutation bench soak clean

demo: $(STAMP)
	$(BIN)/fidpath plan $(JOB)
	$(BIN)/fidpath build $(JOB)

test: lint
	$(BIN)/python -m pytest -n 2 --dist loadfile --no-loadscope-reorder

lint: $(STAMP)
	$(BIN)/ruff check src tests benchmarks
	$(BIN)/ruff format --check src tests benchmarks
	$(BIN)/mypy
	$(BIN)/lint-imports

setup: $(STAMP)

$(STAMP): pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable ".[dev]"
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --upgrade --target $(VENV)/apart $$($(TOPOLOGY))
	touch $(STAMP)

docs: $(STAMP)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable ".[docs]"
	$(BIN)/python -m sphinx --fail-on-warning --keep-going -q -b html docs exports/docs

wheel: $(STAMP)
	.ci/wheel

bench: $(STAMP)
	for program in benchmarks/bench_*.py; do echo "== $$program"; $(BIN)/python $$program || exit 1; done

soak: $(STAMP)
	$(BIN)/python benchmarks/soak_jigs.py 200 1
	FIDPATH_SOAK=1 $(BIN)/python -m pytest tests/test_46_method_build.py
	$(BIN)/python benchmarks/soak_jobs.py 60 3

clean:
	rm -rf $(VENV) exports/*/ build dist
