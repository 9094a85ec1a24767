"""How paper is told to lie: by what is seen on it, and the same to either hand turned by half."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.geometry import Orientation
from model.language.english.words import English
from model.lengthtext import LengthStyle
from model.manner import Manner
from model.plan import Plan, Step
from model.reading import read_kit
from model.state import Spot
from tests.hand_kits import KITS
from tui.widgets.lines import wrap_words

HEAD = 'dryfit = 1\ntitle = "T"\npage = "12 x 12"\npages = 4\n'
ENDS = '[[piece]]\nname = "a"\nto = 1\n[[piece]]\nname = "b"\nto = 2\n'
LEFT_HANDED = Manner(left_handed=True)


def plan_of(*parts: str) -> Plan:
    got = read_kit(HEAD + "\n".join(parts))
    assert got.plan is not None, [str(f) for f in got.findings]
    return got.plan


def step_of(plan: Plan, id: str) -> Step:
    return plan.steps[plan.step_at[id]]


def sheet(paper: str, size: str = "12 x 12") -> str:
    return f'[[sheet]]\nname = "A"\nsize = "{size}"\n{paper}\n'


def trimmed(paper: str, how: str = "", size: str = "12 x 12", mark: str = "6") -> Plan:
    """A sheet cut once along the ruler; its left part is laid in some way and cut again."""
    return plan_of(
        sheet(paper, size),
        ENDS,
        f'[[step]]\ntrim = "A"\nmarks = [{mark}]\ngives = "scrap"\nrest = "half"',
        f'[[step]]\ntrim = "half"\n{how}\nmarks = [2]\ngives = "a"\nrest = "b"',
    )


def laid(plan: Plan, load: str = "A/r/load", manner: Manner | None = None) -> str:
    return English(plan, manner or Manner()).lay(step_of(plan, load))


PLAIN = 'face = "navy"'
TWO_SIDED = 'face = "navy"\nreverse = "tan"'
UPRIGHT_PRINT = 'face = "tan"\nkind = "print"\ndirectional = true'
MILL = 'face = "tan"\nkind = "print"\nlandmarks = { "mill" = "top left" }'


# How paper is laid


def test_opposite_quarter_turns_are_told_apart_wherever_they_differ() -> None:
    for paper, right, left in (
        (UPRIGHT_PRINT, "Face up, top edge at the right.", "Face up, top edge at the left."),
        (MILL, "Face up, mill at the top right.", "Face up, mill at the bottom left."),
    ):
        assert laid(trimmed(paper, 'turn = "right"')) == right
        assert laid(trimmed(paper, 'turn = "left"')) == left


def test_of_plain_paper_the_side_along_the_ruler_is_told() -> None:
    for turn in ("left", "right"):
        assert laid(trimmed(PLAIN, f'turn = "{turn}"')) == "Its 12 in side along the ruler."
        told = laid(trimmed(TWO_SIDED, f'turn = "{turn}"'))
        assert told == "Face up, its 12 in side along the ruler."
    assert laid(trimmed(PLAIN)) == "Its 6 in side along the ruler."
    assert (
        laid(trimmed(TWO_SIDED, 'up = "reverse"')) == "Reverse up, its 6 in side along the ruler."
    )


def test_a_square_has_no_side_to_tell_of() -> None:
    assert laid(trimmed(PLAIN), "A/load") == "Either side up."
    assert laid(trimmed(TWO_SIDED), "A/load") == "Face up."
    assert laid(trimmed(PLAIN, 'turn = "quarter"', "12 x 6")) == "Either side up, either way round."
    told = laid(trimmed(TWO_SIDED, 'turn = "quarter"', "12 x 6"))
    assert told == "Face up, either way round."


def test_a_top_that_nobody_can_see_is_not_spoken_of() -> None:
    lay = 'lay = "top edge at left"'
    assert laid(trimmed(PLAIN, lay)) == "Its 12 in side along the ruler."
    assert laid(trimmed(UPRIGHT_PRINT, lay)) == "Face up, top edge at the left."


def test_what_is_printed_on_a_cut_apart_has_a_top() -> None:
    plan = plan_of(
        '[[sheet]]\nname = "A"\ncut_apart = true\nface = "tan"\nkind = "print"',
        ENDS,
        '[[step]]\ntrim = "A"\nlay = "top edge at left"\nmarks = ["line"]\ngives = "row"\n'
        'rest = "a"',
        '[[step]]\ntrim = "row"\nturn = "left"\nmarks = ["line"]\ngives = "scrap"\nrest = "b"',
    )
    assert laid(plan, "A/load") == "Face up, top edge at the left."
    assert laid(plan, "A/1/load") == "Face up, top edge at the bottom."


def test_a_landmark_that_was_cut_off_is_not_looked_for() -> None:
    right = MILL.replace("top left", "top right")
    assert laid(trimmed(right, 'turn = "right"')) == "Face up, its 12 in side along the ruler."


def test_a_landmark_on_the_side_below_is_told_as_being_underneath() -> None:
    told = laid(trimmed(MILL + '\nreverse = "navy"', 'up = "reverse"\nturn = "half"'))
    assert told == "Reverse up, mill underneath, at the bottom left."


def test_an_advised_lay_is_only_advised() -> None:
    plan = plan_of(
        sheet(MILL),
        ENDS,
        '[[step]]\ntrim = "A"\nlay = "mill at bottom left"\nadvised = true\nmarks = [6]\n'
        'gives = "a"\nrest = "b"',
    )
    assert laid(plan, "A/load") == "Face up, mill at the bottom left, if you like."


def test_a_torn_edge_tells_how_plain_paper_lies() -> None:
    plan = plan_of(
        sheet(PLAIN, "8 x 12"),
        ENDS,
        '[[step]]\ntear = "A"\nedge = "bottom"\nwidths = [4]\ngives = "scrap"\nrest = "rag"',
        '[[step]]\nknife = "rag"\nturn = "left"\nmarks = [2]\ngives = "a"\nrest = "b"',
    )
    assert laid(plan, "A/load") == "Its 8 in side loose at the right."
    # The torn edge was at the right, so a turn to the left brings it to the top.
    assert laid(plan, "A/r/load") == "Torn edge at the top."


def test_where_no_number_is_known_the_turn_is_told_with_its_way() -> None:
    plan = plan_of(
        '[[sheet]]\nname = "A"\ncut_apart = true\nface = "tan"',
        ENDS,
        '[[step]]\ntrim = "A"\nmarks = ["line"]\ngives = "scrap"\nrest = "rest"',
        '[[step]]\ntrim = "rest"\nturn = "left"\nmarks = ["line"]\ngives = "scrap"\nrest = "more"',
        '[[step]]\ntrim = "more"\nmarks = ["line"]\ngives = "a"\nrest = "b"',
    )
    assert laid(plan) == "A quarter turn to the left."
    assert laid(plan, "A/r/r/load") == "As it came off."


@given(
    st.sampled_from([PLAIN, TWO_SIDED, UPRIGHT_PRINT, MILL]),
    st.sampled_from(["left", "right", "half", ""]),
    st.sampled_from(["face", "reverse"]),
)
def test_the_left_hand_is_told_the_same_turned_by_half(paper: str, turn: str, up: str) -> None:
    how = f'up = "{up}"' + (f'\nturn = "{turn}"' if turn else "")
    plan = trimmed(paper, how)
    over = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
    for load in ("A/load", "A/r/load"):
        head, at, place = laid(plan, load).partition(" at the ")
        told = " ".join(over[word] for word in place.rstrip(".").split())
        wanted = f"{head}{at}{told}." if at else f"{head}"
        assert laid(plan, load, LEFT_HANDED) == wanted
        words = English(plan, LEFT_HANDED)
        lying = step_of(plan, load).lying
        assert words.lying(step_of(plan, load)) == Orientation(
            (lying.quarter + 2) % 4, lying.reverse
        )


def test_the_author_tells_left_from_right_for_the_right_hand() -> None:
    plan = plan_of(
        sheet(MILL),
        ENDS,
        '[[step]]\ntrim = "A"\nmarks = [6]\ngives = "a"\nrest = "b"',
        'note = "The mill at the left."',
    )
    load = step_of(plan, "A/load")
    assert English(plan, Manner()).more(load) == ("The mill at the left.",)
    assert English(plan, LEFT_HANDED).more(load) == ("(For the right hand:) The mill at the left.",)


@pytest.mark.parametrize("text", KITS)
def test_what_is_done_again_and_again_fits_two_rows_of_the_smallest_usual_screen(
    text: str,
) -> None:
    """49 cells at 80 x 24, of which one is a margin."""
    plan = read_kit(text).plan
    assert plan is not None
    words = English(plan, Manner(LengthStyle(plan.kit.unit)))
    for step in plan.steps:
        if step.load:
            rows = wrap_words(words.sentence(step, Spot.PILE), 48)
            assert rows is not None and len(rows) <= 2, rows
