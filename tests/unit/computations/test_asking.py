"""How a stranger asks: by name, by a document that names itself, by field names alone, by --schema."""

import json

import pytest
from click.testing import CliRunner, Result
from jsonschema import Draft202012Validator

from bayleaf.cli import main
from bayleaf.computations import BONDING, FASTENING, Book
from reference.cases import cases_of

BOOKS = [("fastening", FASTENING), ("bonding", BONDING)]
PITCH = {"nominal_diameter_mm": 4.8, "pitch_mm": 25}
# What fits two computations by the names of its fields: those have to name their own.
SHARED_FIELDS = {"rivet-body", "pick-list", "expansion-aluminium", "expansion-steel"}


def run(*words: str, said: str | bytes = "") -> Result:
    return CliRunner().invoke(main, list(words), input=said)


@pytest.mark.parametrize("command", ["fastening", "bonding"])
def test_help_says_how_a_document_asks_gives_an_example_and_the_exit_status(command: str) -> None:
    told = run(command, "--help").output
    assert "Example: bayleaf " + command in told
    assert '{"computation": ' in told
    assert "Exit status: 0 with a result; 3 if the document is refused" in told


@pytest.mark.parametrize(("command", "book"), BOOKS)
def test_one_schema_publishes_every_computation_with_its_answer_and_its_refusal(
    command: str, book: Book
) -> None:
    schema = json.loads(run(command, "--schema").stdout)
    Draft202012Validator.check_schema(schema)
    assert [one["title"] for one in schema["oneOf"]] == list(book)
    checks = Draft202012Validator(schema)
    answers = Draft202012Validator({**schema["$defs"]["answer"]})
    refusals = Draft202012Validator({**schema["$defs"]["refusal"]})
    for case in cases_of(command)[::9]:
        asked = {"computation": case.computation, "inputs": case.inputs}
        if case.expected.get("refused") is not True:
            assert checks.is_valid(asked)
        answer = json.loads(run(command, "-", said=json.dumps(asked)).stdout)
        assert (refusals if answer["result"].get("refused") else answers).is_valid(answer)


@pytest.mark.parametrize("command", ["fastening", "bonding"])
def test_a_document_of_the_reference_cases_reaches_its_computation_by_its_field_names(command: str) -> None:
    for case in cases_of(command):
        answer = json.loads(run(command, "-", said=json.dumps(case.inputs)).stdout)
        if case.computation in SHARED_FIELDS:
            assert answer["result"]["field"] == "computation"
            assert case.computation in answer["result"]["allowed"]
        else:
            assert answer["computation"] == case.computation


def test_an_answer_can_be_asked_again() -> None:
    first = json.loads(run("fastening", "pitch", "-", said=json.dumps(PITCH)).stdout)
    again = {"computation": first["computation"], "inputs": first["inputs"]}
    assert json.loads(run("fastening", "-", said=json.dumps(again)).stdout) == first
    assert json.loads(run("fastening", "pitch", "-", said=json.dumps(again)).stdout) == first


def test_a_document_may_name_its_computation_among_its_inputs_or_wrap_them() -> None:
    first = run("fastening", "pitch", "-", said=json.dumps(PITCH)).stdout
    for said in (
        {"computation": "pitch", **PITCH},
        {"inputs": PITCH},
        {"computation": "pitch", "inputs": PITCH},
    ):
        assert run("fastening", "-", said=json.dumps(said)).stdout == first
        assert run("fastening", "pitch", "-", said=json.dumps(said)).stdout == first


@pytest.mark.parametrize(
    "said", [{"computation": "pitch"}, {"computation": "pitch", "inputs": []}, {"inputs": 3}]
)
def test_a_document_without_inputs_is_refused(said: object) -> None:
    told = run("fastening", "-", said=json.dumps(said))
    assert told.exit_code == 3
    assert json.loads(told.stdout)["result"]["refused"] is True


def test_a_document_that_names_another_computation_or_none_that_there_is_is_refused() -> None:
    said = json.dumps({"computation": "edge", "inputs": PITCH})
    told = run("fastening", "pitch", "-", said=said)
    assert json.loads(told.stdout)["result"]["field"] == "computation"
    told = run("fastening", "-", said=said.replace("edge", "weather"))
    assert told.exit_code == 3
    assert "one of hole, edge" in json.loads(told.stdout)["result"]["allowed"]


def test_a_field_that_is_wanting_is_named_even_where_nobody_named_the_computation() -> None:
    told = run("bonding", "-", said='{"air_temperature_C": 20}')
    answer = json.loads(told.stdout)
    assert (answer["computation"], answer["result"]["field"]) == ("dew-point", "relative_humidity_percent")
    assert run("bonding", "-", said='{"colour": 1}').exit_code == 3


def test_a_file_is_read_with_or_without_a_name_and_with_a_byte_order_mark(tmp_path: object) -> None:
    path = f"{tmp_path}/asked.json"
    with open(path, "wb") as file:
        file.write(b"\xef\xbb\xbf" + json.dumps(PITCH).encode())
    assert run("fastening", path).stdout == run("fastening", "pitch", path).stdout
    assert run("fastening", path).exit_code == 0


def test_a_document_may_come_through_a_pipe_without_a_dash() -> None:
    said = json.dumps(PITCH)
    assert run("fastening", "pitch", said=said).stdout == run("fastening", "pitch", "-", said=said).stdout
    assert run("fastening", said=said).exit_code == 0


@pytest.mark.parametrize("said", [b"\xff\xfe{", "{}".encode("utf-16"), b"", b"{} {}"])
def test_what_is_no_json_in_utf_8_is_refused_as_a_document(said: bytes) -> None:
    told = run("bonding", "margin", "-", said=said)
    assert told.exit_code == 3
    assert json.loads(told.stdout)["result"]["field"] == ""


def test_a_file_that_is_not_there_is_a_usage_error_that_says_where_names_are_listed() -> None:
    told = run("bonding", "no_such_file.json")
    assert told.exit_code == 2
    assert "--help lists the names of computations" in told.stderr
