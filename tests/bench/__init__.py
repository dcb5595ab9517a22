"""Measurements, each against a bare floor in the same run; no test waits for a figure."""
