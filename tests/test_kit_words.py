"""What is said of a kit in which one thing is wrong."""

from __future__ import annotations

import pytest

from model.finding import Finding
from model.reading import read_kit

HEAD = 'dryfit = 1\ntitle = "T"\npage = "12 x 12"\npages = 4\n\n'
A = '[[sheet]]\nname = "A"\nface = "navy"\n'
CUT = '[[step]]\ntrim = "A"\nmarks = [6]\ngives = "scrap"\nrest = "scrap"\n'


def findings_of(*parts: str) -> list[Finding]:
    found = read_kit(HEAD + "".join(parts)).findings
    return [finding for finding in found if finding.code != "more-may-follow"]


def one(*parts: str) -> Finding:
    (finding,) = findings_of(*parts)
    return finding


@pytest.mark.parametrize(
    ("parts", "code", "says"),
    [
        ((A, CUT, CUT), "taken-twice", '"A" has been cut already'),
        (
            (A, '[[step]]\ntrim = "half"\nmarks = [3]\ngives = "scrap"\nrest = "scrap"\n',
             CUT.replace('rest = "scrap"', 'rest = "half"')),
            "not-yet-made", '"half" does not exist yet: a later step makes it',
        ),
        (
            (A, CUT.replace("marks", "tear = 'A'\nmarks")), "step-verb", "has trim and tear",
        ),
        ((A, '[[step]]\nnote = "What?"\n', CUT), "step-verb", "this step has no verb"),
        ((A, CUT.replace("marks = [6]\n", "")), "no-marks", "this trim has no marks"),
        ((A, CUT.replace('rest = "scrap"\n', "")), "no-rest", "has no name"),
        (
            (A, '[[step]]\ntear = "A"\nwidths = [12]\ngives = "scrap"\nrest = "scrap"\n'),
            "tear-outside", 'leaves nothing of "A"',
        ),
        (
            (A, '[[piece]]\nname = "p"\nto = 1\n', CUT.replace('rest = "scrap"', 'rest = "p"'),
             '[[step]]\nslit = "p"\ntimes = 2\n'),
            "too-few", '1 of "p" is there to slit',
        ),
        (
            (A, CUT.replace('rest = "scrap"', 'rest = "plate"'), '[[step]]\npunch = "plate"\n'),
            "loose-end", '"plate" is kept after the punch, but it is no piece; make it a [[piece]]',
        ),
        (
            (A, CUT.replace('rest = "scrap"', 'rest = { name = "p", size = "6 x 12" }')),
            "no-piece", "declare it as a [[piece]]",
        ),
        (
            (A, '[[step]]\nfussy_cut = "A"\ngives = ["scrap"]\n'),
            "hand-scrap", "trimmings",
        ),
        ((A, '[[step]]\nfussy_cut = "A"\n'), "gives-count", "this fussy cut makes nothing"),
        (
            (A, '[[step]]\ntrace = "A"\ngives = { name = "p", to = 1 }\n'), "no-around", "around",
        ),
        (
            (A, '[[piece]]\nname = "q"\nto = 1\n', '[[sheet]]\nname = "B"\nface = "tan"\n'
             'wait = "after filing"\n',
             '[[step]]\ntrace = "A"\naround = "q"\ngives = { name = "p", to = 1 }\n',
             '[[step]]\nknife = "B"\nmarks = [6]\ngives = "scrap"\nrest = "q"\n'),
            "not-yet-made", "waits longer than this one; let this step wait as long",
        ),
        (
            (A.replace('"navy"', '"navy"\nwait = "trimmer away"'), CUT),
            "trimmer-away", "write knife or tear instead of trim",
        ),
        (
            (A, '[[sheet]]\nname = "B"\nface = "tan"\n',
             CUT.replace('rest = "scrap"', 'rest = { name = "p", to = 1 }'),
             CUT.replace('"A"', '"B"').replace('rest = "scrap"', 'rest = { name = "p", to = 1 }')),
            "name-two-papers", "one name is one kind",
        ),
        (
            (A, '[[piece]]\nname = "p"\nto = "2 to 1·2"\n',
             '[[step]]\ntrim = "A"\nmarks = [8, 5]\ngives = "p"\nrest = "scrap"\n'),
            "name-two-sizes", '"p" is 3 x 12 here and 4 x 12 elsewhere',
        ),
        (
            (A, '[[piece]]\nname = "p"\nto = "1·2"\n',
             CUT.replace('rest = "scrap"', 'rest = { name = "p", to = "3·4" }')),
            "copy-to", "which its own to has no place for",
        ),
        (
            (A, '[[step]]\ntrim = "A"\nmarks = [8, 4]\nrest = "scrap"\n'
             'gives = { name = "p", to = "3 to 1·2" }\n'),
            "copy-to", '2 of "p" come off here, but to names places for 3',
        ),
        (
            (A, '[[piece]]\nname = "p"\nto = "1 to 1·2, 1 to 3·4"\n',
             CUT.replace('"scrap"', '"p"'), '[[step]]\nfussy_cut = "p"\n'
             'gives = { name = "q", to = 1 }\n'),
            "which-copy", "some copies of",
        ),
        (
            (A, CUT.replace('"scrap"', '{ name = "p", to = "1·2", size = "6 x 12" }', 1)
             .replace('rest = "scrap"', 'rest = { name = "p", to = 1, size = "5 x 12" }')),
            "size-twice", "stated otherwise elsewhere",
        ),
        (
            (A, CUT, '[[pocket]]\nlabel = "x"\npages = [1, 2]\n'
             '[[pocket]]\nlabel = "X"\npages = [3]\n'),
            "pocket-twice", "two pockets are labelled",
        ),
        (
            (A, CUT, '[[pocket]]\nlabel = "x"\npages = [1, 2]\n'
             '[[pocket]]\nlabel = "y"\npages = [2]\n'),
            "page-twice", 'page 2 is in pocket "x" already',
        ),
        (
            (A, CUT, '[[pocket]]\nlabel = "x"\npages = [1, 2]\n'
             '[[precut]]\nname = "m"\nface = "red"\nto = 3\n'),
            "page-without-pocket", "page 3 has no pocket",
        ),
        ((A, CUT, '[[pocket]]\nlabel = "1, 2"\npages = [1]\n'), "bad-value", "comma"),
        ((A, CUT, '[[pocket]]\nlabel = "··"\npages = [1]\n'), "bad-value", "a letter or a digit"),
        ((A, CUT, '[[precut]]\nname = "m"\nface = "red"\n'), "no-destination", "write either to"),
        (
            (A, CUT, '[[precut]]\nname = "m"\nface = "red"\nto = 1\nwith = "n"\n'
             '[[precut]]\nname = "n"\nface = "red"\nto = 1\n'),
            "to-and-with", "has two places",
        ),
        ((A.replace('face = "navy"\n', ""), CUT), "no-paper", 'write paper = "..."'),
        (
            (A, CUT, '[[sheet]]\nname = "g"\nface = "tan"\nbase = 1\nbases = [2]\n'),
            "base-and-bases", "write bases alone",
        ),
        (
            (A, CUT.replace('rest = "scrap"', 'rest = "dots"'),
             '[[set_aside]]\nname = "dots"\n'),
            "name-twice", "a set-aside and a part of a cut",
        ),
        ((A, CUT.replace("marks", "advised = true\nmarks")), "key-without-sense", "without a lay"),
        (
            (A, CUT.replace("marks", 'turn = "half"\nlay = "top edge at top"\nmarks')),
            "lay-differs", "leave turn out",
        ),
        (
            (A, '[[step]]\ndo = "Glue it"\nneeds = "p"\n',
             CUT.replace('rest = "scrap"', 'rest = { name = "p", to = 1 }')),
            "not-yet-made", "or let it wait as long",
        ),
        ((A,), "no-steps", "add a [[step]]"),
    ],
)  # fmt: skip
def test_it_is_said_what_is_wrong(parts: tuple[str, ...], code: str, says: str) -> None:
    finding = one(*parts)
    assert finding.code == code and says in str(finding)
    assert finding.line > (0 if code == "no-steps" else 4)


def test_trimming_after_filing_is_only_remarked() -> None:
    got = read_kit(HEAD + A + 'wait = "after filing"\n' + CUT)
    assert [(f.code, f.grave) for f in got.findings] == [("trimmer-again", False)]
    assert got.plan is not None


def test_the_message_of_the_trade() -> None:
    text = HEAD + A + CUT.replace("[6]", '["7 1/4", 10]').replace('"scrap"', '["scrap","scrap"]', 1)
    finding, more = read_kit(text).findings
    assert more.code == "more-may-follow" and not more.grave
    assert str(finding) == (
        "line 11: mark 10 in comes after 7 1/4 in; marks go down in one load; put the marks in "
        "falling order, or start a new load"
    )


def codes(*parts: str) -> list[str]:
    return [finding.code for finding in findings_of(*parts)]


def test_alike_rows_of_a_cut_apart_come_off_in_any_order() -> None:
    sheet = A + 'cut_apart = true\nsize = "12 x 12"\n'
    step = '[[step]]\ntrim = "A"\nmarks = ["about 8", "about 4"]\ngives = "scrap"\n'
    assert codes(sheet, step + 'rest = "scrap"\n') == []


@pytest.mark.parametrize(("mark", "fits"), [("11", True), ("12", False), ("6", True)])
def test_a_quarter_turn_is_offered_only_where_the_mark_is_inside_then(
    mark: str, fits: bool
) -> None:
    sheet = A + 'size = "6 x 12"\n'
    step = f'[[step]]\ntrim = "A"\nmarks = [{mark}]\ngives = "scrap"\nrest = "scrap"\n'
    finding = one(sheet, step)
    assert finding.code == "mark-outside"
    assert ("fit with turn" in finding.remedy) == fits
    turned = codes(sheet, step.replace("marks", 'turn = "quarter"\nmarks'))
    assert ("mark-outside" not in turned) == fits


def test_what_is_made_later_in_the_same_phase_does_not_wait() -> None:
    finding = one(
        A, '[[piece]]\nname = "q"\nto = 1\n', '[[sheet]]\nname = "B"\nface = "tan"\n',
        '[[step]]\ntrace = "A"\naround = "q"\ngives = { name = "p", to = 1 }\n',
        '[[step]]\ntrim = "B"\nmarks = [6]\ngives = "scrap"\nrest = "q"\n',
    )  # fmt: skip
    assert (finding.code, finding.remedy) == ("not-yet-made", "move this step after it")
    assert finding.what.endswith("a later step makes it")


@pytest.mark.parametrize(("says", "found"), [("", []), ("directional = true", ["name-two-papers"])])
def test_a_print_with_an_up_is_another_paper_than_one_without(says: str, found: list[str]) -> None:
    sheet = '[[sheet]]\nname = "{}"\nkind = "print"\nface = "tan"\n{}\n'
    step = '[[step]]\ntrim = "{}"\nmarks = [6]\ngives = "p"\nrest = "p"\n'
    assert found == codes(
        sheet.format("A", ""), sheet.format("B", says),
        '[[piece]]\nname = "p"\nto = "4 to 1·2"\nturnable = true\n',
        step.format("A"), step.format("B"),
    )  # fmt: skip


def test_the_copy_with_a_place_of_its_own_is_taken_last() -> None:
    """Two of three copies are cut again: the one that the author sends elsewhere stays."""
    plan = read_kit(HEAD + "".join((
        A, '[[piece]]\nname = "p"\nto = "2 to 1·2, 1 to 3·4"\n',
        '[[step]]\ntrim = "A"\nmarks = [8, 4]\n'
        'gives = [{ name = "p", to = "3·4" }, "p"]\nrest = "p"\n',
        '[[step]]\nfussy_cut = "p"\ntimes = 2\ngives = { name = "q", to = "2 to 1·2" }\n',
    ))).plan  # fmt: skip
    assert plan is not None
    assert set(plan.taken_by) == {"A", "A/2", "A/r"}
