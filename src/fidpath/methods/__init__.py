"""Methods of splicing as data: their steps, words, tools and cameras, and the usual mistakes.

A folder for each method holds its data, `method.toml`, and a module that registers what code must know of it besides.
A method and a `Plan` come in; a `Method` with its words filled in goes out. Open `method` first, then `registry`.
"""
