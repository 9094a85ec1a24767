"""From a kit to its plan: each rule of the work is kept."""

from __future__ import annotations

from fractions import Fraction

import pytest

from model.finding import Finding
from model.geometry import SIDES, Orientation, Side, Sure
from model.kit import Tie, Verb
from model.language.english.pieces import PieceWords
from model.manner import Manner
from model.plan import Phase, Plan, Role, StepKind
from model.reading import Read, read_kit

INCH = Fraction(127, 5)
HEAD = 'dryfit = 1\ntitle = "T"\npage = "12 x 12"\npages = 4\n'
A = '[[sheet]]\nname = "A"\nface = "navy"\n'
B = '[[sheet]]\nname = "B"\nface = "tan"\n'


def read(*parts: str) -> Read:
    return read_kit(HEAD + "\n".join(parts))


def plan_of(*parts: str) -> Plan:
    got = read(*parts)
    assert got.plan is not None and not got.findings, [str(f) for f in got.findings]
    return got.plan


def told(*parts: str) -> list[tuple[str, int]]:
    """Codes and lines of what is found; the head has four lines."""
    return [(finding.code, finding.line - 4) for finding in read(*parts).findings]


def only(*parts: str) -> Finding:
    (finding,) = read(*parts).findings
    return finding


def test_four_quarter_turns_are_no_turn() -> None:
    def sizes(turn: str) -> list[tuple[Fraction, Fraction]]:
        turns = "\n".join(
            f'[[step]]\ntrim = "s{n}"\nturn = "{turn}"\nmarks = [{7 - n}]\ngives = "scrap"\n'
            f'rest = "s{n + 1}"'
            for n in range(4)
        )
        plan = plan_of(
            A,
            '[[piece]]\nname = "end"\nto = 1',
            '[[step]]\ntrim = "A"\nmarks = [8]\ngives = "scrap"\nrest = "s0"',
            turns,
            '[[step]]\ntrim = "s4"\nmarks = [1]\ngives = "scrap"\nrest = "end"',
        )
        last = plan.steps[-1]
        assert last.lying == Orientation()  # four quarters, either way, are none
        return [(i.stock.width.value, i.stock.height.value) for i in plan.items.values() if i.stock]

    assert sizes("quarter") == sizes("right")
    assert sizes("quarter")[-1] == sizes("left")[-1]


@pytest.mark.parametrize("edge", SIDES)
@pytest.mark.parametrize(("turn", "then"), [("right", "bottom"), ("left", "top"), ("half", "left")])
def test_a_turn_after_a_tear_counts_from_how_the_paper_lay_to_be_torn(
    edge: Side, turn: str, then: str
) -> None:
    """To be torn, paper lies with its loose edge at the right, and its parts come off so."""
    plan = plan_of(
        '[[sheet]]\nname = "A"\nface = "tan"\nsize = "8 x 12"\n',
        '[[piece]]\nname = "a"\nto = 1\n[[piece]]\nname = "b"\nto = 1\n'
        '[[piece]]\nname = "c"\nto = 2\n',
        f'[[step]]\ntear = "A"\nedge = "{edge}"\nwidths = [3]\ngives = "a"\nrest = "rag"',
        f'[[step]]\ntrim = "rag"\nturn = "{turn}"\nmarks = [2]\ngives = "b"\nrest = "c"',
    )
    load, tear = plan.steps[plan.step_at["A/load"]], plan.steps[plan.step_at["A/1"]]
    assert load.lying == tear.lying and load.lying.side_of_paper("right") == edge
    # One turn clockwise brings the top to the right, two the left, three the bottom.
    assert load.turned == {"right": 0, "top": 1, "left": 2, "bottom": 3}[edge]
    rag = plan.items["A/r"]
    assert rag.lying == tear.lying and rag.stock is not None and rag.stock.torn == {edge}
    trim = plan.steps[plan.step_at["A/r/load"]]
    assert trim.lying.side_on_bed(edge) == then
    # The torn edge runs across the ruler before the turn, and along it after a quarter.
    along, across = (12, 5) if edge in ("left", "right") else (8, 9)
    if turn == "half":
        along, across = across, along
    assert rag.stock.along(trim.lying).value == along * INCH
    assert rag.stock.across(trim.lying).value == across * INCH


# The stack


def test_the_stack_is_computed_so_that_the_first_ends_on_top() -> None:
    cuts = "".join(
        f'[[step]]\ntrim = "{s}"\nmarks = [6]\ngives = "scrap"\nrest = "scrap"\n' for s in "BA"
    )
    base = '[[sheet]]\nname = "ground"\nface = "tan"\nbases = [3, 1]\nuse = "reverse"\n'
    down = plan_of(A, B, base, cuts)
    assert down.order == ("B", "A")
    assert down.stack == ("B", "A", "ground 1", "ground 3")
    kinds = [step.kind for step in down.steps]
    assert kinds[1:6] == [StepKind.STACK] * 4 + [StepKind.TURN_STACK]
    up = plan_of('stack = "face up"\n', A, B, base, cuts)
    assert up.stack == ("ground 3", "ground 1", "A", "B")
    assert StepKind.TURN_STACK not in {step.kind for step in up.steps}
    ground = down.items["ground 3"]
    assert (ground.role, ground.use) == (Role.BASE, "reverse")


# Which copy, which side


def test_alike_strips_are_taken_one_after_another_the_last_made_first() -> None:
    plan = plan_of(
        A,
        '[[piece]]\nname = "mat"\nto = "3 to 1·2, 3 to page 3"',
        '[[step]]\ntrim = "A"\nmarks = [8, 4]\ngives = "row"\nrest = "row"',
        '[[step]]\ntrim = "row"\ntimes = 3\nturn = "quarter"\nmarks = [6]\n'
        'gives = "mat"\nrest = "mat"',
    )
    loads = [step.takes for step in plan.steps if step.kind is StepKind.LOAD]
    assert loads == [("A",), ("A/r",), ("A/2",), ("A/1",)]
    assert plan.wanted == (3, 3)


def test_a_strip_stays_as_it_came_off_unless_the_author_says_which_side_is_up() -> None:
    plan = plan_of(
        A,
        '[[step]]\ntrim = "A"\nup = "reverse"\nmarks = [8]\ngives = "one"\nrest = "two"',
        '[[step]]\ntrim = "one"\nturn = "quarter"\nmarks = [6]\ngives = "scrap"\nrest = "scrap"',
        '[[step]]\ntrim = "two"\nup = "face"\nmarks = [6]\ngives = "scrap"\nrest = "scrap"',
    )
    first, one, two = (step for step in plan.steps if step.kind is StepKind.LOAD)
    assert first.lying.reverse
    assert one.lying.reverse and one.turned == 1
    assert one.work is not None and one.work.up == "reverse"
    assert not two.lying.reverse and two.turned == 0


def test_the_last_copy_may_go_its_own_way() -> None:
    plan = plan_of(
        A,
        '[[piece]]\nname = "square"\nto = "2 to 1·2, 1 to page 3"',
        '[[step]]\ntrim = "A"\nmarks = [8, 4]\ngives = "square"\n'
        'rest = { name = "square", to = 3, use = "reverse", note = "pebbles up" }',
    )
    last = plan.items["A/r"]
    assert (last.use, last.note, last.group) == ("reverse", "pebbles up", "square in 3·4 page 3")
    assert plan.groups[last.group].wanted == {1: 1}
    assert plan.groups["square"].wanted == {0: 2}


def test_pieces_that_are_declared_on_the_spot_add_up_over_all_loads() -> None:
    plan = plan_of(
        A,
        '[[step]]\ntrim = "A"\nmarks = [9, 6]\ngives = ["row", { name = "mat", to = "1·2" }]\n'
        'rest = { name = "large", to = 3, size = "6 x 12" }',
        '[[step]]\ntrim = "row"\nmarks = [2, 1]\ngives = ["scrap", "scrap"]\nrest = "scrap"',
    )
    assert plan.groups["mat"].wanted == {0: 1}
    more = plan_of(
        A,
        '[[step]]\ntrim = "A"\nmarks = [8, 4]\ngives = "row"\nrest = { name = "row" }',
        '[[step]]\ntrim = "row"\ntimes = 2\nturn = "quarter"\nmarks = [8, 4]\n'
        'gives = { name = "mat", to = "1·2", count = 2 }\nrest = { name = "mat", to = 3 }',
        '[[step]]\ntrim = "row"\nturn = "quarter"\nmarks = [8, 4]\n'
        'gives = { name = "mat", to = "1 to 1·2, 1 to 4" }\nrest = { name = "mat", to = 4 }',
    )
    assert {(to.pocket, to.page): to.count for to in more.groups["mat"].to} == {
        (0, None): 5, (1, 3): 2, (1, 4): 2,
    }  # fmt: skip


def test_a_count_stands_for_so_many_offcuts() -> None:
    plan = plan_of(
        A,
        '[[piece]]\nname = "border"\nto = "3 to 1·2"',
        '[[piece]]\nname = "disc"\nto = "6 to 3·4"',
        '[[step]]\ntrim = "A"\nmarks = [10, 8, 6, 3]\n'
        'gives = [{ name = "border", count = 3 }, "scrap"]\nrest = "plate"',
        '[[piece]]\nname = "plate"\nto = 1',
        '[[step]]\npunch = "plate"\ngives = { name = "disc", count = 6 }',
    )
    assert [plan.items[f"A/{n}"].name for n in (1, 2, 3, 4)] == ["border"] * 3 + ["scrap"]
    assert len(plan.steps[-1].makes) == 6
    assert plan.touched_by["A/r"] == (plan.steps[-1].index,)


# Blades, and what waits


def test_only_the_trimmer_has_the_trimmers_blade() -> None:
    plan = plan_of(
        A, B,
        '[[piece]]\nname = "half"\nto = "1·2"',
        '[[step]]\ntrim = "A"\nmarks = [6]\ngives = "scrap"\nrest = "half"',
        '[[step]]\nknife = "B"\nmarks = [6]\ngives = "scrap"\nrest = "other"',
        '[[step]]\ntear = "other"\nwidths = [2]\ngives = "scrap"\nrest = "scrap"',
        '[[step]]\nslit = "half"\nlength = "1/2"',
    )  # fmt: skip
    by_verb = {step.verb: step for step in plan.steps if step.kind is not StepKind.LOAD}
    assert [verb for verb, step in by_verb.items() if step.blade] == [Verb.TRIM]
    assert [verb for verb, step in by_verb.items() if step.knife] == [Verb.KNIFE, Verb.SLIT]


def test_what_is_cut_from_a_sheet_that_waits_waits_too() -> None:
    plan = plan_of(
        '[[sheet]]\nname = "W"\nface = "tan"\nwait = "trimmer away"\n',
        A,
        '[[step]]\nknife = "W"\nmarks = [6]\ngives = "half"\nrest = "scrap"',
        '[[step]]\ntear = "half"\nwidths = [2]\ngives = "scrap"\nrest = "scrap"\n'
        'wait = "after filing"',
        '[[step]]\ntrim = "A"\nmarks = [6]\ngives = "scrap"\nrest = "scrap"\noptional = true',
    )
    assert [(step.kind, step.phase) for step in plan.steps[1:]] == [
        (StepKind.ASIDE, Phase.OPENING),
        (StepKind.STACK, Phase.OPENING),
        (StepKind.TURN_STACK, Phase.OPENING),
        (StepKind.LOAD, Phase.TRIMMING),
        (StepKind.CUT, Phase.TRIMMING),
        (StepKind.AWAY, Phase.TRIMMER_AWAY),
        (StepKind.LOAD, Phase.TRIMMER_AWAY),
        (StepKind.CUT, Phase.TRIMMER_AWAY),
        (StepKind.LOAD, Phase.AFTER_FILING),
        (StepKind.TEAR, Phase.AFTER_FILING),
    ]
    assert [step.optional for step in plan.steps if step.kind is StepKind.CUT] == [True, False]
    assert plan.order == ("A",)


# Landmarks, tears, ribbons, cut-aparts


def test_a_landmark_tells_how_a_sheet_lies() -> None:
    plan = plan_of(
        A + 'kind = "print"\nlandmarks = { "kiosk" = "top left" }',
        '[[step]]\ntrim = "A"\nlay = "Kiosk at bottom left"\nmarks = [8]\ngives = "foot"\n'
        'rest = "sky"',
        '[[piece]]\nname = "foot"\nto = 1\nsize = "12 x 4"',
        '[[piece]]\nname = "sky"\nto = 1\nsize = "12 x 8"',
    )
    load = next(step for step in plan.steps if step.kind is StepKind.LOAD)
    assert load.lying.up == "left" and load.turned == 3
    foot = plan.items["A/1"].stock
    assert foot is not None and foot.box.y == 8 * INCH  # what comes off is the foot of the sheet


def test_a_landmark_that_is_not_on_the_piece_is_remarked() -> None:
    sheet = A + 'landmarks = { "kiosk" = "top left" }'
    cut = '[[step]]\ntrim = "A"\nmarks = [6]\ngives = "right half"\nrest = "scrap"'
    again = (
        '[[step]]\ntrim = "right half"\nlay = "kiosk at top left"\nmarks = [3]\ngives = "scrap"\n'
        'rest = "scrap"'
    )
    assert only(sheet, cut, again).code == "landmark-gone"
    hidden = '[[step]]\ntrim = "A"\nup = "reverse"\nlay = "kiosk at top left"\nmarks = [6]\n'
    assert only(sheet, hidden + 'gives = "scrap"\nrest = "scrap"').code == "landmark-hidden"


def test_tears_run_from_the_loose_edge() -> None:
    plan = plan_of(
        A,
        *(f'[[piece]]\nname = "w{n}"\nto = {n}' for n in (1, 2, 3)),
        '[[step]]\ntear = "A"\nedge = "bottom"\nwidths = [4, "3 1/2"]\ngives = ["w1", "w2"]\n'
        'rest = "w3"',
    )
    stocks = [plan.items[i].stock for i in ("A/1", "A/2", "A/r")]
    assert [s.height.value / INCH for s in stocks if s] == [4, Fraction(7, 2), Fraction(9, 2)]
    assert [set(s.torn) for s in stocks if s] == [{"top"}, {"top", "bottom"}, {"bottom"}]
    tears = [step for step in plan.steps if step.kind is StepKind.TEAR]
    assert [step.mark.value / INCH for step in tears if step.mark] == [4, Fraction(7, 2)]
    hand = tears[1].before
    assert hand is not None and hand.height.value == 8 * INCH and hand.torn == {"bottom"}


def test_a_ribbon_is_filed_by_length_and_what_is_left_is_known() -> None:
    plan = plan_of(
        A,
        '[[ribbon]]\nname = "twill"\ncolour = "teal"\nlength = "1 yd"\n'
        'to = { "1·2" = "16 in", "page 2" = "1 ft", "3·4" = "4 in" }',
        '[[step]]\ntrim = "A"\nmarks = [6]\ngives = "scrap"\nrest = "scrap"',
    )
    assert plan.kit.kinds["twill"].left_over == 4 * INCH
    fills = [step for step in plan.steps if step.kind is StepKind.FILL]
    lengths = [[plan.items[i].length for i in step.makes] for step in fills]
    assert lengths == [[16 * INCH, 12 * INCH], [4 * INCH]]


def test_an_unmeasured_sheet_is_a_schematic() -> None:
    plan = plan_of(
        '[[sheet]]\nname = "F"\nface = "ivory"\ncut_apart = true',
        '[[step]]\ntrim = "F"\nmarks = ["about 11", "line", "line"]\n'
        'gives = ["word row", "scrap", "scrap"]\nrest = "scrap"',
        '[[step]]\ntrim = "word row"\nturn = "quarter"\nmarks = ["about 14"]\ngives = "scrap"\n'
        'rest = "scrap"',
    )
    cuts = [step.mark for step in plan.steps if step.kind is StepKind.CUT]
    assert [mark.sure for mark in cuts if mark] == [
        Sure.ABOUT, Sure.PRINTED, Sure.PRINTED, Sure.ABOUT,
    ]  # fmt: skip
    # The sheet is drawn 12 in high, yet its author measured 14: the number is what is said.
    assert cuts[-1] is not None and cuts[-1].value == 14 * INCH
    assert not any(i.stock.measured for i in plan.items.values() if i.stock)


def test_on_a_cut_apart_the_narrowest_comes_off_first() -> None:
    sheet = A + 'cut_apart = true\nsize = "12 x 12"'
    step = '[[step]]\ntrim = "A"\nmarks = ["about 8", "about 6"]\ngives = "scrap"\nrest = "scrap"'
    finding = only(sheet, step)
    assert (finding.code, finding.grave) == ("narrowest-first", False)
    assert not read(sheet, step.replace("about 8", "about 11").replace("6", "8")).findings


def test_a_piece_larger_than_the_page_is_remarked() -> None:
    sheet = A + 'size = "13 x 12"'
    step = '[[step]]\ntrim = "A"\nmarks = ["12 1/2"]\ngives = "scrap"\nrest = "wide"'
    finding = only(sheet, '[[piece]]\nname = "wide"\nto = 1', step)
    assert (finding.code, finding.grave) == ("larger-than-page", False)
    assert read(sheet, '[[piece]]\nname = "wide"\nto = 1', step).plan is not None


# What belongs together


def test_ties_are_found_from_both_ends() -> None:
    plan = plan_of(
        A, B,
        '[[piece]]\nname = "boat"\nto = 1\ncompletes = "band"',
        '[[piece]]\nname = "shadow"\nto = 1\nbacks = "boat"\ntraced_from = "boat"',
        '[[piece]]\nname = "band"\nto = 1\ngoes_with = ["A", "offcut", "dots"]',
        '[[set_aside]]\nname = "dots"',
        '[[embellishment]]\nname = "buoy"\ncolour = "red"\nwith = "band"',
        '[[step]]\ntrim = "A"\nmarks = [6]\ngives = "panel"\nrest = "band"',
        '[[step]]\nslit = "band"\nfor = "shadow"',
        '[[step]]\ntrim = "B"\nmarks = [6]\ngives = "scrap"\nrest = "offcut"',
        '[[step]]\nfussy_cut = "panel"\ngives = "boat"',
        '[[step]]\ntrace = "offcut"\naround = "boat"\ngives = "shadow"',
    )  # fmt: skip

    def ties(name: str) -> list[tuple[str, str]]:
        return [(PieceWords(plan, Manner()).tie(each), each.other) for each in plan.related(name)]

    assert ties("boat") == [
        ("completes", "band"),
        ("is backed by", "shadow"),
        ("is later traced around for", "shadow"),
    ]
    assert ties("shadow") == [
        ("backs", "boat"),
        ("is traced from", "boat"),
        ("is threaded through", "band"),
    ]
    assert ("is completed by", "boat") in ties("band")
    assert ("has a slit for", "shadow") in ties("band")
    assert ("is filed with", "buoy") in ties("band") and ties("buoy") == [("is filed with", "band")]
    for other in ("A", "offcut", "dots"):
        assert ties(other) == [("goes with", "band")]
    assert ties("B") == []
    for name, each in [(n, r) for n in plan.ties for r in plan.related(n)]:
        back = [r for r in plan.related(each.other) if r.other == name and r.tie is each.tie]
        assert [r.back for r in back] == [each.tie is not Tie.GOES_WITH and not each.back]


def test_a_companion_comes_with_each_copy_of_its_piece() -> None:
    plan = plan_of(
        A,
        '[[piece]]\nname = "band"\nto = "1 to 1, 1 to 3"',
        '[[embellishment]]\nname = "buoy"\ncolour = "red"\nwith = "band"',
        '[[step]]\ntrim = "A"\nmarks = [6]\ngives = "band"\nrest = "band"',
    )
    assert plan.companions == {"A/1": ("buoy#1",), "A/r": ("buoy#2",)}
    assert plan.wanted == (2, 2)
