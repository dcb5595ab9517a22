"""Every vector of the tally reconciliation, which both sides compute."""

import pytest

from bayleaf.fastening.tally import Rivet, tally_reconciliation
from vectors.files import vectors_in

VECTORS = vectors_in("tally", {"about", "rivets", "figures", "verdict"})


@pytest.mark.parametrize("name", VECTORS)
def test_pieces_are_counted_kind_by_kind(name: str) -> None:
    vector = VECTORS[name]
    rivets = [Rivet(r["position"], r["generation"], r["state"], tuple(r["lost"])) for r in vector["rivets"]]
    reconciled = tally_reconciliation(rivets)
    assert [list(figure) for figure in reconciled.figures()] == vector["figures"]
    assert reconciled.verdict == vector["verdict"]


def test_a_reversed_order_of_rivets_changes_nothing() -> None:
    rivets = [Rivet("H1", 0, "shank_out", ("head",)), Rivet("H2", 0, "head_off", ())]
    assert tally_reconciliation(rivets) == tally_reconciliation(rivets[::-1])
