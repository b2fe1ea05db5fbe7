"""What leaves the screen, a folder for each kind of output.

A `Scene`, a plan or settled strands come in; bytes go out.
"""
