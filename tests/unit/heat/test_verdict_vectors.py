"""The vectors that hold the phone's verdict to the server's are what the server says today."""

from __future__ import annotations

from vectors import verdicts


def test_the_verdict_vectors_are_written_anew_the_same() -> None:
    made = {name: verdicts.text_of(vector) for name, vector in verdicts.vectors().items()}
    kept = {path.stem: path.read_text() for path in verdicts.FOLDER.glob("*.json")}
    assert kept == made, "run tests/vectors/verdicts.py"


def test_the_vectors_say_what_their_names_say() -> None:
    made = verdicts.vectors()
    assert made["conforms"]["overall"] == made["cure_conforms"]["overall"] == "conforming"
    assert made["breaker_trips"]["overall"] == "conforming_with_deviations"
    assert made["cure_short"]["overall"] == "not_conforming"
