"""One technology a file: what keeps the promises of the ports."""
