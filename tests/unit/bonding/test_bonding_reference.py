"""Every reference case of bonding passes at its tolerance, asked through the command."""

import pytest

from reference.cases import Case, ask, cases_of, differences, examined_of


@pytest.mark.parametrize("case", cases_of("bonding") + examined_of("bonding"), ids=str)
def test_the_command_answers_as_the_published_source_says(case: Case) -> None:
    answer = ask(case.command, case.computation, case.inputs)
    assert differences(case, answer["result"]) == []
