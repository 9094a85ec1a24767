"""Words on the paper of a drawing never stand on its lines, and no name is lost for it."""

from __future__ import annotations

import re
from itertools import chain

import pytest

from model.folders import demo_folder
from model.manner import Manner
from model.plan import StepKind
from model.reading import load_kit
from model.ruler import GRADUATIONS
from model.scene import Scene
from model.scenes import scene_of_item, scene_of_step
from tui.widgets import drawing
from tui.widgets.drawing import paint
from tui.widgets.labels import Outside, arrange
from tui.widgets.paper import FINE, Glyphs, said

LINES = set("┌┐┘└│─≈~╎┃▼╷")
"""Of outlines, torn edges, cuts and the ruler."""
SIZES = {
    "60x20": [(58, height) for height in (5, 6, 9, 11, 13)],
    "80x24": [(49, height) for height in (10, 13, 15, 18)],
    "120x40": [(78, height) for height in (15, 20, 26)],
}
"""Of terminals, and of what the table leaves for the picture in them: the longer what is said,
the fewer rows."""
KITS = [path.stem for path in sorted(demo_folder().glob("*.toml"))]


def scenes(kit: str, manner: Manner) -> list[tuple[str, Scene]]:
    """Every picture of a load, a cut, a tear, and of what is filed."""
    plan = load_kit(demo_folder() / f"{kit}.toml").plan
    assert plan is not None
    kinds = (StepKind.LOAD, StepKind.CUT, StepKind.TEAR)
    found = [(s.id, scene_of_step(plan, s, manner)) for s in plan.steps if s.kind in kinds]
    found += [(f"file {id}", scene_of_item(plan, i, manner)) for id, i in plan.items.items()]
    return [(name, scene) for name, scene in found if scene is not None]


def rows(scene: Scene, size: tuple[int, int]) -> list[str]:
    return [strip.text for strip in paint(scene, *size)]


def without_words(scene: Scene, size: tuple[int, int]) -> list[str]:
    """The same picture in the same place, with nothing written on or beside its paper."""

    def silent(scene: Scene, width: int, height: int, glyphs: Glyphs) -> object:
        fit, blocks, outside = arrange(scene, width, height, glyphs)
        return fit, blocks, Outside([], outside.keys)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(drawing, "arrange", silent)
        patch.setattr(drawing, "paint_words", lambda *_: None)
        return rows(scene, size)


def broken(scene: Scene, size: tuple[int, int]) -> list[str]:
    """The cells in which a line gave way to a word."""
    pairs = zip(without_words(scene, size), rows(scene, size), strict=True)
    return [
        f"row {y} column {x}: {line!r} became {seen!r}"
        for y, (bare, full) in enumerate(pairs)
        for x, (line, seen) in enumerate(zip(bare, full, strict=True))
        if line in LINES and seen != line and not (line == "╎" and in_landmark(scene, full, x))
    ]


def in_landmark(scene: Scene, row: str, column: int) -> bool:
    """Whether a cell is of a landmark's name, which stays at its edge of the paper."""
    names = {f" {name} " for block in scene.blocks for at, name in block.signs if at != "middle"}
    return any(
        match.start() <= column < match.end()
        for name in names
        for match in re.finditer(re.escape(name), row)
    )


def unnamed(scene: Scene, size: tuple[int, int]) -> list[str]:
    """The names that are neither written whole nor stood for by a letter that is explained."""
    bare, shown = without_words(scene, size), rows(scene, size)
    words = set("".join(" " if char in LINES else char for char in " ".join(shown)).split())
    _, blocks, outside = arrange(scene, *size, FINE)
    beside = " ".join(label.text for label in outside.labels)
    missing: list[str] = []
    for number, placed in enumerate(blocks):
        name, key = said(placed.block)[0], outside.keys.get(number, "")
        if not name:
            continue
        left, top, right, bottom = placed.rect
        if scene.mirrored:
            left, right = size[0] - right, size[0] - left
        cells = ((x, y) for y in range(top, bottom) for x in range(left, right))
        stands = key and any(bare[y][x] != shown[y][x] == key for x, y in cells)
        explained = stands and key in beside.split() and name.split()[0] in beside
        short = name.split()[0] in beside and FINE.more in beside  # next to its paper
        if not explained and not short and not set(name.split()) <= words:
            missing.append(name)
    return missing


@pytest.mark.parametrize("terminal", SIZES)
@pytest.mark.parametrize("kit", KITS)
@pytest.mark.parametrize("left_handed", [False, True], ids=["right", "left"])
def test_words_keep_off_the_lines(kit: str, terminal: str, left_handed: bool) -> None:
    for name, scene in scenes(kit, Manner(left_handed=left_handed)):
        for size in SIZES[terminal]:
            assert not broken(scene, size), (name, size)
            assert not unnamed(scene, size), (name, size)


@pytest.mark.parametrize("left_handed", [False, True], ids=["right", "left"])
@pytest.mark.parametrize("kit", KITS)
def test_the_ruler_says_its_unit_apart_from_its_numbers(kit: str, left_handed: bool) -> None:
    manner = Manner(ruler=GRADUATIONS["1 mm"], left_handed=left_handed)
    told = 0
    for name, scene in scenes(kit, manner):
        for size in chain(*SIZES.values()):
            ruler = rows(scene, size)[0]
            assert not re.search(r"\d(mm|cm|in)|(mm|cm|in)\d", ruler), (name, ruler)
            told += "mm" in ruler.split()
    assert told
