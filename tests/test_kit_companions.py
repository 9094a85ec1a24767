"""What is filed together with a piece needs a piece that stays what it is."""

from __future__ import annotations

import pytest

from model.reading import read_kit
from tests.test_kit_words import HEAD, A, findings_of, one

STAR = '[[embellishment]]\nname = "star"\nface = "gold"\nwith = "plate"\n'
PLATE = '[[piece]]\nname = "plate"\n'
CUT = '[[step]]\ntrim = "A"\nmarks = [6]\ngives = "plate"\nrest = "{}"\n'
AGAIN = '[[step]]\ntrim = "plate"\nmarks = [3]\ngives = {}\nrest = "scrap"\n'
DISC = '{ name = "disc", to = "page 1" }'


def test_the_companion_of_a_piece_that_is_cut_up_has_no_home() -> None:
    finding = one(A, STAR, PLATE, CUT.format("scrap"), AGAIN.format(DISC))
    assert str(finding) == (
        'line 12: "star" is filed with "plate", but "plate" is cut again, so it would lie aside '
        'for good; say where it goes with to, or file it with what comes of it: with = "disc"'
    )


def test_what_is_proposed_mends_it() -> None:
    rest = (PLATE, CUT.format("scrap"), AGAIN.format(DISC))
    for mended in ('with = "disc"', 'to = "1·2"'):
        assert findings_of(A, STAR.replace('with = "plate"', mended), *rest) == []


@pytest.mark.parametrize(
    "gives", ['"scrap"', '{ name = "strip" }\noptional = true', DISC + "\noptional = true"]
)
def test_leaving_the_cut_out_is_no_home(gives: str) -> None:
    """A piece that was pocketed with its companion and is taken up later leaves it behind."""
    more = '[[step]]\nfussy_cut = "strip"\ngives = { name = "leaf", to = 2 }\n'
    parts = (A, STAR, PLATE + "to = 1\n", CUT.format("scrap"), AGAIN.format(gives))
    found = findings_of(*parts, *([more] if "strip" in gives else []))
    assert "companion-homeless" in [finding.code for finding in found]
    assert ('with = "disc"' in str(found)) is ("disc" in gives)


def test_of_several_copies_none_may_be_cut_up() -> None:
    finding = one(A, STAR, PLATE + 'to = "2 to 1·2"\n', CUT.format("plate"), AGAIN.format(DISC))
    assert finding.code == "companion-homeless"
    assert 'but some copies of "plate" are cut again' in finding.what


def test_a_slit_or_a_punch_leaves_the_piece_and_its_companion() -> None:
    punch = f'[[step]]\npunch = "plate"\ngives = {DISC}\n[[step]]\nslit = "plate"\n'
    assert findings_of(A, STAR, PLATE + "to = 1\n", CUT.format("scrap"), punch) == []


def test_a_shape_that_was_cut_up_can_not_be_traced_around() -> None:
    trace = '[[sheet]]\nname = "B"\nface = "tan"\n[[step]]\ntrace = "B"\naround = "plate"\n'
    trace += 'gives = { name = "shade", to = 1 }\n'
    cut = (A, PLATE, CUT.format("scrap"))
    finding = one(*cut, AGAIN.format(DISC), trace)
    assert (finding.code, finding.line) == ("taken-twice", 26)
    assert "cut up already, there is none left to trace around" in finding.what
    assert read_kit(HEAD + "".join((*cut, trace, AGAIN.format(DISC)))).findings == ()
