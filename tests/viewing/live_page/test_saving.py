"""Job files saved in one folder and nowhere else."""

from pathlib import Path

import pytest

from fidpath.errors import OutputError
from fidpath.viewing.live_page import saving


def test_saving_keeps_to_the_folder_and_to_new_names(tmp_path: Path) -> None:
    target = saving.save(tmp_path, "stay.toml", "a = 1\n", replace=False)
    assert target.read_text() == "a = 1\n"
    with pytest.raises(saving.AlreadyThere):
        saving.save(tmp_path, "stay.toml", "a = 2\n", replace=False)
    assert target.read_text() == "a = 1\n"
    saving.save(tmp_path, "stay.toml", "a = 3\n", replace=True)
    assert target.read_text() == "a = 3\n"


@pytest.mark.parametrize(
    "name",
    ["../stay.toml", "/stay.toml", "a/b.toml", "..toml", ".toml", "stay", "stay.txt", "a\\b.toml", "a\0.toml", ""],
)
def test_names_that_lead_elsewhere_are_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(OutputError, match="is not a valid name for a job file"):
        saving.save(tmp_path / "inner", name, "", replace=True)
    assert list(tmp_path.iterdir()) == []


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    outside = tmp_path / "outside.toml"
    outside.write_text("mine")
    inner = tmp_path / "inner"
    inner.mkdir()
    (inner / "stay.toml").symlink_to(outside)
    for replaced in (True, False):
        with pytest.raises(OutputError):
            saving.save(inner, "stay.toml", "new", replace=replaced)
    assert outside.read_text() == "mine"


def test_the_suggested_name_is_free(tmp_path: Path) -> None:
    (tmp_path / "demo-2.toml").touch()
    assert saving.suggested(tmp_path, "/somewhere/demo.toml") == "demo-3.toml"


def test_two_jobs_of_one_name_are_not_saved_side_by_side(tmp_path: Path) -> None:
    saving.save(tmp_path, "stay.toml", 'name = "stay"\n[rope]\n', replace=False)
    with pytest.raises(OutputError, match="the results of both would go into one folder"):
        saving.save(tmp_path, "stay-2.toml", 'name = "stay"\n[rope]\n', replace=False)
    assert [path.name for path in tmp_path.iterdir()] == ["stay.toml"]
    saving.save(tmp_path, "stay.toml", 'name = "stay"\n[rope]\n', replace=True)
    saving.save(tmp_path, "stay-2.toml", 'name = "other stay"\n[rope]\n', replace=False)
