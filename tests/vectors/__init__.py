"""Test data that both folds are held to, and the tools that write it."""
