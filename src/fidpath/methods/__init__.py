"""Methods of splicing as data: their steps, words, tools and cameras, and the usual mistakes.

A method's TOML file and a `Plan` come in; a `Method` with its words filled in goes out. Open `method` first.
"""
