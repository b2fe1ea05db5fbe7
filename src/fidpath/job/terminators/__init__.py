"""What can sit in an eye: one module a kind, each with its table, its check and its body, registered on import.

A file's table comes in, a checked `Body` goes out. A new kind is one new module here: `registry` imports them, none is
listed. Open `ring` first, then `shackle`.
"""
