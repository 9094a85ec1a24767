"""What the program says of itself, in Dutch; each part is imported when it is first asked for."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from model.language.dutch.commands import CommandPhrases
from model.language.dutch.drawing import DrawingPhrases
from model.language.dutch.measures import MeasurePhrases
from model.language.dutch.table import TablePhrases
from model.language.english import phrases as english

if TYPE_CHECKING:
    from model.language.dutch.dialogs import DialogPhrases
    from model.language.dutch.keys import KeyPhrases
    from model.language.dutch.lists import ListPhrases
    from model.language.dutch.planning import PlanningPhrases
    from model.language.dutch.settings import SettingPhrases
    from model.language.dutch.shelf import ShelfPhrases
    from model.language.dutch.typed import TypedPhrases


class Phrases(english.Phrases):
    """All that the program says of itself, in Dutch."""

    code = "nl"

    @cached_property
    def commands(self) -> CommandPhrases:
        """The names of commands, and what they do."""
        return CommandPhrases()

    @cached_property
    def table(self) -> TablePhrases:
        """What stands on the table around the sentence."""
        return TablePhrases()

    @cached_property
    def drawing(self) -> DrawingPhrases:
        """The words of a drawing."""
        return DrawingPhrases()

    @cached_property
    def measures(self) -> MeasurePhrases:
        """Words beside a length."""
        return MeasurePhrases()

    @cached_property
    def dialogs(self) -> DialogPhrases:
        """Questions, their answers, and what is told at once."""
        from model.language.dutch.dialogs import DialogPhrases

        return DialogPhrases()

    @cached_property
    def lists(self) -> ListPhrases:
        """The screens of one list, and Find."""
        from model.language.dutch.lists import ListPhrases

        return ListPhrases()

    @cached_property
    def shelf(self) -> ShelfPhrases:
        """The shelf."""
        from model.language.dutch.shelf import ShelfPhrases

        return ShelfPhrases()

    @cached_property
    def settings(self) -> SettingPhrases:
        """The settings."""
        from model.language.dutch.settings import SettingPhrases

        return SettingPhrases()

    @cached_property
    def keys(self) -> KeyPhrases:
        """Keys, and why they can't be had."""
        from model.language.dutch.keys import KeyPhrases

        return KeyPhrases()

    @cached_property
    def planning(self) -> PlanningPhrases:
        """A plan of cuts, for `dryfit plan`."""
        from model.language.dutch.planning import PlanningPhrases

        return PlanningPhrases()

    @cached_property
    def typed(self) -> TypedPhrases:
        """What is typed in plain lines."""
        from model.language.dutch.typed import TypedPhrases

        return TypedPhrases()


PHRASES = Phrases
