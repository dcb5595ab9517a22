"""Twelve moments of a real day, each played as it happens and held to what must come of it."""
