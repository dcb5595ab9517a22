"""Where in a zone document's text a field stands, so that a fault names its line."""

from __future__ import annotations

import re
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError
from ruamel.yaml.tokens import AliasToken

from bayleaf.heat.faults import Fault

PART = re.compile(r"([^.\[\]]+)|\[(\d+)\]")
OF_SYNTAX = re.compile(r"line (\d+)\Z")


def line_of(text: str, field: str) -> int | None:
    """The line, from 1, of a field such as `pads[1].box_mm`, or of what holds it; None if none."""
    syntax = OF_SYNTAX.match(field)
    if syntax:
        return int(syntax[1])
    try:
        node: Any = YAML(typ="rt").load(text)
    except YAMLError:
        return None
    line: int | None = None
    for name, number in PART.findall(field):
        key: Any = int(number) if number else name
        try:
            line = (node.lc.item(key) if number else node.lc.key(key))[0] + 1
            node = node[key]
        except (AttributeError, KeyError, IndexError, TypeError):
            return line
    return line


def alias_faults(text: str) -> list[Fault]:
    """A name that stands for a part elsewhere may unfold without end; a zone document needs none."""
    try:
        found = [one for one in YAML(typ="safe", pure=True).scan(text) if isinstance(one, AliasToken)]
    except YAMLError:
        return []  # the reader says where
    return [Fault(f"line {one.start_mark.line + 1}", "found an alias, write the values out") for one in found]
