"""Published figures that computations are held to, each beside its source."""
