"""`Job` -> a folder of results: pieces of work, the processes that do them, and what is still good from before.

A `Job` and a folder come in; files go out. Open `pipeline` first.
"""
