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


def test_a_fall_after_no_recorded_release_is_told_and_not_judged() -> None:
    """By hand: 160 C at minute 36 and 60 C at minute 41 are 20 K/min; every other limit is kept."""
    made = verdicts.vectors()["nobody_recorded_the_release"]
    told = {line["code"]: line for line in made["lines"]}
    unjudged = {"code": "cooling", "figure": 20.0, "limit": 8.0, "standing": "not_recorded"}
    assert told.pop("cooling") == unjudged
    assert {line["standing"] for line in told.values()} == {"conforming", "not_judged"}
    assert made["overall"] == "conforming_with_deviations"
