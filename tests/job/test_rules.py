"""Rules of practice are data, each with its source."""

import pytest

from fidpath.job.rules import STATUS_WORDS, reference_tension_n, rule, rules, taper_drops


def test_every_rule_has_a_unit_a_source_and_a_status() -> None:
    assert len(rules()) >= 15
    for name, found in rules().items():
        assert found.name == name
        assert found.unit and found.what and found.source
        assert found.status in STATUS_WORDS


def test_what_has_no_source_says_so() -> None:
    for found in rules().values():
        if found.status in ("practice", "own"):
            assert "no source" in found.source, found.name
        if found.status == "memory":
            assert "from memory" in found.source, found.name


def test_no_rule_hides_another() -> None:
    import tomllib
    from importlib import resources

    from fidpath.job.rules import FILES

    names = [
        name
        for file in FILES
        for name in tomllib.loads(resources.files("fidpath.job.practices").joinpath(file).read_text(encoding="utf-8"))
    ]
    assert sorted(names) == sorted(rules())


def test_the_rules_cant_be_changed() -> None:
    with pytest.raises(TypeError):
        rules()["bury"] = rule("bury")  # type: ignore[index]


def test_common_practice() -> None:
    """Bury 72 d, gap one diameter: common practice, no source."""
    assert (rule("bury").value, rule("bury").unit) == (72, "d")
    assert (rule("hole_gap").value, rule("hole_gap").unit) == (1, "d")
    assert "common practice, no source" in rule("bury").source


def test_fids_of_common_practice_suit_their_ropes() -> None:
    """Fids of about 6.4 mm and 9.5 mm on ropes of 7 mm to 9 mm: common practice, no source."""
    for d in (7.0, 8.0, 9.0):
        assert rule("fid_opens_least").value * d <= 6.4 <= rule("fid_opens_most").value * d
        assert rule("fid_passes_least").value * d <= 9.5 <= rule("fid_passes_most").value * d


def test_taper_leaves_strands_of_both_hands() -> None:
    assert [taper_drops(n) for n in (4, 8, 12, 16)] == [1, 3, 5, 7]
    for strands in (4, 8, 12, 16, 24):
        assert strands - 2 * taper_drops(strands) >= 2


def test_reference_tension_grows_with_the_square() -> None:
    assert reference_tension_n(16) == 4 * reference_tension_n(8)
