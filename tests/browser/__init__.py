"""Plays the app in real Chromiums, against servers of its own."""
