"""Every command of every screen with its keys, each of which can be changed."""

from __future__ import annotations

from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from model.keymap import Act
from model.keynames import read_key, say_key
from tui.commands import EVERYWHERE, Command, bindings
from tui.screens.listing import ListRow, ListScreen, head_row

COMMANDS = (
    Command("change", ("enter", "space"), "change"),
    Command("add", ("a",), "add"),
    Command("usual", ("u",), "usual"),
    Command("all", ("x",), "all"),
    Command("back", ("escape", "k"), "back"),
    *EVERYWHERE,
)  # fmt: skip


class KeysScreen(ListScreen[None]):
    """The keys in force."""

    BINDINGS = bindings("keys", COMMANDS)
    PLACE = "keys"
    COMMANDS_SHOWN: ClassVar[tuple[Command, ...]] = COMMANDS

    def __init__(self) -> None:
        """Nothing is listed yet."""
        super().__init__()
        self._acts: dict[str, Act] = {}

    def fill(self) -> None:
        """List all commands by their screens."""
        keymap = self.dryfit.whole_keymap()
        self._acts = keymap.acts
        words = self.phrases.keys
        rows = [head_row(words.head(""))]
        rows += [self._row(act) for act in keymap.acts.values() if _everywhere(act)]
        for place in keymap.places:
            rows.append(head_row(words.head(place.name)))
            rows += [self._row(act) for act in place.acts if not _everywhere(act)]
        path = self.dryfit.settings_path
        kept = self.phrases.settings
        hint = kept.kept_in(str(path)) if path else kept.no_place()
        self.show(words.title(), rows, hint)

    def _row(self, act: Act) -> ListRow:
        keymap = self.dryfit.whole_keymap()
        keys = [say_key(key, self.ascii) for key in keymap.keys(act.id)]
        said = self.phrases.keys.alternatives(keys)
        own = "*" if act.id in keymap.own else " "
        tone = "$text-accent bold"
        return ListRow(act.id, [(tone, f"{own} {said:<24} "), ("", act.said)], 27)

    def action_change(self) -> None:
        """Ask for the new key of this row."""
        self._ask(False)

    def action_add(self) -> None:
        """Ask for one more key of this row."""
        self._ask(True)

    def _ask(self, more: bool) -> None:
        act = self._acts.get(self.chosen)
        if act is None:
            return

        def given(said: str | None) -> None:
            self.fill()
            if said:
                self.hint(said)

        self.app.push_screen(PressKey(self, act, more), given)

    def give(self, act: Act, key: str, more: bool) -> tuple[str, str]:
        """Give a command a key.

        Returns:
            Why it can't have it, or nothing; and what to say when it has.
        """
        app = self.dryfit
        before = app.whole_keymap()
        had = before.keys(act.id) if more else ()
        why = app.change_key(act.id, (*had, key))
        if why and app.keymap is not before and act.id in app.keymap.own:
            return "", why  # it is in force, but it could not be kept
        return why, self.phrases.keys.changed(act.said, say_key(key, self.ascii))

    def action_usual(self) -> None:
        """The usual keys for this row."""
        act = self._acts.get(self.chosen)
        if act is not None:
            why = self.dryfit.change_key(act.id, ())
            self.fill()
            if act.id in self.dryfit.keymap.own:
                self.hint(self.phrases.settings.not_changed(why))
            else:
                self.hint(why or self.phrases.keys.usual_again(act.said))

    def action_all(self) -> None:
        """The usual keys for all rows, if that is meant."""

        def answer(choice: str | None) -> None:
            if choice == "all":
                why = self.dryfit.usual_keys()
                self.fill()
                self.hint(why or self.phrases.keys.all_usual())

        question, no, yes = self.phrases.keys.ask_all_usual()
        self.dryfit.ask(question, answer, ("stay", "s", no), ("all", "x", yes))

    @on(OptionList.OptionSelected)
    def _selected(self) -> None:
        self.action_change()

    def action_back(self) -> None:
        """Back to the settings."""
        self.leave()


def _everywhere(act: Act) -> bool:
    return act.id.startswith("everywhere.")


class PressKey(ModalScreen[str | None]):
    """Takes the next key as it comes; gives back what became of it."""

    def __init__(self, screen: KeysScreen, act: Act, more: bool) -> None:
        """Ask for a key.

        Args:
            screen: The list of keys.
            act: The command that is to have it.
            more: It keeps those that it has.
        """
        super().__init__()
        self._keys = screen
        self._act = act
        self._more = more
        self._answered = False

    def compose(self) -> ComposeResult:
        """What is asked, what is wrong with what was pressed, and the way back."""
        with VerticalScroll(id="box", can_focus=False):
            words = self._keys.phrases.keys
            yield Static(words.press(self._act.said, self._more), markup=False)
            yield Static("", id="refused", markup=False)
            listing = OptionList(Option(words.press_back(), "back"), markup=False)
            listing.can_focus = False
            yield listing

    def on_key(self, event: events.Key) -> None:
        """A key came: it is taken, or it is told why it can't be."""
        event.stop()
        event.prevent_default()
        if event.key == "escape":
            self._answer(None)
            return
        written = event.character if event.is_printable and event.character else event.key
        key, why = read_key(written, self._keys.phrases.keys)
        said = ""
        if not why:
            why, said = self._keys.give(self._act, key, self._more)
        if not why:
            self._answer(said)
            return
        words = self._keys.phrases.keys
        self.query_one("#refused", Static).update(words.refused(why))

    @on(OptionList.OptionSelected)
    def _back(self) -> None:
        self._answer(None)

    def _answer(self, said: str | None) -> None:
        if not self._answered:
            self._answered = True
            self.dismiss(said)
