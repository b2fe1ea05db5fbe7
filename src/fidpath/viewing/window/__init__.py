"""The desktop window: the splice to turn and to go through step by step. Open `window` first."""
