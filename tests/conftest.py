"""For all tests: figures are worked out in one thread a process, as plans are."""

import os

# Read once, as NumPy is loaded. Its threads wait by turning in circles: when other processes want the cores,
# a heat run takes several times as long.
for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ.setdefault(name, "1")
