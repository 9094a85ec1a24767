"""A whole kit, and the mistakes that can be planted in it."""

from __future__ import annotations

from dataclasses import dataclass

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
ALSO = {  # what is told beside it, since it is true of the kit as well
    'name = "panel"': ["loose-end"],
    'name = "A"': ["loose-end"],
    'gives = "zzzzzz"': ["never-made"],
    'use = "face"': ["unused-sheet"],
}
