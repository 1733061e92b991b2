"""Referees and measurements: what the product is held against, and how fast it is beside its peers."""
