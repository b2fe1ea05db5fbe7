PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.installed
TOPOLOGY := $(BIN)/python -c "import tomllib; print(*tomllib.load(open('pyproject.toml', 'rb'))['project']['optional-dependencies']['topology'])"
JOB ?= scenes/demo.toml
OPEN := import sys, tomllib; print('open exports/' + tomllib.load(open(sys.argv[1], 'rb'))['name'] + '/splice.html')

.PHONY: demo test lint setup docs rooms wheel coverage mutation bench soak clean

demo: $(STAMP)
	$(BIN)/fidpath plan $(JOB)
	$(BIN)/fidpath build $(JOB)
	@$(BIN)/python -c "$(OPEN)" $(JOB)

test: lint
	$(BIN)/python -m pytest -n 2 --dist loadfile --no-loadscope-reorder

lint: $(STAMP)
	$(BIN)/ruff check src tests benchmarks
	$(BIN)/ruff format --check src tests benchmarks
	$(BIN)/mypy
	$(BIN)/lint-imports
	$(BIN)/python docs/rooms.py --check

setup: $(STAMP)

$(STAMP): pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable ".[dev]"
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --upgrade --target $(VENV)/apart $$($(TOPOLOGY))
	touch $(STAMP)

docs: $(STAMP)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable ".[docs]"
	$(BIN)/python -m sphinx --fail-on-warning --keep-going -q -b html docs exports/docs

# the drawing and the table of rooms in DEVELOPERS.md, from the imports
rooms: $(STAMP)
	$(BIN)/python docs/rooms.py

wheel: $(STAMP)
	.ci/wheel

COVERAGE := $(BIN)/python -m coverage
COUNTED := tests/planning/test_sheet.py tests/geometry/test_curve.py tests/geometry/test_eye.py tests/geometry/test_bury.py \
	tests/planning/test_planner.py tests/planning/test_refusals.py tests/settling/test_solver.py tests/checking/test_report.py tests/checking/test_crossings.py tests/checking/test_layout.py tests/checking/test_throat.py \
	tests/checking/test_drawn_overlap.py tests/checking/test_overlap.py tests/checking/test_passes.py tests/states/test_states.py \
	tests/checking/test_step_report.py tests/planning/test_figure.py tests/planning/test_choices.py tests/geometry/test_braid.py \
	tests/geometry/test_seat.py tests/states/test_closing.py tests/settling/test_thin_start.py tests/validation
PLAIN := tests/settling/test_kernels.py tests/checking/test_depth_kernels.py

# the compiled loops count as plain Python, once, on tiny cases
coverage: $(STAMP)
	$(COVERAGE) erase --rcfile=tests/coverage.ini
	$(COVERAGE) run --rcfile=tests/coverage.ini -m pytest $(COUNTED)
	NUMBA_DISABLE_JIT=1 $(COVERAGE) run --rcfile=tests/coverage.ini -m pytest $(PLAIN)
	$(COVERAGE) combine --rcfile=tests/coverage.ini --quiet
	$(COVERAGE) report --rcfile=tests/coverage.ini

# plan and braid broken in hundreds of small ways, in a copy of the project; what the tests don't notice is listed
mutation: $(STAMP)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable ".[mutation]"
	rm -rf build/mutation && mkdir -p build/mutation
	cp -R src scenes docs tests pyproject.toml README.md CHANGELOG.md build/mutation
	cd build/mutation && $(CURDIR)/$(BIN)/mutmut run --max-children 1; $(CURDIR)/$(BIN)/mutmut results
	cd build/mutation && $(CURDIR)/$(BIN)/mutmut export-cicd-stats
	$(BIN)/python benchmarks/mutate.py build/mutation/mutants/mutmut-cicd-stats.json

bench: $(STAMP)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable ".[bench]"
	$(BIN)/python benchmarks/report.py

soak: $(STAMP)
	$(BIN)/python benchmarks/soak_jigs.py 200 1
	FIDPATH_SOAK=1 $(BIN)/python -m pytest tests/building/test_method_build.py
	$(BIN)/python benchmarks/soak_files.py 20000 1
	$(BIN)/python benchmarks/soak_atheris.py 120 1
	$(BIN)/python benchmarks/soak_kills.py 200 1
	$(BIN)/python benchmarks/soak_same.py
	$(BIN)/python benchmarks/soak_jobs.py 300 7

# what this file makes for itself; results in exports/ are their owner's
clean:
	rm -rf $(VENV) build dist exports/docs docs/made
