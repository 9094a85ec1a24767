"""What is so in truth after a mistake: worked examples, by hand on squared paper.

The sizes follow from how a trimmer's marks work (common practice, no source): an offcut is the mark
before it less its own, and what stays on the bed is as long as the last mark.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from model.reading import read_kit
from model.rescue.bench import Saving
from model.rescue.mishap import CannotBe, Mishap, What
from model.rescue.rescue import Rescue
from model.session import Session
from model.spot import Spot

INCH = Fraction(127, 5)

KIT = """
dryfit = 1
title = "A slip of the hand"
note = "Invented."
unit = "in"
page = "12 x 12"
pages = 4

[[paper]]
name = "moss"
face = "green"

[[sheet]]
name = "A"
paper = "moss"
size = "12 x 12"

[[sheet]]
name = "B"
paper = "moss"
size = "12 x 12"

[[piece]]
name = "band"
to = { "1·2" = 2 }
size = "3 x 12"

[[piece]]
name = "ribbon band"
to = { "3·4" = 1 }
size = "2 x 12"

[[piece]]
name = "wide band"
to = { "3·4" = 1 }
size = "9 x 12"

[[step]]
trim = "A"
marks = ["9", "6", "4"]
gives = ["band", "band", "ribbon band"]
rest = "scrap"

[[step]]
trim = "B"
marks = ["9"]
gives = ["scrap"]
rest = "wide band"
"""


def session(until: str, kit: str = KIT) -> Session:
    read = read_kit(kit)
    assert read.plan is not None, read.findings
    begun = Session.start(read, None, None)
    while until not in begun.state.done:
        assert begun.next().taken
    return begun


def cut(step: str, inches: str) -> Mishap:
    return Mishap(What.MARK, step, Fraction(inches) * INCH)


def searched(begun: Session, mishap: Mishap) -> Rescue:
    rescue = Rescue(begun, mishap)
    rescue.search()
    return rescue


def marks(rescue: Rescue, of: str) -> list[Fraction]:
    (load,) = (load for load in rescue.ways[0].mending.loads if load.of == of)
    return [mark.at / INCH for mark in load.marks if mark.at is not None]


def test_the_other_marks_are_shifted_while_the_load_goes_on() -> None:
    """Cut at 8 3/4 instead of 9: the bed gives all three bands, 3/4 of its 8 3/4 are over."""
    rescue = searched(session("A/1"), cut("A/1", "35/4"))
    best = rescue.ways[0]
    assert best.saving is Saving.SHIFT and not best.missing and best.proved
    first, *others = marks(rescue, "A")
    assert first == Fraction(35, 4)
    ends = [first, *others, Fraction(0)]
    widths = sorted(a - b for a, b in pairwise(ends))
    assert widths == [Fraction(3, 4), 2, 3, 3]
    # One cut more than the three of the kit; the first band is a scrap beside that of 3/4.
    assert best.cost.cuts == 1 and best.cost.scraps == 1


def test_too_small_a_piece_is_cut_anew_from_the_scrap() -> None:
    """Cut at 9 1/4: the band is 2 3/4 wide; the sheet has 4 in over, of which 3 make a band."""
    rescue = searched(session("A/3"), cut("A/1", "37/4"))
    (wrong, other) = sorted(rescue.touched, key=lambda each: each.item)
    assert (wrong.item, wrong.width) == ("A/1", Fraction(11, 4) * INCH)
    assert (other.item, other.width) == ("A/2", Fraction(13, 4) * INCH)
    best = rescue.ways[0]
    assert not best.missing and best.saving is Saving.SCRAP
    assert "A/r" in {load.of for load in best.mending.loads}


def test_a_band_that_came_out_as_another_is_that_other() -> None:
    """Cut at 7 instead of 6: 2 in wide came off, and then 3; they have changed places."""
    rescue = searched(session("A/3"), cut("A/2", "7"))
    assert not rescue.lost
    truth = {each.item: each.plays.name for each in rescue.touched if each.plays}
    assert truth == {"A/2": "ribbon band", "A/3": "band"}
    assert [way.saving for way in rescue.ways] == [Saving.NOTHING]


def test_what_was_filed_under_a_wrong_name_is_warned_of() -> None:
    begun = session("A/3")
    while begun.state.where("A/3") == Spot.PILE or begun.state.where("A/2") == Spot.PILE:
        begun.next()
    before = {id: begun.state.where(id) for id in ("A/2", "A/3")}
    assert before == {"A/2": 0, "A/3": 1}
    rescue = searched(begun, cut("A/2", "7"))
    told = rescue.choose(rescue.ways[0])
    assert told.taken and {item for each in told.raised for item in each.items} >= {"A/2"}
    assert begun.plan.items["A/2"].name == "ribbon band"
    assert begun.state.belongs("A/2") in (1, begun.state.where("A/2"))


def test_a_missing_sheet_is_planned_into_a_later_one() -> None:
    """B gives its 9 x 12 only; of A's pieces a band of 3 x 12 is in its scrap, no more."""
    begun = Session.start(read_kit(KIT), None, None)
    rescue = searched(begun, Mishap(What.MISSING, thing="A"))
    best = rescue.ways[0]
    assert best.saving is Saving.LATER
    assert {item.name for item in rescue.lost} == {"band", "ribbon band"}
    assert len(best.missing) == 1 and best.missing[0].name in ("band", "ribbon band", "wide band")


def test_a_ruined_piece_is_missed_by_its_page() -> None:
    begun = session("B/1")
    rescue = searched(begun, Mishap(What.RUINED, thing="B/r"))
    worst = rescue.ways[-1]
    assert worst.saving is Saving.NONE
    assert [item.name for item in worst.missing] == ["wide band"]


@pytest.mark.parametrize(
    ("mishap", "code"),
    [
        (cut("A/1", "9"), "as it should be"),
        (cut("A/1", "12"), "outside"),
        (cut("A/1", "5"), "not falling"),
        (cut("A/2", "19/2"), "outside"),
        (cut("B/1", "8"), "not done"),
        (cut("C/1", "8"), "no such step"),
        (Mishap(What.MEASURE, "A/1", INCH, "A/2"), "no such thing"),
        (Mishap(What.RUINED, thing="B/r"), "not there"),
        (Mishap(What.RUINED, thing="Z"), "no such thing"),
        (Mishap(What.MISSING, thing="A"), "cut before"),
        (Mishap(What.PIECE, "A/load", thing="A"), "as it should be"),
        (Mishap(What.PIECE, "A/load", thing="A/1"), "not of the stack"),
        (Mishap(What.TURNED, "B/load"), "not done"),
    ],
)
def test_what_can_not_have_been_so(mishap: Mishap, code: str) -> None:
    begun = session("A/3")
    with pytest.raises(CannotBe) as caught:
        Rescue(begun, mishap)
    assert caught.value.code == code


def test_paper_that_is_only_laid_in_is_laid_anew() -> None:
    begun = session("A/load")
    for what in (What.TURNED, What.FACE):
        with pytest.raises(CannotBe) as caught:
            Rescue(begun, Mishap(what, "A/load"))
        assert caught.value.code == "not cut"


def test_a_measure_is_a_mark() -> None:
    """3 1/4 measured instead of 3 means that the cut was made at 8 3/4 instead of 9."""
    begun = session("A/1")
    one = Rescue(begun, Mishap(What.MEASURE, "A/1", Fraction(13, 4) * INCH, "A/1"))
    other = Rescue(begun, cut("A/1", "35/4"))
    bed = Rescue(begun, Mishap(What.MEASURE, "A/1", Fraction(35, 4) * INCH, "A"))
    assert one.touched == other.touched == bed.touched


def test_a_little_smaller_where_the_kit_allows_it() -> None:
    kit = KIT.replace('size = "9 x 12"', 'size = "9 x 12"\nsmaller_by = "1/4"')
    rescue = searched(session("B/1", kit), cut("B/1", "71/8"))
    best = rescue.ways[0]
    assert best.saving is Saving.SMALL and best.small == ("B/r",) and not best.missing
    assert best.cost.cuts == 0
    none = searched(session("B/1", kit), cut("B/1", "69/8"))
    assert all(way.saving is not Saving.SMALL for way in none.ways if not way.missing)


def test_a_backing_of_the_full_size() -> None:
    """Cut at 4 1/8, the ribbon band is 1 7/8 wide; clay is over, of which 2 in are a backing."""
    kit = KIT.replace('name = "B"\npaper = "moss"', 'name = "B"\npaper = "clay"')
    kit = kit.replace(
        '[[sheet]]\nname = "A"', '[[paper]]\nname = "clay"\nface = "brown"\n\n[[sheet]]\nname = "A"'
    )
    kit = kit.replace('rest = "scrap"', 'rest = "last band"')
    kit += '\n[[piece]]\nname = "last band"\nto = { "3·4" = 1 }\nsize = "4 x 12"\n'
    begun = session("B/1", kit)
    rescue = searched(begun, cut("A/3", "33/8"))
    best = rescue.ways[0]
    assert best.saving is Saving.NEST and not best.missing
    (kind,) = best.mending.kinds
    assert kind.backs == "ribbon band" and best.small == ("A/3",) and kind.size[0] == 2 * INCH
    assert rescue.choose(best).taken
    backing = next(item for item in begun.plan.items.values() if item.name == kind.name)
    assert backing.sheet == "B" and backing.stock is not None
    assert {backing.stock.width.value, backing.stock.height.value} == {2 * INCH, 12 * INCH}
    assert begun.state.wanted(1) == 4  # the ribbon, wide and last band, and the backing
