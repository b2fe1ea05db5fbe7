"""What the operating system owes the rest: files written whole, compiled loops, hashes, and what a machine lacks.

Nothing of ropes comes in; paths, bytes and digests go out. Open `files` first.
"""
