"""A crafter's settings: read with patience, written whole or not at all."""

from __future__ import annotations

import sys
import tomllib
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.length import Unit
from model.ruler import GRADUATIONS
from model.settings import UNITS, Settings, read_settings, save_settings, with_value


def test_no_file_and_no_place_are_no_trouble(tmp_path: Path) -> None:
    assert read_settings(None) == (Settings(), ())
    assert read_settings(tmp_path / "none.toml") == (Settings(), ())


@given(
    st.sampled_from(UNITS),
    st.sampled_from(["kit", *GRADUATIONS]),
    st.booleans(),
    st.booleans(),
    st.booleans(),
    st.dictionaries(
        st.text("abcxyz_-", min_size=4, max_size=6),
        st.recursive(
            st.one_of(st.booleans(), st.integers(-5, 5), st.text(st.characters(codec="utf-8"))),
            lambda inner: st.one_of(
                st.lists(inner, max_size=2), st.dictionaries(st.text("ab", min_size=1), inner)
            ),
            max_leaves=4,
        ),
        max_size=3,
    ),
)
def test_what_is_saved_is_read_back(  # type: ignore[no-untyped-def]
    tmp_path_factory, units, ruler, ascii, left, by_load, unknown
) -> None:
    path = tmp_path_factory.mktemp("settings") / "deep" / "settings.toml"
    settings = Settings(
        units, ruler, "4 in", ascii=ascii, left_handed=left, by_load=by_load, unknown=unknown
    )
    assert save_settings(settings, path) == ""
    assert read_settings(path) == (settings, ())
    assert [p.name for p in path.parent.iterdir()] == ["settings.toml"]


def test_a_value_that_cannot_be_used_is_told_and_the_others_are_kept(tmp_path: Path) -> None:
    path = tmp_path / "settings.toml"
    path.write_text(
        'units = "ell"\nascii = 1\nleft_handed = true\nruler = "1/7 in"\n'
        'tearing_ruler = "-3"\nlater = { than = "this" }\n'
    )
    settings, troubles = read_settings(path)
    assert settings == Settings(left_handed=True, unknown={"later": {"than": "this"}})
    assert len(troubles) == 4
    for key in ("units", "ascii", "ruler", "tearing_ruler"):
        assert any(f"{path}: {key}: " in line for line in troubles)


@pytest.mark.parametrize("content", [b"units = ", b"\xff\xfe", b"a = " + b"[" * 20_000])
def test_a_broken_file_is_told_and_kept_when_settings_are_saved(
    content: bytes, tmp_path: Path
) -> None:
    path = tmp_path / "settings.toml"
    path.write_bytes(content)
    settings, troubles = read_settings(path)
    assert settings == Settings()
    assert len(troubles) == 1
    assert save_settings(settings, path) == ""
    assert (tmp_path / "settings.toml.old").read_bytes() == content
    assert read_settings(path) == (Settings(), ())


@pytest.mark.parametrize(
    ("key", "value", "why"),
    [
        ("units", "mm", ""),
        ("units", "ell", "must be one of"),
        ("ruler", "1 mm", ""),
        ("ruler", "1 km", "must be kit"),
        ("ascii", True, ""),
        ("ascii", 1, "wrong kind"),
        ("by_load", "yes", "wrong kind"),
        ("unknown", {}, "no such setting"),
        ("nothing", 1, "no such setting"),
        ("tearing_ruler", "0", "zero"),
    ],
)
def test_one_value(key: str, value: object, why: str) -> None:
    settings, said = with_value(Settings(), key, value)
    assert why in said
    assert (settings != Settings()) is (not said)
    assert getattr(settings, key, None) == value or said


@pytest.mark.parametrize(
    ("typed", "kept"), [("2 3/4", "2 3/4 in"), ("30 mm", "30 mm"), ("5 cm", "50 mm")]
)
def test_the_tearing_ruler_is_kept_as_it_is_said(typed: str, kept: str) -> None:
    settings, why = with_value(Settings(), "tearing_ruler", typed)
    assert why == ""
    assert settings.tearing_ruler == kept
    again, _ = with_value(Settings(), "tearing_ruler", kept)
    assert again == settings


def test_the_manner_follows_the_kit_unless_it_is_chosen() -> None:
    inch, metric = Settings().manner(Unit.IN), Settings().manner(Unit.CM)
    assert (inch.ruler, metric.ruler) == (GRADUATIONS["1/16 in"], GRADUATIONS["1 mm"])
    assert (inch.style.unit, metric.style.unit) == (Unit.IN, Unit.CM)
    chosen = Settings(units="mm", ruler="1/8 in", left_handed=True).manner(Unit.IN)
    assert (chosen.style.unit, chosen.ruler) == (Unit.MM, GRADUATIONS["1/8 in"])
    # 1 in = 25.4 mm exactly (international agreement, 1959): 3 in = 76.2 mm.
    assert inch.tearing_ruler == Fraction(762, 10)


@pytest.mark.skipif(sys.platform == "win32", reason="links need rights there; not tried")
def test_a_link_to_the_file_stays_a_link(tmp_path: Path) -> None:
    real = tmp_path / "elsewhere.toml"
    real.write_text("ascii = true\n")
    link = tmp_path / "settings.toml"
    link.symlink_to(real)
    assert save_settings(Settings(units="cm"), link) == ""
    assert link.is_symlink()
    assert tomllib.loads(real.read_text())["units"] == "cm"


def test_what_cannot_be_saved_is_said_and_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "no folder" in save_settings(Settings(), None)
    path = tmp_path / "settings.toml"
    path.write_text("ascii = true\n")

    def full(fd: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    assert save_settings(Settings(), path) == f"{path}: No space left on device"
    assert path.read_text() == "ascii = true\n"
    assert list(tmp_path.iterdir()) == [path]
    inside = path / "settings.toml"  # its folder is a file
    assert save_settings(Settings(), inside).startswith(f"{inside}: ")
