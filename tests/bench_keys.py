"""The part of the benchmark that counts keys: runs of a kit, pressed in the real program.

After each key the session is asked whether what was meant is so; a key that no longer works, or
does something else, ends the count with an error.
"""

from __future__ import annotations

import asyncio
import random
from collections import Counter
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path

from textual.pilot import Pilot

from model.event import Done, Event, Filed, Moved, Scrapped
from model.plan import Role, StepKind
from model.reading import load_kit
from model.session import Session
from model.settings import Settings
from model.spot import Spot
from tests import settled
from tests.bench_parts import Row, home
from tests.bench_terminal import ROOT
from tui.app import DryfitApp
from tui.commands import key_of
from tui.screens.account import AccountScreen
from tui.screens.dialog import Dialog
from tui.screens.table import TableScreen
from tui.table_commands import COMMANDS

MISTAKES = (
    ("pocket, put right",) * 4 + ("pocket, told again",) * 2 + ("scrap",) * 2 + ("too soon",) * 2
)
"""Ten mistakes: filed wrong and put right by the warning's key, or by the right pocket's; a piece
called a scrap; a cut said to be made that was not."""


class KeyBroken(AssertionError):
    """A key did not do what it is for."""


@dataclass
class Presser:
    """Presses keys at the table, and looks at what came of each.

    Attributes:
        pilot: Drives the program.
        session: What the program shows.
        presses: How often each key was pressed.
    """

    pilot: Pilot[None]
    session: Session
    presses: Counter[str] = field(default_factory=Counter)

    @property
    def app(self) -> DryfitApp:
        """The program."""
        app = self.pilot.app
        assert isinstance(app, DryfitApp)
        return app

    @property
    def table(self) -> TableScreen:
        """The table, which must be what is shown."""
        screen = self.app.screen
        if not isinstance(screen, TableScreen):
            raise KeyBroken(f"{screen} is shown, and not the table")
        return screen

    def key(self, command: str) -> str:
        """The key that the program has for a command of the table."""
        names = {"?": "question_mark", "Space": "space", ",": "comma"}
        shown = key_of(self.app.keymap, "table", COMMANDS, command)
        return names.get(shown, shown)

    async def press(self, key: str) -> list[Event]:
        """Press a key; what the session was told with it."""
        before = self.session.said
        self.presses[key] += 1
        await self.pilot.press(key)
        entries = [entry for entry in self.session.state.standing() if entry.n > before]
        return [entry.event for entry in entries]

    async def command(self, command: str) -> list[Event]:
        """Press the key of a command."""
        return await self.press(self.key(command))

    async def did(self) -> None:
        """Press the one key: what is due was done."""
        due = self.session.state.due()
        told = await self.command("did")
        want = due.item or (due.step.id if due.step else "")
        said = {getattr(event, "item", getattr(event, "step", "")) for event in told}
        if want not in said or self.session.state.warnings:
            raise KeyBroken(f"{self.key('did')} at {want} said {told}")

    async def right(self, piece: str | None) -> None:
        """Say that what is due is done: by its pocket's key, if a piece is given."""
        if piece is None:
            await self.did()
        else:
            await self.pocket(self.session.state.belongs(piece))

    async def pocket(self, index: int) -> list[Event]:
        """Press the keys of a pocket, as the table names them."""
        line = self.table.moment.pockets[index]
        told: list[Event] = []
        for digit in line.keys[0].split("-")[0]:  # 1-4 stands for any of these
            told += await self.press(digit)
        label = self.session.label(index)
        put = [e for e in told if isinstance(e, (Filed, Moved)) and e.pocket == label]
        filled = [e for e in told if isinstance(e, Done)]
        if not put and not filled:
            raise KeyBroken(f"{line.keys[0]} for pocket {label} said {told}")
        return told


async def run(
    kit: str, folder: Path, pockets: bool, mistakes: int = 0, settings: Settings | None = None
) -> Counter[str]:
    """Press a kit through, from the first step to the account; how often each key was pressed.

    Args:
        kit: Name of a demo kit.
        folder: Where the session is kept.
        pockets: Press the pocket of what comes off as it is cut, which says both; else only the
            one key.
        mistakes: How many mistakes are made and put right.
        settings: The crafter's settings.

    Raises:
        KeyBroken: A key did not do what it is for.
    """
    settled.install()
    path = ROOT / "kits" / f"{kit}.toml"
    session = Session.start(load_kit(path), path, folder)
    chance = random.Random(7)
    app = DryfitApp(settings or Settings(), None, None, folder)
    async with app.run_test(size=(80, 24)) as pilot:
        app.show_session(session)
        await pilot.pause()
        presser = Presser(pilot, session)
        at = _places(session, mistakes, chance)
        planned = dict(zip(at, MISTAKES, strict=False))
        number = 0
        while not (due := session.state.due()).over:
            piece = _comes_off(session)
            mistake = planned.pop(number, None)
            if mistake is not None and not _fits(session, piece, mistake, pockets):
                planned[_free(planned, number)] = mistake  # the next place will do
                mistake = None
            if mistake is not None and piece is not None:
                await _err(presser, piece, mistake, pockets, chance)
            else:
                await presser.right(piece if pockets else None)
            number += 1
            assert number < 5000, due
        if planned:
            raise KeyBroken(f"not all mistakes found their place: {planned}")
        if session.state.warnings or any(p.held != p.wanted for p in presser.table.moment.pockets):
            raise KeyBroken("at the end something lies wrong")
        await presser.command("did")
        await pilot.pause()
        if not isinstance(app.screen, AccountScreen):
            raise KeyBroken("the account is not shown at the end")
    session.close()
    return presser.presses


def _comes_off(session: Session) -> str | None:
    """The piece that is to be filed, or that the cut that is due makes for a pocket."""
    due, state = session.state.due(), session.state
    item = due.item
    if item is None and due.step is not None and due.step.kind is StepKind.CUT:
        item = due.step.makes[0]
        if session.plan.taken_by.get(item) is not None:
            return None  # it is cut again, and waits on the pile
    if item is None or session.plan.items[item].role is not Role.PIECE:
        return None
    return item if state.belongs(item) >= 0 else None


def _places(session: Session, mistakes: int, chance: random.Random) -> list[int]:
    """At which answers to err: anywhere but at the ends, not twice in a row."""
    steps = len(session.plan.steps)
    return sorted(chance.sample(range(steps // 6, 5 * steps // 6, 2), mistakes)) if mistakes else []


def _fits(session: Session, piece: str | None, mistake: str, pockets: bool) -> bool:
    """Whether one can err so now: where cuts are told with Space, pockets go wrong at filing."""
    cutting = session.state.due().item is None
    return piece is not None and (cutting if mistake == "too soon" else pockets or not cutting)


def _free(planned: dict[int, str], number: int) -> int:
    """The next answer at which no mistake is planned."""
    return next(at for at in count(number + 1) if at not in planned)


async def _err(
    presser: Presser, item: str, mistake: str, pockets: bool, chance: random.Random
) -> None:
    """Make one mistake, and put it right."""
    session = presser.session
    home = session.state.belongs(item)
    away = [p.index for p in session.plan.kit.pockets if p.index != home]
    if mistake == "too soon":
        await presser.right(item if pockets else None)
        await _not_cut(presser)
        await presser.right(item if pockets else None)
        return
    if mistake == "scrap":
        told = await presser.command("scrap")
        wrong = any(isinstance(each, Scrapped) for each in told)
        wrong = wrong and session.state.where(item) == Spot.SCRAPS
    else:
        for pocket in chance.sample(away, len(away)):
            if _wanted_there(session, item, pocket):
                continue  # a copy of its like belongs there: no mistake
            await presser.pocket(pocket)
            wrong = session.state.where(item) == pocket
            break
        else:
            raise KeyBroken(f"{item} is wanted in every pocket")
    if not wrong or not session.state.warnings:
        raise KeyBroken(f"{mistake}: {item} raised no warning")
    if mistake == "pocket, told again":
        await presser.pocket(home)
    else:
        await presser.command("right")
    if session.state.warnings or session.state.where(item) != home:
        raise KeyBroken(f"{mistake}: {item} was not put right")


def _wanted_there(session: Session, item: str, pocket: int) -> bool:
    group = session.plan.groups.get(session.plan.items[item].group)
    return group is not None and any(to.pocket == pocket for to in group.to)


async def _not_cut(presser: Presser) -> None:
    """Take back a cut that was not made."""
    done = presser.session.state.steps_done
    await presser.command("undo")
    await presser.pilot.pause()
    if not isinstance(presser.app.screen, Dialog):
        raise KeyBroken("undo after a cut asks nothing")
    await presser.press("n")
    await presser.pilot.pause()
    if presser.session.state.steps_done >= done:
        raise KeyBroken("the cut was not taken back")


def keys() -> list[Row]:
    """Count the keys of whole runs of the large demo kit."""
    rows = []
    for what, pockets, mistakes in (
        ("Space only, no mistake", False, 0),
        ("Space only, ten mistakes put right", False, len(MISTAKES)),
        ("each pocket's key as it is cut, no mistake", True, 0),
        ("each pocket's key as it is cut, ten put right", True, len(MISTAKES)),
    ):
        with home() as folder:
            made = asyncio.run(run("harbour", folder, pockets, mistakes))
        said = ", ".join(f"{key} {many}" for key, many in made.most_common())
        rows.append(Row(f"harbour, {what}", f"{made.total()} keys  ({said})"))
    return rows
