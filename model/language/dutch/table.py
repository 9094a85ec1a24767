"""What stands on the table around the sentence, and what is answered there, in Dutch."""

from __future__ import annotations

from collections.abc import Sequence

from model.language.english import table as english


class TablePhrases(english.TablePhrases):
    """Words of the table, in Dutch."""

    # At the side

    def pockets_head(self) -> tuple[str, str]:
        """The heading of the pockets, and what their numbers are."""
        return "Vakken", "erin / nodig"

    def pile_head(self, count: int) -> tuple[str, str]:
        """The heading of the pile, and how much lies on it."""
        return "Hoopje", f"{count} op te bergen" if count else "er ligt niets"

    def more_beneath(self, count: int) -> str:
        """How many things of the pile are not shown."""
        return f"en nog {count} eronder"

    def left_open(self, count: int) -> str:
        """How many warnings were left."""
        return f"{count} {'waarschuwing' if count == 1 else 'waarschuwingen'} open"

    def left_open_briefly(self, count: int) -> str:
        """The same where there is little room."""
        return f"{count} open"

    def scraps_head(self) -> str:
        """Stands before the number of scraps."""
        return "Restjes"

    def waits(self, names: Sequence[str]) -> str:
        """What waits."""
        return f"Wacht: {', '.join(names)}"

    def so_far(self, minutes: int) -> str:
        """Time at the table."""
        return f"{minutes} min bezig"

    def pile_briefly(self, pile: int) -> str:
        """The pile where there is little room."""
        return f"hoopje:{pile}"

    def scraps_briefly(self, scraps: int, expected: int) -> str:
        """The scraps where there is little room."""
        return f"restjes:{scraps}/{expected}"

    # Beside keys

    def leave_it(self) -> str:
        """What the key does that leaves a warning."""
        return "laten staan"

    def leave_it_out(self) -> str:
        """What the key does that leaves out a step."""
        return "overslaan"

    def more(self) -> str:
        """What the key does that shows the whole of a greeting."""
        return "meer"

    def page_so_far(self, typed: str, following: str, enter: bool) -> str:
        """What is typed of a page number, and what can follow; see the English one."""
        ways = [f"dan {following}"] if following else []
        if enter:
            ways.append("Enter")
        return f"Pagina {typed}_: {', of '.join(ways)}; Backspace: nee."

    # In the palette

    def file_in(self, pocket: str) -> str:
        """Names the command that files in a pocket."""
        return f"Opbergen in vak {pocket}"

    def file_in_help(self) -> str:
        """What that command does."""
        return "Wat je in de hand hebt, ging erin."

    def take_from_pile(self, thing: str) -> str:
        """Names the command that takes a thing of the pile."""
        return f"Van het hoopje nemen: {thing}"

    def take_from_pile_help(self) -> str:
        """What that command does."""
        return "Neem dit van het hoopje in de hand."

    def keys_or(self, keys: Sequence[str]) -> str:
        """Keys of which any one will do."""
        return " of ".join(keys)

    # Answers

    def answer_first(self, right: str, leave: str) -> str:
        """That a warning wants an answer; with the keys for it."""
        return f"Eerst de waarschuwing: {right} zet recht, {leave} laat staan."

    def none_before(self, warnings: str) -> str:
        """That no warning wants an answer now; with the key that lists those left."""
        return f"Er is nu geen waarschuwing; {warnings} toont wat is blijven staan."

    def no_such_page(self) -> str:
        """That no pocket has the page that was typed."""
        return "Geen vak heeft die pagina."

    def put_right(self, remedy: str) -> str:
        """That a warning was put right."""
        return f"Rechtgezet: {remedy}."

    def left_for_now(self) -> str:
        """That a warning was left."""
        return "Nu laten staan; de waarschuwing blijft in de lijst."

    def taken_back(self, redo: str, what: str = "") -> str:
        """That something was taken back, and the key that says it again; see the English one."""
        return f"Teruggenomen{f': {what}' * bool(what)}; {redo} zegt het opnieuw."

    def step_taken_back(self) -> str:
        """That a cut was taken back, which was not made."""
        return "Teruggenomen: dat moet nog gebeuren."

    def word_taken_back(self, redo: str) -> str:
        """That where something went was taken back, but no cut."""
        return f"Teruggenomen; het papier blijft zoals het is. {redo} zegt het opnieuw."

    def nothing_taken_back(self) -> str:
        """That a cut was made, so nothing is taken back."""
        return "Het papier is zoals het is, dus er is niets teruggenomen."

    def said_again(self) -> str:
        """That what was taken back is said again."""
        return "Opnieuw gezegd."

    def pace(self, by_load: bool) -> str:
        """When pieces are filed from now on."""
        if by_load:
            return "Vanaf nu: snijd de hele lading, en berg dan op van het hoopje."
        return "Vanaf nu: berg na elke snede op."
