"""The page in Chromium, drawn in software: first picture, step changes, steps seen before, cut and see-through.

Run: python benchmarks/bench_page.py [PAGE]; without a page it makes the demo's, with all steps and mistakes.
Bounds hold for two idle cores. A figure is the time until the graphics card has drawn the first picture of what was
asked for; the fine picture follows when nothing has moved for 0.17 s, and stands beside it.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
from pathlib import Path
from typing import Any

from figures import figure

DEMO = Path(__file__).parent.parent / "scenes" / "demo.toml"
SIZES = {"1000 x 450": (1000, 450, 1, False), "390 x 844, ratio 2": (390, 844, 2, True)}

SLOWED = 4

GO = """async (key) => {
  const page = window.fidpathPage, began = performance.now();
  const drawn = page.drawn();
  page.go(key);
  return (await drawn) - began;
}"""

PRESS = """async ([id, value]) => {
  const page = window.fidpathPage, control = document.getElementById(id), began = performance.now();
  const drawn = page.drawn(), still = page.still();
  if (value === null) control.click();
  else { control.value = value; control.dispatchEvent(new Event("change")); }
  const quick = (await drawn) - began;
  return [quick, (await still) - began];
}"""

WATCH = """() => {
  window.longTasks = [];
  const seen = (list) => list.getEntries().forEach(({ duration }) => window.longTasks.push(duration));
  new PerformanceObserver(seen).observe({ type: "longtask" });
}"""

LONGEST = "() => Math.max(0, ...window.longTasks.splice(0))"

STILL = "async () => { const page = window.fidpathPage; if (!page.idle()) await page.still(); }"


def demo_page(folder: Path) -> Path:
    """The demo's page with every step and mistake, without pictures."""
    from fidpath.job.reader import read_job
    from fidpath.loading.in_hand import all_in_hand
    from fidpath.methods.registry import method_of
    from fidpath.outputs.page import splice_page
    from fidpath.planning.planner import make_plan

    plan, way = make_plan(read_job(DEMO)), method_of("locked-captive")
    kinds = list(dict.fromkeys([*(step.state for step in way.steps), *(wrong.name for wrong in way.mistakes)]))
    target = folder / "splice.html"
    target.write_text(splice_page(plan, list(all_in_hand(plan, kinds)), way), encoding="utf-8")
    return target


def say(size: str, what: str, values: list[float], bound: float | None) -> None:
    """The median of times in ms beside its bound."""
    beside = f"greatest {max(values) / 1000:.2f}"
    figure(f"page, {size}: {what}", statistics.median(values) / 1000, "s", bound, beside=beside)


def bench(browser: Any, page: Path, name: str, size: tuple[int, int, int, bool]) -> None:
    """Prints the figures of one size of window."""
    width, height, ratio, touch = size
    context = browser.new_context(
        viewport={"width": width, "height": height}, device_scale_factor=ratio, has_touch=touch, is_mobile=touch
    )
    firsts, slowed = [], []
    for _ in range(3):
        slow = context.new_page()
        context.new_cdp_session(slow).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        slow.goto(page.as_uri())
        slow.wait_for_selector("html[data-drawn]")
        slowed.append(slow.evaluate("Number(document.documentElement.dataset.drawnAt)"))
        slow.close()
        tab = context.new_page()
        requests: list[str] = []
        tab.on("request", lambda request, found=requests: found.append(request.url))
        tab.goto(page.as_uri())
        tab.wait_for_selector("html[data-drawn]")
        firsts.append(tab.evaluate("Number(document.documentElement.dataset.drawnAt)"))
        outside = [url for url in requests if not url.startswith(("file:", "data:", "blob:"))]
    say(name, "first picture", firsts, 1.0)
    say(name, f"first picture, {SLOWED} times slowed", slowed, 2.0)
    figure(f"page, {name}: requests", len(outside), "", 0)
    keys = tab.evaluate("window.fidpathPage.entries()")
    fresh = [tab.evaluate(GO, key) for key in keys]
    say(name, "step change", fresh, 0.4)
    tab.evaluate(WATCH)
    longest: dict[str, list[float]] = {"step": [], "wrong": []}
    for key in keys[1:]:
        tab.evaluate("key => window.fidpathPage.go(key)", key)
        tab.evaluate(STILL)
        longest[key.partition("-")[0]].append(tab.evaluate(LONGEST))
    for what, kind, bound in (("a step", "step", 0.2), ("a mistake", "wrong", 0.4)):
        figure(f"page, {name}: longest task of {what}", max(longest[kind]) / 1000, "s", bound)
    seen = [tab.evaluate(GO, key) for key in reversed(keys)]
    say(name, "step seen before", seen, 0.15)
    for what, presses in {
        "see-through": [("see-through", None), ("see-through", None)],
        "cut": [("cut-way", "flat"), ("cut-way", "off"), ("cut-way", "across"), ("cut-way", "off")],
    }.items():
        tab.evaluate(GO, "aim")
        found = []
        for press in presses * 2:
            tab.evaluate(STILL)
            found.append(tab.evaluate(PRESS, list(press)))
        quick, still = ([times[i] for times in found] for i in (0, 1))
        say(name, what, quick, 0.6)
        say(name, f"{what}, fine picture", still, None)
    context.close()


def main() -> None:
    """Prints the figures beside their bounds."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        page = Path(sys.argv[1]).absolute() if len(sys.argv) > 1 else demo_page(Path(folder))
        figure("page, without pictures", len(page.read_bytes()) / 1e6, "MB", 1.2)
        arguments = ["--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--no-sandbox"]
        browser = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=arguments)
        for name, size in SIZES.items():
            bench(browser, page, name, size)
        browser.close()


if __name__ == "__main__":
    main()
