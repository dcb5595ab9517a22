"""Reads YAML 1.2 (core schema) into plain values that remember their lines, with every decimal exact."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.nodes import MappingNode, ScalarNode, SequenceNode

from .faults import Fault, Path

MAX_CHARACTERS = 2_000_000
MAX_DEPTH = 40
MAX_DIGITS = 40

# YAML 1.2.2, section 10.3.2: how the core schema reads a plain scalar. All else is a string.
NULLS = {"", "~", "null", "Null", "NULL"}
TRUTHS = {"true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False}
INTEGER = re.compile(r"[-+]?[0-9]+")
BASED = re.compile(r"0o[0-7]+|0x[0-9a-fA-F]+")
DECIMAL = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]{1,3})?")
ENDLESS = re.compile(r"[-+]?\.(inf|Inf|INF)|\.(nan|NaN|NAN)")


@dataclass
class Source:
    """A file's values, the line of each by its path, and what the YAML itself had wrong."""

    values: Any = None
    lines: dict[Path, int] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)

    def line(self, path: Path) -> int:
        """The line of a path, or of the nearest thing around it that the file has."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)


def read_yaml(text: str) -> Source:
    """Parses one YAML document; faults are collected, never raised."""
    source = Source()
    if len(text) > MAX_CHARACTERS:
        source.faults.append(
            Fault(1, "file", f"{len(text)} characters", f"a method file has at most {MAX_CHARACTERS}")
        )
        return source
    try:
        node = YAML(typ="safe", pure=True).compose(text)
    except YAMLError as error:
        source.faults.append(syntax_fault(error))
        return source
    except RecursionError:
        source.faults.append(too_deep(1, ()))
        return source
    source.values = _Reader(source).value(node, ())
    return source


def syntax_fault(error: YAMLError) -> Fault:
    """What the YAML parser stumbled over, in one line."""
    mark = error.problem_mark if isinstance(error, MarkedYAMLError) else None
    problem = error.problem if isinstance(error, MarkedYAMLError) else str(error)
    line = mark.line + 1 if mark is not None else 1
    return Fault(
        line, "file", f"text that is not YAML ({problem})", "mend the line, often an indent or a quote"
    )


def too_deep(line: int, path: Path) -> Fault:
    return Fault(line, dotted(path), f"more than {MAX_DEPTH} levels", "a method file is flatter than that")


class _Reader:
    """Walks the node graph once; an alias is refused, so the graph is a tree."""

    def __init__(self, source: Source) -> None:
        self.source = source

    def value(self, node: Any, path: Path) -> Any:
        line = node.start_mark.line + 1 if node is not None else 1
        self.source.lines.setdefault(path, line)
        if len(path) > MAX_DEPTH:
            self.source.faults.append(too_deep(line, path))
            return None
        if node is not None and getattr(node, "anchor", None):
            self._refuse(
                line, path, f"the anchor &{node.anchor}", "write the value out: anchors are not taken"
            )
            return None
        match node:
            case MappingNode():
                return self._mapping(node, path)
            case SequenceNode():
                return [self.value(item, (*path, number)) for number, item in enumerate(node.value)]
            case ScalarNode():
                return self._scalar(node, path, line)
        return None

    def _mapping(self, node: MappingNode, path: Path) -> dict[str, Any]:
        values: dict[str, Any] = {}
        for key_node, value_node in node.value:
            line = key_node.start_mark.line + 1
            if not isinstance(key_node, ScalarNode):
                self._refuse(line, path, "a key that is no word", "a key is one word")
                continue
            key = str(key_node.value)
            if key in values:
                self._refuse(line, (*path, key), "the key a second time", "a key stands once in its mapping")
                continue
            self.source.lines[*path, key] = line
            values[key] = self.value(value_node, (*path, key))
        return values

    def _scalar(self, node: ScalarNode, path: Path, line: int) -> Any:
        text = str(node.value)
        if str(node.tag).startswith("!"):
            self._refuse(line, path, f"the tag {node.tag}", "write the plain value: tags are not taken")
            return None
        if any(unit == "\0" or "\ud800" <= unit <= "\udfff" for unit in text):
            self._refuse(line, path, "a character that is no text", "leave out U+0000 and half surrogates")
            return None
        return text if node.style is not None else self._plain(text, path, line)

    def _plain(self, text: str, path: Path, line: int) -> Any:
        if text in NULLS:
            return None
        if text in TRUTHS:
            return TRUTHS[text]
        if BASED.fullmatch(text):
            return int(text, 0)
        if ENDLESS.fullmatch(text):
            self._refuse(line, path, text, "a figure is finite")
            return None
        if INTEGER.fullmatch(text) and len(text) <= MAX_DIGITS:
            return int(text)
        return Decimal(text) if DECIMAL.fullmatch(text) else text

    def _refuse(self, line: int, path: Path, found: str, allowed: str) -> None:
        self.source.faults.append(Fault(line, dotted(path) or "file", found, allowed))


def dotted(path: Path) -> str:
    """A path as `methods[0].title`."""
    text = ""
    for part in path:
        text += f"[{part}]" if isinstance(part, int) else f".{part}" if text else str(part)
    return text or "file"


def label(values: Any, path: Path) -> str:
    """A path as people name it: `spn-03.gap.min` where a step or an ask with an id is on the way."""
    words: list[str] = []
    here = values
    for depth, part in enumerate(path):
        here = here[part] if _has(here, part) else None
        if (
            depth
            and path[depth - 1] in {"steps", "asks"}
            and isinstance(here, dict)
            and _is_word(here.get("id"))
        ):
            words = [*(words if path[depth - 1] == "asks" else []), here["id"]]
        elif isinstance(part, int):
            words = [*words[:-1], f"{words[-1] if words else ''}[{part}]"]
        else:
            words.append(part)
    return ".".join(word for word in words if word != "asks") or "file"


def _has(here: Any, part: str | int) -> bool:
    if isinstance(here, dict):
        return part in here
    return isinstance(here, list) and isinstance(part, int) and part < len(here)


def _is_word(value: Any) -> bool:
    return isinstance(value, str) and value != ""
