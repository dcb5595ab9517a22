"""Tests of the heat planner."""
