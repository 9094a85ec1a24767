"""Sentences that only plain lines need: what a screen shows by place or colour, in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from model.language.english.asking import TypingWords
from model.language.english.grammar import counted, listed
from model.language.english.steps import StepWords

if TYPE_CHECKING:
    from model.alerts import Alert
    from model.figure import Figure
    from model.inventory import Row
    from model.moment import Moment, PileLine, PocketLine

_SAID: Mapping[str, str] = {
    "left": "Left for now; it stays listed under warnings.",
    "undone": "Taken back; redo says it again.",
    "rescue undone": "The rescue is taken back; redo says it again.",
    "undone cut": "Taken back: that is still to be done.",
    "word undone": "Taken back; the paper stays as it is. Redo says it again.",
    "not undone": "The paper is as it is, so nothing is taken back.",
    "redone": "Said again.",
    "by load": "From now on: cut the whole load, then file from the pile.",
    "by cut": "From now on: file after each cut.",
    "no warning": "No warning is open.",
    "pile empty": "The pile is empty.",
    "no number": "There is no such number in the list that was read last. Type pile, find or "
    "pocket to hear one.",
    "no warning number": "There is no such number. Type warnings to hear them with their numbers.",
    "nothing new": "Nothing new.",
    "saved again": "Everything is saved again.",
    "no folder": "There is no folder to save in.",
    "cancelled": "Left as it was.",
    "which sheet": "Say which sheet, such as later B.",
    "ask hand": "Say what is in your hand: its size, a colour, or words on it. Or no.",
    "ask find": "Say its size, a colour, or words on it, such as 3 by 8 green. Or no.",
    "nothing all": "Nothing on the pile can be filed now. Type again to hear what is next.",
    "count off": "Something is still to be looked for. Type count and its page to count again.",
    "lessons": "Lessons begin.",
    "no cautions": "Cautions are put away until the next sitting.",
    "no lessons": "No more lessons; help tells what can be typed.",
    "find first": "Type pile, find or pocket first, which read the numbers.",
    "no notes": "There is nothing more to say of this step.",
    "interrupted": "Stopped.",
    "ask busy": "Say watch to look on without saying anything, or quit.",
    "ask kit": "Say old to go on with the kit as it was.",
    "ask kit both": "Say old to go on with the kit as it was, or new to take over the changed kit.",
    "watching": "An empty line looks again; quit ends.",
    "ask other": "Is anything else in it? Say what it is like, or no.",
    "ask which": "Which one is it? Say its number, or no.",
    "over": "An empty line reads it.",
    "all done": "All is done, and the account was read. Account reads it again; quit ends.",
}


class LineWords(TypingWords, StepWords):
    """Words on what a screen shows without any."""

    @staticmethod
    def brief(of: str) -> str:
        """A fixed sentence, by its code."""
        return _SAID[of]

    # The step

    def mark_said(self, figure: Figure | None) -> str:
        """The mark that a screen shows in very large figures: ``mark 9 1/2 in, a hair over``."""
        if figure is None or figure.tone != "cut":
            return ""
        number = " ".join(part for part in (figure.text.lstrip("~"), figure.unit) if part)
        if figure.caption == self.caption("width"):
            said = f"{number} {figure.caption}"
        elif figure.caption == self.caption("about"):
            said = f"{self.caption('mark')} {figure.caption} {number}"
        else:
            said = f"{figure.caption} {number}"
        return f"{said}, {figure.error}" if figure.error else said

    def step_line(self, moment: Moment) -> str:
        """A moment in one line: mark, what to do, where it goes, what stays as it is."""
        if moment.pressing is not None:
            return self.warning_line(moment.pressing)
        if moment.over:
            return f"{moment.sentence} {self.brief('over')}"
        mark = self.mark_said(moment.figure)
        start = f"{moment.headline}, {mark}. " if mark else ""
        said = f"{start}{moment.sentence}"
        if mark and moment.goes_briefly:
            goes = moment.goes_briefly.removeprefix("to ")
            said = f"{said} It goes to {goes}."
        return f"{said} Say skip for that." if moment.optional else said

    def warning_line(self, alert: Alert, number: int = 0) -> str:
        """A warning, and what can be answered."""
        start = f"Warning {number}: " if number else "Warning: "
        what, colon, rest = alert.text.partition(":")
        # Capitals are loud on a screen, but some voices spell them.
        text = f"{what.capitalize() if what.isupper() else what}{colon}{rest}"
        if alert.left:
            return f"{start}{text} Left for later. Right means: {_remedy(alert)}."
        return f"{start}{text} Say right: {_remedy(alert)}. Or leave, for later."

    def answer_first(self, alert: Alert) -> str:
        """That nothing goes on before a warning is answered, and what can be answered."""
        return f"Answer the warning first. Say right: {_remedy(alert)}. Or leave, for later."

    def caution_line(self, text: str) -> str:
        """A caution that applies now."""
        return f"Caution: {text}"

    def notes_line(self, notes: Sequence[str]) -> str:
        """What else helps."""
        return f"Note: {' '.join(notes)}"

    # Lists

    def pocket_line(self, pocket: PocketLine) -> str:
        """One pocket in outline."""
        pages = self.pages(self.plan.kit.pockets[pocket.index].pages)
        said = f"Pocket {pocket.label}, {pages}: {pocket.held} of {pocket.wanted} filed"
        if pocket.wrong:
            said += f", and {pocket.wrong} that {'does' if pocket.wrong == 1 else 'do'} not belong"
        full = ", full" if pocket.full else ""
        here = "; what is in hand goes there" if pocket.target else ""
        return f"{said}{full}{here}."

    def pile_line(self, number: int, line: PileLine) -> str:
        """One thing on the pile."""
        goes = line.goes if line.goes.startswith("to ") else f"to {line.goes}"
        return f"{number}: {line.text}, {goes}{'; it is due now' if line.due else ''}."

    def held_line(self, row: Row, said: str, number: int = 0) -> str:
        """One row of a pocket: how many of how many, and what it is for.

        Args:
            row: The row.
            said: The row in short, as the pockets screen has it.
            number: The number by which it can be taken; 0 where nothing is there to take.
        """
        done, _, rest = said.partition(" ")
        about = [f"for {self.pages(row.pages)}"] if row.pages else []
        about += [f"from {listed(row.sources)}"] if row.sources else []
        about += ["cut again later"] if row.again else []
        start = f"{f'{number}: ' if number else ''}{done.replace('/', ' of ')} {rest}"
        return f"{'; '.join([start, *about])}."

    def stray_line(self, name: str, goes: str, number: int) -> str:
        """A thing in a pocket that does not belong there, with the number to take it by."""
        return f"{number}: Does not belong here: {name}; it goes to {goes.removeprefix('to ')}."

    def match_line(self, number: int, match: tuple[str, str, str]) -> str:
        """Something that was found."""
        name, goes, standing = match
        return f"{number}: {name}, {goes.removeprefix('to ')}; {standing}."

    def found_ending(self) -> str:
        """What can be said of what was found."""
        return "Say take and a number to take it in hand."

    def account_line(self, tone: str, line: str) -> str:
        """One line of the account; what is wrong is told in words, not by a colour."""
        line = line.strip()
        if tone == "head":
            return f"{line}."
        return f"Not right: {line}" if tone == "bad" else line

    def take_ending(self, page: int) -> str:
        """How a numbered piece of a pocket is moved."""
        return f"To move one: take and its number, then the page number, such as {page}."

    def taken_from(self, item: str, place: int) -> str:
        """That something is in hand now, where it was, and what to type."""
        name = self.named(self.plan.items[item])
        return (
            f"In your hand: {name}; until now it was {self.at_place(place)}. Say the page number "
            "of the pocket that it is in now, or scrap."
        )

    def time_said(self, spent: str, left: str) -> str:
        """Time at the table, and what is left."""
        return f"{spent[:1].upper()}{spent[1:]} at the table; {left}."

    # Answers

    def filed_into(self, pocket: int) -> str:
        """Says which pocket was meant, where no thing was named."""
        return f"Filed in {self.pocket(pocket)}."

    def put_off(self, sheet: str) -> str:
        """Says that a sheet was put off."""
        return f"Sheet {sheet} is put off: it is trimmed after all others."

    def taken_up(self, sheet: str) -> str:
        """Says that a sheet is put off no longer."""
        return f"Sheet {sheet} is taken up again."

    def which_put_off(self, sheets: Sequence[str]) -> str:
        """Asks which sheet is taken up."""
        names = listed([f"take up {sheet}" for sheet in sheets], "or")
        return f"Say which sheet: {names}."

    def put_right(self, alert: Alert) -> str:
        """Says that what a warning names was put right, and how."""
        return f"Put right: {_remedy(alert)}."

    def saved_report(self, path: str) -> str:
        """Says where a report was saved."""
        return f"Saved: {path}"

    def not_saved_report(self, why: str) -> str:
        """Says why a report was not saved."""
        return f"Not saved: {why}"

    def unknown(self, text: str) -> str:
        """Says that something was not understood, and what can be said."""
        return f'"{text}" is not known here. Type help to hear what can be typed.'

    def no_pocket(self, text: str) -> str:
        """Says that there is no such pocket."""
        return f'No pocket has the page or label "{text}". Type pockets to hear them.'

    def started(self, title: str, path: str) -> str:
        """Says what is begun, and where it is kept."""
        kept = f" It is kept in {path}." if path else ""
        return f"{title}.{kept} Say help for what can be said."

    def put_away(self, standing: str, path: str, saved: bool) -> str:
        """Says, at the end, where a run stands, that it is saved, and how to go on.

        Args:
            standing: How far it is.
            path: The session's file as a shell reads it; empty where nothing is to go on with.
            saved: All of it is on the disk.
        """
        kept = f" Go on with: dryfit lines {path}" if path else ""
        return f"Put away: {standing}.{' All is saved.' if saved else ''}{kept}"

    def answer_means(self, answers: Sequence[tuple[str, str]]) -> str:
        """What can be answered, and what each answer means."""
        said = []
        for word, means in answers:
            means = means.removeprefix(f"{word.capitalize()}, ")
            said.append(f"{word} ({means[:1].lower()}{means[1:]})")
        return f"Say {listed(said, 'or')}."

    # Counting

    def is_it_there(self, text: str, count: int, stray: bool) -> str:
        """Asks whether what the journal has in a pocket is there."""
        odd = " It does not belong here." if stray else ""
        if count == 1:
            return f"Is it there: {text}?{odd} Say yes or no."
        return f"Are all {count} there: {text}?{odd} Say yes, no, or how many."

    def count_begins(self, pocket: int, rows: int) -> str:
        """Begins a count."""
        kinds = counted(rows, "kind", "kinds")
        return (
            f"Empty pocket {self.pocket(pocket)}; {kinds} should be in it. Stop leaves the count, "
            "back asks the one before again, all says that all the rest is there."
        )

    def count_empty(self, pocket: int) -> str:
        """Begins the count of a pocket that should be empty."""
        return f"Nothing should be in pocket {self.pocket(pocket)}. Stop leaves the count."

    def pocket_counted(self, pocket: int) -> str:
        """Says that a pocket holds just what it should."""
        return f"Pocket {self.pocket(pocket)} is counted, and right."


def _remedy(alert: Alert) -> str:
    """What is said by right; it stands after a colon, and has none of its own."""
    return alert.remedy.replace(": ", ", ")
