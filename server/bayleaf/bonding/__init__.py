"""Bonding: computations about air, clocks, adhesive, cure and fit. Pure; imports nothing of ours."""
