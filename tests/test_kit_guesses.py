"""What is proposed where a kit file is written in another way than the format has it.

Which words and slips are usual is common practice, no source; that a mended line is TOML is
checked by the standard library's parser (TOML 1.0.0, https://toml.io/en/v1.0.0).
"""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.finding import Finding
from model.meant import meant, meant_lay, meant_page, meant_place, meant_places
from model.reading import read_kit
from model.syntax import mend, shorten
from tests.kit_mistakes import GOOD
from tests.test_kit_words import CUT, HEAD, A, one

_AFTER = "; the rest is read after that"


def syntax(*lines: str) -> Finding:
    (finding,) = read_kit("dryfit = 1\n" + "\n".join(lines) + "\n").findings
    assert finding.code == "syntax" and finding.grave
    return finding


@pytest.mark.parametrize(
    ("line", "hint", "fixed"),
    [
        ("marks = 9, 6", "a list needs [ ]", "marks = [9, 6]"),
        ("marks = 9; 6", "a list needs [ ], and a comma between entries", "marks = [9, 6]"),
        ("title = Sunday Bread", "text needs quotes", 'title = "Sunday Bread"'),
        ("title = Bread, butter # tea", "text needs quotes", 'title = "Bread, butter"'),
        ("title = Mum's bread", "text needs quotes", 'title = "Mum\'s bread"'),
        ("marks = [9; 6]", "a comma between entries", "marks = [9, 6]"),
        ("marks = [9 6]", "a comma between entries", "marks = [9, 6]"),
        ('order = ["A" "B"]', "a comma between entries", 'order = ["A", "B"]'),
        ("marks = [9, , 6]", "one comma too many", "marks = [9, 6]"),
        ('title = "Sunday Bread', "its closing quote is missing", 'title = "Sunday Bread"'),
        ('title = Sunday Bread"', "its opening quote is missing", 'title = "Sunday Bread"'),
        ('order = ["A", "B]', "its closing quote is missing", 'order = ["A", "B"]'),
        ('order = ["A, "B"]', "its closing quote is missing", 'order = ["A", "B"]'),
        ("order = [A, B]", "text needs quotes", 'order = ["A", "B"]'),
        ("order = A, B", "a list needs [ ], and text needs quotes", 'order = ["A", "B"]'),
        ('gives = "a", { name = "b" }', "a list needs [ ]", 'gives = ["a", { name = "b" }]'),
        ("marks = [9 1/2, 6]", "text needs quotes", 'marks = ["9 1/2", 6]'),
        ("marks = 9½", "a list needs [ ], and text needs quotes", 'marks = ["9½"]'),
        ("marks = (9, 6)", "a list begins with [, ends with ]", "marks = [9, 6]"),
        ("marks = [9, 6]]", "one ] too many", "marks = [9, 6]"),
        ("marks = [9, 6", "the list lacks its ]", "marks = [9, 6]"),
        ("size = 4 x 6", "text needs quotes", 'size = "4 x 6"'),
        ('length = 9"', "text needs quotes", "length = '9\"'"),
        ('length = "9""', 'text with " in it stands between other quotes', "length = '9\"'"),
        ('note = "the "big" one"', 'text with " in it', "note = 'the \"big\" one'"),
        ("face = #ff8800", "text needs quotes", 'face = "#ff8800"'),
        ('note = "A\\d"', "text with \\ in it stands between ' '", "note = 'A\\d'"),
        ("title = “Bread”", "quotes must be straight", 'title = "Bread"'),
        ("optional = True", "true and false are written small", "optional = true"),
        ('title: "Bread"', "= stands between a key and its value", 'title = "Bread"'),
        ("title: Bread", "and text needs quotes", 'title = "Bread"'),
        ("cut apart = true", "a key is one word", "cut_apart = true"),
        ("to = { 3·4 = 2 }", "needs quotes", 'to = { "3·4" = 2 }'),
        ('to = { "3·4": 2 }', "= stands between", 'to = { "3·4" = 2 }'),
        ('to = { "1·2" = 1 "3·4" = 2 }', "a comma between", 'to = { "1·2" = 1, "3·4" = 2 }'),
        ('to = { "1·2" = 1, }', "no comma before }", 'to = { "1·2" = 1 }'),
        ('to = { "1·2" = 1', "the table lacks its }", 'to = { "1·2" = 1 }'),
        ("[[step]", "the brackets don't match", "[[step]]"),
    ],
)
def test_a_line_that_is_no_toml_is_shown_mended(line: str, hint: str, fixed: str) -> None:
    finding = syntax("", line, "pages = 4")
    assert finding.line == 3
    assert finding.what.startswith("this is not TOML, ") and finding.what.endswith(f", in: {line}")
    assert hint in finding.remedy and finding.remedy.endswith(f": {fixed}{_AFTER}")
    tomllib.loads(fixed)


@pytest.mark.parametrize(
    ("lines", "at", "hint"),
    [
        (("marks = [9,", " 6", "rest = 3"), 2, "the list lacks its ]"),
        (("marks = [", " 9", " 6", "]"), 3, "a comma between entries: 9,"),
        (("marks = [", " about 9,", " 6", "]"), 3, 'text needs quotes: "about 9",'),
        (("[step]", "do = 'a'", "[step]"), 4, "above each of them stands [[step]]"),
        (("pages = 4", "pages = 5"), 3, '"pages" stands twice in its table; write it once'),
        (("to = {", ' "1·2" = 1', "}"), 2, "a table in { } stands on one line"),
        (("title =",), 2, "a value is missing after ="),
        (("just some words",), 2, "before a remark stands #"),
        (('note = """Once', "", "[[step]]", 'do = "x"'), 2, 'a text in """ ends with """'),
        (("title = \"" + "bread " * 200,), 2, "mend this first"),
    ],
)  # fmt: skip
def test_the_place_of_a_syntax_error_is_found(lines: tuple[str, ...], at: int, hint: str) -> None:
    finding = syntax(*lines)
    assert finding.line == at and hint in finding.remedy
    assert len(finding.what) < 250


def test_a_long_line_is_shortened_around_the_place() -> None:
    assert shorten("  marks = 9, 6 ") == "marks = 9, 6"
    shown = shorten("x" * 100 + "HERE" + "y" * 100, 101)
    assert "HERE" in shown and shown.startswith("...") and shown.endswith("...")
    assert len(shown) <= 66


@settings(max_examples=300, deadline=None)
@given(st.text("ab19 \"'[]{},;=#.:\\½\n\t", max_size=60), st.integers(0, 40))
def test_any_text_is_read_or_told(text: str, at: int) -> None:
    lines = GOOD.split("\n")
    lines.insert(at, text)
    for finding in read_kit("\n".join(lines)).findings:
        assert str(finding).isprintable()
        assert 0 <= finding.line <= len("\n".join(lines).split("\n"))
    line, remedy = mend(text, 1, 1, "Invalid value")
    assert line >= 1 and "\n" not in remedy


@pytest.mark.parametrize(
    ("value", "says"),
    [
        ("90", 'can\'t be 90; did you mean "quarter"?'),
        ("180", 'did you mean "half"?'),
        ("270", 'did you mean "left"?'),
        ('"90°"', 'can\'t be "90°"; did you mean "quarter"?'),
        ('"clockwise"', 'did you mean "quarter"?'),
        ('"anti-clockwise"', 'did you mean "left"?'),
        ("45", "can't be 45; write one of quarter, left, right, half"),
        ("0.5", "can't be 0.5; write one of"),
        ("true", "can't be true; write one of"),
        ("[1]", "can't be a list; write one of"),
        ("0x" + "f" * 6000, "can't be a number as long as this; write one of"),
    ],
)
def test_a_turn_repeats_what_was_read_and_says_which_way(value: str, says: str) -> None:
    text = str(one(A, CUT.replace("marks", f"turn = {value}\nmarks")))
    assert says in text
    assert text.endswith("(quarter is a quarter turn clockwise, to the right; left is one the "
                         "other way)")  # fmt: skip


@pytest.mark.parametrize(
    ("to", "says"),
    [
        ("2 to page 1 and 2 to page 4", 'by commas: "2 to page 1, 2 to page 4"'),
        ("2 to 1·2 and 1 to 3-4", 'by commas: "2 to 1·2, 1 to 3·4"'),
        ("1·2 and 3·4", 'by commas: "1·2, 3·4"'),
        ("page one; page 3", 'by commas: "page 1, page 3"'),
        ("page four", 'write pages in figures, such as "page 4"'),
        ("Four", 'write pages in figures, such as "page 4"'),
        ("the third page", 'write pages in figures, such as "page 3"'),
        ("p. 3", 'did you mean "page 3"?'),
        ("3rd page", 'did you mean "page 3"?'),
        ("pages 3 and 4", 'did you mean "3·4"?'),
        ("page nine", 'known here: "1·2", "3·4"'),
        ("page 1 and page 9", 'known here: "1·2", "3·4"'),
    ],
)
def test_a_place_is_shown_as_it_is_written(to: str, says: str) -> None:
    finding = one(A, CUT, f'[[precut]]\nname = "m"\nface = "red"\nto = "{to}"\n')
    assert finding.code == "unknown-pocket" and says in finding.remedy


def test_a_label_may_hold_the_word_and() -> None:
    kit = GOOD.replace("[[paper]]", '[[pocket]]\nlabel = "up and away"\npages = [1, 2]\n\n'
                       '[[pocket]]\nlabel = "3·4"\npages = [3, 4]\n\n'
                       '[[pocket]]\nlabel = "5·6"\npages = [5, 6]\n\n[[paper]]', 1)  # fmt: skip
    kit = kit.replace('"2 to 1·2"', '"2 to up and away"').replace('"1·2" = 2', '"up and away" = 2')
    assert read_kit(kit).findings == ()


@pytest.mark.parametrize(
    ("edge", "right"),
    [
        ("foot", "bottom"),
        ("head", "top"),
        ("botom", "bottom"),
        ("bottom edge", "bottom"),
        ("Left", "left"),
    ],
)
def test_an_edge_in_other_words_is_known(edge: str, right: str) -> None:
    finding = one(A, f'[[step]]\ntear = "A"\nwidths = [6]\nedge = "{edge}"\ngives = "scrap"\n'
                  'rest = "scrap"\n')  # fmt: skip
    assert str(finding).endswith(f'"edge" can\'t be "{edge}"; did you mean "{right}"?')


@pytest.mark.parametrize(
    ("stack", "right"),
    [("up", "face up"), ("down", "face down"), ("Face Up", "face up"), ("facedown", "face down")],
)
def test_a_stack_in_other_words_is_known(stack: str, right: str) -> None:
    (finding,) = read_kit(f'{HEAD.strip()}\nstack = "{stack}"\n\n{A}{CUT}').findings
    assert finding.remedy == f'did you mean "{right}"?'


def test_what_no_other_word_says_is_left_open() -> None:
    assert meant("face", ("face up", "face down")) == ""
    assert meant("", ("top",)) == "" and meant("slanted", ("top", "bottom")) == ""
    assert meant("front", ("face", "reverse")) == "face"
    assert meant("back", ("face", "reverse")) == "reverse"
    assert meant("clockwise", ("top", "left")) == ""


@pytest.mark.parametrize(
    ("lay", "right"),
    [
        ("top edge left", "top edge at left"),
        ("Top edge at Left", "Top edge at left"),
        ("top left", "top edge at left"),
        ("lighthouse bottom left", "lighthouse at bottom left"),
        ("lighthouse: left bottom", "lighthouse at bottom left"),
        ("lighthouse is on the left side", "lighthouse at left"),
        ("anchor near top", "anchor at top"),
        ("anchor at top-left", "anchor at top left"),
        ("top edge at left side", "top edge at left"),
        ("top edge at foot", "top edge at bottom"),
    ],
)
def test_a_lay_is_shown_in_its_own_words(lay: str, right: str) -> None:
    finding = one(A, CUT.replace("marks", f'lay = "{lay}"\nmarks'))
    assert finding.code == "bad-value" and f'"{right}"' in str(finding)
    # What is proposed is no error of that kind any more.
    again = read_kit(HEAD + A + CUT.replace("marks", f'lay = "{right}"\nmarks'))
    assert "bad-value" not in {f.code for f in again.findings}


@pytest.mark.parametrize("lay", ["left", "sideways", "anchor at the middle", ""])
def test_a_lay_without_a_place_gets_the_shape(lay: str) -> None:
    assert meant_lay(lay) == ""
    text = str(one(A, CUT.replace("marks", f'lay = "{lay}"\nmarks')))
    assert "top edge at left" in text or "known: top, right, bottom, left, top left" in text


def test_a_landmark_in_other_words_is_known() -> None:
    text = str(one(A + 'landmarks = { "anchor" = "left top" }\n', CUT))
    assert text.endswith('did you mean "top left"?')


_VERBS = "a step has one of trim, knife, tear, fussy_cut, trace, slit, punch, do; for anything else"


def test_a_step_without_a_verb_is_told_all_verbs() -> None:
    finding = one(A, CUT, '[[step]]\nfold = "A"\n')
    assert finding.code == "unknown-key" and 'unknown key "fold"' in finding.what
    assert finding.remedy == f'{_VERBS} write do = "..."'


def test_a_step_with_a_verb_is_not() -> None:
    assert _VERBS not in str(one(A, CUT, '[[step]]\ndo = "Fold"\nfold = "A"\n'))
    assert 'did you mean "trim"?' in str(one(A, CUT.replace("trim", "trmi")))


@given(st.text(max_size=30))
def test_guesses_of_any_text_are_words_of_the_format(text: str) -> None:
    assert meant(text, ("top", "left")) in ("", "top", "left")
    assert meant_page(text) >= 0
    places = meant_places(text, 1)
    assert len(places) != 1 or places[0][0] not in (text, text.strip())
    assert meant_place(text) in ("", "top", "right", "bottom", "left", "top left", "top right",
                                 "bottom left", "bottom right")  # fmt: skip
