"""M = D + w K of a zone, factorised: its columns condensed out, the rest as a narrow band by Cholesky."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy import sparse
from scipy.linalg import lapack

from bayleaf.heat.order import Links, Order

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Banded:
    """M factorised; `tie` and `reach` take what spreads to the columns between."""

    order: Order
    pivots: Floats  # of the columns' own tridiagonal part, as LAPACK's dpttrf leaves it
    ratios: Floats
    tie: sparse.csr_array  # M's entries, shape (spreading, passing)
    reach: sparse.csr_array  # the columns' inverse times tie, transposed, shape (passing, spreading)
    band: Floats  # Cholesky's factor, LAPACK's lower form

    @cached_property
    def size_bytes(self) -> int:
        ties = sum(one.data.nbytes + one.indices.nbytes for one in (self.tie, self.reach))
        return int(self.band.nbytes + ties)

    def solve(self, right: Floats) -> Floats:
        """M^-1 right, for one right side or for columns of them."""
        order = self.order
        passed = _through(self.pivots, self.ratios, right[order.passing])
        spread = right[order.spreading] - self.tie @ passed
        spread = lapack.dpbtrs(self.band, spread, lower=1, overwrite_b=1)[0].reshape(spread.shape)
        solved = np.empty_like(right)
        solved[order.spreading] = spread
        solved[order.passing] = passed - self.reach @ spread
        return solved


def _through(pivots: Floats, ratios: Floats, right: Floats) -> Floats:
    """The columns' inverse times right."""
    if not right.size:
        return right
    return np.asarray(lapack.dpttrs(pivots, ratios, right)[0]).reshape(right.shape)


def banded(links: Links, diagonal: Floats, weight: float) -> Banded:
    """Factorises M = diag(diagonal) + weight K, symmetric and positive definite; K is that of `links`.

    Block elimination, then Cholesky's factorisation of a band: Golub and Van Loan, Matrix Computations,
    4th ed., sec. 4.3 (section from memory).
    """
    order, ties = links.order, links.ties
    whole = diagonal + weight * links.diagonal
    pivots, ratios = _columns(whole[order.passing], weight * links.columns)
    hangs = np.zeros(links.ends.shape)
    hangs[ties.passing, ties.side] = weight * ties.link
    reach = _through(pivots, ratios, hangs)
    shape = (len(order.spreading), len(order.passing))
    tie = sparse.csr_array((weight * ties.link, (ties.spreading, ties.passing)), shape=shape)
    starts = np.arange(0, links.ends.size + 1, links.ends.shape[1])
    ends = np.maximum(links.ends, 0).ravel()  # any node will do where there is none: the reach there is 0
    reaches = sparse.csr_array((reach.ravel(), ends, starts), shape=shape[::-1])
    band = _cholesky(links, whole[order.spreading], weight, reach)
    return Banded(order, pivots, ratios, tie, reaches, band)


def _columns(diagonal: Floats, between: Floats) -> tuple[Floats, Floats]:
    if not len(diagonal):
        return diagonal, between
    pivots, ratios, fault = lapack.dpttrf(diagonal, between)
    return _sound(pivots, fault), ratios


def _cholesky(links: Links, diagonal: Floats, weight: float, reach: Floats) -> Floats:
    """The factor of what is left of M once the columns are condensed out."""
    band = np.zeros((len(diagonal), links.width))
    entries, fill, ties = band.ravel(), links.fill, links.ties
    entries[links.band_at] = weight * links.band
    entries[:: links.width] = diagonal
    np.subtract.at(entries, fill.at, weight * ties.link[fill.tie] * reach[ties.passing[fill.tie], fill.side])
    factor, fault = lapack.dpbtrf(band.T, lower=1, overwrite_ab=1)
    return _sound(factor, fault)


def _sound(factor: Floats, fault: int) -> Floats:
    if fault:
        raise ArithmeticError(f"a heat zone's matrix is not positive definite (LAPACK says {fault})")
    return np.asarray(factor)
