"""Readings of loggers: files, the small door, and what becomes of them."""
