"""For all tests: figures are worked out in one thread a process, and how long a law took is no verdict."""

import os

from hypothesis import HealthCheck, settings

# Read once, as NumPy is loaded. Its threads wait by turning in circles: when other processes want the cores,
# a heat run takes several times as long.
for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ.setdefault(name, "1")

# A busy machine draws examples slowly, and a law would fail by the clock. The same are drawn each time.
settings.register_profile(
    "calm", derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("calm")
