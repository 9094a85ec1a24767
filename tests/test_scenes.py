"""The pictures of a run: the right paper, the right way round, for either hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from model.folders import demo_folder
from model.geometry import SIDES, Box, Side
from model.manner import Manner
from model.plan import Plan, Role, Step, StepKind
from model.reading import load_kit, read_kit
from model.scene import Block, Scene
from model.scenes import scene_of_item, scene_of_step
from model.signs import holds, reaches
from tui.widgets.drawing import paint

INCH = Fraction(127, 5)
RIGHT, LEFT = Manner(), Manner(left_handed=True)
KITS = sorted(demo_folder().glob("*.toml"))
HEAD = 'dryfit = 1\ntitle = "T"\npage = "12 x 12"\npages = 2\n'


def demo(path: object) -> Plan:
    plan = load_kit(path).plan  # type: ignore[arg-type]
    assert plan is not None
    return plan


def plan_of(text: str) -> Plan:
    got = read_kit(HEAD + text)
    assert got.plan is not None, [str(f) for f in got.findings]
    return got.plan


def scene(plan: Plan, step: Step, manner: Manner = RIGHT) -> Scene:
    got = scene_of_step(plan, step, manner)
    assert got is not None
    return got


OVER: dict[str, Side] = {"top": "bottom", "bottom": "top", "left": "right", "right": "left"}


def swapped(side: Side, pair: tuple[str, ...]) -> Side:
    return OVER[side] if side in pair else side


def swap(place: str, *pair: str) -> str:
    """A side or corner with the words of a pair changed for one another."""
    return " ".join(OVER[word] if word in pair else word for word in place.split())


def as_drawn(block: Block, whole: Scene) -> Block:
    """What a widget makes of a mirrored scene: places change left and right, paper does not."""
    if not whole.mirrored:
        return block
    return turned(block, whole, ("left", "right"), x=True, y=False)


def turned(block: Block, whole: Scene, pair: tuple[str, ...], *, x: bool, y: bool) -> Block:
    return replace(
        block,
        x=whole.width - block.x - block.w if x else block.x,
        y=whole.height - block.y - block.h if y else block.y,
        up=swapped(block.up, pair) if block.up else None,
        torn=frozenset(swapped(side, pair) for side in block.torn),
        signs=tuple((swap(at, *pair), name) for at, name in block.signs),
    )


@pytest.mark.parametrize("path", KITS, ids=lambda path: path.stem)
def test_the_left_hand_cuts_the_same_pieces_from_paper_turned_by_half(path: object) -> None:
    """Paper can't be mirrored: what the picture shows is the right-handed one, turned by 180.

    That follows from geometry alone: mirroring twice, left to right and top to bottom, is a
    half turn, and only a turn is something that hands can do to paper.
    """
    plan = demo(path)
    seen = 0
    for step in plan.steps:
        if not step.load:
            continue
        right, left = scene(plan, step), scene(plan, step, LEFT)
        drawn = [as_drawn(block, left) for block in left.blocks]
        wanted = [turned(b, right, SIDES, x=True, y=True) for b in right.blocks]
        assert drawn == wanted
        assert (left.cut, left.later, left.ruler) == (right.cut, right.later, right.ruler)
        seen += any(block.up or block.signs or block.torn for block in drawn)
    assert seen  # the kit has paper that shows which way it lies


def test_what_is_looked_at_by_itself_is_upright_for_either_hand() -> None:
    plan = demo(demo_folder() / "harbour.toml")
    for item in plan.items.values():
        assert scene_of_item(plan, item, LEFT) == scene_of_item(plan, item, RIGHT)


def test_the_top_is_shown_of_a_directional_print_and_of_a_cut_apart() -> None:
    plan = plan_of(
        '[[sheet]]\nname = "A"\nface = "tan"\nkind = "print"\ncut_apart = true\n'
        '[[piece]]\nname = "a"\nto = 1\n[[piece]]\nname = "b"\nto = 2\n'
        '[[step]]\ntrim = "A"\nlay = "top edge at left"\nmarks = ["line"]\ngives = "a"\nrest = "b"'
    )
    load = next(step for step in plan.steps if step.kind is StepKind.LOAD)
    assert [block.up for block in scene(plan, load).blocks] == ["left"]
    cut = plan.steps[load.index + 1]
    assert [block.up for block in scene(plan, cut).blocks] == ["left", "left"]
    piece = scene_of_item(plan, plan.items["A/1"], RIGHT)
    assert piece is not None and piece.blocks[0].up == "top"
    assert piece.width > piece.height  # a panel lies as it is read: the foot of the sheet


def test_plain_paper_shows_no_top() -> None:
    plan = demo(demo_folder() / "postcard.toml")
    for step in plan.steps:
        got = scene_of_step(plan, step, RIGHT)
        assert got is None or all(block.up is None and not block.signs for block in got.blocks)


def test_a_whole_sheet_lies_as_it_is_given() -> None:
    plan = demo(demo_folder() / "cards.toml")
    sheet = scene_of_item(plan, plan.items["D"], RIGHT)
    assert sheet is not None and [sheet.width, sheet.height] == [70, 210]
    label = next(i for i in plan.items.values() if i.name == "greeting label")
    piece = scene_of_item(plan, label, RIGHT)
    assert piece is not None and [piece.width, piece.height] == [70, 30]  # long side along


def test_a_landmark_is_shown_on_the_part_that_holds_it() -> None:
    plan = demo(demo_folder() / "harbour.toml")
    by_id = {step.id: step for step in plan.steps}
    load, cut = scene(plan, by_id["D/load"]), scene(plan, by_id["D/1"])
    assert ("bottom left", "lighthouse") in load.blocks[0].signs
    bed, off = cut.blocks
    assert bed.signs == (("bottom left", "lighthouse"),)
    assert off.apart and off.signs == (("right", "rowing boats"),)
    # Turned by a quarter, the sky stands upright.
    (sky,) = scene(plan, by_id["D/r/load"]).blocks
    assert sky.signs == (("top left", "lighthouse"),) and sky.up == "top"
    bed, off = scene(plan, by_id["D/r/1"]).blocks
    assert bed.name == "lighthouse panel" and bed.signs == sky.signs and not off.signs


def test_the_reverse_hides_landmarks() -> None:
    plan = plan_of(
        '[[sheet]]\nname = "A"\nface = "tan"\nreverse = "navy"\nkind = "print"\n'
        'landmarks = { "mill" = "top left" }\n'
        '[[step]]\ntrim = "A"\nup = "reverse"\nmarks = [6]\ngives = "scrap"\nrest = "scrap"'
    )
    load = next(step for step in plan.steps if step.kind is StepKind.LOAD)
    (block,) = scene(plan, load).blocks
    assert not block.signs and not block.printed


def test_a_strip_off_the_edge_does_not_take_a_landmark_along() -> None:
    whole = Box(Fraction(0), Fraction(0), 12 * INCH, 12 * INCH)
    strip = replace(whole, x=11 * INCH, w=INCH)
    rest = replace(whole, w=11 * INCH)
    assert reaches(strip, whole, "bottom right") and not holds(strip, whole, "bottom right")
    assert holds(rest, whole, "bottom right")
    for place in ("top", "right", "bottom", "left", "top left", "bottom right"):
        assert holds(whole, whole, place) and reaches(whole, whole, place)


@pytest.mark.parametrize("edge", SIDES)
def test_what_is_torn_off_lies_at_the_right_with_its_torn_edge_to_the_cut(edge: Side) -> None:
    plan = plan_of(
        '[[sheet]]\nname = "A"\nface = "tan"\nsize = "8 x 12"\n'
        '[[piece]]\nname = "a"\nto = 1\n[[piece]]\nname = "b"\nto = 2\n'
        f'[[step]]\ntear = "A"\nedge = "{edge}"\nwidths = [2]\ngives = "a"\nrest = "b"'
    )
    tear = plan.steps[-1]
    got = scene(plan, tear)
    bed, off = got.blocks
    assert bed.torn == {"right"} and off.torn == {"left"} and off.apart
    assert got.cut is not None and got.width - got.cut == 2 * INCH
    assert got.width == (12 if edge in ("top", "bottom") else 8) * INCH
    assert all(item.role is not Role.STRIP for item in plan.items.values())


@pytest.mark.parametrize("ascii", [False, True])
def test_landmarks_are_written_where_they_are_seen(ascii: bool) -> None:
    plan = demo(demo_folder() / "harbour.toml")
    load = plan.steps[plan.step_at["D/load"]]
    for manner, first_row, last_column in ((RIGHT, False, False), (LEFT, True, True)):
        rows = [strip.text for strip in paint(scene(plan, load, manner), 60, 20, ascii=ascii)]
        (row,) = (number for number, text in enumerate(rows) if "lighthouse" in text)
        column = rows[row].index("lighthouse")
        paper = [n for n, text in enumerate(rows) if "top" in text or "·" in text or "." in text]
        assert (row == min(paper)) is first_row and (row == max(paper)) is not first_row
        middle = sum(i for i, char in enumerate(rows[row]) if char in "│|") / 2
        assert (column > middle) is last_column
        assert sum("12" in text and ("×" in text or "x" in text) for text in rows) == 1


def test_a_landmark_gives_way_where_there_is_no_room() -> None:
    plan = demo(demo_folder() / "harbour.toml")
    load = plan.steps[plan.step_at["D/load"]]
    shown = "\n".join(strip.text for strip in paint(scene(plan, load), 14, 6))
    assert "lighthouse" not in shown and "12 × 12" in shown


@pytest.mark.parametrize("stack", ["face down", "face up"])
def test_the_stack_is_drawn_as_it_is_laid(stack: str) -> None:
    """Face down one sees the reverse, whatever side is used in the end."""
    plan = plan_of(
        f'''stack = "{stack}"
[[sheet]]
name = "A"
kind = "print"
face = {{ name = "dots", colour = "salmon" }}
reverse = "white"
[[sheet]]
name = "base"
face = "navy"
reverse = "tan"
base = 1
use = "reverse"
[[step]]
trim = "A"
marks = [6]
gives = {{ name = "a", to = "1·2" }}
rest = {{ name = "b", to = "1·2" }}
'''
    )
    for step in plan.steps:
        if step.kind is StepKind.STACK:
            (block,) = scene(plan, step).blocks
            paper = plan.sheets[step.sheet].paper
            assert block.rgb == paper.side("reverse" if stack == "face down" else "face").rgb
            assert block.printed == (stack == "face up" and step.sheet == "A")


@pytest.mark.parametrize(
    ("edge", "stays"),
    [("right", ["moor"]), ("left", ["sun"]), ("top", ["west"]), ("bottom", ["east"])],
)
def test_what_is_left_on_the_bed_shows_what_is_printed_on_it(edge: str, stays: list[str]) -> None:
    """Whichever way the paper lies, what came off has taken its landmarks along."""
    plan = plan_of(
        f"""[[sheet]]
name = "A"
kind = "print"
face = {{ name = "hills", colour = "salmon" }}
landmarks = {{ sun = "top", moor = "bottom", west = "left", east = "right" }}
[[step]]
trim = "A"
lay = "top edge at {edge}"
marks = [5, 4]
gives = [{{ name = "a", to = "1·2" }}, "scrap"]
rest = {{ name = "b", to = "1·2" }}
"""
    )
    step = plan.steps[plan.step_at["A/1"]]
    bed = next(block for block in scene(plan, step).blocks if not block.apart)
    assert [name for _, name in bed.signs] == stays
