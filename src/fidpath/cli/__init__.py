"""The command line: options and texts come in, the rooms below do the work, exit codes go out.

`main` has `new`, `plan`, `verify` and `build`; every other command has a module of its own. Open `main` first.
"""
