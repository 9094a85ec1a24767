"""Where in a TOML source a value stands, so that a finding can name its line, and how it is typed.

`tomllib` gives values without places, and whole numbers without their text. The source is parsed
a second time, by tree-sitter's TOML grammar, and only when a line or a text is first asked for: a
kit without faults never pays for it.

Grammar: TOML 1.0.0 (https://toml.io/en/v1.0.0).
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tree_sitter import Node

_HEADERS = ("table", "table_array_element")
# Blanks after the backslash that ends a line in a multi-line string: TOML allows them, version 0.7
# of the grammar does not. Without them the lines are the same ones, wherever else this matches.
_BLANKS_AFTER_BACKSLASH = re.compile(r"(?<=\\)[ \t]+(?=\r?\n)")
_KEYS = ("bare_key", "quoted_key", "dotted_key")


class _Spot:
    """One table, array or value: its line, and what it holds.

    The syntax nodes that say what it holds wait in `unread` until someone asks for a child, so
    that finding one line costs the headers and one branch, not the whole file.
    """

    __slots__ = ("children", "line", "named", "tables", "unread", "value")

    def __init__(self, line: int, *, named: bool) -> None:
        self.line = line  # 1-based
        self.named = named  # False: only passed through by a longer key so far
        self.children: dict[str | int, _Spot] = {}
        self.unread: list[Node] = []
        self.value: Node | None = None  # of a key or an element: what stands there
        self.tables = 0  # how many [[headers]] it has; 0: not an array of tables


class TomlLines:
    """The line of every key and array element of one TOML document."""

    def __init__(self, text: str) -> None:
        """Keep the source; nothing is parsed before the first `line_of`.

        Args:
            text: TOML source that `tomllib` has accepted. Where the grammar knows less than
                `tomllib` (TOML 1.1 in some future Python) no error is raised: the line is then
                that of the nearest ancestor found.
        """
        self._text = text
        self._source = b""
        self._root: _Spot | None = None

    def line_of(self, path: Sequence[str | int]) -> int:
        """Give the line of a key or an element.

        Args:
            path: table keys (str) and array indexes (int, from 0) from the root down, such as
                `("step", 3, "gives", 1, "name")`: the form of pydantic's `loc`.

        Returns:
            The line, counted from 1, on which the key or the element begins. For a table that
            has a header of its own, the header's line; for an array of tables, the first header;
            for one that only longer keys imply, the first of these. When the path leads nowhere,
            the line of its last part that exists; 1 when not even the first part does.
        """
        if self._root is None:
            self._root = self._read_document()
        spot = self._root
        for part in path:
            child = self._children(spot).get(part)
            if child is None:
                break
            spot = child
        return spot.line

    def text_of(self, path: Sequence[str | int]) -> str:
        """Give a value as it is typed.

        Args:
            path: As for `line_of`.

        Returns:
            The text of the value alone; empty when the path does not lead to one.
        """
        if self._root is None:
            self._root = self._read_document()
        spot = self._root
        for part in path:
            child = self._children(spot).get(part)
            if child is None:
                return ""
            spot = child
        if spot.value is None:
            return ""
        return self._source[spot.value.start_byte : spot.value.end_byte].decode()

    def _read_document(self) -> _Spot:
        """Parse the source and place every header; the bodies are left unread."""
        # Not at the top: two compiled modules that a kit without faults never needs.
        import tree_sitter_toml
        from tree_sitter import Language, Parser

        self._source = _BLANKS_AFTER_BACKSLASH.sub("", self._text).encode()
        parser = Parser(Language(tree_sitter_toml.language()))
        document = parser.parse(self._source).root_node
        root = _Spot(1, named=True)
        root.unread.append(document)
        for node in document.named_children:
            if node.type in _HEADERS:
                self._read_header(root, node)
        return root

    def _read_header(self, root: _Spot, node: Node) -> None:
        """Place one [table] or [[array element]], whose header is the node's first line."""
        keys = self._keys(node)
        if not keys:  # only in what the grammar could not read
            return
        line = node.start_point.row + 1
        is_element = node.type == "table_array_element"
        spot = root
        for key in keys[:-1]:
            spot = _reach(spot, key, line, named=False)
            if spot.tables:  # [a.b] after [[a]] belongs to the newest a
                spot = spot.children[spot.tables - 1]
        spot = _reach(spot, keys[-1], line, named=True)
        if is_element:
            element = _Spot(line, named=True)
            spot.children[spot.tables] = element
            spot.tables += 1
            spot = element
        spot.unread.append(node)

    def _children(self, spot: _Spot) -> dict[str | int, _Spot]:
        """Give what a spot holds, reading what is still unread; one level deep."""
        while spot.unread:
            node = spot.unread.pop()
            if node.type == "array":
                elements = (n for n in node.named_children if n.type not in ("comment", "ERROR"))
                for index, element in enumerate(elements):
                    child = _Spot(element.start_point.row + 1, named=True)
                    child.unread.append(element)
                    child.value = element
                    spot.children[index] = child
            elif node.type in ("document", "inline_table", *_HEADERS):
                for pair in node.named_children:
                    if pair.type == "pair":
                        self._read_pair(spot, pair)
        return spot.children

    def _read_pair(self, table: _Spot, pair: Node) -> None:
        """Place the key, plain or dotted, of one `key = value`; the value is left unread."""
        keys = self._keys(pair)
        if not keys:  # only in what the grammar could not read
            return
        line = pair.start_point.row + 1
        spot = table
        for key in keys[:-1]:
            spot = _reach(spot, key, line, named=False)
        spot = _reach(spot, keys[-1], line, named=True)
        spot.unread.append(pair.named_children[-1])
        spot.value = pair.named_children[-1]

    def _keys(self, node: Node) -> list[str]:
        """Give the parts of the key of a pair or a header."""
        key = next((n for n in node.named_children if n.type in _KEYS), None)
        parts: list[Node] = []
        while key is not None and key.type == "dotted_key":
            # a.b.c is nested leftwards: ((a . b) . c). A loop, as a key may have many dots.
            inner = [n for n in key.named_children if n.type in _KEYS]
            parts.extend(inner[1:])  # one, unless the grammar failed
            key = inner[0] if inner else None
        if key is not None:
            parts.append(key)
        return [self._key_text(part) for part in reversed(parts)]

    def _key_text(self, node: Node) -> str:
        """Give one bare or quoted key as tomllib reads it."""
        raw = self._source[node.start_byte : node.end_byte].decode()
        if node.type == "bare_key":
            return raw
        if raw.startswith('"') and "\\" in raw:
            # Escapes are left to the reader that made the path's keys in the first place.
            return next(iter(tomllib.loads(f"{raw} = 0")))
        return raw[1:-1]


def _reach(table: _Spot, key: str, line: int, *, named: bool) -> _Spot:
    """Give the child of that key, made when new, with the better of its lines.

    A line that names the child itself is better than one that only passes through it; among
    equals the earlier one is. Headers are read before bodies, so the order of calls says nothing.
    """
    spot = table.children.get(key)
    if spot is None:
        spot = table.children[key] = _Spot(line, named=named)
    elif named > spot.named or (named == spot.named and line < spot.line):
        spot.line, spot.named = line, named
    return spot
