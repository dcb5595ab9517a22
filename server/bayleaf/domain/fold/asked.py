"""Which asks of a step are asked: one with a `when` only while that choice of its step shows that option.

The choice must be asked itself, and its shown value answer: one that is sent back does not. A `when` that
names no choice of its step, or comes round to itself, is never met.
"""

from bayleaf.domain.asks import Ask, ChoiceAsk
from bayleaf.domain.fold.registers import Registers
from bayleaf.domain.method import StepDoc


def is_asked(registers: Registers, method_id: str, step: StepDoc, ask: Ask) -> bool:
    """Whether the ask is asked, as the choices of its step stand."""
    followed: set[str] = set()
    while ask.when is not None:
        choice = step.ask(ask.when.ask)
        if ask.id in followed or not isinstance(choice, ChoiceAsk):
            return False
        register = registers.get(("choice", method_id, step.id, choice.id, ""))
        if register is None or register.answer is None or register.answer.body["option"] != ask.when.option:
            return False
        followed.add(ask.id)
        ask = choice
    return True


def asks_asked(registers: Registers, method_id: str, step: StepDoc) -> list[Ask]:
    """The asks of a step that are asked, in its order."""
    return [ask for ask in step.asks if is_asked(registers, method_id, step, ask)]
