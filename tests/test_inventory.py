"""Every pocket with every piece: filed, on the pile, to come, or gone astray."""

from __future__ import annotations

from model.alerts import places_of
from model.folders import demo_folder
from model.inventory import Inventory, Row
from model.session import Session
from tests.tables import P12, P34, P56, only_warning, table, to_the_end, until_in_hand, up_to


def row(session: Session, pocket: int, name: str) -> Row:
    holding = Inventory(session.plan).holding(session.state, pocket)
    (found,) = [row for row in holding.rows if row.item.name == name]
    return found


def names(session: Session, pocket: int) -> list[str]:
    return [r.item.name for r in Inventory(session.plan).holding(session.state, pocket).rows]


def test_all_is_to_come_at_first() -> None:
    session = table()
    assert names(session, P12) == [
        "white mat", "twill", "mat", "brass star", "plate", "disc",
    ]  # fmt: skip
    for name in names(session, P12):
        found = row(session, P12, name)
        assert (found.wanted, found.to_come, found.filed) == (1, 1, 0)


def test_where_a_piece_comes_from() -> None:
    session = table()
    assert row(session, P12, "mat").sources == ("A",)
    assert row(session, P12, "white mat").sources == ()
    mat = row(session, P12, "mat")
    assert mat.face is not None
    assert mat.face.rgb == (0, 0, 128)  # CSS Color 4, "navy"


def test_copies_on_the_pile_are_promised_in_the_order_of_filing() -> None:
    session = table()
    session.pace_by(True)
    up_to(session, "A/3")  # two of three mats are cut
    first, second = row(session, P12, "mat"), row(session, P56, "mat")
    assert (first.on_pile, first.to_come) == (1, 0)
    assert (second.on_pile, second.to_come) == (1, 1)


def test_a_copy_in_a_wrong_pocket_is_missing_where_it_belongs() -> None:
    session = table()
    until_in_hand(session, "A/1")
    session.file_into(P34)
    assert row(session, P12, "mat").elsewhere == 1
    holding = Inventory(session.plan).holding(session.state, P34)
    assert holding.strays == ("A/1", "brass star#1")
    session.put_right(only_warning(session))
    assert Inventory(session.plan).holding(session.state, P34).strays == ()
    found = row(session, P12, "mat")
    assert (found.filed, found.copies) == (1, ("A/1",))
    assert row(session, P12, "brass star").copies == ("brass star#1",)


def test_a_copy_among_the_scraps() -> None:
    session = table()
    until_in_hand(session, "A/1")
    session.scrap()
    assert row(session, P12, "mat").scrapped == 1


def test_what_is_cut_again_is_told_and_then_gone() -> None:
    session = table()
    assert row(session, P12, "plate").again
    up_to(session, "A/r/2/load")
    assert row(session, P34, "plate").filed == 1
    to_the_end(session)
    assert "plate" not in names(session, P12) + names(session, P34)


def test_what_is_left_out_is_gone_too() -> None:
    session = table()
    up_to(session, "B/r/load")
    assert "other quarter" in names(session, P56)
    session.skip()
    assert "other quarter" not in names(session, P56)


def test_bases_have_their_place() -> None:
    session = table((demo_folder() / "harbour.toml").read_text("utf-8"))
    holding = Inventory(session.plan).holding(session.state, 1)
    assert [sheet.name for sheet, _ in holding.bases] == ["navy base 3", "navy base 4"]


def test_the_pages_a_kind_is_for() -> None:
    session = table((demo_folder() / "harbour.toml").read_text("utf-8"))
    assert row(session, 1, "rope mat").pages == (3, 4)
    assert row(session, 4, "rope mat").pages == (9,)
    assert row(session, 0, "rope border").pages == ()  # only the pair is known


def test_a_stray_counts_where_its_warning_says_that_it_belongs() -> None:
    session = table((demo_folder() / "harbour.toml").read_text("utf-8"))
    for _ in range(60):
        session.next()
    item = session.state.due().item
    assert item is not None and session.plan.items[item].name == "rope mat"
    session.file_into(3)  # 7·8
    warning = only_warning(session)
    assert places_of(session.state, warning) == (1,)  # 3·4
    second = session.state.due().item
    assert second is not None and session.plan.items[second].name == "rope mat"
    assert (row(session, 1, "rope mat").elsewhere, row(session, 1, "rope mat").on_pile) == (1, 0)
    assert (row(session, 4, "rope mat").elsewhere, row(session, 4, "rope mat").on_pile) == (0, 1)
    assert session.state.belongs(second) == 4  # what is due goes where it counts, too
    session.next()
    assert places_of(session.state, warning) == (1,)
    session.put_right(warning)
    assert session.state.warnings == {} and session.state.where(item) == 1


def test_a_scrapped_piece_keeps_its_place_while_its_like_is_filed() -> None:
    session = table((demo_folder() / "harbour.toml").read_text("utf-8"))
    for _ in range(60):
        session.next()
    session.scrap()
    assert places_of(session.state, only_warning(session)) == (1,)
    assert row(session, 1, "rope mat").scrapped == 1
    session.next()
    assert places_of(session.state, only_warning(session)) == (1,)
