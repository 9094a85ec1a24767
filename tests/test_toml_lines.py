"""The line finder against tomllib: every value must stand on the line that is named for it."""

from __future__ import annotations

import random
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st

from model.toml_lines import TomlLines

Path = tuple[str | int, ...]

# Keys that are awkward to write: empty, spaced, dotted, quoted, escaped, not ASCII, like numbers.
KEYS = [
    *["step", "a-b_c", "1234", "3", "true", "inf", "1979-05-27", "", " ", "a b", "x.y", "[t]", "#"],
    *['"', "'", "\\", "a\\nb", 'say "hi"', "it's", "tab\there", "nl\nhere", "é", "1·2", "½", "𝄞"],
    *["\u2028", "\x85", "=", "a = 1"],
]
BARE = re.compile(r"[A-Za-z0-9_-]+")


def leaves(value: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Give every value of a document that holds no others, with its path."""
    if isinstance(value, dict) and value:
        for key, inner in value.items():
            yield from leaves(inner, (*path, key))
    elif isinstance(value, list) and value:
        for index, inner in enumerate(value):
            yield from leaves(inner, (*path, index))
    else:
        yield path, value


def marker_lines(text: str) -> dict[str, int]:
    """Give the line of each marker (@0@, @1@, ...) in a source; each must stand there once.

    A marker that begins its line is the first line of a multi-line string, opened one line above.
    """
    found: dict[str, int] = {}
    for number, line in enumerate(text.split("\n"), start=1):
        for marker in re.findall(r"@\d+@", line):
            assert marker not in found
            found[marker] = number - line.startswith(marker)
    return found


def check_all(text: str) -> None:
    """Check the line of every marked value of a source, and of a key that is missing beside it."""
    lines, markers, checked = TomlLines(text), marker_lines(text), 0
    for path, value in leaves(tomllib.loads(text)):
        if isinstance(value, str) and (marker := re.search(r"@\d+@", value)):
            assert lines.line_of(path) == markers[marker[0]], (path, text)
            assert lines.line_of((*path, "more", 0)) == markers[marker[0]]
            assert lines.line_of((*path[:-1], "missing")) == lines.line_of(path[:-1])
            checked += 1
    assert checked == len(markers)


def documents() -> st.SearchStrategy[dict[str, Any]]:
    """Nested documents of tables, arrays and arrays of tables; the leaves are None."""
    keys = st.sampled_from(KEYS) | st.text(st.characters(exclude_categories=["Cs"]), max_size=4)

    def tables(inner: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
        return st.dictionaries(keys, inner, max_size=4)

    inner = st.recursive(
        st.none(),
        lambda deeper: (
            tables(deeper)
            | st.lists(deeper, max_size=3)
            | st.lists(tables(deeper), min_size=1, max_size=3)
        ),
        max_leaves=25,
    )
    return tables(inner)


class Writer:
    """Writes a document in a random one of the many layouts that TOML allows for it."""

    def __init__(self, rng: random.Random) -> None:
        self.rng = rng
        self.count = 0

    def marked(self) -> str:
        """A string value with the next marker, on its first line; decoys may follow."""
        marker = f"@{self.count}@"
        self.count += 1
        decoy = "\n[step]\nx = 1 # [\n'a' = '''"
        return self.rng.choice(
            [
                f'"{marker}"',
                f"'{marker} \" # ['",
                f'"é\\" ] 𝄞 {marker} # no comment"',
                f'"""{marker}{decoy}\n\\\n   ""\\" "" """',
                f'"""{marker}"""""',
                f'"""{marker} \\ \t\n [x] \\\\\\   \n\n   """',
                f"'''{marker}''''",
                f"'''{marker}\n[[step]]\nx = 1 \"\"\"\n  '' '''",
            ]
        )

    def key(self, key: str) -> str:
        """One key: bare, basic or literal."""
        escaped = "".join(
            f"\\U{ord(c):08x}" if c in '"\\' or ord(c) < 32 or ord(c) == 127 else c for c in key
        )
        forms = [f'"{escaped}"', '"' + "".join(f"\\U{ord(c):08x}" for c in key) + '"']
        if BARE.fullmatch(key):
            forms += [key] * 6
        if not re.search(r"['\x00-\x08\x0a-\x1f\x7f]", key):
            forms.append(f"'{key}'")
        return self.rng.choice(forms)

    def keys(self, path: tuple[str, ...]) -> str:
        """A dotted key."""
        return self.rng.choice([".", " . ", "\t."]).join(self.key(part) for part in path)

    def gap(self) -> str:
        """What may stand between the elements of an array."""
        return self.rng.choice(["", " ", "\n", "\n\n  # ], @x = 'no'\n\t", " # é [{\n"])

    def value(self, value: Any) -> str:
        """A value within one key's line or lines."""
        if value is None:
            return self.marked()
        if isinstance(value, list):
            parts = [self.gap() + self.value(v) + self.gap() for v in value]
            comma = "," if parts and self.rng.random() < 0.5 else ""
            return "[" + ",".join(parts) + comma + self.gap() + "]"
        pairs = (
            self.keys(path) + self.rng.choice(["=", " = "]) + self.value(inner)
            for path, inner in self.flat(value)
        )
        return "{" + ", ".join(pairs) + "}"

    def flat(self, table: dict[str, Any]) -> Iterator[tuple[tuple[str, ...], Any]]:
        """The pairs of a table, some of its inner tables spread over dotted keys."""
        for key, inner in table.items():
            if isinstance(inner, dict) and inner and self.rng.random() < 0.3:
                for path, deeper in self.flat(inner):
                    yield (key, *path), deeper
            else:
                yield (key,), inner

    def table(self, table: dict[str, Any], path: tuple[str, ...] = ()) -> str:
        """A table's pairs, then whatever of it gets a header of its own."""
        here, later = {}, []
        for key, inner in table.items():
            tables = isinstance(inner, list) and inner and all(isinstance(v, dict) for v in inner)
            if tables and self.rng.random() < 0.7:
                head = self.keys((*path, key))
                later += [f"[[{head}]] # [c]\n" + self.table(v, (*path, key)) for v in inner]
            elif isinstance(inner, dict) and self.rng.random() < 0.6:
                body = self.table(inner, (*path, key))
                # A header that only leads to deeper ones may be left out.
                bare = re.match(r"\s*\[", body) and self.rng.random() < 0.5
                later.append(body if bare else f"[ {self.keys((*path, key))} ]\n{body}")
            else:
                here[key] = inner
        lines = [f"{self.keys(p)} = {self.value(v)}\n" for p, v in self.flat(here)]
        noise = self.rng.choice(["", "\n", "# [step]\n", "  \t\n#\n"])
        return noise + noise.join(lines) + "".join(later)


def with_markers(value: Any, rng: random.Random, counter: list[int]) -> Any:
    """The same document with a marked string for each None."""
    if isinstance(value, dict):
        return {key: with_markers(inner, rng, counter) for key, inner in value.items()}
    if isinstance(value, list):
        return [with_markers(inner, rng, counter) for inner in value]
    counter[0] += 1
    return f"@{counter[0]}@" + rng.choice(["", "\n[step]\n", ' "', "é"])


@settings(deadline=None)
@given(documents(), st.randoms(use_true_random=False), st.booleans())
def test_any_layout(document: dict[str, Any], rng: random.Random, crlf: bool) -> None:
    text = Writer(rng).table(document)
    check_all(text.replace("\n", "\r\n") if crlf else text)


@settings(deadline=None)
@given(documents(), st.randoms(use_true_random=False), st.booleans())
def test_what_a_writer_makes(document: dict[str, Any], rng: random.Random, long: bool) -> None:
    marked = with_markers(document, rng, [0])
    text = tomli_w.dumps(marked, multiline_strings=long)
    assert tomllib.loads(text) == marked
    check_all(text)


KIT = '''\
dryfit = 1
title = "Tide"  # [[step]]

paper.plain.face = "ivory"
[[step]]
trim = "A"
gives = ["strip", { name = "mat", to."1·2" = 3 },
  # the last one
  { name = "mat", use = "reverse" },
]
note = """
[[step]]
trim = "not me"
"""

[[step]]
trim = "B"
[step.extra]
a = 1
[step.extra.deep]

[[step]]
[x.y]
[x]
[z.q]
[z.r]
'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        ((), 1),
        (("titel",), 1),
        (("title",), 2),
        (("paper",), 4),
        (("paper", "plain", "face"), 4),
        (("paper", "missing"), 4),
        (("step",), 5),
        (("step", 0), 5),
        (("step", 0, "marks"), 5),
        (("step", 0, "trim"), 6),
        (("step", 0, "gives"), 7),
        (("step", 0, "gives", 1, "to", "1·2"), 7),
        (("step", 0, "gives", 2), 9),
        (("step", 0, "gives", 2, "to"), 9),
        (("step", 0, "gives", 3), 7),
        (("step", 0, "note"), 11),
        (("step", 1), 16),
        (("step", 1, "trim"), 17),
        (("step", 1, "extra"), 18),
        (("step", 1, "extra", "a"), 19),
        (("step", 1, "extra", "deep", "missing", 3), 20),
        (("step", 2), 22),
        (("step", 2, "trim"), 22),
        (("step", 3), 5),
        (("step", "0"), 5),
        (("x",), 24),  # its own header, not the one before that leads through it
        (("x", "y"), 23),
        (("z",), 25),  # no header of its own: the first that leads through it
        (("z", "r"), 26),
    ],
)
def test_a_kit_like_file(path: Path, line: int) -> None:
    tomllib.loads(KIT)
    assert TomlLines(KIT).line_of(path) == line
    assert TomlLines(KIT.replace("\n", "\r\n")).line_of(path) == line
    shared = TomlLines(KIT)
    shared.line_of(("step", 2, "gives"))
    assert shared.line_of(path) == line  # whatever was read before


def test_dotted_keys_and_a_header_of_one_table() -> None:
    # As in TOML 1.0.0, "Table": dotted keys define fruit.apple, a header adds a sub-table.
    text = '[fruit]\napple.taste = "@0@"\nx = "@1@"\n[fruit.apple.texture]\nsmooth = "@2@"\n'
    check_all(text)
    assert TomlLines(text).line_of(("fruit", "apple")) == 2


def test_arrays_of_tables_within_arrays_of_tables() -> None:
    # The fruits example of TOML 1.0.0, "Array of Tables", with markers for values.
    text = (
        '[[fruits]]\nname = "@0@"\n[fruits.physical]\ncolor = "@1@"\n[[fruits.varieties]]\n'
        'name = "@2@"\n[[fruits.varieties]]\nname = "@3@"\n[[fruits]]\nname = "@4@"\n'
        '[[fruits.varieties]]\nname = "@5@"\n'
    )
    check_all(text)
    assert TomlLines(text).line_of(("fruits", 1, "varieties")) == 11
    assert TomlLines(text).line_of(("fruits", 1, "varieties", 1)) == 11


@pytest.mark.parametrize("text", ["", "\n", "# only a comment", "a = 1", "\r\n\r\n"])
def test_small_files(text: str) -> None:
    tomllib.loads(text)
    assert TomlLines(text).line_of(("a", 0, "b")) == 1


@pytest.mark.parametrize(
    "text",
    ["a = { b = 1,\n c = 2,\n}\nd = 3\n", '"\\x61" = 1\n\nd = 2\nd = 3', "= 1\n[]\n.\nd = [,\n"],
)
def test_what_the_grammar_does_not_know_is_no_error(text: str) -> None:
    # TOML 1.1 (line breaks in inline tables), and what no version allows.
    lines = TomlLines(text)
    for path in ((), ("a", "b"), ("a", "c", 0), ("d",), ("d", 0), ("e",)):
        assert 1 <= lines.line_of(path) <= text.count("\n") + 1


def test_blanks_after_the_backslash_that_ends_a_line() -> None:
    # TOML 1.0.0, "String": such a line goes on. The grammar alone reads the rest of this amiss.
    check_all(
        'x = """@0@ \\\t\n"""\n[[q]]\nz = """@1@"\\\t\n\'\\ \n \'\'\'][x]"""\n'
        'y = """@2@"\\\t\r\n\'\\ \n \'\'\'][x]\n[b] \\  \n"""\nw = "@3@"\n[v]\nu = "@4@"\n'
    )


def test_many_tables_and_a_deep_key() -> None:
    count = 10_000
    text = "".join(f'[[s]]\nt = {i}\nm = [1,\n2]\ng = [{{ n = "·" }}]\n' for i in range(count))
    lines = TomlLines(text)
    for i in range(count):
        assert lines.line_of(("s", i, "m", 1)) == 5 * i + 4
        assert lines.line_of(("s", i, "g", 0, "n")) == 5 * i + 5
    deep = TomlLines("\n" + ".".join("a" * 900) + " = 1\nb = " + "[" * 300 + "\n" + "]" * 300)
    assert deep.line_of(("a",) * 901) == 2
    assert deep.line_of(("b", *(0,) * 400)) == 3


def test_nothing_is_parsed_before_a_line_is_asked_for() -> None:
    code = (
        "import sys; from model.toml_lines import TomlLines\n"
        "lines = TomlLines('a = 1'); before = 'tree_sitter' in sys.modules\n"
        "lines.line_of(('a',)); print(before, 'tree_sitter' in sys.modules)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.split() == ["False", "True"]
