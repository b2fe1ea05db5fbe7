"""The Python interface: the same five names, whatever else is imported; a job in a notebook."""

from __future__ import annotations

import importlib
import pkgutil
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import nbformat
import pytest
from nbclient import NotebookClient

import fidpath
from fidpath import api
from fidpath.errors import CannotBeMade, JobError, NoSuchName
from fidpath.job.job import Job

ROOT = Path(__file__).parent.parent
DEMO = ROOT / "scenes" / "demo.toml"
SHORT = DEMO.read_text(encoding="utf-8").replace('bury = "72 d"', 'bury = "16 d"')
HOSTILE = SHORT.replace('name = "12-strand', 'name = "</script><img src=x onerror=alert(1)>&', 1)


def test_the_names_are_functions_after_every_module_has_been_imported() -> None:
    for module in pkgutil.walk_packages(fidpath.__path__, "fidpath."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)
    for name in ("read", "plan", "verify", "build", "picture"):
        assert getattr(fidpath, name) is getattr(api, name)
    assert set(fidpath.__all__) <= set(dir(fidpath))
    with pytest.raises(AttributeError, match="no attribute 'splice'"):
        _ = fidpath.splice


def test_importing_it_loads_nothing_heavy() -> None:
    program = "import sys, fidpath; print({'numpy', 'numba', 'pyvista', 'pydantic'} & set(sys.modules))"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "set()"


def test_a_job_is_read_from_a_path_a_text_or_a_job() -> None:
    job = fidpath.read(DEMO)
    assert isinstance(job, Job)
    assert fidpath.read(str(DEMO)) == fidpath.read(job) == job
    assert fidpath.read(DEMO.read_text(encoding="utf-8")).rope == job.rope
    with pytest.raises(JobError, match="no such file"):
        fidpath.read("nowhere.toml")


def test_a_plan_is_the_plan_of_the_command_line() -> None:
    plan = fidpath.plan(DEMO)
    assert isinstance(plan, fidpath.Plan)
    assert plan.bury_length == pytest.approx(720.0)
    with pytest.raises(fidpath.FidpathError):
        fidpath.plan(SHORT.replace("[[line.ends]]", '[[line.ends]]\neye_length = "6 mm"', 1))


def test_verify_returns_what_was_measured() -> None:
    report = fidpath.verify(SHORT)
    assert report["finished"]["failures"] == []
    assert "steps" not in report


def test_build_writes_and_returns_the_files(tmp_path: Path) -> None:
    seen = {}

    def stands_in(job: Job, folder: Path, **given: object) -> list[Path]:
        seen.update(given, folder=folder, name=job.name)
        return [folder / "plan.json"]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("fidpath.building.build", stands_in)
        assert fidpath.build(SHORT, tmp_path / "here", steps=False, look="print") == [tmp_path / "here" / "plan.json"]
        fidpath.build(SHORT)
    assert seen["folder"] == Path("exports") / seen["name"]


@pytest.mark.parametrize(("name", "wide"), [("throat", 1600), ("3b", 1600), ("mark-on-strand", 1600)])
def test_a_picture_is_named_by_view_step_or_mistake(name: str, wide: int) -> None:
    picture = fidpath.picture(SHORT, name)
    assert picture.width == wide
    assert len(picture.convert("RGB").getcolors(1 << 24)) > 1000


def test_a_picture_there_is_none_of_is_refused_with_those_there_are() -> None:
    with pytest.raises(NoSuchName, match=r"throat.*9b.*bight-in-h2.*no-taper"):
        fidpath.picture(SHORT, "sideways")


class Formatter(dict):  # type: ignore[type-arg]
    def for_type(self, kind: type, function: object) -> None:
        self[kind] = function


def test_a_job_in_a_notebook_is_its_plan_and_its_page_and_its_texts_are_text(monkeypatch: pytest.MonkeyPatch) -> None:
    html = Formatter()
    shell = SimpleNamespace(display_formatter=SimpleNamespace(formatters={"text/html": html}))
    monkeypatch.setitem(sys.modules, "IPython", SimpleNamespace(get_ipython=lambda: shell))
    api.show_in_notebooks()
    text = html[Job](fidpath.read(HOSTILE))
    assert "<script" not in text and "<img" not in text
    assert "&lt;/script&gt;&lt;img src=x onerror=alert(1)&gt;&amp;" in text
    assert text.count("<iframe") == 1 and 'sandbox="allow-scripts"' in text
    assert "&lt;canvas" in text and "Bury" in text and "qualified rigger" in text
    assert html[fidpath.Plan](fidpath.plan(SHORT)).count("<table>") == 3


def test_a_job_that_cannot_be_made_says_so_in_a_notebook(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuses(_job: Job) -> None:
        raise CannotBeMade("the eye is <too> short", "Make it longer")

    monkeypatch.setattr(api, "make_plan", refuses)
    job = fidpath.read(SHORT.replace('name = "', 'name = "other ', 1))
    assert "the eye is &lt;too&gt; short" in api.job_html(job)


def test_the_notebook_runs() -> None:
    notebook = nbformat.read(ROOT / "docs" / "notebooks" / "first-splice.ipynb", as_version=4)
    NotebookClient(notebook, timeout=120, kernel_name="python3").execute()
    last = notebook.cells[-1].outputs[0]["data"]["text/html"]
    assert "<iframe" in last and "<table>" in last
    assert all(not cell.get("outputs") or cell.outputs[0].output_type != "error" for cell in notebook.cells)
