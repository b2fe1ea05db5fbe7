"""Everything that the page can show, looked over by axe-core for what keeps somebody from using it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from pages import Tab, left_out

AXE = Path(__file__).parents[3] / "page" / "node_modules" / "axe-core" / "axe.min.js"

FAULTS = """async () => {
    const { violations } = await window.axe.run(document, { resultTypes: ["violations"] });
    return violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map(({ target }) => target).join(", ")}`);
}"""


@pytest.fixture
def faults(phone: Tab) -> Any:
    """Asks axe what it has to say of the page as it stands."""
    if not AXE.exists():
        left_out("axe-core isn't installed: `make page-lint` installs it")
    if not phone.ask("() => 'axe' in window"):
        phone.ask(AXE.read_text(encoding="utf-8"))
    return lambda: phone.ask(FAULTS)


@pytest.mark.parametrize("name", ["words", "look", "measure", "marks", "wrongs", "care"])
def test_every_panel(phone: Tab, faults: Any, name: str) -> None:
    phone.go("step-8b")
    phone.page.click(f"#tab-{name}")
    assert faults() == []
    phone.page.click("#light")
    assert faults() == []
    phone.page.click("#light")


@pytest.mark.parametrize("name", ["bench", "practise"])
def test_every_mode(phone: Tab, faults: Any, name: str) -> None:
    phone.page.click(f"#{name}")
    assert faults() == []
    phone.page.click(f"#{name}")


@pytest.mark.parametrize("key", ["aim", "wrong-no-taper"])
def test_other_pictures(phone: Tab, faults: Any, key: str) -> None:
    phone.go(key)
    assert faults() == []
