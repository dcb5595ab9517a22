"""Tests of the backup."""
