"""Where the invented methods, drawings and photos of the demonstration lie: in the package, or in a clone."""

from __future__ import annotations

from pathlib import Path
from typing import Final

_PACKAGED: Final = Path(__file__).parent / "seed_data"
SEED_FOLDER: Final = _PACKAGED if _PACKAGED.is_dir() else Path(__file__).parents[2] / "seed_data"
