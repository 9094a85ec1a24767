"""What is wrong with a kit file is told: all of it, once, with its line and a remedy."""

from __future__ import annotations

import re
from dataclasses import dataclass

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.finding import Finding
from model.reading import read_kit

# A whole kit, in which mistakes are planted; each needle below stands in it once.
GOOD = """\
dryfit = 1
title = "Good"
page = "12 x 12"
pages = 6
scraps = 2
ruler = 3
order = ["A", "B", "C"]

[[paper]]
name = "rope"
kind = "print"
face = { name = "coils", colour = "wheat" }
directional = true
landmarks = { "anchor" = "top left" }

[[paper]]
name = "spare"
face = "red"

[[sheet]]
name = "A"
paper = "rope"

[[sheet]]
name = "B"
face = "navy"

[[sheet]]
name = "C"
face = "teal"
size = "6 x 12"

[[sheet]]
name = "ground"
face = "tan"
bases = [1, 2]

[[sheet]]
name = "lid"
face = "tan"
base = 3

[[precut]]
name = "white mat"
face = "white"
to = { "1·2" = 2 }

[[embellishment]]
name = "button"
colour = "brown"
with = "panel"

[[ribbon]]
name = "twill"
colour = "crimson"
length = "1 yd"
to = { "3·4" = "18 in" }

[[set_aside]]
name = "foam dots"
pages = [3]

[[piece]]
name = "border strip"
to = "2 to 1·2"

[[piece]]
name = "panel"
to = 3
size = "8 x 12"

[[piece]]
name = "square"
to = "8 to 3·4"
size = "4 x 4"
backs = "panel"

[[piece]]
name = "mat"
to = "page 5"

[[step]]
trim = "A"
lay = "anchor at top left"
marks = [10, 8]
gives = "border strip"
rest = "panel"

[[step]]
trim = "B"
marks = [8, 4]
gives = "row"
rest = "end"

[[step]]
trim = "row"
turn = "quarter"
times = 2
marks = [8, 4]
gives = "square"
rest = "square"

[[step]]
trim = "end"
turn = "quarter"
marks = [8, 4]
gives = "square"
rest = { name = "scrap" }

[[step]]
trim = "C"
marks = ["5 1/2"]
gives = "mat"
rest = "scrap"

[[step]]
do = "Round the corners"
needs = ["foam dots"]
wait = "after filing"
"""


@dataclass(frozen=True)
class Mistake:
    """A mistake that can be planted: what is written instead of what, and what is told.

    Lines are not added nor taken away, so that every other finding keeps its own.
    """

    code: str
    right: str
    wrong: str
    at: str = ""  # text on the line that is told, when it is not the line of the mistake
    says: str = ""

    def plant(self, text: str) -> str:
        assert text.count(self.right) == 1, self.right
        return text.replace(self.right, self.wrong)

    @property
    def line(self) -> int:
        needle = self.at or self.right
        index = GOOD.index(needle) + (len(needle) - len(needle.lstrip("\n")))
        extra = 0 if self.at else len(_same_start(self.right, self.wrong).split("\n")) - 1
        return GOOD.count("\n", 0, index) + 1 + extra


def _same_start(one: str, two: str) -> str:
    length = next((n for n, (a, b) in enumerate(zip(one, two, strict=False)) if a != b), 0)
    return one[:length]


# Each is far enough from the others that none hides another.
APART = [
    Mistake("unknown-key", "ruler = 3", "rulre = 3", says='did you mean "ruler"?'),
    Mistake("no-such-page", "bases = [1, 2]", "bases = [1, 9]", says="there is no page 9"),
    Mistake("base-twice", "base = 3", "base = 1", says='page 1 has the base "ground" already'),
    Mistake("bad-value", 'face = "red"', 'face = "rde"', says='did you mean "red"?'),
    Mistake(
        "bad-value", '{ "1·2" = 2 }', '{ "1·2" = 0 }', says="must be a whole number from 1 to"
    ),
    Mistake("ribbon-short", 'length = "1 yd"', 'length = "1 ft"', says="18 in are cut from it"),
    Mistake("no-such-page", "pages = [3]", "pages = [7]", says="the kit has pages 1 to 6"),
    Mistake(
        "unknown-pocket", '"2 to 1·2"', '"2 to 1·3"', says='did you mean "1·2"?'
    ),
    Mistake(
        "unknown-name", 'backs = "panel"', 'backs = "pannel"',
        at='[[piece]]\nname = "square"', says='did you mean "panel"?',
    ),
    Mistake(
        "unknown-landmark", "anchor at top left", "ancor at top left", says='did you mean "anchor"'
    ),
    Mistake(
        "mark-order", 'marks = [8, 4]\ngives = "row"', 'marks = [4, 8]\ngives = "row"',
        says="mark 8 in comes after 4 in; marks go down in one load",
    ),
    Mistake(
        "mark-outside", '["5 1/2"]', '["6 1/2"]',
        says='mark 6 1/2 in is not inside "C", which measures 6 in along the ruler; it would fit '
        'with turn = "quarter"',
    ),
    Mistake("unknown-name", 'needs = ["foam dots"]', 'needs = ["foam dost"]', says="foam dots"),
]  # fmt: skip

ALONE = [
    *APART,
    Mistake("wrong-type", "pages = 6", 'pages = "6"', says="must be a whole number"),
    Mistake("bad-value", 'page = "12 x 12"', 'page = "12"', says="is no size"),
    Mistake("empty", 'title = "Good"', 'title = ""', says="must not be empty"),
    Mistake("unknown-word", 'kind = "print"', 'kind = "prnt"', says='did you mean "print"?'),
    Mistake("unknown-paper", 'paper = "rope"', 'paper = "roep"', says='did you mean "rope"?'),
    Mistake("bad-value", 'name = "C"', 'name = "C/1"', says="must not hold / or #"),
    Mistake("bad-value", 'name = "lid"', 'name = "l\\u001bid"', says="control characters"),
    Mistake("bad-value", 'name = "lid"', 'name = "l\\u202eid"', says="control characters"),
    Mistake("unknown-key", 'with = "panel"', 'wiht = "panel"', says='did you mean "with"?'),
    Mistake("unknown-name", 'with = "panel"', 'with = "panle"', says='did you mean "panel"?'),
    Mistake(
        "companion-chain", 'with = "panel"', 'with = "button"', says="waits for a piece itself"
    ),
    Mistake("no-such-page", 'to = "page 5"', 'to = "page 7"', says="there is no page 7"),
    Mistake("bad-value", 'to = "page 5"', 'to = "page 5,"', says='must be a pocket, such as "3·4"'),
    Mistake(
        "size-differs", '"4 x 4"', '"4 x 5"', at='gives = "square"\nrest = "square"',
        says='"square" comes out 4 x 4, but its size is stated as 4 x 5',
    ),
    Mistake(
        "size-differs", '"8 x 12"', '"12 x 8"', at='rest = "panel"', says="its print has an up"
    ),
    Mistake(
        "count-differs", '"8 to 3·4"', '"7 to 3·4"', at='[[piece]]\nname = "square"',
        says='"square" is made 8 times, but its pockets have places for 7',
    ),
    Mistake(
        "name-twice", 'name = "mat"', 'name = "panel"', at='[[piece]]\nname = "mat"',
        says="is used twice, both times for a piece; say all in one table, or give",
    ),
    Mistake(
        "name-twice", 'name = "mat"', 'name = "A"', at='[[piece]]\nname = "mat"',
        says="a sheet and a piece",
    ),
    Mistake(
        "name-reserved", 'name = "mat"', 'name = "Scrap"', at='[[piece]]\nname = "mat"',
        says='can\'t be called "scrap"',
    ),
    Mistake("lay-impossible", "anchor at top left", "anchor at top", says="a corner for a corner"),
    Mistake("bad-value", "anchor at top left", "anchor near top", says='"anchor at top"'),
    Mistake("bad-value", "anchor at top left", "anchor at the middle", says="no place on the"),
    Mistake("gives-count", 'gives = "row"', 'gives = ["row"]', says="gives names 1"),
    Mistake("unknown-key", 'rest = "end"', 'rset = "end"', says='did you mean "rest"?'),
    Mistake("unknown-name", 'trim = "row"', 'trim = "rwo"', says='there is no "rwo" to trim; did'),
    Mistake("unknown-key", 'trim = "row"', 'trmi = "row"', says='did you mean "trim"?'),
    Mistake(
        "base-cut", 'trim = "row"', 'trim = "lid"', says="kept whole, as the base of page 3"
    ),
    Mistake("unknown-word", 'turn = "quarter"\ntimes', 'turn = "qarter"\ntimes', says="quarter"),
    Mistake(
        "too-few", "times = 2", "times = 3", says='2 of "row" are there to trim, times says 3'
    ),
    Mistake("out-of-bounds", "times = 2", "times = 0", says="must be at least 1"),
    Mistake(
        "loose-end", "times = 2", "times = 1", at='gives = "row"', says='1 more "row" is made'
    ),
    Mistake(
        "unknown-key", '{ name = "scrap" }', '{ nmae = "scrap" }', says='did you mean "name"?'
    ),
    Mistake("scrap-filed", '{ name = "scrap" }', '{ name = "scrap", to = 3 }', says="no pocket"),
    Mistake(
        "rest-count", '{ name = "scrap" }', '{ name = "scrap", count = 2 }', says="one piece"
    ),
    Mistake("scraps-differ", "scraps = 2", "scraps = 3", says="expects 3 scraps, its cuts make 2"),
    Mistake(
        "scraps-differ", "scraps = 2", 'scraps = ["4 x 4", "5 x 12"]',
        says="expects a scrap of 5 x 12, the cuts make 5 1/2 x 12 instead",
    ),
    Mistake("order-differs", '"A", "B", "C"', '"B", "A", "C"', says="in the order A, B, C"),
    Mistake("order-twice", '"A", "B", "C"', '"A", "B", "B"', says="stands twice"),
    Mistake("unknown-sheet", '"A", "B", "C"', '"A", "B", "D"', says='no sheet is called "D"'),
    Mistake(
        "unused-sheet", 'base = 3', 'note = "3"', at='[[sheet]]\nname = "lid"',
        says='no step cuts sheet "lid"',
    ),
    Mistake("key-without-sense", "base = 3", 'use = "face"', says='"use" has no meaning for'),
    Mistake(
        "key-without-sense", 'wait = "after filing"', 'turn = "half"',
        says='"turn" has no meaning in a do step',
    ),
    Mistake("loose-end", 'gives = "mat"', 'gives = "mta"', says='did you mean "mat"?'),
    Mistake(
        "loose-end", 'gives = "mat"', 'gives = "zzzzzz"', says="no later step takes it"
    ),
    Mistake("no-pocket", 'to = "page 5"', 'note = "5"', at='[[piece]]\nname = "mat"',
            says='"mat" has no pocket; write to = "..."'),
]  # fmt: skip
_ALSO = {  # what is told beside it, since it is true of the kit as well
    'name = "panel"': ["loose-end"],
    'name = "A"': ["loose-end"],
    'gives = "zzzzzz"': ["never-made"],
    'use = "face"': ["unused-sheet"],
}


def mistakes_in(text: str) -> list[Finding]:
    """The findings without the word at the end that more may follow."""
    found = list(read_kit(text).findings)
    return found[:-1] if found and found[-1].code == "more-may-follow" else found


def told(text: str) -> list[tuple[str, int]]:
    return sorted((finding.code, finding.line) for finding in mistakes_in(text))


def test_the_kit_without_mistakes_has_no_findings() -> None:
    got = read_kit(GOOD)
    assert got.findings == () and got.plan is not None and got.text == GOOD


@pytest.mark.parametrize("mistake", ALONE, ids=lambda m: f"{m.code}: {m.wrong[:30]}")
def test_a_mistake_is_told_once_with_its_line_and_what_would_be_right(mistake: Mistake) -> None:
    findings = mistakes_in(mistake.plant(GOOD))
    mine = [finding for finding in findings if finding.code == mistake.code]
    assert [finding.line for finding in mine] == [mistake.line], [str(f) for f in findings]
    assert mistake.says in str(mine[0])
    assert str(mine[0]).startswith(f"line {mistake.line}: ")
    others = [finding.code for finding in findings if finding.code != mistake.code]
    assert others == _ALSO.get(mistake.wrong, []), [str(f) for f in findings]
    assert read_kit(mistake.plant(GOOD)).plan is None


def test_all_mistakes_are_told_in_one_go() -> None:
    text = GOOD
    for mistake in APART:
        text = mistake.plant(text)
    assert told(text) == sorted((mistake.code, mistake.line) for mistake in APART)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.sampled_from(APART), unique=True))
def test_any_mistakes_together_are_told_and_nothing_else(mistakes: list[Mistake]) -> None:
    text = GOOD
    for mistake in mistakes:
        text = mistake.plant(text)
    got = read_kit(text)
    found = mistakes_in(text)
    assert sorted((f.code, f.line) for f in found) == sorted(
        (mistake.code, mistake.line) for mistake in mistakes
    ), [str(f) for f in found]
    assert (got.plan is None) == bool(mistakes)
    assert [f.line for f in found] == sorted(f.line for f in found)


# Each hides something else: how many squares there are, or how many scraps, or what is printed.
HIDING = {
    "unknown-pocket", "mark-order", "mark-outside", "unknown-paper", "gives-count", "base-cut",
    "too-few", "out-of-bounds", "unknown-landmark", "lay-impossible",
}  # fmt: skip
# Each is told whole, and nothing hangs on it.
WHOLE = {
    "base-twice", "ribbon-short", "empty", "companion-chain", "size-differs",
    "count-differs", "scraps-differ", "order-twice", "unknown-sheet",
    "unused-sheet", "key-without-sense", "no-pocket", "scrap-filed",
}  # fmt: skip


@pytest.mark.parametrize("mistake", ALONE, ids=lambda m: f"{m.code}: {m.wrong[:30]}")
def test_it_is_said_when_something_could_not_be_checked(mistake: Mistake) -> None:
    *_, last = read_kit(mistake.plant(GOOD)).findings
    if mistake.code in HIDING | WHOLE:
        assert (last.code == "more-may-follow") == (mistake.code in HIDING)
    if last.code == "more-may-follow":
        assert not last.grave and last.line == 0
        assert str(last) == (
            "what hangs on these is not checked yet; more may follow when they are mended"
        )


def _named(what: str) -> list[str]:
    """The names in quotes that a finding speaks of; the whole of it when there are none."""
    return re.findall(r'"[^"]+"', what) or [what]


@settings(max_examples=200, deadline=None)
@given(st.lists(st.sampled_from(ALONE), unique=True, min_size=2, max_size=2))
def test_what_a_mistake_hides_is_announced(mistakes: list[Mistake]) -> None:
    """Whatever is found only after a mistake is mended has been announced while it was there."""
    one, other = mistakes
    if GOOD.count(one.right) != 1 or one.plant(GOOD).count(other.right) != 1:
        return
    both = other.plant(one.plant(GOOD))
    told_of = [f.what for f in mistakes_in(both)]
    hidden = [
        finding.what
        for finding in mistakes_in(other.plant(GOOD))
        # Of one thing one fault is told at a time: a piece that is never made has no count.
        if not any(name in what for name in _named(finding.what) for what in told_of)
    ]
    if hidden:
        assert read_kit(both).findings[-1].code == "more-may-follow", [
            str(f) for f in read_kit(both).findings
        ]


@settings(max_examples=150, deadline=None)
@given(st.integers(0, len(GOOD.split("\n\n")) - 1), st.sampled_from(ALONE))
def test_a_table_that_is_missing_never_ends_in_a_traceback(gone: int, mistake: Mistake) -> None:
    tables = mistake.plant(GOOD).split("\n\n")
    del tables[gone]
    read_kit("\n\n".join(tables))
