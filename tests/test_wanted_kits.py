"""What a kit wants: of its own cuts, or of a draft; and the plan pasted back into it."""

from __future__ import annotations

import tomllib
from collections import Counter
from fractions import Fraction
from typing import Any

import pytest
import tomli_w
from hypothesis import given, settings

from model.folders import demo_kit
from model.plan import Plan, Role
from model.planning.checking import check_plan, count_figures
from model.planning.planner import best_plan
from model.planning.task import CutPlan, Task
from model.planning.wanted import Alone, Choices, Place, Wanted
from model.planning.wanted_lines import toml_of_plan
from model.planning.wanted_reading import read_wanted
from model.planning.wanted_told import places_on_sheets, tell
from model.reading import read_kit
from tests.cut_plans import INCH, Cutter, board, cut_trees, inches, want
from tests.kit_of_plan import read_plan

DEMOS = ("postcard", "harbour", "cards")
HEAD = 'dryfit = 1\ntitle = "T"\npage = "12 x 12"\npages = 4\n'
DRAFT = (
    HEAD
    + '[[sheet]]\nname = "A"\nface = "navy"\n[[sheet]]\nname = "B"\nface = "tan"\n'
    + '[[sheet]]\nname = "base"\nface = "tan"\nbase = 1\n'
    + '[[piece]]\nname = "mat"\nsize = "4 x 6"\nto = "2 to page 1, 1 to 3·4"\npaper = "A"\n'
    + '[[piece]]\nname = "strip"\nsize = "12 x 2"\nto = "page 3"\npaper = "B"\n'
)


def demo(name: str) -> str:
    path = demo_kit(name)
    assert path is not None
    return path.read_text(encoding="utf-8")


def read(text: str, **choices) -> Wanted:
    wanted, findings = read_wanted(text, "kit", Choices(**choices))
    assert wanted is not None, [str(f) for f in findings]
    return wanted


def told(text: str) -> list[str]:
    wanted, findings = read_wanted(text, "kit", Choices())
    assert wanted is None
    return [str(finding) for finding in findings]


def pieces(plan: Plan) -> Counter[str]:
    """What the table files, and strips that hands work on."""
    return Counter(
        item.name
        for item in plan.items.values()
        if item.role in (Role.PIECE, Role.STRIP) and not plan.transient(item.id)
    )


def compiled(text: str) -> Plan:
    got = read_kit(text)
    assert got.plan is not None, [str(f) for f in got.findings]
    return got.plan


# From a kit's own cuts


@pytest.mark.parametrize("name", DEMOS)
def test_the_own_loads_of_a_kit_are_a_plan_that_the_checker_finds_right(name: str) -> None:
    wanted = read(demo(name))
    assert wanted.yours is not None and wanted.yours.loads
    assert check_plan(wanted.task, wanted.yours) == ()


@pytest.mark.parametrize("name", DEMOS)
def test_figures_of_the_own_loads_are_those_of_the_compiled_kit(name: str) -> None:
    wanted, plan = read(demo(name)), compiled(demo(name))
    assert wanted.yours is not None and wanted.yours.figures is not None
    sheets = {sheet for sheets in wanted.sheets.values() for sheet in sheets}
    scraps = [i for i in plan.items.values() if i.role is Role.SCRAP and i.sheet in sheets]
    cuts = [step for step in plan.steps if step.blade and step.sheet in sheets]
    assert wanted.yours.figures.sheets.value == len(sheets)
    assert wanted.yours.figures.scraps.value == len(scraps)
    assert sum(len(load.marks) for load in wanted.yours.loads) == len(cuts)


def test_what_is_left_alone_and_why() -> None:
    assert read(demo("harbour")).alone == (
        Alone("D", "pictures"),
        Alone("F", "printed lines"),
        Alone("H", "pictures"),
        Alone("M", "by hand"),
        Alone("N", "by hand"),
    )
    assert read(demo("postcard")).alone == (Alone("puddle", "by hand"),)


def test_papers_that_are_alike_are_planned_together() -> None:
    wanted = read(demo("harbour"))
    assert wanted.sheets["B"] == ("B", "J")
    of = {w.name: w for w in wanted.task.wants}
    assert of["navy mat"].paper == of["navy photo mat"].paper


def test_sizes_slack_and_whether_it_may_be_turned_come_from_the_kit() -> None:
    of = {w.name: w for w in read(demo("harbour")).task.wants}
    assert (of["rope mat"].width, of["rope mat"].height) == inches(4, 6)
    assert of["rope mat"].smaller_by == INCH / 8
    assert of["rope mat"].turnable and not of["flag border"].turnable
    assert (of["flag border"].width, of["flag border"].height) == inches(12, 2)
    assert (of["navy mat"].count, of["card"].count) == (1, 6)
    freed = read(demo("harbour"), turnable=True)
    assert all(w.turnable for w in freed.task.wants)
    assert freed.freed == ("flag border", "flag mat")


def test_where_copies_are_for() -> None:
    places = read(demo("harbour")).places
    assert places["rope mat"] == (Place("3·4", 3), Place("3·4", 4), Place("9·10", 9))
    assert places["teal band"] == (Place("3·4", 3), Place("3·4", 4))
    assert places["shadow stock"] == ()


def test_a_sheet_that_is_torn_first_is_left_alone() -> None:
    text = (
        HEAD + '[[sheet]]\nname = "A"\nface = "navy"\n[[sheet]]\nname = "B"\nface = "tan"\n'
        '[[step]]\ntear = "A"\nwidths = [4]\ngives = "x"\nrest = { name = "left", to = 1 }\n'
        '[[step]]\ntrim = "x"\nmarks = [2]\ngives = { name = "a", to = 1 }\nrest = "scrap"\n'
        '[[step]]\ntrim = "B"\nmarks = [6]\ngives = { name = "b", to = "page 2" }\nrest = "c"\n'
        '[[step]]\ntear = "c"\nwidths = [2]\ngives = { name = "d", to = 1 }\nrest = "scrap"\n'
    )
    wanted = read(text)
    assert wanted.alone == (Alone("A", "by hand"),)
    # What is torn later is a strip that the trimmer has to make.
    assert [(w.name, w.width / INCH, w.height / INCH) for w in wanted.task.wants] == [
        ("b", 6, 12), ("c", 6, 12),
    ]  # fmt: skip
    assert wanted.on_the_spot == {"b": "1 to page 2"}


def test_a_strip_that_is_torn_and_trimmed_again_leaves_its_sheet_alone() -> None:
    text = (
        HEAD + '[[sheet]]\nname = "A"\nface = "navy"\n[[sheet]]\nname = "B"\nface = "tan"\n'
        '[[step]]\ntrim = "A"\nmarks = [8]\ngives = { name = "a", to = 1 }\nrest = "x"\n'
        '[[step]]\ntear = "x"\nwidths = [4]\ngives = "y"\nrest = { name = "left", to = 1 }\n'
        '[[step]]\ntrim = "y"\nmarks = [2]\ngives = { name = "b", to = 1 }\nrest = "scrap"\n'
        '[[step]]\ntrim = "B"\nmarks = [6]\ngives = { name = "c", to = 2 }\nrest = "scrap"\n'
    )
    wanted = read(text)
    assert wanted.alone == (Alone("A", "by hand"),)
    assert [w.name for w in wanted.task.wants] == ["c"]


BESIDE = (
    HEAD
    + 'scraps = 3\n[[sheet]]\nname = "A"\nface = "navy"\n[[sheet]]\nname = "B"\nface = "tan"\n'
    + '[[step]]\nknife = "A"\nmarks = [8, 4]\ngives = ["scrap", "strip 1"]\nrest = "scrap"\n'
    + '[[step]]\ntear = "strip 1"\nwidths = [2]\ngives = { name = "t", to = 1 }\n'
    + 'rest = { name = "u", to = 2 }\n'
    + '[[step]]\ntrim = "B"\nmarks = [6]\ngives = "half"\nrest = { name = "h", to = 3 }\n'
    + '[[step]]\ntrim = "half"\nturn = "quarter"\nmarks = [7]\n'
    + 'gives = { name = "k", to = 4 }\nrest = "scrap"\n'
)


def test_scraps_and_names_of_what_is_left_alone_are_counted_in() -> None:
    wanted = read(BESIDE)
    assert wanted.scraps_beside == 2
    text = toml_of_plan(tell(wanted, best_plan(wanted.task)), BESIDE)
    assert "# At the top of the kit: scraps = 3\n" in text
    assert '"strip 1"' not in text
    compiled(pasted(BESIDE, wanted, best_plan(wanted.task)))


# Drafts


def test_a_kit_without_steps_is_planned_from_its_pieces() -> None:
    wanted = read(DRAFT)
    assert [(w.name, w.count, w.paper, w.turnable) for w in wanted.task.wants] == [
        ("mat", 3, "A", True), ("strip", 1, "B", True),
    ]  # fmt: skip
    assert [b.name for b in wanted.task.boards] == ["A", "B"]
    assert wanted.places["mat"] == (Place("1·2", 1), Place("1·2", 1), Place("3·4", None))
    assert wanted.yours is None and wanted.kit


def test_a_draft_whose_sheets_are_of_one_paper_need_not_name_it() -> None:
    text = DRAFT.replace('paper = "A"\n', "").replace('paper = "B"\n', "")
    text = text.replace('name = "B"\nface = "tan"', 'name = "B"\npaper = "navy"').replace(
        'name = "A"\nface = "navy"', 'name = "A"\npaper = "navy"'
    )
    text += '[[paper]]\nname = "navy"\nface = "navy"\ndirectional = true\n'
    wanted = read(text)
    assert {(w.paper, w.turnable) for w in wanted.task.wants} == {("navy", False)}
    assert [(b.name, b.count) for b in wanted.task.boards] == [("A", 2)]


def test_a_draft_may_speak_of_strips_that_its_steps_will_make() -> None:
    read(DRAFT.replace('size = "12 x 2"', 'size = "12 x 2"\ngoes_with = "some strip"'))


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (('size = "4 x 6"\n', ""), 'line 15: nothing says how large "mat" is; add its size'),
        (('to = "page 3"\n', ""), 'line 20: nothing says how many of "strip" there are'),
        (('paper = "A"', 'paper = "AA"'), 'line 19: no paper is called "AA"'),
        (('paper = "A"\n', ""), 'line 15: it is not said from which paper "mat" is cut'),
        (('"12 x 2"', '"13 x 2"'), 'line 20: "strip" measures 13 x 2 in, more than any'),
        (("[[piece]]", "[[pice]]"), "line 15: unknown key"),
    ],
)
def test_what_is_wrong_with_a_draft_is_told(change: tuple[str, str], said: str) -> None:
    found = told(DRAFT.replace(*change))
    assert found and found[0].startswith(said), found


def test_a_kit_with_broken_steps_is_told_as_by_check() -> None:
    text = demo("postcard").replace('marks = ["6 1/2", 5]', "marks = [5, 6]", 1)
    assert told(text) == [str(f) for f in read_kit(text).findings]


def test_a_stated_paper_is_checked_against_the_cuts() -> None:
    good = demo("postcard").replace(
        'name = "umbrella mat"', 'name = "umbrella mat"\npaper = "umbrellas"'
    )
    compiled(good)
    bad = good.replace('paper = "umbrellas"', 'paper = "mustard"')
    (line,) = [str(f) for f in read_kit(bad).findings]
    assert '"umbrella mat" is cut from "umbrellas", but its paper is stated as "mustard"' in line


# The plan pasted back


def pasted(text: str, wanted: Wanted, plan: CutPlan) -> str:
    """A kit with the steps of a plan instead of those that it replaces."""
    raw: dict[str, Any] = tomllib.loads(text)
    new: dict[str, Any] = tomllib.loads(toml_of_plan(tell(wanted, plan), text))
    gone = {where[1] for wheres in wanted.replaced.values() for where in wheres}
    kept = [step for at, step in enumerate(raw.get("step", [])) if at not in gone]
    raw["step"] = new["step"] + kept
    raw["piece"] = raw.get("piece", []) + new.get("piece", [])
    raw.pop("order", None)
    if wanted.scraps_beside is not None and plan.figures is not None:
        raw["scraps"] = wanted.scraps_beside + plan.figures.scraps.value
    return tomli_w.dumps(raw)


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("turnable", [False, True])
def test_the_steps_of_a_plan_fit_into_the_kit(name: str, turnable: bool) -> None:
    text = demo(name)
    wanted = read(text, turnable=turnable)
    plan = best_plan(wanted.task, 200_000)
    assert check_plan(wanted.task, plan) == ()
    if turnable:
        for piece in wanted.freed:
            text = text.replace(f'name = "{piece}"\nto', f'name = "{piece}"\nturnable = true\nto')
    kit = compiled(pasted(text, wanted, plan))
    assert pieces(kit) == pieces(compiled(demo(name)))
    assert kit.wanted == compiled(demo(name)).wanted


def test_the_steps_of_a_draft_make_it_a_kit() -> None:
    wanted = read(DRAFT)
    plan = best_plan(wanted.task)
    text = DRAFT + toml_of_plan(tell(wanted, plan), DRAFT)
    assert pieces(compiled(text)) == {"mat": 3, "strip": 1}


def test_what_changes_beside_the_steps_is_told() -> None:
    text = demo("harbour")
    wanted = read(text)
    lines = toml_of_plan(tell(wanted, best_plan(wanted.task, 200_000)), text).split("\n")
    assert lines[0].startswith("# A Week at the Harbour: ")
    assert lines[1].startswith("# At the top of the kit: scraps = ")
    assert "sand square" in lines[2] and "single copies" in lines[2]
    at = text.split("\n").index('trim = "A"')  # its [[step]] stands a line above
    assert any(line.startswith(f"# Sheet A, instead of the steps at lines {at} ") for line in lines)


def test_a_sheet_that_is_not_needed_is_told() -> None:
    text = DRAFT.replace('name = "B"\nface = "tan"', 'name = "B"\npaper = "navy"').replace(
        'name = "A"\nface = "navy"', 'name = "A"\npaper = "navy"'
    )
    text = text.replace('paper = "A"\n', "").replace('paper = "B"\n', "")
    text += '[[paper]]\nname = "navy"\nface = "navy"\n'
    wanted = read(text)
    told_ = tell(wanted, best_plan(wanted.task))
    assert told_.idle == ("B",)
    assert "# Take out, since they need not be cut: sheet B\n" in toml_of_plan(told_, text)


# How it is told


def test_a_plan_is_told_in_the_order_of_the_kit_and_stays_right() -> None:
    wanted = read(demo("harbour"))
    plan = best_plan(wanted.task, 200_000)
    told_ = tell(wanted, plan)
    assert [sheet.name for sheet in told_.sheets] == ["A", "B", "C", "E", "G", "I", "J", "K", "L"]
    assert check_plan(wanted.task, told_.plan) == ()
    assert count_figures(wanted.task, told_.plan) == count_figures(wanted.task, plan)


def test_a_square_sheet_lies_upright_unless_its_pieces_have_an_up() -> None:
    for turnable in (True, False):
        task = Task((want("a", 12, 4, 3, turnable=turnable),), (board("s", 12, 12),))
        cutter = Cutter(task)
        cutter.want("a", *cutter.cut(cutter.begin("s"), *inches(8, 4), turned=True))
        plan = cutter.plan()
        assert check_plan(task, plan) == ()
        wanted = Wanted(task, read(DRAFT).unit, "t", {"s": ("s",)}, {"a": "a"})
        told_ = tell(wanted, plan)
        assert told_.plan.loads[0].turned is not turnable
        assert check_plan(task, told_.plan) == ()


def test_what_costs_less_is_better_and_the_same_is_the_same() -> None:
    wanted = read(demo("postcard"))
    assert wanted.yours is not None
    assert tell(wanted, wanted.yours).better == 0
    harbour = read(demo("harbour"))
    assert tell(harbour, best_plan(harbour.task)).better == 1  # fewer strips from the pile


@settings(max_examples=40, deadline=None)
@given(cut_trees())
def test_pieces_lie_where_the_engine_of_the_table_puts_them(tree: tuple[Task, CutPlan]) -> None:
    task, plan = tree
    kit = read_plan(task, plan)
    boxes = places_on_sheets(plan)
    cut = {load.takes for load in plan.loads}
    engine = Counter(
        (item.stock.box, item.role is Role.SCRAP)
        for item in kit.items.values()
        if item.stock and item.role in (Role.PIECE, Role.SCRAP)
    )
    whole = {number for number, _ in plan.sheets} - cut
    assert engine == Counter(
        (boxes[number], part.scrap)
        for number, part in plan.parts.items()
        if number not in cut | whole
    ) + Counter(
        (item.stock.box, False)
        for item in kit.items.values()
        if item.stock and item.kind and item.kind.source.value == "pre-cut"
    )


def test_pieces_of_a_sheet_fill_it() -> None:
    wanted = read(demo("cards"))
    told_ = tell(wanted, best_plan(wanted.task, 100_000))
    for sheet in told_.sheets:
        area = sum((box.area for box in sheet.ends.values()), Fraction(0))
        assert area == sheet.board.width * sheet.board.height
