"""Keys for the splice under load: what they hold, and what is refused."""

import pytest

from fidpath.job import parse_job
from job_texts import changed, refused

PITCH = 'pitch = "7 d"'


def test_the_keys_of_the_loaded_splice_are_read_in_mm_and_shares() -> None:
    more = 'loaded_diameter = "0.9 d"\nloaded_strain = "2 %"\nfriction = [0.12, 0.06]'
    rope = parse_job(changed(PITCH, f"{PITCH}\n{more}")).rope
    assert rope.loaded_diameter_mm == pytest.approx(0.9 * rope.diameter_mm)
    assert rope.loaded_strain_share == pytest.approx(0.02)
    assert rope.friction == (0.06, 0.12)


def test_one_figure_of_friction_is_a_band_without_width() -> None:
    assert parse_job(changed(PITCH, f"{PITCH}\nfriction = [0.1]")).rope.friction == (0.1, 0.1)


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ('loaded_diameter = "0.5 d"', "rope.loaded_diameter"),
        ('loaded_diameter = "2 d"', "rope.loaded_diameter"),
        ('loaded_strain = "40 %"', "rope.loaded_strain"),
        ("friction = [0.05, 0.9]", "rope.friction"),
        ("friction = []", "rope.friction"),
    ],
)
def test_figures_that_no_rope_has_are_refused_by_their_key(line: str, key: str) -> None:
    assert key in str(refused(changed(PITCH, f"{PITCH}\n{line}")))
