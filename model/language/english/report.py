"""Sentences on where a run stands: on coming back, on a changed kit, and in the account."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from fractions import Fraction
from math import ceil, floor
from typing import TYPE_CHECKING

from model.kit import SetAside
from model.kittexts import changed_texts
from model.language.english.grammar import counted, some
from model.language.english.steps import StepWords
from model.language.english.warnings import WarningWords
from model.length import Unit
from model.pace import Left
from model.plan import Plan, Step, StepKind
from model.state import Due, Spot, State

if TYPE_CHECKING:
    from model.account import Account, PocketAccount, SheetAccount
    from model.inventory import Row
    from model.kitchange import Change

_MOST = 6
SQUARE_INCH = Fraction(127, 5) ** 2
"""In square millimetres."""


class ReportWords(WarningWords, StepWords):
    """Words on a run as a whole."""

    def duration(self, spent: timedelta) -> str:
        """A time span: ``under a minute``, ``12 min``, ``1 h 05 min``."""
        minutes = int(spent.total_seconds() // 60)
        if minutes < 1:
            return "under a minute"
        if minutes < 60:
            return f"{minutes} min"
        return f"{minutes // 60} h {minutes % 60:02} min"

    def left(self, left: Left | None) -> str:
        """The estimate of what is left, or that none can be made yet."""
        if left is None:
            return "time left: not known yet"
        if left.high is None:
            return (
                f"at least {self.duration(timedelta(minutes=whole_minutes(left.low, False)))} left"
            )
        if not left.high:
            return "nothing left to do"
        if left.high <= 60:
            return "about a minute left"
        # Rounded outwards, so that what is said is no narrower than what is known.
        low, high = whole_minutes(left.low, False), whole_minutes(left.high, True)
        span = self.duration(timedelta(minutes=high))
        if low == high:
            return f"about {span} left"
        if low < 1:
            return f"up to {span} left"
        start = str(low) if high < 60 else self.duration(timedelta(minutes=low))
        return f"{start} to {span} left"

    # Where a run stands

    def how_far(self, done: int, steps: int, to_file: int) -> str:
        """How far a run is, for those who are not at its table; see the shelf's phrases."""
        return self.manner.phrases.shelf.how_far(done, steps, to_file)

    def sheet_waits(self, sheet: str) -> str:
        """A sheet that waits."""
        return f"sheet {sheet}"

    def sheet_put_off(self, sheet: str) -> str:
        """A sheet that was put off."""
        return f"sheet {sheet} (put off)"

    def more_wait(self, count: int) -> str:
        """How many more things wait than are named."""
        return f"{count} more"

    def at_step(self, number: int, steps: int, due: Due) -> str:
        """Which step is worked on, in few words: ``step 8/19``, ``step 8/19, filing``."""
        if due.over:
            return self.how_far(steps, steps, 0)
        return f"step {number}/{steps}{', filing' * (due.item is not None)}"

    def at_sheet(self, number: int, sheets: int) -> str:
        """Which sheet is worked on, in few words: ``sheet 2/14``."""
        return f"sheet {number}/{sheets}"

    # Coming back

    def welcome_back(self, state: State, waits: Sequence[str]) -> str:
        """Where a crafter stands who comes back after an hour or a week."""
        return "\n".join((f"Welcome back to {self.plan.kit.title}.", *self.standing(state, waits)))

    def welcome_briefly(self, state: State, waits: Sequence[str]) -> tuple[str, ...]:
        """The same in a few words, what matters most first, for as many as there is room."""
        steps = len(self.plan.steps)
        over = state.step() is None and state.due().item is None
        done = f"all {steps} steps done" if over else f"{state.steps_done}/{steps} done"
        said = [f"Welcome back: {done}"]
        if state.warnings:
            said.append(f"{counted(len(state.warnings), 'warning')} open")
        if waits:
            said.append(f"waits: {', '.join(waits)}")
        if state.pile:
            said.append(f"{len(state.pile)} on the pile")
        return tuple(said)

    def standing(self, state: State, waits: Sequence[str]) -> tuple[str, ...]:
        """How far a run is, what lies on the pile, what waits, and what is wrong: by lines."""
        said: list[str] = []
        due, step = state.due(), state.step()
        steps = len(self.plan.steps)
        done = f"{state.steps_done} of {steps} steps are done"
        if due.item is not None:
            item = self.plan.items[due.item]
            said.append(f"{done}. First: {self.file(item, state.belongs(due.item))}")
        elif step is None:
            said.append(f"All {steps} steps are done.")
        elif step.load and step.kind is not StepKind.LOAD:
            said.append(f"{done}; you are at sheet {step.sheet}, {self.headline(step).lower()}.")
        else:
            said.append(f"{done}; next: {self.headline(step).lower()}.")
        if step is not None and step.kind in (StepKind.CUT, StepKind.TEAR):
            where = "In the trimmer" if step.blade else "In hand"
            said.append(f"{where}: {self.in_hand(step)}.")
        pile = [self.named(self.plan.items[id]) for id in reversed(state.pile)]
        if pile:
            said.append(f"On the pile, from the top: {some(pile, _MOST)}.")
        if waits:
            said.append(f"Put aside and waiting: {', '.join(waits)}.")
        if state.warnings:
            count = counted(len(state.warnings), "warning")
            said.append(f"{count} still open: {self._still_open(state)}.")
        return tuple(said)

    def _still_open(self, state: State) -> str:
        """What the warnings that stand are about, the newest first."""
        warnings = sorted(state.warnings.values(), key=lambda warning: -warning.since)
        said: list[str] = []
        for warning in warnings:
            name = self.warning_name(warning.kind)
            name = f"{name[:1].lower()}{name[1:]}"
            items = [self.named(self.plan.items[id]) for id in warning.items[-1:]]
            said.append(": ".join([name, *items]))
        return some(said, _MOST, "; ")

    def in_hand(self, step: Step) -> str:
        """What is left of the paper in hand before a cut: ``A, now 7½ × 12``."""
        item = self.plan.items[(*step.takes, *step.touches)[0]]
        if step.number == 1 or step.before is None:
            return self.named(item)
        directional = bool(item.paper and item.paper.directional)
        size = self.manner.stock_size(step.before, directional)
        return f"{item.name}, now {size}" if size else f"what is left of {item.name}"

    # A changed kit

    def kit_changed(self, change: Change) -> str:
        """How the kit's file changed since the session began, and what can be done."""
        said = ["The kit's file was changed since this session began."]
        if change.plan is None:
            said += ["It can't be used as it is now:", *change.findings[:_MOST]]
            more = len(change.findings) - _MOST
            if more > 0:
                said.append(f"and {more} more; dryfit check tells all of them")
            return "\n".join(said)
        new = change.plan
        for plan, ids, what in (
            (new, change.added, "new"),
            (self.plan, change.dropped, "gone"),
            (self.plan, change.altered, "changed"),
        ):
            if ids:
                at = some(list(dict.fromkeys(step_name(plan, id) for id in ids)), _MOST)
                steps = counted(len(ids), "step is", "steps are")
                said.append(f"{steps} {what}, at: {at}.")
        if change.blockers:
            names = list(dict.fromkeys(self._touched(id) for id in change.blockers))
            touched = some(names, _MOST)
            said.append(f"It can't be taken over; it touches what is done already: {touched}.")
        elif len(said) == 1:
            texts = changed_texts(self.plan.kit, new.kit)
            about = f", on: {some(texts, _MOST)}" if texts else ""
            said.append(f"No step is touched by it; only words changed{about}.")
        return "\n".join(said)

    def _touched(self, id: str) -> str:
        if id in self.plan.items:
            return self.plan.items[id].name
        return step_name(self.plan, id) if id in self.plan.step_at else self.dot(id)

    # The account

    def account_head(self, part: str) -> str:
        """The heading of a part of the account, by its code."""
        return {
            "pockets": "Pockets",
            "sheets": "Sheets: area = pieces + scraps",
            "scraps": "Scraps",
            "warnings": "Warnings",
            "mended": "What went wrong at the trimmer",
            "later": "Set aside, left over, left out",
            "time": "Time",
        }[part]

    def account_title(self) -> str:
        """The first line of a saved report."""
        return f"dryfit account: {self.plan.kit.title}"

    def verdict(self, account: Account) -> str:
        """Whether everything is accounted for."""
        if account.closes:
            return "Everything is accounted for."
        if account.lost_only:
            return "All but what was lost is accounted for."
        if account.finished:
            return "Not everything is accounted for yet."
        return "The run is not finished yet."

    def pocket_held(self, pocket: PocketAccount) -> str:
        """How much of a pocket is there."""
        lost = f", {pocket.lost} lost" if pocket.lost else ""
        pieces = counted(pocket.wanted, "piece")
        return f"{self.pocket(pocket.pocket)}: {pocket.held} of {pieces}{lost}"

    def pieces_held(self, row: Row) -> str:
        """How many of a kind are in a pocket, and where the others are."""
        where = ", ".join(self.elsewhere(row))
        said = f"{row.filed}/{row.wanted} {self.named(row.item)}"
        return f"{said}: {where}" if where else said

    def elsewhere(self, row: Row) -> tuple[str, ...]:
        """Where the copies are that a pocket still wants."""
        return tuple(
            f"{count} {what}"
            for count, what in (
                (row.on_pile, "on the pile"),
                (row.to_come, "to come"),
                (row.elsewhere, "in another pocket"),
                (row.scrapped, "among the scraps"),
                (row.lost, "lost"),
            )
            if count
        )

    def stray_in_list(self, goes: str) -> str:
        """That something in a pocket does not belong there, and where it goes."""
        return f"does not belong here: {goes}"

    def base_in_list(self, name: str, page: int, place: int) -> str:
        """A base among the things of its pocket, and where it lies."""
        return f"base {name}, page {page}: {self.at_place(place)}"

    def about_row(self, row: Row) -> str:
        """What stands beside a row of a pocket: paper, pages, sheets, ties."""
        about = []
        reverse = row.item.use == "reverse"
        if row.face is not None and (reverse or row.face.name != row.item.name):
            # What is packed ready made has its own name for its paper's, and needs it once.
            about.append(row.face.name + (", reverse" if reverse else ""))
        if row.pages:
            about.append(self.pages(row.pages))
        if row.sources:
            about.append("from " + ", ".join(row.sources))
        if row.again:
            about.append("cut again later")
        about += [f"{text[:1].lower()}{text[1:]}".rstrip(".") for text in self.ties(row.kind)]
        return "; ".join(about)

    def area(self, area: Fraction) -> str:
        """An area: square inches with two decimals, or square centimetres with one."""
        if self.manner.style.unit is Unit.IN:
            return f"{decimal(area / SQUARE_INCH, 2)} sq in"
        return f"{decimal(area / 100, 1)} sq cm"

    def sheet_line(self, sheet: SheetAccount) -> str:
        """Where a sheet's paper is."""
        if not sheet.measured:
            pieces, scraps = (
                counted(sheet.piece_count, "piece"),
                counted(sheet.scrap_count, "scrap"),
            )
            return f"{sheet.name}: not measured; {pieces} and {scraps} by count"
        parts = [f"pieces {self.area(sheet.pieces)}"]
        for what, area in (
            ("scraps", sheet.scraps),
            ("cut by hand, with trimmings,", sheet.by_hand),
            ("left out", sheet.left_out),
            ("not cut", sheet.uncut - sheet.left_out),
        ):
            if area:
                parts.append(f"{what} {self.area(area)}")
        return f"{sheet.name}: {self.area(sheet.area)} = {' + '.join(parts)}"

    def base_line(self, name: str, page: int, place: int) -> str:
        """Where a base is."""
        return f"{name}: whole, base of page {page}, {self.at_place(place)}"

    def scraps_of(self, have: int, expected: int) -> str:
        """How many scraps there are."""
        return f"{have} of {expected} expected"

    def scrap_line(self, id: str, to_come: bool = False) -> str:
        """One thing among the scraps, or a scrap that is still to come."""
        item = self.plan.items[id]
        line = f"{self.named(item)} from {item.sheet or 'the packet'}"
        return f"{line}: still to come" if to_come else line

    def extra_line(self, count: int) -> str:
        """Scraps that the kit does not know."""
        return f"{count} more that the kit does not know"

    def no_warning(self) -> str:
        """Says that all is where it belongs."""
        return "none open"

    def adrift_line(self, entries: Sequence[int]) -> str:
        """What a damaged session has lost the sense of."""
        return (
            f"could not be made sense of: {some([f'entry {number}' for number in entries], _MOST)}"
        )

    def moved_line(self, item: str, was: str, now: str) -> str:
        """What was moved to another pocket after it was filed; both by their labels."""
        name = self.named(self.plan.items[item])
        return f"moved: {name} from {self.dot(was)} to {self.dot(now)}"

    def aside_line(self, aside: SetAside) -> str:
        """Which pages will call for a set-aside."""
        pages = f"for {self.pages(aside.pages)}" if aside.pages else "for any page"
        return f"{aside.name}: {pages}"

    def ribbon_line(self, name: str, left: Fraction) -> str:
        """What is left over of a ribbon."""
        return f"{name}: {self.manner.length(left)} left over"

    def left_out_line(self, id: str) -> str:
        """A step that was left out, by what it would have asked."""
        step = self.plan.steps[self.plan.step_at[id]]
        return f"left out: {self.sentence(step, Spot.NOWHERE)}"

    def time_line(self, spent: timedelta, sittings: int, cuts: int) -> str:
        """Time at the table."""
        times = f"{counted(sittings, 'sitting')}, {counted(cuts, 'cut')}"
        return f"{self.duration(spent)} at the table, {times}"

    def kit_line(self) -> str:
        """Which kit it was."""
        kit = self.plan.kit
        return f"kit: {kit.title}{', ' + kit.edition if kit.edition else ''}"


def whole_minutes(seconds: float, up: bool) -> int:
    """Whole minutes; from half an hour on every fifth, since nobody knows it better."""
    to = 1 if seconds < 1800 else 5
    count = seconds / (60 * to)
    return to * (ceil(count) if up else floor(count))


def step_name(plan: Plan, id: str) -> str:
    """What a step is done to, by name."""
    step = plan.steps[plan.step_at[id]]
    if step.work is not None:
        return step.work.take
    if step.sheet or not step.makes:
        return step.sheet or id.partition(":")[2] or id
    return plan.items[step.makes[0]].name


def decimal(value: Fraction, places: int) -> str:
    """A number with so many decimals, without noughts at its end."""
    scaled = round(value * 10**places)
    whole, rest = divmod(scaled, 10**places)
    tail = f".{rest:0{places}}".rstrip("0").rstrip(".")
    return f"{whole}{tail}"
