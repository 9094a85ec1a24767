"""Pre-cut pieces, embellishments and ribbons, filed by count at the start."""

from __future__ import annotations

import pytest

from model.session import Session
from model.warning import Warning, WarningKind
from tests.oracle import check_all
from tests.tables import (
    P12,
    P34,
    P56,
    kinds,
    only_warning,
    table,
    up_to,
)


@pytest.fixture
def session() -> Session:
    return table()


def put_right(session: Session) -> Warning:
    """Put the one warning right."""
    warning = only_warning(session)
    assert session.put_right(warning).taken
    check_all(session)
    return warning


class TestFilling:
    def test_a_whole_count_into_the_wrong_pocket_is_one_warning(self, session: Session) -> None:
        up_to(session, "fill:white mat:3·4")
        told = session.file_into(P56)
        (warning,) = told.raised
        assert warning.kind is WarningKind.WRONG_POCKET
        assert warning.items == ("white mat#2", "white mat#3")
        put_right(session)
        assert session.state.where("white mat#2") == session.state.where("white mat#3") == P34
        assert session.undo().taken  # one press takes the whole answer back
        assert only_warning(session) == warning
        assert session.redo().taken
        assert session.state.warnings == {}

    def test_left_it_is_seen_as_too_many_for_the_pocket(self, session: Session) -> None:
        up_to(session, "fill:white mat:3·4")
        session.file_into(P56)
        session.next()  # the two that belong there
        assert session.state.right("white mat", P56) == 2
        assert only_warning(session).items == ("white mat#2", "white mat#3")
        assert session.state.belongs("white mat#2") == P34

    def test_two_counts_that_changed_places_are_right(self, session: Session) -> None:
        """Two of the same into each of two pockets: it does not matter which."""
        up_to(session, "fill:white mat:3·4")
        session.file_into(P56)
        assert kinds(session) == [WarningKind.WRONG_POCKET]
        session.file_into(P34)
        assert session.state.warnings == {}
        assert session.state.right("white mat", P34) == 2
        assert session.state.right("white mat", P56) == 2

    def test_ribbons_cut_to_length_do_not_change_places(self, session: Session) -> None:
        up_to(session, "fill:twill:1·2")
        session.file_into(P34)  # 18 in where 12 in is wanted
        session.file_into(P12)
        assert kinds(session) == [WarningKind.WRONG_POCKET] * 2
        for warning in list(session.state.warnings.values()):
            session.put_right(warning)
        assert session.state.where("twill#1") == P12
        assert session.state.where("twill#2") == P34
