"""Rules of practice as data, each with its unit, its source and how far the source can be trusted."""
