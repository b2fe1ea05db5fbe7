"""Building everything of a job while its page answers: in a process of its own, which says how far it is."""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import threading
from collections.abc import Collection
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Literal

from fidpath.errors import EnvironmentProblem

Phase = Literal["idle", "building", "done", "failed", "stopped"]

COMMAND = (sys.executable, "-m", "fidpath.building.told_build")

MORE = ("motion", "models")
"""What a build makes besides where it is asked for."""


@dataclass(frozen=True)
class BuildNews:
    """How far a build is; `words` say what is being done, or what is wrong."""

    phase: Phase = "idle"
    share: float = 0.0
    words: str = ""
    name: str = ""


class Builds:
    """Builds into folders of one home, one at a time. Safe to call from several threads."""

    def __init__(self, home: Path) -> None:
        self.home = home
        self._news = BuildNews()
        self._process: subprocess.Popen[str] | None = None
        self._lock = threading.Lock()

    @property
    def news(self) -> BuildNews:
        """How far the build is."""
        with self._lock:
            return self._news

    @property
    def building(self) -> bool:
        """Whether a build is under way."""
        return self.news.phase == "building"

    def folder(self, name: str) -> Path:
        """Where the results of a job of this name are."""
        return self.home / name

    def start(self, text: str, source: str, name: str, more: Collection[str] = ()) -> None:
        """Begins to build a job, with what is asked for of `MORE`. Raises EnvironmentProblem where one is under way."""
        asked: dict[str, Any] = {"text": text, "source": source, "folder": str(self.folder(name).resolve())}
        asked |= {option: option in more for option in MORE}
        with self._lock:
            if self._process is not None:
                raise EnvironmentProblem(f"{self._news.name} is being built", "Wait for it, or stop it")
            errors = tempfile.TemporaryFile("w+", encoding="utf-8", errors="replace")  # noqa: SIM115
            self._process = subprocess.Popen(
                COMMAND,
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=errors,
                text=True,
                encoding="utf-8",
                start_new_session=True,
            )
            self._news = BuildNews("building", 0.0, "planning", name)
            process = self._process
        threading.Thread(target=self._follow, args=(process, asked, errors), name="fidpath build", daemon=True).start()

    def stop(self) -> None:
        """Stops the build under way, if there is one; what it has written stays, and the next goes on from there."""
        with self._lock:
            if self._process is not None:
                self._news = replace(self._news, phase="stopped", words="The build was stopped.")
                self._process.kill()

    def _follow(self, process: subprocess.Popen[str], asked: dict[str, Any], errors: Any) -> None:
        """Takes in what a build tells until it ends."""
        assert process.stdin is not None and process.stdout is not None
        last: dict[str, Any] = {}
        try:
            process.stdin.write(json.dumps(asked) + "\n")
            process.stdin.close()
            for line in process.stdout:
                last = json.loads(line)
                if "what" in last:
                    self._tell(share=last["share"], words=last["what"])
        except (OSError, ValueError):
            last = {}
        process.stdout.close()
        process.wait()
        errors.seek(0)
        self._ended(last, errors.read())
        errors.close()

    def _ended(self, last: dict[str, Any], said: str) -> None:
        """What came of a build in the end."""
        with self._lock:
            self._process = None
            if self._news.phase == "stopped":
                return
            if "written" in last:
                self._news = replace(
                    self._news, phase="done", share=1.0, words=f"{len(last['written'])} files are there."
                )
                return
            print(said, file=sys.stderr, end="")
            outside = "The process that builds was stopped from outside. Free some memory and build again."
            self._news = replace(self._news, phase="failed", words=last.get("problem", outside))

    def _tell(self, **news: Any) -> None:
        with self._lock:
            if self._news.phase == "building":
                self._news = replace(self._news, **news)
