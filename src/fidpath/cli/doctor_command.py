"""`fidpath doctor`: whether this machine has what fidpath needs."""

from __future__ import annotations

from typing import Annotated

import typer

from fidpath.errors import EnvironmentProblem

Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]

Shortcut = Annotated[
    bool, typer.Option("--shortcut", help="Only put an entry for `fidpath start` among this user's programs.")
]


def register(app: typer.Typer) -> None:
    """Adds the commands."""

    @app.command()
    def doctor(as_json: Json = False, shortcut: Shortcut = False) -> None:
        """Check this machine: drawing, fonts, browser, write access and versions, and what to do about each."""
        if shortcut:
            from fidpath.machine import shortcut as entries

            for path in entries.write_shortcuts():
                typer.echo(f"wrote {path}")
            return
        import json

        from fidpath.machine.doctor import as_data, as_lines, findings

        found = list(findings())
        typer.echo(json.dumps(as_data(found), indent=2) + "\n" if as_json else as_lines(found), nl=False)
        bad = [one for one in found if one.state == "faulty"]
        if bad:
            raise EnvironmentProblem("; ".join(one.found for one in bad), bad[0].remedy)
