"""What stands on the table around the sentence, and what is answered there."""

from __future__ import annotations

from collections.abc import Sequence


class TablePhrases:
    """Words of the table."""

    # At the side

    def pockets_head(self) -> tuple[str, str]:
        """The heading of the pockets, and what their numbers are."""
        return "Pockets", "filed / wanted"

    def pile_head(self, count: int) -> tuple[str, str]:
        """The heading of the pile, and how much lies on it."""
        return "Pile", f"{count} cut, not filed" if count else "nothing on it"

    def more_beneath(self, count: int) -> str:
        """How many things of the pile are not shown."""
        return f"and {count} more beneath"

    def left_open(self, count: int) -> str:
        """How many warnings were left."""
        return f"{count} warning{'s' * (count > 1)} left open"

    def left_open_briefly(self, count: int) -> str:
        """The same where there is little room."""
        return f"{count} open"

    def scraps_head(self) -> str:
        """Stands before the number of scraps."""
        return "Scraps"

    def waits(self, names: Sequence[str]) -> str:
        """What waits."""
        return f"Waits: {', '.join(names)}"

    def so_far(self, minutes: int) -> str:
        """Time at the table."""
        return f"{minutes} min so far"

    def pile_briefly(self, pile: int) -> str:
        """The pile where there is little room."""
        return f"pile:{pile}"

    def scraps_briefly(self, scraps: int, expected: int) -> str:
        """The scraps where there is little room."""
        return f"scraps:{scraps}/{expected}"

    # Beside keys

    def leave_it(self) -> str:
        """What the key does that leaves a warning."""
        return "leave it"

    def leave_it_out(self) -> str:
        """What the key does that leaves out a step."""
        return "leave it out"

    def more(self) -> str:
        """What the key does that shows the whole of a greeting."""
        return "more"

    def page_so_far(self, typed: str, following: str, enter: bool) -> str:
        """What is typed of a page number, and what can follow.

        Args:
            typed: The digits.
            following: The digits that can follow; empty for none.
            enter: Whether it may end here.
        """
        ways = [f"then {following}"] if following else []
        if enter:
            ways.append("Enter")
        return f"Page {typed}_: {', or '.join(ways)}; Backspace: no."

    # In the palette

    def file_in(self, pocket: str) -> str:
        """Names the command that files in a pocket."""
        return f"File in pocket {pocket}"

    def file_in_help(self) -> str:
        """What that command does."""
        return "What is in hand went into it."

    def take_from_pile(self, thing: str) -> str:
        """Names the command that takes a thing of the pile."""
        return f"Take from the pile: {thing}"

    def take_from_pile_help(self) -> str:
        """What that command does."""
        return "Take this thing of the pile in hand."

    def keys_or(self, keys: Sequence[str]) -> str:
        """Keys of which any one will do."""
        return " or ".join(keys)

    # Answers

    def answer_first(self, right: str, leave: str) -> str:
        """That a warning wants an answer; with the keys for it."""
        return f"Answer the warning first: {right} puts it right, {leave} leaves it."

    def none_before(self, warnings: str) -> str:
        """That no warning wants an answer now; with the key that lists those left."""
        return f"No warning is before you; {warnings} lists those that were left."

    def no_such_page(self) -> str:
        """That no pocket has the page that was typed."""
        return "No pocket has that page."

    def put_right(self, remedy: str) -> str:
        """That a warning was put right."""
        return f"Put right: {remedy}."

    def left_for_now(self) -> str:
        """That a warning was left."""
        return "Left for now; it stays listed."

    def taken_back(self, redo: str, what: str = "") -> str:
        """That something was taken back, and the key that says it again.

        Args:
            redo: The key.
            what: What had been said of where something is, in few words; empty for none.
        """
        return f"Taken back{f': {what}' * bool(what)}; {redo} says it again."

    def step_taken_back(self) -> str:
        """That a cut was taken back, which was not made."""
        return "Taken back: that is still to be done."

    def word_taken_back(self, redo: str) -> str:
        """That where something went was taken back, but no cut."""
        return f"Taken back; the paper stays as it is. {redo} says it again."

    def nothing_taken_back(self) -> str:
        """That a cut was made, so nothing is taken back."""
        return "The paper is as it is, so nothing is taken back."

    def said_again(self) -> str:
        """That what was taken back is said again."""
        return "Said again."

    def pace(self, by_load: bool) -> str:
        """When pieces are filed from now on."""
        if by_load:
            return "From now on: cut the whole load, then file from the pile."
        return "From now on: file after each cut."
