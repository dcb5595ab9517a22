"""Tests of the PDF report: what it says, and how it is set."""
