"""`fidpath build` killed at random moments, and starved: nothing half-written under a final name, nothing of the user's
lost, one clear sentence and the documented exit code.

Run: python benchmarks/soak_kills.py [how many kills] [seed]
"""

from __future__ import annotations

import random
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "tests" / "support"))

import faults


def killed_often(folder: Path, count: int, chance: random.Random) -> list[str]:
    """Two jobs by turns into one folder, each build killed at a random moment; then one left to finish."""
    jobs = [folder / f"{name}.toml" for name in "ab"]
    for job, bury in zip(jobs, ("14 d", "15 d"), strict=True):
        job.write_text(faults.tiny(bury))
    began = time.perf_counter()
    whole = [faults.reference(job, folder / job.stem) for job in jobs]
    longest = (time.perf_counter() - began) / 2
    out, wrong, stopped = faults.with_notes(folder / "killed"), [], 0
    for number in range(3 * count):
        if stopped == count:
            break
        running = faults.started(jobs[number % 2], out)
        stopped += faults.killed(running, chance.uniform(0.05, longest))
        if not faults.gone(running.pid):
            wrong.append(f"kill {number}: processes were left behind")
        wrong += [f"kill {number}: {fault}" for fault in faults.spoilt(out, *whole)]
    code, said = faults.ended(faults.started(jobs[0], out))
    left = faults.files_in(out)
    wrong += [f"the last build: {code} {said}"] if code else []
    wrong += [] if left == {**whole[0], faults.NOTES: b"keep me"} else ["the last build left something else"]
    print(f"{stopped} builds ({count} wanted) killed under way within {longest:.1f} s of starting: {len(wrong)} faults")
    return wrong


def killed_with_steps(folder: Path, count: int, chance: random.Random) -> list[str]:
    """Builds of everything into one folder, each killed at a random moment: it leaves the page of the finished splice,
    or that of all steps, or none yet. The last one goes on to the end with what the others left.
    """
    job, out, wrong = folder / "a.toml", faults.with_notes(folder / "killed with steps"), []
    began = time.perf_counter()
    first, whole = first_page_and_whole(job, folder / "a with steps")
    longest = time.perf_counter() - began
    left = {"first": 0, "whole": 0, "none": 0}
    for number in range(count):
        running = faults.started(job, out, "--steps")
        faults.killed(running, chance.uniform(0.05, longest))
        if not faults.gone(running.pid):
            wrong.append(f"kill {number} with steps: processes were left behind")
        wrong += [f"kill {number} with steps: {fault}" for fault in faults.spoilt(out, whole, {faults.PAGE: first})]
        page = faults.files_in(out).get(faults.PAGE)
        left["none" if page is None else "first" if page == first else "whole"] += 1
        if page == whole[faults.PAGE]:
            faults.emptied(out)
    code, said = faults.ended(faults.started(job, out, "--steps"))
    wrong += [f"the last build with steps: {code} {said}"] if code else []
    same = faults.files_in(out) == {**whole, faults.NOTES: b"keep me"}
    wrong += [] if same else ["the last build with steps left something else"]
    pages = ", ".join(f"{times} times {which}" for which, times in left.items())
    print(f"{count} builds with steps killed within {longest:.1f} s of starting; the page: {pages}")
    return wrong


def first_page_and_whole(job: Path, out: Path) -> tuple[bytes, faults.Files]:
    """The page that an undisturbed build writes first, and all that it leaves in the end."""
    running = faults.started(job, out, "--steps")
    while not (out / faults.PAGE).exists() and running.poll() is None:
        time.sleep(0.02)
    first = (out / faults.PAGE).read_bytes()
    code, said = faults.ended(running, 1200.0)
    if code:
        raise SystemExit(said)
    return first, faults.files_in(out)


def starved(folder: Path) -> list[str]:
    """No room for files over some size, a full disk, a disk that can't be written."""
    job, wrong = folder / "a.toml", []
    whole = faults.files_in(folder / "a")
    for size in (100, 20_000, 60_000, 300_000):
        before = resource.getrlimit(resource.RLIMIT_FSIZE)
        resource.setrlimit(resource.RLIMIT_FSIZE, (size, before[1]))
        running = faults.started(job, folder / f"limit {size}")
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
        wrong += refused(f"files of at most {size} bytes", running, folder / f"limit {size}", whole)
    for size in ("16k", "400k", "1200k"):
        with faults.small_disk(folder / f"disk {size}", size) as disk:
            if disk is None:
                print("no small disk could be mounted here")
                continue
            out = faults.with_notes(disk / "out")
            wrong += refused(f"a disk of {size}", faults.started(job, out), out, whole)
            if size == "400k" and faults.read_only(disk):
                wrong += refused("a disk that can't be written", faults.started(job, disk / "out 2"), out, whole)
    return wrong


def refused(what: str, running: subprocess.Popen[str], out: Path, whole: faults.Files) -> list[str]:
    """What is wrong with a build that had to be refused for want of room."""
    code, said = faults.ended(running)
    found = [f"{what}: {fault}" for fault in faults.spoilt(out, whole)]
    found += [f"{what}: exit code {code}"] if code != 6 else []
    found += [f"{what}: said {said!r}"] if not faults.one_sentence(said) else []
    print(f"{what}: {code}, {said.strip()[-110:]}")
    return found


def disturbed(folder: Path) -> list[str]:
    """Two builds at once, a clock that jumps, strange paths, nothing in the environment: the same files come out."""
    job, wrong = folder / "a.toml", []
    whole = faults.files_in(folder / "a")
    for number, wait in enumerate((0.0, 0.5, 2.0)):
        out = faults.with_notes(folder / f"twice {number}")
        first = faults.started(job, out)
        time.sleep(wait)
        second = faults.started(job, out)
        for one in (first, second):
            code, said = faults.ended(one)
            wrong += [f"two at once: {code} {said}"] if code else []
        wrong += [] if faults.files_in(out) == {**whole, faults.NOTES: b"keep me"} else ["two at once left else"]
    long = folder / ("Σχοινί με κενά και τόνους " * 3).strip() / ("ένα μακρύ όνομα " * 4) / "x y"
    long.parent.mkdir(parents=True)
    odd = long.parent / "Ψάθα 10 mm.toml"
    odd.write_text(job.read_text())
    for what, env in (("nothing in the environment", faults.bare()), ("a clock that jumps",
                      faults.clock_that_jumps(folder / "clock"))):  # fmt: skip
        out = long / what
        code, said = faults.ended(faults.started(odd, out, env=env))
        wrong += [f"{what}: {code} {said}"] if code or said else []
        different = [name for name, content in faults.files_in(out).items() if whole.get(name) != content]
        wrong += [f"{what}: other bytes in {faults.listed(different)}"] if different else []
        print(f"{what}, in a path of {len(str(out))} letters: {code}")
    return wrong


def main(count: int, seed: int) -> int:
    """Prints what was tried and each fault; 1 if there was one."""
    with tempfile.TemporaryDirectory(prefix="fidpath-kills-") as place:
        folder = Path(place)
        wrong = killed_often(folder, count, random.Random(seed))
        wrong += killed_with_steps(folder, max(1, count // 20), random.Random(seed))
        wrong += starved(folder) + disturbed(folder)
    print(*wrong, f"{len(wrong)} faults", sep="\n")
    return 1 if wrong else 0


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    raise SystemExit(main(given[0] if given else 200, given[1] if len(given) > 1 else 1))
