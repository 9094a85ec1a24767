"""What is wrong with a kit file is told: all of it, once, with its line and a remedy."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.finding import Finding
from model.reading import read_kit
from tests.kit_mistakes import ALONE, ALSO, APART, GOOD, Mistake


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
    assert others == ALSO.get(mistake.wrong, []), [str(f) for f in findings]
    assert read_kit(mistake.plant(GOOD)).plan is None


def test_all_mistakes_are_told_in_one_go() -> None:
    text = GOOD
    for mistake in APART:
        text = mistake.plant(text)
    assert told(text) == sorted((mistake.code, mistake.line) for mistake in APART)


def test_a_wrong_number_of_scraps_that_a_name_may_explain_is_announced() -> None:
    """Found by hypothesis: what had a name and no use was taken for the scrap that was missing."""
    wrong = GOOD.replace('gives = "mat"', 'gives = "zzzzzz"').replace("scraps = 2", "scraps = 3")
    assert wrong.count("zzzzzz") == 1
    assert wrong.count("scraps = 3") == 1
    assert read_kit(wrong).findings[-1].code == "more-may-follow"


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
