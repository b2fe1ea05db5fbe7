"""The command line: a module for each group of commands.

Texts and options come in, the rooms above do the work, exit codes go out. Open `main` first.
"""
