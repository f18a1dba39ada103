"""YAML text to a plain tree of strings with the line of everything in it.

What may live here: reading text a stranger wrote. Scalars stay the strings that were typed (`off` is not False and
`1-2` is not a date); anchors, aliases, tags and huge or deep files are refused, so nothing can be blown up.
"""

from __future__ import annotations

from dataclasses import dataclass

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from halfsplit.errors import Problem

MOST_BYTES = 256 * 1024
MOST_DEEP = 12

Tree = str | list["Tree"] | dict[str, "Tree"]
Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Document:
    """A tree of strings, lists and mappings, and the line (from 1) of every path in it."""

    file: str
    tree: dict[str, Tree]
    lines: dict[Path, int]

    def line(self, path: Path) -> int:
        """Line of a path, or of the nearest thing around it."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)

    def problem(self, path: Path, what: str, right: str = "") -> Problem:
        """A problem at a path."""
        return Problem(what, right, self.file, self.line(path))


def read_document(text: str, file: str) -> tuple[Document | None, tuple[Problem, ...]]:
    """Read YAML text whose top level is a mapping.

    Returns:
        The document (None if nothing could be read) and every problem found.
    """
    if len(text.encode("utf-8", "replace")) > MOST_BYTES:
        return None, (Problem(f"This file is larger than {MOST_BYTES // 1024} kB.", "A sheet is a few pages of text.", file),)
    try:
        node = YAML(pure=True).compose(text)
    except MarkedYAMLError as error:
        line = error.problem_mark.line + 1 if error.problem_mark else 1
        return None, (Problem(_sentence(error), "Check the indentation, colons and quotes there.", file, line),)
    except (YAMLError, ValueError, RecursionError):
        return None, (Problem("This cannot be read as YAML text.", "Write plain text, as in the built-in sheet.", file, 1),)
    if not isinstance(node, MappingNode):
        return None, (Problem("The top of the file is not a list of `key: value` lines.", "Begin with `sheet: NAME`.", file, 1),)
    reader = _Reader(file)
    tree = reader.mapping(node, ())
    return Document(file, tree, reader.lines), tuple(reader.problems)


def _sentence(error: MarkedYAMLError) -> str:
    problem = str(error.problem or error.context or "it is broken off").strip().splitlines()[0]
    return f"This is not readable as YAML: {problem}."


class _Reader:
    """Walks the node graph once; a node met twice is an alias."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.lines: dict[Path, int] = {}
        self.problems: list[Problem] = []
        self._met: set[int] = set()

    def mapping(self, node: MappingNode, path: Path) -> dict[str, Tree]:
        tree: dict[str, Tree] = {}
        self._met.add(id(node))
        self.lines[path] = _line(node)
        for key_node, value_node in node.value:
            key = str(key_node.value) if isinstance(key_node, ScalarNode) else ""
            if not key:
                self._complain(key_node, "This key is not a word.", "Write `key: value`.")
            elif key in tree:
                self._complain(key_node, f"{key!r} stands here twice.", "Keep one of them.")
            else:
                tree[key] = self._value(value_node, (*path, key))
                self.lines[(*path, key)] = _line(key_node)
        return tree

    def _value(self, node: Node, path: Path) -> Tree:
        self.lines[path] = _line(node)
        if id(node) in self._met or len(path) > MOST_DEEP:
            self._complain(node, "Anchors, aliases and very deep nesting are not read here.", "Write it out in full.")
            return ""
        if isinstance(node, ScalarNode):
            return str(node.value).strip()
        if isinstance(node, MappingNode):
            return self.mapping(node, path)
        if isinstance(node, SequenceNode):
            self._met.add(id(node))
            return [self._value(child, (*path, index)) for index, child in enumerate(node.value)]
        return ""

    def _complain(self, node: Node, what: str, right: str) -> None:
        self.problems.append(Problem(what, right, self.file, _line(node)))


def _line(node: Node) -> int:
    return int(node.start_mark.line) + 1
