"""A mending as text, and back."""

from __future__ import annotations

from dataclasses import fields
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.kit import Mark
from model.rescue.mending import AddedKind, CannotMend, Fate, MendedLoad, Mending, Share
from model.rescue.mendingtext import from_text, to_text

NAMES = st.text(st.characters(exclude_categories=("Cs",)), max_size=12)
LENGTHS = st.fractions(0, 1000, max_denominator=5080)
NUMBERS = st.integers(-3, 10**6)
SHARES = st.builds(Share, st.sampled_from(Fate), NAMES)
LOADS = st.builds(
    MendedLoad,
    NAMES,
    st.lists(st.builds(Mark, st.none() | LENGTHS, st.booleans()), max_size=4).map(tuple),
    st.lists(SHARES, max_size=4).map(tuple),
    SHARES,
    NUMBERS,
    st.sampled_from((None, "face", "reverse")),
    st.booleans(),
    st.booleans(),
)
KINDS = st.builds(
    AddedKind, NAMES, NAMES, NUMBERS, st.none() | NUMBERS, st.tuples(LENGTHS, LENGTHS), NAMES
)


def several(some: st.SearchStrategy[object]) -> st.SearchStrategy[object]:
    return st.lists(some, max_size=3).map(tuple)


MENDINGS = st.builds(
    Mending,
    at=NAMES,
    loads=several(LOADS),
    gone=several(NAMES),
    idle=several(NAMES),
    unloaded=several(NAMES),
    spent=several(st.tuples(NAMES, NUMBERS)),
    kinds=several(KINDS),
    swapped=several(st.tuples(NAMES, NAMES)),
    since=NUMBERS,
    small=several(NAMES),
)


@given(MENDINGS)
def test_a_mending_is_read_as_it_was_written(mending: Mending) -> None:
    assert from_text(to_text(mending)) == mending


def test_lengths_are_exact_and_marks_keep_how_they_are_given() -> None:
    load = MendedLoad(
        "A/r",
        (Mark(Fraction(4699, 20)), Mark(Fraction(3), about=True), Mark(None)),
        (Share(Fate.ROLE, "A/1"), Share(Fate.STRIP, "end piece"), Share(Fate.MADE, "patch")),
        Share(Fate.SCRAP),
        turn=3,
        up="reverse",
    )
    assert to_text(Mending("B/1", (load,))) == (
        'at = "B/1"\n[[load]]\nof = "A/r"\nmarks = ["4699/20", "about 3", "line"]\n'
        'gives = ["role A/1", "strip end piece", "made patch"]\nrest = "scrap"\n'
        'turn = 3\nup = "reverse"\n'
    )


def test_nothing_mended_is_no_text() -> None:
    assert to_text(Mending()) == ""
    assert from_text("") == Mending()


LOAD = '[[load]]\nof = "A"\nmarks = ["1"]\ngives = ["scrap"]\nrest = "scrap"\n'


@pytest.mark.parametrize(
    "text",
    [
        "nonsense",
        "at = 3",
        "since = true",
        'gone = "A"',
        "gone = [1]",
        'swapped = [["A"]]',
        'later = "?"',
        "load = 3",
        '[[load]]\nof = "A"',
        LOAD + "later = 1",
        LOAD.replace('"1"', '"1/0"'),
        LOAD.replace('"1"', '"1e9"'),
        LOAD.replace('"1"', '"' + "9" * 5000 + '"'),
        LOAD.replace('"1"', '"somewhere"'),
        LOAD.replace('rest = "scrap"', 'rest = "gone"'),
        LOAD + 'up = "edge"',
        LOAD + "turn = 1.5",
        '[[kind]]\nname = "x"\npocket = 0\nsize = ["1"]',
        "[[spent]]\nkind = 1\npocket = 0",
        "a" + ".a" * 100_000 + " = 1",
        "x = " + "[" * 100_000,
    ],
)
def test_what_is_damaged_is_refused(text: str) -> None:
    with pytest.raises(CannotMend) as caught:
        from_text(text)
    assert caught.value.code == "damaged"
    if text.startswith(LOAD):
        from_text(LOAD)


def test_no_field_is_forgotten() -> None:
    one = Fraction(1)
    load = MendedLoad("A", (Mark(one),), (Share(Fate.SCRAP, "B"),), Share(Fate.SCRAP), 1, "face",
                      as_written=True, torn=True)  # fmt: skip
    kind = AddedKind("new", "old", 1, 2, (one, one), "back")
    names = ("x",)
    full = Mending("B/1", (load,), names, names, names, (("mat", 1),), (kind,), (("A", "B"),), 3,
                   names)  # fmt: skip
    for made in (full, load, kind):
        defaults = {each.name: each.default for each in fields(made)}
        assert all(getattr(made, name) != default for name, default in defaults.items())
    assert from_text(to_text(full)) == full
