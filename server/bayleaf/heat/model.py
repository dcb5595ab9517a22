"""The name of the heat model: whoever keeps plans knows by it whether they are of this program."""

from __future__ import annotations

from typing import Final

MODEL_ID: Final = "coupled-plates-3"  # a changed figure is a new model
