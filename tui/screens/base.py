"""What all screens of dryfit share: the program that they belong to, by its type."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar, cast

from textual.screen import Screen

if TYPE_CHECKING:
    from tui.app import DryfitApp

Result = TypeVar("Result")


class AppScreen(Screen[Result]):
    """A screen of dryfit."""

    @property
    def dryfit(self) -> DryfitApp:
        """The program."""
        return cast("DryfitApp", self.app)

    @property
    def ascii(self) -> bool:
        """Whether only ASCII is shown."""
        return self.dryfit.settings.ascii
