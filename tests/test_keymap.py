"""Which key does what: what can be a key, what clashes, and what the settings keep of it."""

from __future__ import annotations

import string
import tomllib

import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st
from textual.keys import _character_to_key

from model.keymap import Act, Keymap, Place, flat, kept, read_keymap
from model.keynames import read_key, say_key
from model.settings import Settings, read_settings, save_settings

QUIT = Act("everywhere.quit", "Quit", ("q", "ctrl+q"), ("ctrl+q",))
DID = Act("table.did", "It is done", ("space", "enter"), ("space", "enter"))
UNDO = Act("table.undo", "Undo", ("u",))
REDO = Act("table.redo", "Redo", ("r",))
OPEN = Act("shelf.open", "Open", ("enter",), ("enter",))
AGAIN = Act("shelf.again", "Look again", ("r",))
PLACES = (
    Place("table", (DID, UNDO, REDO, QUIT)),
    Place("shelf", (OPEN, AGAIN, QUIT), {"up": "list"}),
    Place("find", (Act("find.back", "Back", ("escape",)),), {}, True),
)


@pytest.mark.parametrize("sign", [*string.punctuation, *string.ascii_letters])
def test_a_sign_is_called_as_the_terminal_program_calls_it(sign: str) -> None:
    """Textual 8 names the key of each sign; that is what it will report."""
    assert read_key(sign) == (_character_to_key(sign), "")
    assert say_key(_character_to_key(sign)) == sign


@pytest.mark.parametrize(
    ("written", "key", "said"),
    [
        ("space", "space", "Space"),
        (" ", "space", "Space"),
        ("Enter", "enter", "Enter"),
        ("esc", "escape", "Esc"),
        ("F2", "f2", "F2"),
        ("Ctrl+R", "ctrl+r", "Ctrl+R"),
        ("shift+u", "U", "U"),
        ("shift+tab", "shift+tab", "Shift+Tab"),
        ("question_mark", "question_mark", "?"),
        ("left", "left", "←"),
        ("pgdn", "pagedown", "PgDn"),
    ],
)
def test_keys_are_written_as_people_name_them(written: str, key: str, said: str) -> None:
    assert read_key(written) == (key, "")
    assert say_key(key) == said


@pytest.mark.parametrize(
    ("written", "why"),
    [
        # ASCII: BS is Ctrl+H, HT is Ctrl+I, LF is Ctrl+J, CR is Ctrl+M, ESC is Ctrl+[.
        ("ctrl+h", "Backspace"),
        ("ctrl+i", "Tab"),
        ("ctrl+j", "Enter"),
        ("ctrl+m", "Enter"),
        ("ctrl+[", "Esc"),
        ("alt+x", "Esc and the key after it"),
        ("ctrl+c", "interrupts"),
        ("ctrl+z", "background"),
        ("ctrl+s", "stops"),
        ("ctrl+5", "not every terminal"),
        ("ctrl+shift+a", "not every terminal"),
        ("5", "pockets"),
        ("٥", "pockets"),
        ("banana", "no key 'banana'"),
        ("f13", "no key"),
        ("", "without a name"),
        ("\x07", "no key"),
    ],
)
def test_what_can_be_no_key_is_refused_with_the_reason(written: str, why: str) -> None:
    key, said = read_key(written)
    assert key == ""
    assert why in said


@given(st.text(max_size=8))
def test_no_name_of_a_key_makes_trouble(text: str) -> None:
    key, why = read_key(text)
    assert bool(key) != bool(why)
    if key:
        assert read_key(key) == (key, "")
        assert "," not in key  # the bindings are separated by it


def test_a_key_of_ones_own_goes_before_those_that_always_stay() -> None:
    keymap, troubles = read_keymap(PLACES, {"table": {"did": "d"}, "everywhere.quit": ["f10", "Q"]})
    assert troubles == ()
    assert keymap.keys("table.did") == ("d", "space", "enter")
    assert keymap.keys("everywhere.quit") == ("f10", "Q", "ctrl+q")
    assert keymap.keys("table.undo") == ("u",)
    assert keymap.keys("else.where", ("j",)) == ("j",)


def test_two_commands_may_change_keys_in_the_file() -> None:
    keymap, troubles = read_keymap(PLACES, {"table": {"undo": "r", "redo": "u"}})
    assert troubles == ()
    assert keymap.in_force() == {"table.undo": ("r",), "table.redo": ("u",)}


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ({"table": {"undo": "r"}}, 'table.undo: r is taken at the table: "Redo"'),
        ({"table": {"undo": "space"}}, 'Space is taken at the table: "It is done"'),
        ({"table": {"undo": "q"}}, 'q is taken at the table: "Quit"'),
        ({"everywhere": {"quit": "r"}}, "everywhere.quit: r is taken"),
        ({"shelf": {"again": "up"}}, "Up is taken on the shelf: goes through the list"),
        ({"find": {"back": "x"}}, "x is typed as text"),
        ({"table": {"undo": "z", "redo": "z"}}, 'table.redo: z is taken at the table: "Undo"'),
        ({"table": {"undo": "3"}}, "digits"),
        ({"table": {"undo": []}}, "names no key"),
        ({"table": {"undo": 7}}, "must be a key"),
        ({"table": {"undo": ["z", 7]}}, "must be a key"),
        ({"table": {"fly": "z"}}, "table.fly: there is no such command"),
        ({"undo": "z"}, "undo: there is no such command"),
    ],
)
def test_what_cannot_be_is_told_and_the_usual_key_stays(
    table: dict[str, object], said: str
) -> None:
    keymap, troubles = read_keymap(PLACES, table)
    assert len(troubles) == 1
    assert said in troubles[0]
    assert len(keymap.own) == ("z" in str(troubles) and "redo" in str(troubles))
    assert keymap.keys("table.redo") == ("r",)


def test_the_shelf_may_have_a_key_that_the_table_has() -> None:
    assert read_keymap(PLACES, {"shelf": {"again": "u"}})[1] == ()


_WRITTEN = st.one_of(
    st.sampled_from([*"urqzx?5", "space", "enter", "up", "ctrl+q", "ctrl+i", "f2"]),
    st.lists(st.sampled_from([*"urqzx", "space", "enter"]), max_size=3),
    st.integers(),
)


@given(st.dictionaries(st.sampled_from([*Keymap(PLACES).acts, "table.no"]), _WRITTEN))
def test_whatever_the_file_says_no_key_does_two_things_and_the_way_out_stays(
    table: dict[str, object],
) -> None:
    keymap, troubles = read_keymap(PLACES, table)
    assert len(keymap.own) + len(troubles) >= len(table)
    for place in PLACES:
        keys = [key for act in place.acts for key in keymap.keys(act.id)]
        assert len(keys) == len(set(keys))
    assert {"space", "enter"} <= set(keymap.keys("table.did"))
    assert "ctrl+q" in keymap.keys("everywhere.quit")


@given(st.sampled_from(list(Keymap(PLACES).acts)), st.sampled_from([*"urqzx5", "space", "up"]))
def test_a_key_that_is_refused_changes_nothing(id: str, key: str) -> None:
    before, _ = read_keymap(PLACES, {"table.undo": "z"})
    after, why = before.tried(id, [key])
    assert (after is before) == bool(why)
    if not why:
        assert after.keys(id)[0] == key


def test_the_usual_key_comes_back_unless_another_command_has_it_now() -> None:
    keymap, _ = read_keymap(PLACES, {"table": {"undo": "r", "redo": "u"}})
    assert "Redo" in keymap.tried("table.undo", [])[1]
    freed, why = keymap.tried("table.redo", ["y"])
    assert why == ""
    usual, why = freed.tried("table.undo", [])
    assert (why, usual.own) == ("", {"table.redo": ("y",)})


def test_what_is_kept_is_read_back_and_unknown_entries_stay(tmp_path) -> None:  # type: ignore[no-untyped-def]
    table = {"table": {"undo": "z", "later": "j"}, "odd": 5}
    keymap, _ = read_keymap(PLACES, table)
    keymap, why = keymap.tried("everywhere.quit", ["f10", "Q"])
    assert why == ""
    path = tmp_path / "settings.toml"
    assert save_settings(Settings(keys=kept(table, keymap)), path) == ""
    settings, troubles = read_settings(path)
    assert troubles == ()
    assert flat(settings.keys) == {
        "table.undo": "z",
        "table.later": "j",
        "odd": 5,
        "everywhere.quit": ["f10", "Q"],
    }
    again, _ = read_keymap(PLACES, settings.keys)
    assert again.own == keymap.own
    assert tomllib.loads(tomli_w.dumps({"keys": settings.keys}))


def test_a_table_of_keys_that_is_none_is_told(tmp_path) -> None:  # type: ignore[no-untyped-def]
    path = tmp_path / "settings.toml"
    path.write_text('keys = "u"\n', encoding="utf-8")
    settings, troubles = read_settings(path)
    assert settings == Settings()
    assert "keys" in troubles[0]


def test_a_sign_of_other_keyboards_is_kept_by_a_name_that_is_read_again() -> None:
    """Section sign and acute accent have keys of their own on European keyboards (memory)."""
    for sign in "§´°":
        key, why = read_key(sign)
        assert why == ""
        assert key == _character_to_key(sign)
        assert (read_key(key)[0], say_key(key)) == (key, sign)
