"""Plans the demonstration's heat zones beforehand, so that the demo starts with them: always the same bytes.

Usage, from the folder above: python -m seed_data.make_plans. Writes `plans/<zone>.json` beside this file for
every zone of `zones/`: the zone document's digest, the model, and all that a plan gives; the response set and
the temperature field are gzipped and in base64. To be run anew when a zone or the heat model changes.
"""

from __future__ import annotations

import json
from base64 import b64encode
from pathlib import Path

from bayleaf.heat.model import MODEL_ID
from bayleaf.heat.planned import planned_of
from bayleaf.heat.zone_document import read_zone

HERE = Path(__file__).parent


def main() -> None:
    for path in sorted((HERE / "zones").glob("*.yaml")):
        zone = read_zone(path.read_text("utf-8"))
        made = planned_of(zone)
        texts = {"sentence": made["sentence"], "figures": made["figures"], "answer": made["answer"]}
        packed = {"response": b64encode(made["response"]), "field": b64encode(made["field"])}
        told = {"digest": zone.digest, "model": MODEL_ID, **texts}
        told |= {name: one.decode() for name, one in packed.items()}
        out = HERE / "plans" / f"{zone.id}.json"
        out.write_text(json.dumps(told, indent=1, ensure_ascii=False) + "\n", "utf-8")
        print(f"{out}: {out.stat().st_size} bytes; {made['sentence']}")


if __name__ == "__main__":
    main()
