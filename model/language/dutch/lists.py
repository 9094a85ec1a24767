"""The screens of one list, and Find, in Dutch."""

from __future__ import annotations

from model.language.english import lists as english


class ListPhrases(english.ListPhrases):
    """Words of lists, in Dutch."""

    # The account

    def account_title(self, finished: bool, kit: str) -> str:
        """The title of the account."""
        return f"{'Eindstaat' if finished else 'Stand tot nu toe'}: {kit}"

    def no_folder(self) -> str:
        """That the account can't be saved, since there is no folder."""
        return "Er is geen map om in te bewaren."

    def saved(self, path: str) -> str:
        """Where the account was saved."""
        return f"Bewaard: {path}"

    def not_saved(self, why: str) -> str:
        """Why the account was not saved."""
        return f"Niet bewaard: {why}"

    # A count

    def count_title(self, pocket: str) -> str:
        """The title of a count."""
        return f"Vak {pocket} tellen"

    def count_hint(self, tick: str, other: str, counted: str) -> str:
        """What can be done in a count, with the keys for it."""
        return f"{tick}: het zit erin. {other}: er zit iets anders in. {counted}: dat is alles."

    def so_many_of(self, seen: int, wanted: int) -> str:
        """How many are ticked."""
        return f"{seen} van {wanted}"

    def not_here(self) -> str:
        """That something does not belong into this pocket."""
        return "hoort hier niet"

    def empty(self) -> str:
        """That nothing should be in a pocket."""
        return "Volgens wat je hebt gezegd is dit vak leeg."

    def what_else(self, pocket: str) -> str:
        """Asks what else is in a pocket."""
        return f"Wat zit er nog meer in vak {pocket}?"

    # Find, help, warnings

    def find_title(self) -> str:
        """The title of Find."""
        return "Een stuk zoeken"

    def help_title(self) -> str:
        """The title of the help."""
        return "Hulp"

    def warnings_title(self, count: int) -> str:
        """The title of the warnings."""
        return f"Waarschuwingen: {count}"

    def left_for_later(self) -> str:
        """Beside a warning that was left."""
        return "(voor later)"

    def no_warning(self) -> str:
        """That no warning stands."""
        return "Er staat geen waarschuwing open."

    def put_right(self, remedy: str) -> str:
        """That a warning was put right."""
        return f"Rechtgezet: {remedy}."

    def answer_with(self, right: str, leave: str) -> str:
        """Which keys answer a warning, when another one was pressed."""
        return f"{right} zet deze recht, {leave} laat haar staan."

    def left(self) -> str:
        """That a warning is left."""
        return "Voor later; de waarschuwing blijft in de lijst."

    # The pockets

    def pockets_title(self, kit: str) -> str:
        """The title of the pockets."""
        return f"Vakken: {kit}"

    def pockets_hint(self, move: str) -> str:
        """What can be done in the pockets; with the key that moves a piece."""
        return f"{move} verplaatst het stuk van een rij; een paginanummer gaat naar zijn vak."

    def moving_hint(self, piece: str) -> str:
        """Asks which pocket a piece is really in."""
        return f"{piece}: druk op de toets van het vak waar het echt in zit, of Esc."

    def no_such_page(self) -> str:
        """That no page begins with what was typed."""
        return "Geen pagina begint zo."

    def nothing_to_move(self) -> str:
        """That no piece of a row is filed."""
        return "Van deze rij is nog niets opgeborgen."

    def cut_at_table(self) -> str:
        """That a cut is not taken back here."""
        return "Een snede neem je alleen aan tafel terug."

    def taken_back(self, redo: str) -> str:
        """That something was taken back, and the key that says it again."""
        return f"Teruggenomen; {redo} aan tafel zegt het opnieuw."
