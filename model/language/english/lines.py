"""Sentences that only plain lines need: what a screen shows by place or colour, in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

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
    "undone cut": "Taken back: that is still to be done.",
    "word undone": "Taken back; the paper stays as it is. Redo says it again.",
    "not undone": "The paper is as it is, so nothing is taken back.",
    "redone": "Said again.",
    "by load": "From now on: cut the whole load, then file from the pile.",
    "by cut": "From now on: file after each cut.",
    "answer first": "Answer the warning first: say right or leave.",
    "no warning": "No warning is open.",
    "pile empty": "The pile is empty.",
    "no number": "There is no such number in the list that was read last.",
    "nothing new": "Nothing new.",
    "saved again": "Everything is saved again.",
    "no folder": "There is no folder to save in.",
    "cancelled": "Left as it was.",
    "which sheet": "Say which sheet.",
    "no notes": "There is nothing more to say of this step.",
    "interrupted": "Stopped.",
    "ask busy": "Say watch to look on without saying anything, or quit.",
    "ask kit": "Say old to go on with the kit as it was.",
    "ask kit both": "Say old to go on with the kit as it was, or new to take over the changed kit.",
    "watching": "An empty line looks again; quit ends.",
    "count empty": "By the journal this pocket is empty.",
    "ask other": "Is anything else in it? Say what it is like, or no.",
    "ask which": "Which one is it? Say its number, or no.",
    "over": "An empty line reads it.",
    "all done": "All is done, and the account was read. Account reads it again; quit ends.",
}

_HELP = (
    "An empty line, or done: it was done as the sentence says.",
    "A page number or a pocket's label, such as 3 or 3-4: it went into that pocket.",
    "scrap: it went to the scraps. With nothing in hand: a scrap too many turned up.",
    "right: put right what the warning names. leave: leave it for later. With a number: that one "
    "of the warnings.",
    "undo, redo: take back what was said last; say it again.",
    "again: read the step once more. notes: all that is said of it.",
    "where: how far the run is, and what waits.",
    "pile: what is cut and not filed. take 2: take the second of it, or of what was found, in "
    "hand.",
    "pockets: every pocket. pocket 3: what is in the pocket of page 3.",
    "find 3 x 8 green: what a loose piece may be.",
    "count 3: count the pocket of page 3.",
    "later: put the sheet off that is next. later B: put off sheet B. take up B: no longer.",
    "skip: leave out an optional step.",
    "pace: file after each cut, or after each load.",
    "warnings: all that stand. account: where all the paper is. save report: as a text file.",
    "quit: put the kit away; all is saved.",
)


class LineWords(StepWords):
    """Words on what a screen shows without any."""

    @staticmethod
    def brief(of: str) -> str:
        """A fixed sentence, by its code."""
        return _SAID[of]

    def lines_help(self) -> tuple[str, ...]:
        """What can be said."""
        return tuple(self.dot(line) for line in _HELP)

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
        if alert.left:
            return f"{start}{alert.text} Left for later. Right means: {alert.remedy}."
        return f"{start}{alert.text} Say right: {alert.remedy}. Or leave, for later."

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

    def held_line(self, row: Row, said: str) -> str:
        """One row of a pocket: how many of how many, and what it is for."""
        done, _, rest = said.partition(" ")
        about = [f"for {self.pages(row.pages)}"] if row.pages else []
        about += [f"from {listed(row.sources)}"] if row.sources else []
        about += ["cut again later"] if row.again else []
        start = f"{done.replace('/', ' of ')} {rest}"
        return f"{'; '.join([start, *about])}."

    def stray_line(self, name: str, goes: str) -> str:
        """A thing in a pocket that does not belong there."""
        return f"Does not belong here: {name}; it goes to {goes.removeprefix('to ')}."

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

    def saved_report(self, path: str) -> str:
        """Says where a report was saved."""
        return f"Saved: {path}"

    def not_saved_report(self, why: str) -> str:
        """Says why a report was not saved."""
        return f"Not saved: {why}"

    def unknown(self, text: str) -> str:
        """Says that something was not understood, and what can be said."""
        return (
            f'"{text}" is not known here. An empty line means done; a page number, scrap, undo, '
            "where, find, pockets and quit can be said; help has all."
        )

    def no_pocket(self, text: str) -> str:
        """Says that there is no such pocket."""
        return f'No pocket has the page or label "{text}".'

    def started(self, title: str, path: str) -> str:
        """Says what is begun, and where it is kept."""
        kept = f" It is kept in {path}." if path else ""
        return f"{title}.{kept} Say help for what can be said."

    def put_away(self, standing: str, path: str) -> str:
        """Says, at the end, where a run stands and how to go on."""
        kept = f" Go on with: dryfit lines {path}" if path else ""
        return f"Put away: {standing}.{kept}"

    def answer_means(self, answers: Sequence[tuple[str, str]]) -> str:
        """What can be answered, and what each answer means."""
        said = []
        for word, means in answers:
            means = means.removeprefix(f"{word.capitalize()}, ")
            said.append(f"{word} ({means[:1].lower()}{means[1:]})")
        return f"Say {listed(said, 'or')}."

    def put_right(self, remedy: str) -> str:
        """Says that a warning was put right."""
        return f"Put right: {remedy}."

    # Counting

    def is_it_there(self, text: str, count: int, stray: bool) -> str:
        """Asks whether what the journal has in a pocket is there."""
        odd = " It does not belong here." if stray else ""
        if count == 1:
            return f"Is it there: {text}?{odd} Say yes or no."
        return f"Are they there: {text}?{odd} Say yes, no, or how many."

    def count_begins(self, pocket: int, rows: int) -> str:
        """Begins a count."""
        kinds = counted(rows, "kind", "kinds")
        return (
            f"Empty pocket {self.pocket(pocket)}; {kinds} should be in it. Stop leaves the count."
        )

    def pocket_counted(self, pocket: int) -> str:
        """Says that a pocket holds just what it should."""
        return f"{self.pocket(pocket)} is counted, and right."
