"""What both sides of a step's computation are held to; the expected figures are nobody's code of ours."""
