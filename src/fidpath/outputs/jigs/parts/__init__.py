"""The jigs themselves, a module each: a plan comes in, a `Jig` goes out. `joint` and `pins` hold pieces together."""
