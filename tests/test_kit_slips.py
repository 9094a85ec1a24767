"""Kits as a crafter breaks them: each slip is told once, on its line, with what would be right.

Which slips are usual is common practice, no source.
"""

from __future__ import annotations

import pytest

from model.reading import read_kit

GOOD = """\
dryfit = 1
title = "Market Day"
page = "12 x 12"
pages = 4
scraps = 1
order = ["A", "B"]

[[paper]]
name = "stripe"
kind = "print"
face = { name = "awning stripe", colour = "tomato" }
directional = true
landmarks = { "basket" = "top left" }

[[sheet]]
name = "A"
paper = "stripe"

[[sheet]]
name = "B"
face = "teal"

[[sheet]]
name = "ground"
face = "tan"
bases = [1, 2, 3, 4]

[[embellishment]]
name = "button"
colour = "navy"
with = "photo mat"

[[ribbon]]
name = "twine"
colour = "tan"
length = "1 yd"
to = { "1·2" = "18 in", "3·4" = "12 in" }

[[set_aside]]
name = "foam dots"
pages = [3]

[[piece]]
name = "border"
to = "2 to 1·2, 1 to 3·4"
size = "12 x 2"

[[piece]]
name = "photo mat"
to = "1 to page 1, 1 to page 2, 1 to page 3"
size = "4 x 6"

[[step]]
trim = "A"
lay = "basket at bottom left"
marks = [10, 8, 6]
gives = "border"
rest = "half"

[[step]]
trim = "half"
turn = "quarter"
marks = [6]
gives = { name = "panel", to = "page 3" }
rest = { name = "panel two", to = "page 4" }

[[step]]
trim = "B"
marks = [6]
gives = "scrap"
rest = "teal half"

[[step]]
trim = "teal half"
turn = "quarter"
marks = [8, 4]
gives = "photo mat"
rest = "photo mat"
"""
B_STEP = 'trim = "B"\nmarks = [6]\ngives = "scrap"\nrest = "teal half"'
POCKET = '[[pocket]]\nlabel = "1·2"\npages = [1, 2]\n\n[[paper]]'


def told(text: str) -> list[str]:
    found = read_kit(text).findings
    return [str(finding) for finding in found if finding.code != "more-may-follow"]


def test_the_kit_is_good_before_it_is_broken() -> None:
    assert told(GOOD) == []


# What stands there rightly, what a crafter wrote, a part of the line at which it is told, and
# the end or another part of what is said.
SLIPS = [
    # Names
    ('trim = "half"', 'trim = "haf"', 'trim = "haf"', 'did you mean "half"?'),
    ('trim = "half"', 'trim = "Half"', 'trim = "Half"', 'did you mean "half"?'),
    ('rest = "half"', 'rest = "hlaf"', 'trim = "half"', 'did you mean "hlaf"?'),
    ('gives = "photo mat"', 'gives = "photo mats"', "photo mats", 'did you mean "photo mat"?'),
    ('gives = "scrap"', 'gives = "waste"', "waste", 'did you mean "scrap"?'),
    ('trim = "B"', 'trim = "stripe"', '"stripe"\nmarks', '"B", which no step takes?'),
    ('with = "photo mat"', 'with = "photo mats"', "photo mats", 'did you mean "photo mat"?'),
    ('["A", "B"]', '["a", "B"]', "order", 'no sheet is called "a"; did you mean "A"?'),
    ('["A", "B"]', '["A", "ground 1", "B"]', "order", "is a base: it is kept whole"),
    # The same twice
    ('trim = "B"', 'trim = "A"', '"A"\nmarks = [6]', 'did you mean "B", which no step takes?'),
    ('name = "B"', 'name = "A"', '[[sheet]]\nname = "A"\nface', "used twice, both times for"),
    (
        '[[piece]]\nname = "border"', '[[piece]]\nname = "border"\nto = 1\n\n[[piece]]\nname = '
        '"border"', '[[piece]]\nname = "border"\nto = "2', "say all in one table",
    ),
    ("pages = 4", "pages = 4\npages = 6", "pages = 6", "stands twice in its table"),
    # What a step can't take
    ('trim = "B"', 'trim = "ground"', '"ground"\nmarks', "kept whole, and not cut; did you mean"),
    ('trim = "B"', 'trim = "ground 1"', '"ground 1"\nmarks', "as the base of page 1, and not cut"),
    ('trim = "teal half"', 'trim = "scrap"', 'trim = "scrap"', "a scrap is not cut again"),
    ('trim = "teal half"', 'trim = "button"', 'trim = "button"', 'filed with "photo mat": no'),
    ('trim = "teal half"', 'trim = "twine"', 'trim = "twine"', '"twine" is a ribbon: the lengths'),
    ('trim = "teal half"', 'trim = "photo mat"', 'trim = "photo mat"', "only this very step makes"),
    (
        "[[step]]\n" + B_STEP, '[[step]]\nslit = "border"\nfor = "ground 1"\n\n[[step]]\n' + B_STEP,
        'for = "ground 1"', "is a base, it can't be threaded through a slit",
    ),
    (
        "[[step]]\n" + B_STEP, '[[step]]\nslit = "border"\nfor = "scrap"\n\n[[step]]\n' + B_STEP,
        'for = "scrap"', "a scrap can't be threaded through a slit; name a piece or a strip",
    ),
    # Parts without a name
    ('rest = "teal half"\n', "", '[[step]]\ntrim = "B"', "what is left of this trim has no name"),
    ('rest = "half"\n', "", '[[step]]\ntrim = "A"', "what is left of this trim has no name"),
    ('gives = "border"\n', "", '[[step]]\ntrim = "A"', 'write gives = "..." where all 3 are alike'),
    ('gives = "border"', 'gives = ["3 border"]', "3 border", '{ name = "border", count = 3 }'),
    ('gives = "border"', 'gives = { border = 3 }', "gives = { b", '{ name = "border", count = 3 }'),
    ('{ name = "panel",', '{ piece = "panel",', "gives = { piece", 'write name = "panel"'),
    ('rest = "half"', 'rest = ["half"]', "rest = [", 'or a table in { }; write rest = "half"'),
    # Places
    (
        "[[paper]]", POCKET, '[[ribbon]]\nname = "twine"\ncolour = "tan"\nlength = "1 yd"\nto',
        "pages 3 and 4 have no pocket; add them to the pages of a [[pocket]]",
    ),
    ('"1 to page 1, 1 to page 2, 1 to page 3"', '"pages 1 to 3"', "pages 1 to 3", "name each page"),
    ('to = "1 to page 1, 1 to page 2, 1 to page 3"', "page = 3", "page = 3", "is said in to"),
    ('to = "2 to 1·2, 1 to 3·4"', 'to = "1·2"\ncount = 3', "count = 3", "is said in to"),
    (
        "[[paper]]", '[[pocket]]\nlabel = "1·2"\n\n[[paper]]', "[[pocket]]",
        '"pages" is missing; add pages = [1, 2]',
    ),
    (
        "[[paper]]", POCKET.replace("[1, 2]", '"1, 2"'), 'pages = "1,',
        "must be a list in [ ]; write pages = [1, 2]",
    ),
    # Numbers and lists
    ("pages = 4", 'pages = "4"', 'pages = "4"', "a whole number; write 4 without quotes"),
    ("marks = [10, 8, 6]", 'marks = "10, 8, 6"', "marks = \"10", "write marks = [10, 8, 6]"),
    ("marks = [8, 4]", "marks = 8", "marks = 8", "write marks = [8]"),
    ("bases = [1, 2, 3, 4]", 'bases = "1 to 4"', "bases = ", "write bases = [1, 2, 3, 4]"),
    ("directional = true", 'directional = "yes"', "directional", "write true without quotes"),
    ('length = "1 yd"', "length = 1", "length = 1", "is 1 in long, but 30 in are cut from it"),
    ("scraps = 1", 'scraps = ["6 x 11"]', "scraps", "expects a scrap of 6 x 11, the cuts make 6 x"),
    ("[8, 4]", '["8 1/2", 4]', 'gives = "photo mat"', '"photo mat" comes out 6 x 3 1/2'),
    # How it lies is not known, so neither is which way round the pieces come off.
    ('"basket at', '"baskt at', '"baskt', 'did you mean "basket"?'),
    ("at bottom left", "at bottom", "basket at", "a side for a side, a corner for a corner"),
    # Keys and tables
    ('page = "12 x 12"', 'Page = "12 x 12"', "Page", 'did you mean "page"?'),
    ("dryfit = 1\n", "", "title", '"dryfit" is missing; add dryfit = 1'),
    ('face = "teal"', 'colour = "teal"', 'colour = "teal"', 'did you mean "face"?'),
    ('[[step]]\ntrim = "A"', '[[steps]]\ntrim = "A"', "[[steps]]", 'did you mean "step"?'),
    ('[[step]]\ntrim = "A"', '[step]\ntrim = "A"', "[step]", "above each of them stands [[step]]"),
    (
        "[[embellishment]]", "scraps = 1\n\n[[embellishment]]", "scraps = 1\n\n[[",
        "it belongs at the top of the file, above the first table",
    ),
    ('trim = "B"\n', 'do = "Cut B"\n', "marks = [6]\ngives = \"s", "no meaning in a do step"),
    ('trim = "B"', 'tear = "B"', 'marks = [6]\ngives = "s', "a tear takes widths = [...]"),
    (
        'gives = "photo mat"', 'gives = [{ name = "photo mat" count = 2 }]', "gives = [{",
        'a comma between entries: gives = [{ name = "photo mat", count = 2 }]',
    ),
]  # fmt: skip


@pytest.mark.parametrize(("right", "wrong", "at", "says"), SLIPS)
def test_a_slip_is_told_once_and_where_it_is(right: str, wrong: str, at: str, says: str) -> None:
    assert right in GOOD
    broken = GOOD.replace(right, wrong, 1)
    (only,) = told(broken)
    line = broken[: broken.index(at) + at.rfind("\n") + 1].count("\n") + 1
    lines = {line, broken[: broken.index(at)].count("\n") + 1}
    assert int(only.removeprefix("line ").partition(":")[0]) in lines, only
    assert says in only


def test_all_tables_under_a_misspelt_heading_are_told_once_each_kind() -> None:
    for array in ("step", "piece", "sheet"):
        (only,) = told(GOOD.replace(f"[[{array}]]", f"[[{array}s]]"))
        assert only.endswith(f'unknown key "{array}s"; did you mean "{array}"?')


def test_a_page_in_the_wrong_unit_is_seen() -> None:
    (remark,) = told(GOOD.replace("pages = 4", 'pages = 4\nunit = "mm"'))
    assert remark == (
        "line 3: the page measures 12 x 12 mm, less than an inch each way; "
        "check the numbers and unit"
    )
    first, *_ = told(GOOD.replace('page = "12 x 12"', 'page = "12 x 12 cm"'))
    assert first.endswith("check the size: a number without a unit is in inches")


def test_a_second_mistake_far_from_the_first_is_still_told() -> None:
    broken = GOOD.replace('rest = "half"\n', "").replace("teal", "teel", 1)
    assert [line.partition(":")[0] for line in told(broken)] == ["line 21", "line 53"]
