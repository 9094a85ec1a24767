"""What "did you mean" proposes makes sense at its place, and knows names in broken tables."""

from __future__ import annotations

import pytest

from model.reading import read_kit
from tests.test_kit_words import CUT, HEAD, A, findings_of

BASE = '[[sheet]]\nname = "sand base"\nface = "tan"\nbase = 1\n'
BROKEN = '[[sheet]]\nname = "rope coils"\nface = "navyy"\n'
OTHER = '[[step]]\ntrim = "{}"\nmarks = [6]\ngives = "scrap"\nrest = "scrap"\n'
RIBBON = '[[ribbon]]\nname = "twine"\ncolour = "tan"\nlength = "1 yd"\nto = { "1·2" = "6 in" }\n'
MAT = '[[precut]]\nname = "white mat"\nface = "white"\nto = 1\n'
CHARM = '[[embellishment]]\nname = "charm"\nface = "gold"\nwith = "{}"\n'
HALF = CUT.replace('rest = "scrap"', 'rest = { name = "half", to = 1 }')
DOTS = '[[set_aside]]\nname = "foam dots"\n'


def remedy(code: str, *parts: str) -> str:
    """What is proposed where a name is wrong; a broken table may stand beside it."""
    (finding,) = (each for each in findings_of(*parts) if each.code == code)
    return finding.remedy


def test_a_sheet_whose_own_table_is_broken_may_be_meant() -> None:
    """It has a name all the same."""
    assert remedy("unknown-name", A, BROKEN, CUT, OTHER.format("rope coil")) == (
        'did you mean "rope coils"?'
    )


@pytest.mark.parametrize(
    ("named", "told"),
    [
        ("rope coil", 'line 7: no sheet is called "rope coil"; did you mean "rope coils"?'),
        ("sand bas", 'line 7: no sheet is called "sand bas"; known here: "A", "rope coils"'),
        (
            "sand base",
            'line 7: sheet "sand base" is a base: it is kept whole, and not trimmed; '
            "leave it out of order",
        ),
    ],
)
def test_the_order_names_sheets_that_are_trimmed(named: str, told: str) -> None:
    text = f'{HEAD.rstrip()}\n\n\norder = ["A", "{named}"]\n{A}{BASE}{BROKEN}{CUT}'
    assert told in [str(finding) for finding in read_kit(text).findings]


@pytest.mark.parametrize("named", ["sand bas", "Scrab", "scarp", "twin", "charms"])
def test_what_can_not_be_trimmed_is_not_proposed(named: str) -> None:
    told = remedy("unknown-name", A, BASE, RIBBON, CHARM.format("half"), HALF, OTHER.format(named))
    assert told == 'known here: "A", "half"'


def test_a_piece_in_a_broken_table_may_be_meant() -> None:
    piece = '[[piece]]\nname = "photo mat"\nto = "1·2"\nsise = "4 x 6"\n'
    told = remedy("loose-end", A, piece, CUT.replace('rest = "scrap"', 'rest = "photo mt"'))
    assert told == 'did you mean "photo mat"?'
    told = remedy("unknown-name", A, piece, CUT, CHARM.format("foto mat"))
    assert told == 'did you mean "photo mat"?'


def test_what_a_broken_step_makes_may_be_meant() -> None:
    first = CUT.replace("marks", "markz").replace('rest = "scrap"', 'rest = "rope half"')
    assert remedy("unknown-name", A, first, OTHER.format("rope haf")) == (
        'did you mean "rope half"?'
    )


@pytest.mark.parametrize(
    ("step", "told"),
    [
        ('trace = "B"\naround = "haf"\ngives = { name = "q", to = 1 }\n', 'did you mean "half"?'),
        ('trace = "B"\naround = "twin"\ngives = { name = "q", to = 1 }\n', "known here: "),
        ('slit = "half"\nfor = "twin"\n', 'did you mean "twine"?'),
        ('slit = "half"\nfor = "sand bas"\n', "known here: "),
        ('do = "Glue"\nneeds = "foam dot"\n', 'did you mean "foam dots"?'),
        ('do = "Glue"\nneeds = "sand bas"\n', 'known here: "white mat", "twine", "foam dots"'),
    ],
)
def test_what_is_proposed_depends_on_the_verb(step: str, told: str) -> None:
    sheet = '[[sheet]]\nname = "B"\nface = "tan"\n'
    parts = (A, sheet, BASE, MAT, RIBBON, DOTS, HALF, f"[[step]]\n{step}")
    if "trace" not in step:
        parts = (*parts, OTHER.format("B"))
    said = remedy("unknown-name", *parts)
    assert said.startswith(told)
    assert '"scrap"' not in said and '"sand base"' not in said


def test_no_thing_goes_with_itself() -> None:
    piece = '[[piece]]\nname = "band"\nto = 1\nbacks = "bant"\n'
    told = remedy("unknown-name", A, piece, CUT.replace('rest = "scrap"', 'rest = "band"'))
    assert told == 'known here: "A"'


def test_a_companion_is_filed_with_no_other_companion() -> None:
    second = CHARM.format("charn").replace('"charm"', '"bead"')
    assert remedy("unknown-name", A, HALF, CHARM.format("half"), second) == 'known here: "half"'
