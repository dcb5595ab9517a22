"""Tests of the dossier: its container, its layout, filing, and the check."""
