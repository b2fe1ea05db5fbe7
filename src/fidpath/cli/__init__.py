"""The command line: texts and options come in, the rooms above do the work, exit codes go out. Open `main` first."""
