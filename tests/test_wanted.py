"""A wanted list on its own: what it says, and what is told where it says something wrong."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.length import Unit
from model.planning.task import Board, Want
from model.planning.wanted import Choices, Wanted
from model.planning.wanted_reading import read_wanted
from tests.cut_plans import INCH, inches

SHEET = '[[sheet]]\nname = "oak"\nsize = "12 x 12"\n'
WANT = '[[want]]\nname = "mat"\nsize = "4 x 6"\n'


def read(text: str, **choices) -> Wanted:
    wanted, findings = read_wanted(text, "list", Choices(**choices))
    assert wanted is not None, [str(f) for f in findings]
    assert findings == ()
    return wanted


def told(text: str, **choices) -> list[str]:
    wanted, findings = read_wanted(text, "list", Choices(**choices))
    assert wanted is None
    return [str(finding) for finding in findings]


def test_the_least_that_a_list_says() -> None:
    wanted = read(SHEET + WANT)
    assert wanted.task.wants == (Want("mat", *inches(4, 6)),)
    assert wanted.task.boards == (Board("oak", *inches(12, 12)),)
    assert (wanted.task.graduation, wanted.task.narrowest) == (INCH / 16, 0)
    assert (wanted.unit, wanted.title, wanted.kit, wanted.yours) == (Unit.IN, "list", False, None)


def test_all_that_a_list_can_say() -> None:
    wanted = read(
        'wanted = 1\ntitle = "Cards"\nunit = "mm"\ngraduation = "0.5"\nnarrowest = 8\n'
        '[[sheet]]\nname = "A4"\nsize = "210 x 297"\ncount = 3\npaper = "plum"\n'
        '[[offcut]]\nname = "strip"\nsize = "50 x 297"\npaper = "plum"\n'
        '[[want]]\nname = "mat"\nsize = "97 x 140.5"\ncount = 4\npaper = "plum"\n'
        "turnable = false\nvalue = 7\nsmaller_by = 2\n"
    )
    assert wanted.task.wants == (
        Want(
            "mat", Fraction(97), Fraction(281, 2), 4, "plum", turnable=False, value=7,
            smaller_by=Fraction(2),
        ),
    )  # fmt: skip
    assert wanted.task.boards == (
        Board("A4", Fraction(210), Fraction(297), 3, "plum"),
        Board("strip", Fraction(50), Fraction(297), 1, "plum", left_over=True),
    )
    assert (wanted.task.graduation, wanted.task.narrowest) == (Fraction(1, 2), 8)
    assert (wanted.unit, wanted.title) == (Unit.MM, "Cards")


def test_what_is_chosen_goes_before_what_the_list_says() -> None:
    text = f'graduation = "1/32"\nnarrowest = 1\n{SHEET}{WANT}turnable = false\n'
    wanted = read(text, graduation=INCH / 8, narrowest=INCH / 2, turnable=True)
    assert (wanted.task.graduation, wanted.task.narrowest) == (INCH / 8, INCH / 2)
    assert wanted.task.wants[0].turnable


def test_sheets_that_are_alike_are_one() -> None:
    other = SHEET.replace("oak", "second").replace("12 x 12", "8 x 8")
    wanted = read(SHEET + other + SHEET.replace("oak", "third") + "count = 2\n" + WANT)
    assert [(b.name, b.count) for b in wanted.task.boards] == [("oak", 3), ("second", 1)]
    assert wanted.sheets == {"oak": ("oak", "third", "third"), "second": ("second",)}


def test_the_only_paper_need_not_be_named() -> None:
    wanted = read(f'{SHEET}paper = "leaf"\n{WANT}')
    assert wanted.task.wants[0].paper == "leaf"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", ["line 1: nothing is wanted", "line 1: there is no sheet to cut from"]),
        (WANT, ["line 1: there is no sheet to cut from"]),
        (SHEET, ["line 1: nothing is wanted"]),
        (SHEET + WANT + "count = 0\n", ['line 7: "mat": "count" must be at least 1']),
        (SHEET + WANT + "count = 9999\n", ['line 7: "mat": "count" must be at most 2000']),
        (
            SHEET + WANT.replace("size", "sise"),
            ['line 6: "mat": unknown key "sise"; did you mean "size"?'],
        ),
        (SHEET + '[[want]]\nsize = "4 x 6"\n', ['line 4: "name" is missing']),
        (SHEET + '[[want]]\nname = "mat"\n', ['line 4: "mat": "size" is missing']),
        ("gradation = 1\n" + SHEET + WANT, ['line 1: unknown key "gradation"; did you mean']),
        ('unit = "inch"\n' + SHEET + WANT, ['line 1: "unit" can\'t be "inch"; did you mean "in"?']),
        (SHEET + WANT + 'turnable = "no"\n', ['line 7: "mat": "turnable" must be true or false']),
        (SHEET + WANT + "value = 0\n", ['line 7: "mat": "value" must be at least 1']),
        (SHEET + WANT + "smaller_by = 0x1\n", ['line 7: "mat": "smaller_by": ']),
        ("wanted = 2\n" + SHEET + WANT, ["line 1: this dryfit reads wanted lists of format 1"]),
        (SHEET + WANT + WANT, ['line 7: two wanted pieces are called "mat"']),
        (SHEET + SHEET + WANT, ['line 4: two sheets are called "oak"']),
        (
            SHEET + WANT.replace("4 x 6", "4 x 14"),
            ['line 4: "mat" measures 4 x 14 in, more than any sheet has room for; the largest, '
             '"oak", measures 12 x 12 in; correct its size'],
        ),
        (
            '[[sheet]]\nname = "o"\nsize = "12 x 4"\n' + WANT.replace("4 x 6", "4 x 12")
            + "turnable = false\n",
            ['line 4: "mat" measures 4 x 12 in, more than any sheet has room for; the largest, '
             '"o", measures 12 x 4 in; it would fit if it were turnable'],
        ),
        (
            SHEET + WANT.replace("4 x 6", "4 1/32 x 6"),
            ['line 4: "mat" measures 4 1/32 x 6 in, which is not on the graduation of 1/16 in; '
             "correct its size, or plan with --graduation 1/32, or say with smaller_by"],
        ),
        (
            SHEET.replace("12 x", "11 63/64 x") + WANT,
            ['line 1: "oak" measures 11 63/64 x 12 in, which is not on the graduation of 1/16 in; '
             "correct its size, or plan with --graduation 1/64"],
        ),
        (
            f'{SHEET}paper = "oak"\n{WANT}paper = "oka"\n',
            ['line 5: "mat" is wanted of "oka", and no sheet at hand is of that paper; '
             'did you mean "oak"?'],
        ),
        (
            f'{SHEET}paper = "a"\n{SHEET.replace("oak", "two")}paper = "b"\n{WANT}',
            ['line 9: it is not said from which paper "mat" is cut; write paper = "a"'],
        ),
        ("narrowest = 13\n" + SHEET + WANT,
         ["line 1: the narrowest strip worth holding, 13 in, is wider than any sheet"]),
        ('graduation = "0.0001 mm"\n' + SHEET + WANT,
         ["line 2: the graduation of 1/254000 in is too fine for a sheet as large as 12 x 12 in"]),
        ("want = 3\n" + SHEET, ['line 1: "want" must be tables; write [[want]] above each']),
        ("[[want]\n", ["line 1: this is not TOML"]),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_with_line_cause_and_remedy(text: str, said: list[str]) -> None:
    found = told(text)
    assert len(found) == len(said), found
    for line, begin in zip(found, said, strict=True):
        assert line.startswith(begin), line


def test_all_that_is_wrong_is_told_in_one_go() -> None:
    text = (
        '[[sheet]]\nname = "oak"\nsize = "12 x 12"\n[[want]]\nname = "long"\nsize = "4 x 14"\n'
        '[[want]]\nname = "zero"\nsize = "0 x 3"\n[[want]]\nname = "off"\nsize = "4 1/32 x 2"\n'
    )
    assert [line.partition(":")[0] for line in told(text)] == ["line 4", "line 9", "line 10"]


def test_a_sheet_that_cannot_be_read_is_not_missed() -> None:
    assert told(SHEET.replace("12 x 12", "12 x") + WANT) == [
        """line 3: "oak": "size": '12 x' is no size; write two lengths, such as 9 1/2 x 9 1/2"""
    ]


def test_a_thousand_sorts_and_ever_so_many_pieces_are_refused_by_name() -> None:
    many = "".join(f'[[want]]\nname = "p{n}"\nsize = "4 x 6"\n' for n in range(1000))
    (line,) = told(SHEET + many)
    assert line.startswith("line 604: 1000 different pieces are wanted, and at most 200")
    assert '"p200" is one too many' in line
    more = "".join(
        f'[[want]]\nname = "p{n}"\nsize = "4 x 6"\ncount = {900 + n}\n' for n in range(3)
    )
    (line,) = told(SHEET + more)
    assert line.startswith('line 12: 2703 pieces are wanted in all, 902 of them "p2"')


def test_of_very_many_alike_faults_the_first_are_told() -> None:
    many = "".join(f'[[want]]\nname = "p{n}"\nsize = "4 1/32 x 6"\n' for n in range(100))
    found = told(SHEET + many)
    assert len(found) == 21 and found[-1] == "line 64: the same is so of more pieces"


@settings(max_examples=60)
@given(st.text(max_size=200))
def test_no_text_whatever_is_more_than_a_finding(text: str) -> None:
    wanted, findings = read_wanted(text, "list", Choices())
    assert (wanted is None) == any(f.grave for f in findings)


@settings(max_examples=60)
@given(
    st.recursive(
        st.one_of(st.integers(), st.booleans(), st.text(max_size=5), st.floats(0, 9)),
        lambda inner: (
            st.lists(inner, max_size=2)
            | st.dictionaries(st.sampled_from(["name", "size", "count", "x"]), inner, max_size=3)
        ),
        max_leaves=4,
    ),
    st.sampled_from(["want", "sheet", "offcut", "unit", "graduation", "wanted", "title"]),
)
def test_no_value_whatever_is_more_than_a_finding(value: object, key: str) -> None:
    import tomli_w

    raw = {"want": [{"name": "mat", "size": "4 x 6"}], "sheet": [{"name": "o", "size": "9 x 9"}]}
    wanted, findings = read_wanted(tomli_w.dumps({**raw, key: value}), "list", Choices())
    assert (wanted is None) == any(f.grave for f in findings)
