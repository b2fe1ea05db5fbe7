"""Looking at a splice: the desktop window and the live page, with states settled while the user waits.

A `Job` comes in; a window or a page on this machine shows it. Open `window/window` or `live_page/server` first.
"""
