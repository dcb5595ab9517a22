"""Canonical form and digests: what makes two texts the same record. Imports nothing of ours."""
