"""The sentences: each says enough, nothing twice, and the same to either hand turned by half."""

from __future__ import annotations

import ast
import re
from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path

import pytest
from rich.cells import cell_len

import model
from model.account import account_of
from model.event import Entry, Moved, Skipped
from model.kitchange import compare
from model.language.english.grammar import counted, listed, some
from model.language.english.shelf import ShelfPhrases
from model.language.english.warnings import OBJECTIONS
from model.language.english.words import English
from model.length import Unit
from model.lengthtext import LengthStyle
from model.manner import Manner
from model.pace import Left
from model.plan import StepKind
from model.reading import read_kit
from model.report import report_data, report_lines, report_text
from model.session import Session
from model.state import Spot
from model.warning import Warning, WarningKind
from tests.hand_kits import CUT_AGAIN, KITS
from tests.tables import P12, P34, P56, only_warning, table, to_the_end, until_in_hand, up_to

# Warnings


def warn(session: Session, item: str, pocket: int) -> str:
    until_in_hand(session, item)
    assert session.file_into(pocket).taken
    words = English(session.plan, Manner())
    warning = only_warning(session)
    return words.warning(warning, session.state.belongs(warning.items[-1]))


def test_a_wrong_pocket_is_told_with_the_right_one_and_its_pages() -> None:
    told = warn(table(), "A/1", P34)
    assert told == (
        "WRONG POCKET: mat (3 × 12) went into 3·4. It belongs in 1·2: it is used on page 1 or 2."
    )


def test_names_and_notes_stand_as_the_kit_writes_them() -> None:
    """Neither a capital at the beginning of a sentence nor a small letter within one."""
    text = CUT_AGAIN.replace('"mat"', '"eMat"').replace('"half"', '"LARGE half"')
    text = text.replace('to = "3·4"\n', 'to = "3·4"\nnote = "A4 fits."\n', 1)
    session = table(text)
    words = English(session.plan, Manner())
    told = []
    while not session.state.due().over:
        due = session.state.due()
        if due.step is not None:
            told.append(words.sentence(due.step, Spot.PILE))
        session.next()
    assert "Hold it at 9 and cut: eMat (3 × 12) comes off." in told
    assert "Hold it at 6 and cut: LARGE half (6 × 12) comes off." in told
    assert "Hold it at 2 and cut: a scrap 2 × 3 comes off." in told
    assert not any("EMat" in text or "lARGE" in text for text in told)
    session = table(text)
    assert warn(session, "B/1", P12).endswith("it is used on page 3 or 4 (A4 fits).")


def test_how_many_went_wrong_is_told() -> None:
    session = table()
    up_to(session, "fill:white mat:3·4")
    session.file_into(P56)
    warning, words = only_warning(session), English(session.plan, Manner())
    told = words.warning(warning, (P34, P34))
    assert told == (
        "WRONG POCKET: 2 of white mat (3 × 3) went into 5·6. "
        "They belong in 3·4: they are used on page 3 or 4."
    )
    assert words.remedy(warning, (P34, P34)) == "they are in 3·4 now"


def test_how_many_are_too_many_is_told_and_where_they_belong() -> None:
    session = table()
    up_to(session, "fill:white mat:3·4")
    session.file_into(P12)
    warning, words = only_warning(session), English(session.plan, Manner())
    assert warning.kind is WarningKind.TOO_MANY
    assert words.warning(warning, P34) == (
        "TOO MANY: 1·2 holds its one of white mat; 2 are too many. "
        "They belong in 3·4: they are used on page 3 or 4."
    )


def test_one_too_many_of_what_is_nowhere_wanted_is_looked_at_again() -> None:
    session = table()
    warning = Warning("x", WarningKind.TOO_MANY, ("white mat#1",), P12, 1)
    told = English(session.plan, Manner()).warning(warning, P12)
    assert told.endswith("1 is too many. Look again at what is in your hand.")


def test_every_warning_has_words_of_its_own() -> None:
    words = English(table().plan, Manner())
    told = {
        words.warning(
            Warning("x", kind, () if kind is WarningKind.EXTRA_SCRAP else ("A/1",), P34, 1), P12
        )
        for kind in WarningKind
    }
    assert len(told) == len(WarningKind)
    names = {words.warning_name(kind) for kind in WarningKind}
    assert len(names) == len(WarningKind)
    assert all("_" not in name and name[0].isupper() for name in names)


# What can't be done


def texts_in(node: ast.AST) -> set[str]:
    """The texts that an expression may give, as far as it spells them out."""
    if isinstance(node, ast.IfExp):
        return texts_in(node.body) | texts_in(node.orelse)
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return {node.value}
    return set()


def codes() -> set[str]:
    """Every code by which the model refuses to take something in, read from its sources."""
    folder = Path(model.__file__).parent
    found: set[str] = set()
    for name in ("state", "turns", "doing", "run", "session", "story"):
        tree = ast.parse((folder / f"{name}.py").read_text("utf-8"))
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Told":
                found |= texts_in(node.args[0]) if node.args else set()
            if isinstance(node, ast.FunctionDef) and "objection" in node.name:
                for part in ast.walk(node):
                    if isinstance(part, ast.Return) and part.value is not None:
                        found |= texts_in(part.value)
            if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "_NOT_AT_HAND":
                assert isinstance(node.value, ast.Dict)
                found |= {text for value in node.value.values for text in texts_in(value)}
    return found - {""}


def test_everything_that_can_be_refused_is_refused_in_words_of_its_own() -> None:
    assert codes() == set(OBJECTIONS)
    assert len(set(OBJECTIONS.values())) == len(OBJECTIONS)
    words = English(table().plan, Manner())
    for code in OBJECTIONS:
        assert words.objection(code) != words.objection("a code that nobody knows")


# Coming back


def test_who_comes_back_is_told_what_is_in_the_trimmer_and_what_to_file_first() -> None:
    session = table()
    until_in_hand(session, "A/1")
    words = English(session.plan, Manner())
    said = words.welcome_back(session.state, ())
    assert "First: File mat (3 × 12) in pocket 1·2." in said
    assert "In the trimmer: A, now 9 × 12." in said
    assert "On the pile, from the top: mat (3 × 12)." in said
    session.next()
    assert "you are at sheet A, cut 2 of 3" in words.welcome_back(session.state, ())
    up_to(session, "A/r/load")
    assert "In the trimmer" not in words.welcome_back(session.state, ())
    to_the_end(session)
    steps = len(session.plan.steps)
    assert f"All {steps} steps are done." in words.welcome_back(session.state, ("M",))


def test_a_long_pile_is_told_in_short() -> None:
    assert some(["a", "b"], 2) == "a, b"
    assert some(["a", "b", "c", "d"], 2) == "a, b and 2 more"


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (0, 0, "nothing left to do"),
        (1, 60, "about a minute left"),
        (59, 61, "up to 2 min left"),
        (60, 61, "1 to 2 min left"),
        (119, 200, "1 to 4 min left"),
        (120, 120, "about 2 min left"),
        (1799, 1801, "29 to 35 min left"),
        (3000, 4500, "50 min to 1 h 15 min left"),
        (2999, 4501, "45 min to 1 h 20 min left"),
        (60, None, "at least 1 min left"),
        (7199, None, "at least 1 h 55 min left"),
    ],
)
def test_what_is_left(low: float, high: float | None, said: str) -> None:
    assert English(table().plan, Manner()).left(Left(low, high)) == said


@pytest.mark.parametrize(
    ("done", "steps", "to_file", "said"),
    [
        (0, 6, 0, "0 of 6 steps done"),
        (5, 6, 0, "5 of 6 steps done"),
        (6, 6, 2, "all 6 steps done, 2 still to be filed"),
        (6, 6, 0, "all 6 steps done"),
        (1, 1, 0, "all 1 step done"),
        (0, 0, 0, "0 of 0 steps done"),
    ],
)
def test_how_far_a_run_is(done: int, steps: int, to_file: int, said: str) -> None:
    assert ShelfPhrases().how_far(done, steps, to_file) == said


def test_it_is_told_how_much_is_left_out() -> None:
    session = table()
    words = English(session.plan, Manner())
    told: list[str] = []
    while not session.state.due().over:
        if session.skip().taken:
            told.append(words.left_out(session.state.last_said()))
        else:
            session.next()
    out = [step.id for step in session.plan.steps if session.state.done[step.id] is False]
    assert set(told) == {"Left out.", "Left out, with 1 more step that hangs on it."}
    assert sum(1 + sum(map(int, re.findall(r"\d+", text))) for text in told) == len(out)

    five = Entry(9, datetime(2026, 1, 2, tzinfo=UTC), Skipped("A/load", 5))
    assert words.left_out([five]) == "Left out, with 4 more steps that hang on it."


# A changed kit


def changed(old: str, new: str, steps: int = 0) -> str:
    session = table(old)
    for _ in range(steps):
        session.next()
    change = compare(session.story, read_kit(new))
    return English(session.plan, Manner()).kit_changed(change)


def test_when_only_words_changed_it_is_told_which() -> None:
    new = CUT_AGAIN.replace("It is cut again and goes nowhere by itself.", "Mind it.")
    new = new.replace('title = "Cut again"', 'title = "Cut once more"')
    said = changed(CUT_AGAIN, new)
    assert said.endswith("No step is touched by it; only words changed, on: title, sliver.")
    note = CUT_AGAIN.replace('gives = "half"', 'gives = "half"\nnote = "Slowly."')
    assert changed(CUT_AGAIN, note).endswith("only words changed, on: B.")
    assert changed(CUT_AGAIN, CUT_AGAIN + "\n# a remark\n").endswith("only words changed.")


def test_changed_steps_are_told_by_what_they_are_done_to() -> None:
    said = changed(CUT_AGAIN, CUT_AGAIN.replace("marks = [6]", "marks = [5]"))
    assert "is changed, at: " in said or "are changed, at: " in said
    assert "B" in said and "B/load" not in said
    said = changed(
        CUT_AGAIN, CUT_AGAIN.replace('trim = "A"', 'trim = "A"\nlay = "top edge at left"'), 14
    )
    assert "It can't be taken over; it touches what is done already: A" in said


def test_a_kit_that_cannot_be_read_any_more_is_told_as_such() -> None:
    session = table()
    words = English(session.plan, Manner())

    def told(text: str) -> list[str]:
        said = words.kit_changed(compare(session.story, read_kit(text)))
        first, second, *lines = said.split("\n")
        assert first == "The kit's file was changed since this session began."
        assert second == "It can't be used as it is now:"
        return lines

    examples = {"page": '"12 x 12"', "pages": "2", "title": '"..."'}
    missing = [f'"{key}" is missing; add {key} = {value}' for key, value in examples.items()]
    missing.append("the kit has no steps; add a [[step]]")
    assert sorted(told("dryfit = 1")) == [f"line 1: {each}" for each in missing]
    # The same thing on several lines is told once, and a long list is cut short.
    twice = CUT_AGAIN.replace('to = "1 to 1·2, 1 to 3·4"', "to = 0")
    line = CUT_AGAIN[: CUT_AGAIN.index('to = "1 to 1·2, 1 to 3·4"')].count("\n") + 1
    (only,) = told(twice.replace('to = "3·4"', "to = 0"))
    assert only.startswith(f'lines {line}, {line + 4}: "to": a page must be a number from 1 to ')
    colours = "".join(f'[[paper]]\nname = "{n}"\nface = "{n}"\n' for n in range(9))
    *six, last = told(CUT_AGAIN + colours)
    assert len(six) == 6 and last == "and 3 more; dryfit check tells all of them"


# The account


def test_the_report_speaks_of_steps_and_mistakes_in_sentences() -> None:
    session = table()
    until_in_hand(session, "A/1")
    session.file_into(P34)
    session.put_right(only_warning(session))
    while (step := session.state.due().step) is None or not session.state.may_skip(step):
        session.next()
    session.skip()
    to_the_end(session)
    account = account_of(session)
    text = report_text(session, account, Manner())
    assert account.left_out
    assert not any(id in text for id in account.left_out)
    assert "left out: Take plate" in text
    assert "1 x filed in a wrong pocket" in text
    assert {tone for tone, _ in report_lines(session, account, Manner())} <= {
        "head", "good", "bad", "plain",
    }  # fmt: skip
    assert report_data(session, account)["finished"] is True


def test_one_is_told_in_the_singular() -> None:
    assert counted(1, "cut") == "1 cut" and counted(2, "cut") == "2 cuts"
    assert counted(0, "sheet is", "sheets are") == "0 sheets are"
    assert listed(["3"]) == "3" and listed(["3", "5", "7"], "or") == "3, 5 or 7"
    words = English(table().plan, Manner())
    assert words.pages((3,)) == "page 3" and words.pages((3, 4)) == "pages 3 and 4"
    assert words.pages((3, 4), "or") == "page 3 or 4" and words.pages((3,), "or") == "page 3"


def test_an_area_is_exact_in_the_crafter_s_unit() -> None:
    square_inch = Fraction(127, 5) ** 2  # 1 in = 25.4 mm (1959 agreement)
    words = English(table().plan, Manner())
    assert words.area(9 * square_inch / 2) == "4.5 sq in"
    metric = English(table().plan, Manner(LengthStyle(Unit.MM)))
    assert metric.area(Fraction(210 * 297)) == "623.7 sq cm"  # A4 (ISO 216), from memory


@pytest.mark.parametrize("text", KITS)
def test_the_report_is_in_ascii_to_whom_wants_it(text: str) -> None:
    session = table(text)
    to_the_end(session)
    session.say(Moved(next(i for i in session.state.place if session.state.place[i] >= 0), ""))
    manner = Manner(LengthStyle(session.plan.kit.unit, ascii=True))
    assert report_text(session, account_of(session), manner).isascii()
    words = English(session.plan, manner)
    assert words.welcome_back(session.state, ()).isascii()
    for warning in session.state.warnings.values():
        assert words.warning(warning, session.state.belongs(warning.items[-1])).isascii()


def test_every_kind_of_step_has_a_headline_and_a_sentence() -> None:
    seen = set()
    for text in KITS:
        plan = read_kit(text).plan
        assert plan is not None
        words = English(plan, Manner())
        for step in plan.steps:
            seen.add(step.kind)
            assert words.headline(step) and words.call_it(step)
            said = words.sentence(step, Spot.PILE)
            assert said.endswith(".") and "  " not in said and cell_len(said) < 200
            assert f"{said} You may leave this out." == words.sentence(step, Spot.PILE, True)
    assert seen == set(StepKind)
