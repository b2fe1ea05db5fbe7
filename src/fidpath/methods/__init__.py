"""Methods of splicing as data: steps, their words and cameras, and the usual mistakes. `method_file` reads them."""
