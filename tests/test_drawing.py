"""The drawing: exact widths, true proportions, and that it says what colour alone must not."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from textual.strip import Strip

from model.colour import contrast
from model.ruler import GRADUATIONS
from model.scene import Block, Role, Scene
from tui.widgets.drawing import paint
from tui.widgets.paper import inks

INCH = Fraction(127, 5)
Rgb = tuple[int, int, int]
RED, TEAL, SAND = (200, 40, 40), (20, 130, 130), (240, 230, 200)
SIDES = ("top", "right", "bottom", "left")


def block(x: Any, y: Any, w: Any, h: Any, name: str = "", **more: Any) -> Block:
    """A block in inches."""
    rest: dict[str, Any] = {
        "size": "",
        "role": "piece",
        "rgb": RED,
        "printed": False,
        "up": None,
        "torn": frozenset(),
        "apart": False,
    } | more
    x, y, w, h = (Fraction(each) * INCH for each in (x, y, w, h))
    return Block(x, y, w, h, name, **rest)


def load(width: Any, height: Any, mark: Any, **more: Any) -> Scene:
    """A sheet with a cut: red paper stays, teal comes off; measures in inches."""
    width, height, mark = Fraction(width), Fraction(height), Fraction(mark)
    rest: dict[str, Any] = {
        "later": (),
        "ruler": GRADUATIONS["1/16 in"],
        "schematic": False,
        "mirrored": False,
        "held": "left",
    } | more
    blocks = (
        block(0, 0, mark, height, "sheet left", role="rest"),
        block(mark, 0, width - mark, height, "border strip", size="1½ × 12", rgb=TEAL, apart=True),
    )
    return Scene(width * INCH, height * INCH, blocks, mark * INCH, **rest)


SIXTEENTHS = st.integers(1, 12 * 16).map(lambda count: Fraction(count, 16) * INCH)
PLACES = st.integers(0, 12 * 16).map(lambda count: Fraction(count, 16) * INCH)
NAMES = st.text(st.sampled_from("abc ½×紙\u0301\u200d\ufe0f👩\n"), max_size=20)
ANY_SIDE = st.sampled_from(SIDES)
BLOCKS = st.builds(
    Block,
    PLACES,
    PLACES,
    SIXTEENTHS,
    SIXTEENTHS,
    NAMES,
    NAMES,
    st.sampled_from(["whole", "piece", "strip", "scrap", "rest", "shape"]),
    st.tuples(*[st.integers(0, 255)] * 3),
    st.booleans(),
    st.none() | ANY_SIDE,
    st.frozensets(ANY_SIDE),
    st.booleans(),
)
SCENES = st.builds(
    Scene,
    SIXTEENTHS,
    SIXTEENTHS,
    st.lists(BLOCKS, max_size=5).map(tuple),
    st.none() | PLACES,
    st.lists(PLACES, max_size=3).map(tuple),
    st.none() | st.sampled_from(sorted(GRADUATIONS)).map(GRADUATIONS.__getitem__),
    st.booleans(),
    st.booleans(),
    ANY_SIDE,
)


@st.composite
def loads(draw: st.DrawFn) -> Scene:
    """Sheets of up to 12 x 12 in with one cut anywhere on them."""
    width = draw(st.integers(2, 12 * 16))
    mark = draw(st.integers(1, width - 1))
    height = draw(st.integers(1, 12 * 16))
    scene = load(Fraction(width, 16), Fraction(height, 16), Fraction(mark, 16))
    return replace(scene, mirrored=draw(st.booleans()), schematic=draw(st.booleans()))


def texts(strips: list[Strip]) -> list[str]:
    return [strip.text for strip in strips]


def papers(strips: list[Strip]) -> list[list[Rgb | None]]:
    """The background of every cell that has a colour of its own."""
    rows: list[list[Rgb | None]] = []
    for strip in strips:
        row: list[Rgb | None] = []
        for text, style, _ in strip:
            colour = style.bgcolor.get_truecolor() if style and style.bgcolor else None
            row += [tuple(colour) if colour else None] * cell_len(text)  # type: ignore[list-item]
        rows.append(row)
    return rows


def extent(rows: list[list[Rgb | None]], rgb: Rgb) -> tuple[int, int, int, int]:
    """Columns and rows from and up to where a colour is seen."""
    at = [(x, y) for y, row in enumerate(rows) for x, seen in enumerate(row) if seen == rgb]
    columns, lines = [x for x, _ in at], [y for _, y in at]
    return min(columns), max(columns) + 1, min(lines), max(lines) + 1


@given(SCENES, st.integers(-1, 130), st.integers(-1, 45), st.booleans())
def test_every_row_has_exactly_the_width(
    scene: Scene, width: int, height: int, ascii: bool
) -> None:
    strips = paint(scene, width, height, ascii=ascii)
    assert len(strips) == max(0, height)
    for strip in strips:
        assert sum(cell_len(segment.text) for segment in strip) == max(0, width)
        assert strip.cell_length == max(0, width)


@given(st.integers(0, 20), st.integers(0, 9))
def test_nothing_in_hand_is_an_empty_region(width: int, height: int) -> None:
    assert texts(paint(None, width, height)) == [" " * width] * height


@given(loads(), st.integers(6, 130), st.integers(1, 45))
def test_blocks_are_to_scale_within_one_cell(scene: Scene, width: int, height: int) -> None:
    """One scale must explain every block: columns of k mm, rows of 2 k mm."""
    rows = papers(paint(scene, width, height))
    low, high = 0.0, float("inf")
    extents = [extent(rows, part.rgb) for part in scene.blocks]
    thin = sum(right - left == 1 for left, right, _, _ in extents)
    for part, (left, right, top, bottom) in zip(scene.blocks, extents, strict=True):
        for length, cells, mm in ((part.w, right - left, 1), (part.h, bottom - top, 2)):
            # A strip thinner than a cell gets one all the same, from its neighbour
            # (found: 1/16 in beside 13/16 in, on 6 columns).
            lent = thin if mm == 1 and cells else 0
            low = max(low, float(length) / mm / (cells + 1 + lent))
            if cells > 1:
                high = min(high, float(length) / mm / (cells - 1))
            # a block of one cell may be smaller than that: it is kept visible
    assert low <= high


@given(loads(), st.integers(2, 130), st.integers(1, 45))
def test_thin_paper_stays_visible(scene: Scene, width: int, height: int) -> None:
    rows = papers(paint(scene, width, height))
    seen = {rgb for row in rows for rgb in row}
    assert {RED, TEAL} <= seen


@given(st.integers(1, 64), st.integers(1, 64), st.integers(1, 120), st.integers(1, 40))
def test_it_is_as_large_as_the_region_allows(w: int, h: int, width: int, height: int) -> None:
    bare = Scene(w * INCH, h * INCH, (block(0, 0, w, h),), None, (), None, False, False, "left")
    left, right, top, bottom = extent(papers(paint(bare, width, height)), RED)
    # Nothing holds paper that is in no trimmer, so no room goes to a held edge.
    assert right - left == width or bottom - top == height


@given(loads(), st.integers(24, 130), st.integers(8, 45))
def test_the_offcut_is_set_apart_and_the_cut_runs_in_the_gap(
    scene: Scene, width: int, height: int
) -> None:
    strips = paint(scene, width, height)
    rows = papers(strips)
    bed, off = extent(rows, RED), extent(rows, TEAL)
    stays, comes = (off, bed) if scene.mirrored else (bed, off)
    assert stays[1] + 2 <= comes[0]
    cut = comes[0] - 1 if scene.mirrored else stays[1]
    for y in range(bed[2], bed[3]):
        assert strips[y].text[cut] == "┃"  # every character here is one cell wide
    assert strips[1].text[cut] == "▼"


@given(SCENES, st.integers(1, 100), st.integers(1, 40))
def test_mirrored_is_the_mirror_image(scene: Scene, width: int, height: int) -> None:
    plain = papers(paint(replace(scene, mirrored=False), width, height))
    mirror = papers(paint(replace(scene, mirrored=True), width, height))
    assert mirror == [row[::-1] for row in plain]


@given(SCENES, st.integers(1, 100), st.integers(1, 40))
def test_ascii_is_ascii_but_for_names(scene: Scene, width: int, height: int) -> None:
    named = tuple(replace(part, name="a b", size="4 x 6") for part in scene.blocks)
    assert all(
        text.isascii()
        for text in texts(paint(replace(scene, blocks=named), width, height, ascii=True))
    )


def test_a_first_look() -> None:
    """What a first-time crafter must see: what stays, where the cut runs, what comes off."""
    scene = load(12, 12, Fraction(21, 2), later=(8 * INCH,))
    shown = texts(paint(scene, 44, 13))
    assert shown[0].split() == ["0", "2", "4", "6", "cut", "10½", "in"]
    assert "─ border strip" in shown[5] + shown[6]
    assert "1½ × 12" in shown[6] + shown[7]
    assert " ".join(shown[-1].split()) == "stays on the bed ┃ comes off"
    assert [row[0] for row in shown[2:12]] == list("   held   ")
    assert sum("╎" in row[1:20] for row in shown[2:12]) >= 8  # words may stand over it


def test_the_ruler_stands_where_its_numbers_say() -> None:
    """Ticks and numbers are columns of the same scale as the paper: 12 in over 48 columns."""
    sheet = Scene(
        12 * INCH,
        3 * INCH,
        (block(0, 0, 12, 3),),
        None,
        (),
        GRADUATIONS["1/16 in"],
        False,
        False,
        "left",
    )
    shown = paint(sheet, 49, 20)
    left, right, _, _ = extent(papers(shown), RED)
    assert right - left == 48
    for inch in range(12):
        number = str(inch)
        start = left + 4 * inch
        assert shown[0].text[start : start + len(number)] == number
        assert shown[1].text[start : start + 4] == "│ ╷ "  # a half between, no quarters


@pytest.mark.parametrize(("columns", "mark"), [(24, "."), (200, ".")])
def test_lines_of_the_ruler_grow_denser_with_room(columns: int, mark: str) -> None:
    sheet = Scene(
        1 * INCH, INCH / 8, (block(0, 0, 1, Fraction(1, 8)),), None, (), None, False, False, "left"
    )
    fine = replace(sheet, ruler=GRADUATIONS["1/16 in"])
    ticks = paint(fine, columns, 40)[1].text
    # An inch has 1 whole, 1 half and 14 finer lines in sixteenths, 6 in eighths.
    assert ticks.count(mark) == (14 if columns == 200 else 6)


def test_a_metric_ruler_has_metric_numbers() -> None:
    card = Scene(
        Fraction(210),
        Fraction(148),
        (block(0, 0, 1, 1, rgb=SAND),),
        Fraction(105),
        (),
        GRADUATIONS["1 mm"],
        False,
        False,
        "left",
    )
    top = paint(card, 100, 40)[0].text
    assert "cut 105 mm" in top
    assert {"0", "50", "150"} <= set(top.split())


@pytest.mark.parametrize(
    ("width", "words"), [(80, "not to scale: schematic"), (23, "schematic"), (9, "schematic")]
)
@pytest.mark.parametrize("height", [2, 3, 5, 8, 20])
def test_a_schematic_says_so_at_every_height(width: int, words: str, height: int) -> None:
    scene = load(12, 12, 11, schematic=True, ruler=None)
    assert words in paint(scene, width, height)[-1].text
    assert "10½" not in " ".join(texts(paint(scene, width, height)))


@pytest.mark.parametrize(("role", "word"), [("scrap", "scrap"), ("strip", "trim again")])
def test_roles_are_told_by_words(role: Role, word: str) -> None:
    scene = load(12, 12, 6)
    part = replace(scene.blocks[1], role=role, name="blue")
    shown = " ".join(texts(paint(replace(scene, blocks=(scene.blocks[0], part)), 80, 24)))
    assert word in shown
    assert ("/" in shown.replace("1½", "")) == (role == "scrap")


def test_a_role_that_the_name_says_is_not_said_twice() -> None:
    scene = load(12, 12, 6)
    part = replace(scene.blocks[1], role="scrap", name="scrap")
    shown = " ".join(texts(paint(replace(scene, blocks=(part,)), 80, 24)))
    assert shown.count("scrap") == 1


@pytest.mark.parametrize(
    ("up", "arrow", "mirrored"),
    [("top", "↑", "↑"), ("bottom", "↓", "↓"), ("left", "←", "→"), ("right", "→", "←")],
)
def test_a_print_says_which_way_is_up(up: Any, arrow: str, mirrored: str) -> None:
    sheet = block(0, 0, 12, 12, "waves", up=up, printed=True)
    scene = Scene(12 * INCH, 12 * INCH, (sheet,), None, (), None, False, False, "left")
    shown = "\n".join(texts(paint(scene, 60, 20)))
    assert f"{arrow} top" in shown
    assert shown.count(arrow) > 3  # in the texture too
    assert f"{mirrored} top" in "\n".join(texts(paint(replace(scene, mirrored=True), 60, 20)))
    plain = replace(scene, blocks=(replace(sheet, up=None, printed=False),))
    assert "top" not in "\n".join(texts(paint(plain, 60, 20)))


@pytest.mark.parametrize("side", SIDES)
def test_torn_edges_are_wavy(side: Any) -> None:
    sheet = block(0, 0, 12, 12, "sand", torn=frozenset([side]))
    scene = Scene(12 * INCH, 12 * INCH, (sheet,), None, (), None, False, False, "left")
    strips = paint(scene, 60, 20)
    left, right, top, bottom = extent(papers(strips), RED)
    rows = [text[left:right] for text in texts(strips)[top:bottom]]
    edges = {
        "top": rows[0],
        "bottom": rows[-1],
        "left": "".join(row[0] for row in rows),
        "right": "".join(row[-1] for row in rows),
    }
    for name, edge in edges.items():
        inner = edge[1:-1]
        assert (set(inner) <= set("≈~torn")) == (name == side)
        assert ("torn" in edge) == (name == side)


def test_a_tear_is_not_called_a_cut() -> None:
    scene = load(12, 12, 8)
    part = replace(scene.blocks[1], torn=frozenset(["left"]))
    top = paint(replace(scene, blocks=(scene.blocks[0], part)), 60, 20)[0].text
    assert "tear 8" in top and "cut" not in top


def test_a_sliver_that_stays_is_said_to_stay() -> None:
    """Its caption does not fit under it, so its label says so."""
    scene = load(12, 12, Fraction(3, 4))
    assert "a sheet left" in " ".join(texts(paint(scene, 60, 14)))
    assert "stays" in " ".join(texts(paint(scene, 60, 14)))


def test_thin_strips_side_by_side_have_letters_and_a_list() -> None:
    strips = tuple(
        block(x, 0, Fraction(1, 4), 12, name, size="¼ × 12")
        for x, name in ((0, "first"), (Fraction(1, 4), "second"), (Fraction(1, 2), "third"))
    )
    sheet = block(Fraction(3, 4), 0, Fraction(45, 4), 12, "the rest", size="11¼ × 12")
    scene = Scene(12 * INCH, 12 * INCH, (*strips, sheet), None, (), None, False, False, "left")
    shown = texts(paint(scene, 80, 24))
    listed = {row[49:].strip() for row in shown} - {""}
    assert listed == {"a first", "b second", "c third", "¼ × 12"}
    beside = "".join(row[:5] for row in shown)
    assert all(beside.count(key) == 1 for key in "abc")


@given(st.tuples(*[st.integers(0, 255)] * 3))
def test_words_on_paper_can_be_read_on_every_colour(rgb: Rgb) -> None:
    """WCAG 2 asks for a contrast of 4.5 : 1; black or white always reaches 4.58 = sqrt(21)."""
    style = inks(rgb).text
    assert style.color is not None and style.bgcolor is not None
    assert tuple(style.bgcolor.get_truecolor()) == rgb
    red, green, blue = style.color.get_truecolor()
    assert contrast((red, green, blue), rgb) >= 4.5


@given(loads(), st.integers(30, 130), st.integers(8, 45))
def test_the_names_are_always_somewhere(scene: Scene, width: int, height: int) -> None:
    """What comes off is named at every size at which a table is worth looking at."""
    shown = " ".join(" ".join(texts(paint(scene, width, height))).split())
    assert "border" in shown


@pytest.mark.parametrize("width", range(10, 60))
def test_a_mark_still_to_come_never_stands_on_the_far_edge(width: int) -> None:
    """A cut a hair from the loose edge once took the place of the outline."""
    sheet = replace(load(12, 12, Fraction(21, 2)), blocks=(block(0, 0, 12, 12, "", role="whole"),))
    scene = replace(sheet, cut=None, later=(Fraction(119, 10) * INCH,))
    shown = texts(paint(scene, width, 16))
    paper = [row.rstrip() for row in shown if "╎" in row and "┌" not in row and "└" not in row]
    assert paper
    assert all(row.endswith("│") for row in paper), shown
