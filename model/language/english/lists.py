"""The screens of one list, and Find: titles, rows and hints that are not about a kit."""

from __future__ import annotations


class ListPhrases:
    """Words of lists."""

    # The account

    def account_title(self, finished: bool, kit: str) -> str:
        """The title of the account."""
        return f"{'Closing account' if finished else 'Account so far'}: {kit}"

    def no_folder(self) -> str:
        """That the account can't be saved, since there is no folder."""
        return "There is no folder to save in."

    def saved(self, path: str) -> str:
        """Where the account was saved."""
        return f"Saved: {path}"

    def not_saved(self, why: str) -> str:
        """Why the account was not saved."""
        return f"Not saved: {why}"

    # A count

    def count_title(self, pocket: str) -> str:
        """The title of a count."""
        return f"Count pocket {pocket}"

    def count_hint(self, tick: str, other: str, counted: str) -> str:
        """What can be done in a count, with the keys for it."""
        return f"{tick}: it is there. {other}: something else is in it. {counted}: that is all."

    def so_many_of(self, seen: int, wanted: int) -> str:
        """How many are ticked."""
        return f"{seen} of {wanted}"

    def not_here(self) -> str:
        """That something does not belong into this pocket."""
        return "does not belong here"

    def empty(self) -> str:
        """That nothing should be in a pocket."""
        return "By the journal this pocket is empty."

    def what_else(self, pocket: str) -> str:
        """Asks what else is in a pocket."""
        return f"What else is in pocket {pocket}?"

    # Find, help, warnings

    def find_title(self) -> str:
        """The title of Find."""
        return "Find a piece"

    def help_title(self) -> str:
        """The title of the help."""
        return "Help"

    def warnings_title(self, count: int) -> str:
        """The title of the warnings."""
        return f"Warnings: {count}"

    def left_for_later(self) -> str:
        """Beside a warning that was left."""
        return "(left for later)"

    def no_warning(self) -> str:
        """That no warning stands."""
        return "No warning is open."

    def put_right(self, remedy: str) -> str:
        """That a warning was put right."""
        return f"Put right: {remedy}."

    def answer_with(self, right: str, leave: str) -> str:
        """Which keys answer a warning, when another one was pressed."""
        return f"{right} puts this one right, {leave} leaves it."

    def left(self) -> str:
        """That a warning is left."""
        return "Left for later; it stays listed."

    # The pockets

    def pockets_title(self, kit: str) -> str:
        """The title of the pockets."""
        return f"Pockets: {kit}"

    def pockets_hint(self, move: str) -> str:
        """What can be done in the pockets; with the key that moves a piece."""
        return f"{move} moves the piece of a row; a page number goes to its pocket."

    def moving_hint(self, piece: str) -> str:
        """Asks which pocket a piece is really in."""
        return f"{piece}: press the key of the pocket that it is really in, or Esc."

    def no_such_page(self) -> str:
        """That no page begins with what was typed."""
        return "No page begins so."

    def nothing_to_move(self) -> str:
        """That no piece of a row is filed."""
        return "Nothing of this row is filed yet."

    def cut_at_table(self) -> str:
        """That a cut is not taken back here."""
        return "A cut is taken back at the table only."

    def taken_back(self, redo: str) -> str:
        """That something was taken back, and the key that says it again."""
        return f"Taken back; {redo} at the table says it again."
