"""One error hides no other that does not follow from it; one mistake is told once."""

from __future__ import annotations

import pytest

from model.reading import read_kit
from tests.test_kit_words import CUT, HEAD, A

RIBBON = '[[ribbon]]\nname = "twine"\ncolour = "tan"\nlength = "1 yd"\nto = { "1·2" = "18 in" }\n'
MAT = '[[precut]]\nname = "mat"\nface = "white"\nto = 1\n'
B = '[[sheet]]\nname = "B"\nface = "tan"\n'
CUT_B = CUT.replace('"A"', '"B"')
PIECE = '[[piece]]\nname = "panel"\nto = 1\n'
TO_PANEL = CUT.replace('rest = "scrap"', 'rest = "panel"')


def told(*parts: str) -> list[str]:
    """What is told, without lines and without the word that more may follow."""
    found = read_kit(HEAD + "".join(parts)).findings
    return [
        str(finding).removeprefix(f"line {finding.line}: ")
        for finding in found
        if finding.code != "more-may-follow"
    ]


# Parts of a kit, and for each error in it a part of what is told, in the order of the file.
TOGETHER = [
    # Within one table
    (
        (A, TO_PANEL, PIECE.replace("to = 1", 'to = "1 to 1·2, 1 to 5.6"\nsize = "0 x 3"')),
        ["there are no pages 5 and 6", "'0' is zero"],
    ),
    (
        (A, TO_PANEL, PIECE.replace("to = 1", 'to = "1·3"\nuse = "up"\nbacks = "mirror"')),
        ['backs "mirror", which the kit does not', '"1·3"', '"use" can\'t be "up"'],
    ),
    (
        (A, CUT, RIBBON.replace("tan", "tam").replace("1 yd", "1 in")),
        ['"tam" is no colour', '"twine" is 1 in long, but 18 in are cut from it'],
    ),
    (
        (A, CUT, RIBBON.replace('"18 in"', '"18 furlongs", "3·4" = 0')),
        ["unit, 'furlongs'", "0 is zero"],
    ),
    ((A, CUT, RIBBON.replace('"1·2"', '"9"').replace("1 yd", "1 in")), ["is 1 in", "no page 9"]),
    ((A, CUT, MAT.replace("white", "wite").replace("to = 1", "to = 9")), ["wite", "no page 9"]),
    ((A, CUT, MAT.replace("to = 1", 'note = 3\nsmall = "no"')), ["has no place", "must be text",
     "must be true"]),
    ((A, CUT, MAT.replace("to = 1", 'to = ["0 to 1·2", 1.5, 0]')), ["the count for", "entry 2",
     "from 1 to 400"]),
    ((A, CUT, MAT.replace("to = 1", 'to = { "1·2" = 0, "3·4" = -1 }')), ['"1·2"', '"3·4"']),
    ((A, CUT, MAT.replace("to = 1", 'to = "0 to 1·2, 0 to 3·4"')), ['for "1·2"', 'for "3·4"']),
    ((A, CUT, MAT.replace('"mat"', "3").replace("= 1", "= 9")), ["must be text", "no page 9"]),
    ((A, CUT, '[[sheet]]\nbase = 9\nsize = "0 x 1"\n'), ['"name" is missing', "it has no paper",
     "no page 9", "zero"]),
    ((A + 'use = "face"\nlandmarks = { "x" = "y", "z" = "q" }\n', CUT), ['"use" has no meaning',
     '"x" must be a side', '"z" must be a side']),
    ((A + 'size = "0 x 12"\nnote = 3\n', CUT_B), ["is zero", "must be text", 'no "B" to trim']),
    # The size of a sheet is not known, but what is cut of it can be counted.
    ((A + 'size = "12"\n', CUT, PIECE), ["is no size", 'no step makes "panel"']),
    ((A, CUT, '[[set_aside]]\nname = "dots"\nnote = 3\npages = [9, "x"]\n'), ["must be text",
     "must be a whole number", "no page 9"]),
    (
        ('[[paper]]\nname = "sky"\nface = "bleu"\n', A.replace('face = "navy"', 'paper = "sky"'),
         CUT.replace("marks", 'lay = "sun at left"\nmarks')),
        ['did you mean "blue"', '"sun" is no landmark'],
    ),
    (('scraps = ["0 x 1", "x"]\n', 'order = ["A", 3, "C"]\n', A, CUT), ["entry 1", "entry 2",
     "entry 2", '"C"']),
    # Within one load
    ((A, CUT.replace("[6]", "[13, 14]").replace('"scrap"', '["scrap", "scrap"]', 1)),
     ['marks 13 in and 14 in are not inside "A"', "mark 14 in comes after 13 in"]),
    ((A, CUT.replace("[6]", "[0, 13, 14, 3]")), ["0 is zero", "13 in and 14 in are not",
     "14 in comes after 13 in"]),
    ((A, CUT.replace("[6]", "[4, 13]").replace('"scrap"', '["scrap", "scrap"]', 1)),
     ["mark 13 in is not", "mark 13 in comes after 4 in"]),
    ((A, CUT.replace("[6]", "[13]").replace('gives = "scrap"', 'gives = ["scrap", "p", "q"]')),
     ["13 in is not inside", "gives names 3"]),
    ((A, CUT.replace("[6]", "[3, 6, 2, 5]").replace('"scrap"', '["scrap", "scrap", "scrap", '
     '"scrap"]', 1)), ["6 in comes after 3 in", "5 in comes after 2 in"]),
    ((A, CUT.replace("marks = [6]", "widths = [13, 14]").replace("trim", "tear")
      .replace('"scrap"', '["scrap", "scrap"]', 1)), ["tearing 13 in", "tearing 14 in"]),
    (
        (A, CUT.replace('"A"', '"rope"').replace("[6]", "[4, 6]")
         .replace("rest", 'turn = "qarter"\nneeds = "zz"\nrest')
         .replace('gives = "scrap"', 'gives = [{ name = "q", to = "9·9" }, "scrap"]')),
        ['no "rope" to trim; did you mean "A"', "6 in comes after 4 in", '"9·9"', "qarter",
         '"zz"'],
    ),
    ((A, CUT.replace("marks", 'tear = "A"\nneeds = "zz"\nup = "left"\nmarks')),
     ["has trim and tear", '"zz"', '"up" can\'t be "left"']),
    ((A, CUT.replace("[6]", "[6, true]").replace('rest = "scrap"\n', 'turn = "up"\n')),
     ["entry 2", '"turn"']),
    ((A, CUT.replace("trim", "trace").replace("marks = [6]", 'up = "x"\naround = "zz"')
      .replace('rest = "scrap"\n', "").replace('"scrap"', '{ name = "p", to = 1 }')),
     ['"up"', 'no "zz"']),
    # What is broken is counted all the same.
    ((A, TO_PANEL.replace("marks", 'turn = "up"\nmarks'), PIECE.replace("1", '"2 to 1·2"')),
     ['"turn"', "made once, but its pockets have places for 2"]),
    ((A, TO_PANEL.replace("[6]", "[13]"), PIECE.replace("1", '"2 to 1·2"')),
     ["13 in is not inside", "made once, but its pockets have places for 2"]),
    ((A, CUT, PIECE.replace("1", '"9·2"')), ['no step makes "panel"', '"9·2"']),
    (("scraps = 1\n", A, CUT.replace("marks", 'lay = "up"\nmarks')), ["expects 1 scrap", '"lay"']),
    (('order = ["B", "A"]\n', A, B, CUT.replace("trim", "tear").replace("marks = [6]",
      "widths = [7, 7]").replace('"scrap"', '["scrap", "scrap"]', 1), CUT_B),
     ["in the order A, B", "tearing 7 in"]),
    (("scraps = 1\n", A, CUT, '[[sheet]]\nname = "a/b"\nface = "tan"\nbase = 1\n'),
     ["expects 1 scrap", "must not hold / or #"]),
    # Across tables
    ((A, CUT, MAT, MAT.replace("= 1", "= 9")), ["is used twice", "no page 9"]),
    ((A, CUT, RIBBON, RIBBON.replace("1 yd", "1 in")), ["is used twice", "is 1 in long"]),
    ((A, CUT, '[[pocket]]\nlabel = "x"\npages = [1, 9]\nq = 1\n', MAT.replace("= 1", "= 7")),
     ["no page 9", 'unknown key "q"', "no page 7"]),
    ((A, CUT, PIECE.replace('"panel"', '"scrap"'), MAT.replace('"mat"', '"other"'),
      '[[piece]]\nname = "tile"\nto = 1\n'), ['can\'t be called "scrap"', 'no step makes "tile"']),
    (('unit = "feet"\n', A, CUT.replace('rest = "scrap"\n', ""), B), ['"feet"', "has no name",
     'no step cuts sheet "B"']),
]  # fmt: skip


@pytest.mark.parametrize(("parts", "says"), TOGETHER, ids=lambda each: str(each)[:40])
def test_all_errors_are_told_in_one_go(parts: tuple[str, ...], says: list[str]) -> None:
    found = told(*parts)
    assert len(found) == len(says), found
    for sentence, part in zip(found, says, strict=True):
        assert part in sentence, found


# What follows from an error that is told: each of these is one mistake.
ONE = [
    ((A, CUT.replace("[6]", "[4, 8, 10]").replace('"scrap"', '["scrap", "scrap", "scrap"]', 1)),
     "mark 8 in comes after 4 in"),
    ((A, CUT.replace("marks = [6]", "widths = [7, 6, 1]").replace("trim", "tear")
      .replace('"scrap"', '["scrap", "scrap", "scrap"]', 1)), "tearing 6 in off leaves nothing"),
    ((A.replace("navy", "nvay"), CUT), "is no colour"),
    ((A + 'size = "12"\n', CUT.replace("[6]", "[30]")), "is no size"),
    ((A + "bases = 1\n", CUT_B, B), "must be a list"),
    ((A, TO_PANEL, PIECE.replace("to = 1", "to = 0")), "a page must be"),
    ((A, TO_PANEL, PIECE.replace("to = 1", "to = 1\nsize = 5")), "must be a size"),
    ((A, CUT.replace("[6]", '["x", 4]').replace('"scrap"', '["scrap"]', 1)), "'x' has no number"),
    ((A, TO_PANEL.replace("marks", "times = 0\nmarks"), PIECE), "at least 1"),
    ((A + 'wait = "later"\n', CUT.replace("trim", "trace").replace("marks = [6]",
      'around = "disc"').replace('rest = "scrap"\n', "").replace('"scrap"', '"panel"'), PIECE, B,
      CUT_B.replace('rest = "scrap"', 'rest = { name = "disc", to = 1 }')), '"wait" can\'t be'),
    ((A, TO_PANEL, MAT.replace("to = 1", 'to = "x to 1"'), PIECE), 'labelled "x to 1"'),
    (('[[paper]]\nname = "sky"\nface = "navy"\nlandmarks = { sun = "middle" }\n',
      A.replace('face = "navy"', 'paper = "sky"'),
      CUT.replace("marks", 'lay = "sun at left"\nmarks')), "must be a side or a corner"),
    # One name that is written wrongly where it is declared.
    ((A, TO_PANEL, PIECE.replace("panel", "pannel"), MAT + 'backs = "panel"\n',
      MAT.replace('"mat"', '"bead"').replace("to = 1", 'with = "panel"')),
     'did you mean "pannel"?'),
    ((A, TO_PANEL, '[[step]]\nfussy_cut = "panel"\ngives = { name = "q", to = 1 }\n',
      PIECE.replace("panel", "pannel"),
      MAT.replace('"mat"', '"bead"').replace("to = 1", 'with = "panel"')),
     'did you mean "pannel"?'),
    ((A, CUT, MAT + 'backs = "cord"\n', MAT.replace('"mat"', '"lid"') + 'goes_with = "cord"\n',
      '[[set_aside]]\nname = "chord"\n', '[[step]]\ndo = "Tie"\nneeds = "cord"\n'),
     '"cord" (lines 14, 19 and 28); did you mean "chord"?'),
    (('order = ["rope"]\n', A.replace('"A"', '"rpoe"'), CUT.replace('"A"', '"rope"')),
     'no "rope" to trim; did you mean "rpoe"?'),
    ((A.replace('face = "navy"', 'paper = "sky"'), CUT, B.replace('face = "tan"', 'paper = "sky"'),
      CUT_B, '[[paper]]\nname = "skye"\nface = "navy"\n'), 'no paper is called "sky" (lines 8 and'),
]  # fmt: skip


@pytest.mark.parametrize(("parts", "says"), ONE, ids=lambda each: str(each)[:40])
def test_what_follows_from_an_error_is_not_told(parts: tuple[str, ...], says: str) -> None:
    (only,) = told(*parts)
    assert says in only


def mats(*places: str) -> str:
    return "".join(
        f'[[precut]]\nname = "mat {n}"\nface = "white"\nto = {to}\n' for n, to in enumerate(places)
    )


def test_too_small_a_number_of_pages_is_told_once() -> None:
    (only,) = told(A, CUT, mats("1", "5", '"page 6"', '"5·6"', '"1 to 7, 1 to page 8"', "6"))
    assert only == (
        "there are no pages 5 to 8 (lines 21, 25, 29, 33 and 37); the kit has pages 1 to 4; if it "
        "has more, correct pages at the top"
    )


def test_a_page_that_is_not_there_is_told_once() -> None:
    (only,) = told(A, CUT, mats("9", "2", "9"))
    assert only == "there is no page 9 (lines 17 and 25); the kit has pages 1 to 4"
    (only,) = told(A, CUT, mats(*["9"] * 11))
    assert "(lines 17, 21, 25, 29, 33, 37, 41, 45 and 3 more)" in only
    assert len(told(A, CUT, mats("9", "7"))) == 2


@pytest.mark.parametrize("number", ["0x6", "0o6", "0b110", "1_0", "+6", "1_0.5", "0xB"])
@pytest.mark.parametrize(
    "place",
    ["marks", "widths", "ruler", "length", "ribbon", "pocket", "smaller_by"],
)
def test_a_length_is_a_decimal_as_it_was_typed(place: str, number: str) -> None:
    """Other ways to write a whole number: TOML 1.0.0, https://toml.io/en/v1.0.0#integer."""
    step = {
        "marks": CUT.replace("[6]", f"[ # a list\n {number}]"),
        "widths": CUT.replace("trim", "tear").replace("marks = [6]", f"widths = [{number}]"),
        "length": f'{TO_PANEL}{PIECE}[[step]]\nslit = "panel"\nlength = {number}\n',
        "ribbon": CUT + RIBBON.replace('"1 yd"', number),
        "pocket": CUT + RIBBON.replace('"18 in"', number),
        "smaller_by": f"{TO_PANEL}{PIECE}smaller_by={number}\n",
    }.get(place, CUT)
    (only,) = told(f"ruler ={number}\n" if place == "ruler" else "", A, step)
    assert any(f"'{number}' {why}" in only for why in ("is not written in decimals",
               "has an underscore", "has a sign"))  # fmt: skip


@pytest.mark.parametrize("other", ["0x2", "+2", "0b10", "0o2"])
def test_a_number_that_is_no_length_may_be_typed_in_any_way(other: str) -> None:
    assert told(A, CUT, MAT.replace("to = 1", f"to = {other}\nsmaller_by = 1")) == []
    assert told('note = "3+4, 1_0, 0x6"\n', A, CUT, MAT) == []


@pytest.mark.parametrize(
    ("written", "right"),
    [
        ('"6 x 12"', 'write scraps = ["6 x 12"]'),
        ('"6 x 12, 6 x 11"', 'write scraps = ["6 x 12", "6 x 11"]'),
        ('"6 x 12 and 6 x 11"', 'write scraps = ["6 x 12", "6 x 11"]'),
        ('"2"', "write scraps = 2"),
        ("2.0", "write scraps = 2"),
        ('"many"', 'a list of sizes such as ["3/4 x 3 3/4"]'),
    ],
)
def test_scraps_are_shown_as_they_are_written(written: str, right: str) -> None:
    (only,) = told(f"scraps = {written}\n", A, CUT)
    assert only.endswith(right)


@pytest.mark.parametrize(
    ("to", "right"),
    [
        ("one on page 1 and two on page 2", 'by commas: "1 to page 1, 2 to page 2"'),
        ("one to 1·2 and one to 3·4", 'by commas: "1 to 1·2, 1 to 3·4"'),
        ("two on page 2", 'write "2 to page 2"'),
        ("two copies to 3·4", 'write "2 to 3·4"'),
        ("a on page 3", 'write "1 to page 3"'),
        ("x on page 2", 'known here: "1·2", "3·4"'),
    ],
)
def test_counts_in_words_are_shown_in_figures(to: str, right: str) -> None:
    (only,) = told(A, CUT, MAT.replace("= 1", f'= "{to}"'))
    assert only.endswith(right)
