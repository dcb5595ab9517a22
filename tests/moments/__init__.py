"""Twelve moments of a real day, each played as it happens and held to what must come of it.

Where a screen decides (2, 6, 9, 12) the moment is played in a browser: `browser/test_moment_*.py`.
"""
