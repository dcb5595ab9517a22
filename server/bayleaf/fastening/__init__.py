"""Fastening: computations about rivets and their pieces. Pure; imports nothing of ours."""
