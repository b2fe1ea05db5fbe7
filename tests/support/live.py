"""The live page's server in a process of its own, and patience with it."""

import http.client
import json
import signal
import time
from pathlib import Path
from typing import Any

import shows

PATIENCE = 180.0
"""Seconds that a settled splice may take on a busy machine."""


HOSTILE = "</script><img src=x onerror=alert(1)>"
"""An odd name for a rope, and nothing more."""


def wait(found: Any, patience: float = PATIENCE) -> Any:
    """What comes of a look as soon as it is something."""
    end = time.monotonic() + patience
    while time.monotonic() < end:
        if answer := found():
            return answer
        time.sleep(0.05)
    raise AssertionError("nothing came")


class Served:
    """A page's server in a process of its own, spoken to over HTTP."""

    def __init__(self, folder: Path, command: str, *order: str | Path, **environment: str) -> None:
        self.folder = folder
        out, err = folder.with_suffix(".out"), folder.with_suffix(".err")
        with out.open("w") as stdout, err.open("w") as stderr:
            self.process = shows.started(*order, out=stdout, err=stderr, command=command, **environment)
        self.said = err
        self.url = wait(lambda: self.process.poll() is not None or out.read_text().strip()) and out.read_text().strip()
        self.host, _, self.root = self.url.removeprefix("http://").partition("/")
        self.root = f"/{self.root}"

    def ask(
        self, path: str, body: object = None, method: str | None = None, **headers: str
    ) -> tuple[int, dict[str, str], bytes]:
        """Status, headers and content of an answer; `path` from the page's own unless it begins with a slash."""
        line = http.client.HTTPConnection(self.host, timeout=60)
        content = None if body is None else body if isinstance(body, bytes) else json.dumps(body).encode()
        try:
            whole = path if path.startswith("/") else self.root + path
            named = {name.replace("_", "-"): value for name, value in headers.items()}
            line.request(method or ("GET" if content is None else "POST"), whole, content, named)
            answer = line.getresponse()
            return answer.status, {name.lower(): value for name, value in answer.getheaders()}, answer.read()
        finally:
            line.close()

    def data(self, path: str, body: object = None) -> Any:
        """An answer's data."""
        status, _, content = self.ask(path, body)
        assert status == 200, content
        return json.loads(content)

    def end(self) -> int:
        """Ends it as a Ctrl-C does; its exit code."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
        return self.process.wait(60)


class Live(Served):
    """The live page's server."""

    def __init__(self, job: Path, folder: Path, *more: str) -> None:
        super().__init__(folder, "show", job, "--browser", "--no-open", "--out", folder, *more)


class Start(Served):
    """The start page's server, with a home of its own for what it keeps of a user."""

    def __init__(self, folder: Path, *more: str, **environment: str) -> None:
        home = folder.with_suffix(".home")
        super().__init__(folder, "start", folder, *(more or ("--no-open",)), XDG_STATE_HOME=str(home), **environment)
