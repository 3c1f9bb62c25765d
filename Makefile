# Two commands for a newcomer: `make demo` and `make test`. Each sets up by itself all it needs but Python 3.11+ and make.
# The plain commands behind them, for machines without make, are in README.md and DEVELOPERS.md.
PYTHON ?= python3
VENV   ?= .venv
ESTATE ?= demo_estate
PORT   ?= 2718
PY     := $(VENV)/bin/python
export VENV
# The matrices of the network are small: threads would only wait for each other.
export OPENBLAS_NUM_THREADS := 1

.PHONY: help demo test notebooks benchmarks lint lock stamp-tables refresh unverified mutate clean setup browser

help:
	@echo "make demo        design the demonstration estate, write out/report.html"
	@echo "make test        everything CI runs: style, types, tests in a browser too, notebooks, printed examples"
	@echo "make notebooks   open the design notebooks            make lint           style and types alone"
	@echo "make benchmarks  speed beside the plain yardsticks    make lock           renew requirements.lock"
	@echo "make clean       remove what the others made          make stamp-tables   renew the hashes of checked tables"
	@echo "make refresh     write anew what is generated         make unverified     list what rests on one reading or none"
	@echo "make mutate      put mistakes into a copy, see whether the tests notice"

setup:
	@$(PYTHON) tools/environment.py

browser: setup
	@$(PY) tools/browser.py

demo: setup
	@mkdir -p out
	$(PY) -m curtilage design $(ESTATE) --report out/report.html
	@echo
	@echo "The report: open out/report.html in any browser; it needs no network."
	@echo "The notebooks: make notebooks, then open http://127.0.0.1:$(PORT)"

notebooks: setup
	$(PY) -m marimo run notebooks --host 127.0.0.1 --port $(PORT)

test: setup browser
	$(PY) tools/check.py

lint: setup
	$(PY) tools/check.py style types

benchmarks: setup
	$(PY) tools/benchmark_table.py

lock: setup
	$(PY) tools/lock.py

stamp-tables: setup
	$(PY) tools/stamp_tables.py

refresh: setup
	$(PY) tools/freeze_reference.py
	$(PY) tools/notebook_look.py
	$(PY) tools/draw_demo.py
	$(PY) tools/refresh_readme.py

unverified: setup
	@$(PY) tools/unverified.py

mutate: setup
	$(PY) tools/mutate.py

clean:
	rm -rf $(VENV) .setup.lock out dist build .pytest_cache .mypy_cache .ruff_cache .hypothesis .benchmarks .coverage .coverage.*
	find . -name __pycache__ -prune -exec rm -rf {} +
	find . -name __marimo__ -prune -exec rm -rf {} +
