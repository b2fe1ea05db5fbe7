"""Splices in braided rope, strand by strand."""
