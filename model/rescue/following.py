"""What follows of a mistake: what was cut of a thing that is not what it was taken for.

Sizes come from the engine of cuts, exactly.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from model.cutting import Stock, to_loose_edge
from model.geometry import Orientation, PaperSide
from model.kit import Mark, Verb, Work
from model.plan import Item, Step
from model.plan import Role as Part
from model.rescue.loads_now import (
    cut_so,
    cuts_of,
    load_of,
    marks_of,
    paper_name,
    parts_of,
    pieces_beneath,
    same_size,
    share_of,
)
from model.rescue.loose import SCRAPPED, LoadNow, Loose, Role, played
from model.rescue.mending import Fate, Share
from model.rescue.mishap import Mishap
from model.rescue.roles import load_now, role_of
from model.spot import Spot
from model.state import State


@dataclass(slots=True)
class Truth:
    """What is so, and how it differs from the plan.

    Attributes:
        mishap: What was said.
        loads: Loads that are not as the plan has them, by what they take, in order of work.
        loose: Things that are not what they should be, and uncut.
        plays: The role that such a thing plays all the same, by its identity.
        wanted: What is not made, and what nothing that is left to do would make: identities in
            the plan.
        gone: Sheets that are not there.
        spent: Ready-made copies that are lost, by kind and pocket.
        swapped: Things that were taken for one another.
        since: The number of the entry from which on they were.
    """

    mishap: Mishap
    loads: dict[str, LoadNow] = field(default_factory=dict)
    loose: dict[str, Loose] = field(default_factory=dict)
    plays: dict[str, str] = field(default_factory=dict)
    wanted: list[str] = field(default_factory=list)
    gone: tuple[str, ...] = ()
    spent: tuple[tuple[str, int], ...] = ()
    swapped: tuple[tuple[str, str], ...] = ()
    since: int = 0


class Walker:
    """Works out what follows of a mistake; what was said of it is told by `model.rescue.truth`.

    Attributes:
        state: The session as it was told.
        plan: Its plan.
        truth: What is so, as far as it is worked out.
    """

    def __init__(self, state: State, mishap: Mishap) -> None:
        """Nothing is worked out yet.

        Args:
            state: The session as it was told.
            mishap: What went wrong.
        """
        self.state, self.plan, self.mishap = state, state.plan, mishap
        self.truth = Truth(mishap)
        self._needs: list[str] = []  # what the things that were affected should have been
        self._wanted: dict[str, None] = {}

    def _want(self, id: str) -> None:
        for role in pieces_beneath(self.plan, id):
            self._wanted.setdefault(role, None)

    def now(self, item: str) -> LoadNow:
        """A load as far as it is cut, by the plan."""
        return load_now(self.plan, self.state, item)

    def _walk(
        self,
        thing: str,
        stock: Stock,
        lying: Orientation,
        program: str,
        *,
        marks: list[Mark] | None = None,
        turned: int = 0,
        over: bool = False,
        other: bool = False,
    ) -> Share:
        """What is so of a thing that was treated as `program` was to be treated.

        Args:
            thing: The thing.
            stock: What it is in truth.
            lying: How it came off.
            program: The thing of the plan for which it was taken, most often itself.
            marks: The marks of its load, where they were others than planned.
            turned: Quarter turns by which it lay wrongly.
            over: The wrong face was up.
            other: It was taken for another thing, and may be of the same size.

        Returns:
            What becomes of it, as far as that is known.
        """
        plan, done = self.plan, self.state.done
        told = marks is not None or bool(turned) or over or other
        meant = plan.items[program]
        same_paper = paper_name(self._known(thing)) == paper_name(meant)
        if not told and same_paper and same_size(stock, meant.stock):
            return share_of(plan, program)
        load = load_of(plan, program)
        if load is None or not done.get(load.id):
            if self.state.where(program) == Spot.TAKEN:
                # Cut by hand: what came of it is there, whatever it measured.
                return share_of(plan, program)
            self._lies(thing, stock, lying, program)
            return self._spoilt(program)  # until it is known what it can be
        work = load.work
        assert work is not None
        planned = _lies_for(load, plan.items[program].lying, lying).turned(turned)
        lies = planned.showing(not planned.reverse) if over else planned
        cuts = cuts_of(plan, program)
        made = sum(bool(done.get(cut.id)) for cut in cuts)
        every = tuple(marks or marks_of(work))
        parts = cut_so(work, stock, lies, every[:made], cuts)
        names = parts_of(plan, program)
        same = thing == program and not turned and not over
        turn = 0 if same else (lies.quarter - lying.showing(lies.reverse).quarter) % 4
        up: PaperSide | None = None if same else "reverse" if lies.reverse else "face"
        torn = work.verb is Verb.TEAR and not same
        now = LoadNow(thing, every[:made], (), None, turn, up, same, torn, changed=True)
        self.truth.loads[thing] = now  # before those of its parts
        shares = tuple(
            self._walk(f"{thing}/{n}", part, lies, names[n - 1])
            for n, part in enumerate(parts[:-1], 1)
        )
        if made == len(cuts):
            rest = self._walk(f"{thing}/r", parts[-1], lies, names[-1])
            self.truth.loads[thing] = replace(now, gives=shares, rest=rest)
            return played(program)
        left = tuple(share_of(plan, name) for name in names[made:])
        self.truth.loads[thing] = replace(now, gives=shares, left=every[made:], left_shares=left)
        if not same_size(parts[-1], cuts[made].before):
            self._lies(thing, parts[-1], lies, program, begun=True, off=lying)
            for share in left:
                if share.name:
                    self._want(share.name)
        return played(program)

    def _lies(
        self,
        id: str,
        stock: Stock,
        lying: Orientation,
        program: str,
        *,
        begun: bool = False,
        off: Orientation | None = None,
    ) -> None:
        taken = self.plan.items[program]
        real = self._known(id)
        place = Spot.IN_HAND if begun else self.state.where(program)
        self.truth.loose[id] = Loose(
            id,
            stock.width.value,
            stock.height.value,
            paper_name(real),
            real.sheet,
            lying.sideways,
            (off or lying).sideways,
            begun,
            place in (Spot.STACK, Spot.ASIDE),
            place,
            True,
            bool(stock.torn),
            "" if begun else taken.name,
            taken.role is Part.SCRAP,
            SCRAPPED if begun else self._spoilt(program),
        )
        if not begun and taken.role is not Part.SCRAP:
            self._needs.append(program)

    def _known(self, id: str) -> Item:
        """A thing, or the nearest of those that it is a part of, that the plan knows."""
        while id not in self.plan.items:
            id = id.rpartition("/")[0]
        return self.plan.items[id]

    def _spoilt(self, id: str) -> Share:
        """What becomes of a thing of the plan that is of no use."""
        holed = any(
            self.state.done.get(self.plan.steps[n].id) for n in self.plan.touched_by.get(id, ())
        )
        return Share(Fate.SCRAP, id) if holed else SCRAPPED

    def _match(self) -> None:
        """Find out what things that are not what they should be are in truth."""
        open_roles = {id: role_of(self.plan, id) for id in self._needs}
        for loose in self.truth.loose.values():
            if loose.begun:
                continue
            for id, role in open_roles.items():
                if not self._alike(loose, role):
                    continue
                self.truth.plays[loose.id] = id
                self._play(loose.id, id)
                del open_roles[id]
                break
        for id in open_roles:
            self._want(id)

    def _alike(self, loose: Loose, role: Role) -> bool:
        if loose.spoilt.name or loose.paper != role.paper or loose.torn != role.stuck:
            return False
        item = self.plan.items[role.id]
        if item.role is Part.PIECE:
            return role.fits(loose.width, loose.height)
        return (loose.width, loose.height) == (role.width, role.height)

    def _play(self, thing: str, role: str) -> None:
        if (
            thing in self.plan.sheets
        ):  # a sheet has no load that gives it: what it plays is cut of it
            now = load_now(self.plan, self.state, role)
            lying = load_of(self.plan, role)
            assert lying is not None
            mine = self.plan.items[thing].lying.showing(lying.lying.reverse)
            turn = (lying.lying.quarter - mine.quarter) % 4
            up: PaperSide = "reverse" if lying.lying.reverse else "face"
            torn = lying.verb is Verb.TEAR
            self.truth.loads[thing] = replace(
                now, of=thing, turn=turn, up=up, as_written=False, torn=torn, changed=True
            )
            return
        self._share(thing, played(role))

    def _share(self, thing: str, share: Share) -> None:
        """What becomes of a part of a load that is cut; of a sheet no load says so."""
        parent, _, number = thing.rpartition("/")
        if parent:
            now = self.truth.loads.get(parent) or self.now(parent)
            self.truth.loads[parent] = now.sharing(number, share)


def _lies_for(load: Step, planned: Orientation, lying: Orientation) -> Orientation:
    """How a thing lies in a load when it is treated as the author's step says.

    Args:
        load: The load.
        planned: How the thing comes off by the plan.
        lying: How it came off in truth.
    """
    work = load.work
    assert work is not None
    if work.lay is not None or lying == planned:
        return load.lying
    was, now = (_by_words(work, each) for each in (planned, lying))
    return Orientation((load.lying.quarter + now.quarter - was.quarter) % 4, now.reverse)


def _by_words(work: Work, lying: Orientation) -> Orientation:
    reverse = work.up == "reverse" if work.up_said else lying.reverse
    lies = lying.showing(reverse).turned(work.turn)
    return to_loose_edge(lies, work.edge) if work.verb is Verb.TEAR else lies
