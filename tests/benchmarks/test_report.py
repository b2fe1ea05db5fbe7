"""The page of `make bench`: how a figure is judged and written; every program is on it; what failed is said."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture
def report(monkeypatch: pytest.MonkeyPatch) -> Any:
    monkeypatch.syspath_prepend(ROOT / "benchmarks")
    return __import__("report")


def test_a_figure_keeps_its_bound_or_misses_it(report: Any) -> None:
    Figure = report.Figure
    assert Figure("a", 2.0, "s", 3.0).met is True
    assert Figure("a", 4.0, "s", 3.0).met is False
    assert Figure("a", 4.0, "x", 3.0, least=True).met is True
    assert Figure("a", 2.0, "x", 3.0, least=True).met is False
    assert Figure("a", 2.0, "x").met is None


def test_exponents_are_those_of_the_power_they_come_of(report: Any) -> None:
    from figures import power

    sizes = [10.0, 40.0, 90.0]
    assert power(sizes, [3 * size**1.7 for size in sizes]) == pytest.approx(1.7)


def test_the_page_says_what_was_missed_and_what_failed(report: Any) -> None:
    good, bad = report.Figure("one | two", 0.123456, "s", 1.0), report.Figure("slow", 4.0, "s", 3.0)
    runs = [report.Run("bench_line", (good, bad), 1.0), report.Run("bench_page", (), 1.0, "no | browser")]
    page = report.page(runs, "2 cores, 4 GB of memory")
    assert "2 figures have a bound;\n1 keep it, 1 miss it:" in page
    assert "- slow: 4.00 s, at most 3.00" in page
    assert "| one \\| two | 0.12 s | at most 1.00 | met |  |" in page
    assert "| slow | 4.00 s | at most 3.00 | **missed** |  |" in page
    assert "**Not all measured:** no \\| browser" in page
    assert page.count("\n## ") == 2


def test_a_program_that_fails_leaves_a_row(report: Any, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "bench_odd.py").write_text(
        "import os\n"
        'open(os.environ[\'FIDPATH_BENCH_ROWS\'], \'a\').write(\'{"name": "n", "value": 1, "unit": "s"}\')\n'
        "raise SystemExit('can not open /some/folder/of/mine/file.txt')\n"
    )
    monkeypatch.setattr(report, "HERE", tmp_path)
    found = report.run("bench_odd")
    assert [one.name for one in found.figures] == ["n"]
    assert found.trouble == "can not open file.txt"


def test_a_printed_figure_is_kept_for_the_page(
    report: Any, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    from figures import ROWS, figure

    monkeypatch.setenv(ROWS, str(tmp_path / "rows"))
    figure("settling", 2.5, "s", 2.0)
    figure("settling", 2.5, "s", 2.0)
    assert "MISSED" in capsys.readouterr().out
    assert len([json.loads(line) for line in (tmp_path / "rows").read_text().splitlines()]) == 2


def test_every_program_is_on_the_page_and_keeps_its_figures(report: Any) -> None:
    programs = {path.stem for path in (ROOT / "benchmarks").glob("bench_*.py")}
    assert programs == set(report.ORDER)
    for name in programs:
        assert "figure(" in (ROOT / "benchmarks" / f"{name}.py").read_text(), name
        assert report.about(name)
