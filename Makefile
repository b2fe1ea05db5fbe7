PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/python -m pip install --quiet --disable-pip-version-check --no-compile
# from the lock files in requirements/; UNLOCKED=1 takes the newest versions instead
JOB ?= scenes/demo.toml
OPEN := import sys, tomllib; print('open exports/' + tomllib.load(open(sys.argv[1], 'rb'))['name'] + '/splice.html')

# modules are compiled by the run that first loads them: many of those installed never are
unexport PYTHONDONTWRITEBYTECODE

.PHONY: demo test lint setup lock docs rooms page any-rope page-lint page-test wheel coverage mutation bench soak clean

demo: $(VENV)/.base
	$(BIN)/fidpath plan $(JOB)
	$(BIN)/fidpath build $(JOB)
	@$(BIN)/python -c "$(OPEN)" $(JOB)

test: lint page-test $(VENV)/.topology
	$(BIN)/python -m pytest -n 2 --dist loadfile --no-loadscope-reorder

lint: page-lint $(VENV)/.dev
	$(BIN)/ruff check src tests benchmarks requirements any_rope
	$(BIN)/ruff format --check src tests benchmarks requirements any_rope
	$(BIN)/mypy
	$(BIN)/lint-imports
	$(BIN)/python docs/rooms.py --check
	$(BIN)/python requirements/lock.py --check

# The pages' scripts: sources in page/, built into the package. Who changes none of them needs no node.
ifneq ($(shell command -v npm 2>/dev/null),)
page/node_modules/.installed: page/package-lock.json
	cd page && npm ci --silent
	touch $@

page: page/node_modules/.installed
	cd page && npm run --silent build

page-lint: page/node_modules/.installed
	cd page && npm run --silent lint

page-test: page/node_modules/.installed
	cd page && npm run --silent test
else
page page-lint page-test:
	@echo "npm isn't installed: $@ is left out (types, ESLint and unit tests of the pages' scripts, axe)" >&2
	@test -z "$(CI)" && test $@ != page
endif

# what users need; what developers need comes with the target that needs it
setup: $(VENV)/.base

$(VENV)/.base: requirements/base.txt pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(if $(UNLOCKED),,$(PIP) --no-deps --require-hashes --requirement $<)
	$(PIP) $(if $(UNLOCKED),,--no-deps --no-build-isolation) --editable .
	touch $@

$(VENV)/.dev: $(VENV)/.base
$(VENV)/.docs $(VENV)/.bench $(VENV)/.mutation: $(VENV)/.dev
$(VENV)/.dev $(VENV)/.docs $(VENV)/.bench $(VENV)/.mutation: $(VENV)/.%: requirements/%.txt
	$(PIP) $(if $(UNLOCKED),--editable ".[$*]",--no-deps --require-hashes --requirement $<)
	touch $@

# in a folder apart: distributed looks for another module of one's name
TOPOLOGY := $(BIN)/python -c "import tomllib; print(*tomllib.load(open('pyproject.toml', 'rb'))['project']['optional-dependencies']['topology'])"

$(VENV)/.topology: requirements/topology.txt $(VENV)/.base
	$(PIP) --upgrade --target $(VENV)/apart $(if $(UNLOCKED),$$($(TOPOLOGY)),--no-deps --require-hashes --requirement $<)
	touch $@

# the newest versions that go together into the lock files, by uv, which is installed for this alone
lock: $(VENV)/.base
	test -x build/uv/bin/uv || ($(PYTHON) -m venv build/uv && build/uv/bin/python -m pip install --quiet --disable-pip-version-check uv)
	$(BIN)/python requirements/lock.py --uv build/uv/bin/uv

docs: $(VENV)/.docs
	$(BIN)/python -m sphinx --fail-on-warning --keep-going -q -b html docs exports/docs

# the drawing and the table of rooms in DEVELOPERS.md, from the imports
rooms: $(VENV)/.dev
	$(BIN)/python docs/rooms.py

# what the page for any rope is made of, from this source: the settling for WebAssembly
any-rope: $(VENV)/.dev
	$(BIN)/python any_rope/settling_module.py

wheel: $(VENV)/.dev
	.ci/wheel

COVERAGE := $(BIN)/python -m coverage
COUNTED := tests/planning/test_sheet.py tests/geometry/test_curve.py tests/geometry/test_eye.py tests/geometry/test_bury.py \
	tests/planning/test_planner.py tests/planning/test_refusals.py tests/settling/test_solver.py tests/checking/test_report.py tests/checking/test_crossings.py tests/checking/test_layout.py tests/checking/test_throat.py \
	tests/checking/test_drawn_overlap.py tests/checking/test_overlap.py tests/checking/test_passes.py tests/states/test_states.py \
	tests/checking/test_step_report.py tests/planning/test_figure.py tests/planning/test_choices.py tests/geometry/test_braid.py \
	tests/geometry/test_seat.py tests/states/test_closing.py tests/settling/test_thin_start.py tests/validation
PLAIN := tests/settling/test_kernels.py tests/settling/test_sweeps.py tests/checking/test_depth_kernels.py

# the compiled loops count as plain Python, once, on tiny cases
coverage: $(VENV)/.dev
	$(COVERAGE) erase --rcfile=tests/coverage.ini
	$(COVERAGE) run --rcfile=tests/coverage.ini -m pytest $(COUNTED)
	NUMBA_DISABLE_JIT=1 $(COVERAGE) run --rcfile=tests/coverage.ini -m pytest $(PLAIN)
	$(COVERAGE) combine --rcfile=tests/coverage.ini --quiet
	$(COVERAGE) report --rcfile=tests/coverage.ini

# plan and braid broken in hundreds of small ways, in a copy of the project; what the tests don't notice is listed
mutation: $(VENV)/.mutation
	rm -rf build/mutation && mkdir -p build/mutation
	cp -R src scenes docs tests pyproject.toml README.md CHANGELOG.md build/mutation
	cd build/mutation && $(CURDIR)/$(BIN)/mutmut run --max-children 1; $(CURDIR)/$(BIN)/mutmut results
	cd build/mutation && $(CURDIR)/$(BIN)/mutmut export-cicd-stats
	$(BIN)/python benchmarks/mutate.py build/mutation/mutants/mutmut-cicd-stats.json

bench: $(VENV)/.bench
	$(BIN)/python benchmarks/report.py

soak: $(VENV)/.dev
	$(BIN)/python benchmarks/soak_jigs.py 200 1
	FIDPATH_SOAK=1 $(BIN)/python -m pytest tests/building/test_method_build.py tests/outputs/test_layouts.py
	$(BIN)/python benchmarks/soak_files.py 20000 1
	$(BIN)/python benchmarks/soak_atheris.py 120 1
	$(BIN)/python benchmarks/soak_kills.py 200 1
	$(BIN)/python benchmarks/soak_same.py
	$(BIN)/python benchmarks/soak_jobs.py 300 7
	$(BIN)/python benchmarks/soak_edges.py 120

# what this file makes for itself; results in exports/ are their owner's
clean:
	rm -rf $(VENV) build dist exports/docs docs/made page/node_modules
