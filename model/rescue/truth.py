"""From what a crafter says went wrong to what is so in truth.

Everything since is derived anew: what was cut of a thing that is not what it was taken for is
not what it should be either. Sizes come from the engine of cuts, exactly.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction

from model.alike import may_turn
from model.cutting import Stock, to_loose_edge
from model.geometry import Orientation, PaperSide
from model.kit import Mark, Source, Verb, Work
from model.plan import Item, Plan, Step, StepKind
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
from model.rescue.mishap import CannotBe, Mishap, What
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
        through: Everything that was affected, made or not; to show what is touched.
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


def truth_of(state: State, mishap: Mishap) -> Truth:
    """What is so in truth.

    Args:
        state: The session as it was told.
        mishap: What went wrong.

    Returns:
        The truth; with nothing in `wanted` nothing is lost.

    Raises:
        CannotBe: It can't have been so.
    """
    return _Teller(state, mishap).told()


def role_of(plan: Plan, id: str) -> Role:
    """A thing of the plan as something that is wanted."""
    item = plan.items[id]
    size = _size(item)
    kind = item.kind
    group = plan.groups.get(item.group)
    to = group.to[0] if group and group.to else None
    stuck = size is None or bool(item.stock and item.stock.torn)
    width, height = size or (Fraction(0), Fraction(0))
    return Role(
        id,
        width,
        height,
        paper_name(item),
        may_turn(kind, item.paper),
        kind.smaller_by if kind else Fraction(0),
        to.pocket if to else -1,
        to.page if to else None,
        item.name,
        stuck,
    )


def _size(item: Item) -> tuple[Fraction, Fraction] | None:
    if item.stock is None or not item.stock.measured:
        return None
    return item.stock.width.value, item.stock.height.value


class _Teller:
    """Works out the truth."""

    def __init__(self, state: State, mishap: Mishap) -> None:
        self.state, self.plan, self.mishap = state, state.plan, mishap
        self.truth = Truth(mishap)
        self._needs: list[str] = []  # what the things that were affected should have been
        self._wanted: dict[str, None] = {}

    def told(self) -> Truth:
        told = {
            What.MARK: self._mark,
            What.MEASURE: self._measure,
            What.PIECE: self._piece,
            What.TURNED: self._turned,
            What.FACE: self._face,
            What.RUINED: self._ruined,
            What.MISSING: self._missing,
        }
        told[self.mishap.what]()
        self._match()
        self.truth.wanted = list(self._wanted)
        return self.truth

    # What was said

    def _cut(self) -> Step:
        index = self.plan.step_at.get(self.mishap.step)
        step = None if index is None else self.plan.steps[index]
        if step is None or not step.load:
            raise CannotBe("no such step")
        if not self.state.done.get(step.id):
            raise CannotBe("not done", step.id)
        return step

    def _load(self) -> Step:
        """A load of which a cut is made at least: before, it is only to be laid anew."""
        load = self._cut()
        if load.kind is not StepKind.LOAD:
            raise CannotBe("no such step", load.id)
        if not any(self.state.done.get(cut.id) for cut in cuts_of(self.plan, load.takes[0])):
            raise CannotBe("not cut", load.id)
        return load

    def _mark(self) -> None:
        step = self._cut()
        self._recut(step, self.mishap.length)

    def _measure(self) -> None:
        step = self._cut()
        thing = self.mishap.thing
        item = (step.takes or step.touches)[0]
        if thing not in step.makes and not (step.touches and thing == item):
            raise CannotBe("no such thing", step.id, thing=thing)
        came_off = thing == step.makes[0]
        torn = step.work is not None and step.work.verb is Verb.TEAR
        # A mark is what stays on the bed; a tear is what comes off.
        said = self.mishap.length
        self._recut(step, said if came_off == torn else self._along(step) - said)

    def _along(self, step: Step) -> Fraction:
        """What was on the bed before a cut."""
        if step.before is None or not step.before.along(step.lying).exact:
            raise CannotBe("no numbers", step.id)
        return step.before.along(step.lying).value

    def _recut(self, step: Step, at: Fraction) -> None:
        """A cut was made at another mark."""
        work, item = step.work, (step.takes or step.touches)[0]
        assert work is not None
        marks = list(marks_of(work))
        was = marks[step.number - 1]
        along = self._along(step)
        if was.at is None:
            raise CannotBe("no numbers", step.id)
        if at == was.at:
            raise CannotBe("as it should be", step.id)
        if not 0 < at < along:
            raise CannotBe("outside", step.id, along)
        marks[step.number - 1] = Mark(at)
        thing = self.plan.items[item]
        assert thing.stock is not None
        self._walk(item, thing.stock, thing.lying, item, marks=marks)

    def _piece(self) -> None:
        load = self._load()
        meant, taken = load.takes[0], self.mishap.thing
        things = self.plan.items
        if taken == meant:
            raise CannotBe("as it should be", load.id)
        other = load_of(self.plan, taken)
        if taken not in things or self.state.where(taken) == Spot.NOWHERE:
            raise CannotBe("not there", load.id, thing=taken)
        kind, stock = things[taken].kind, things[taken].stock
        if things[taken].role is Part.BASE or (kind is not None and kind.source is not Source.CUT):
            raise CannotBe("not of the stack", load.id, thing=taken)
        if (taken in self.plan.sheets) != (meant in self.plan.sheets):
            raise CannotBe("not of the stack", load.id, thing=taken)
        if stock is None or not stock.measured:
            raise CannotBe("no numbers", load.id, thing=taken)
        since = self._said_at(load)
        maker = self.plan.made_by.get(taken)
        if maker is not None and not 0 < self._said_at(self.plan.steps[maker]) < since:
            raise CannotBe("not there", load.id, thing=taken)
        if other is not None and self.state.done.get(other.id) and self._said_at(other) < since:
            raise CannotBe("cut before", other.id, thing=taken)
        if any(self._spoilt(id).name for id in (meant, taken)):
            raise CannotBe("by hand", load.id, thing=taken)
        self.truth.swapped, self.truth.since = ((meant, taken),), since
        mine = things[meant].stock
        assert mine is not None
        self._share(taken, self._walk(taken, stock, things[taken].lying, meant, other=True))
        self._share(meant, self._walk(meant, mine, things[meant].lying, taken, other=True))

    def _said_at(self, step: Step) -> int:
        for entry in self.state.standing():
            if getattr(entry.event, "step", None) == step.id:
                return entry.n
        return 0

    def _turned(self) -> None:
        self._laid_so(turned=1)

    def _face(self) -> None:
        self._laid_so(over=True)

    def _laid_so(self, *, turned: int = 0, over: bool = False) -> None:
        load = self._load()
        if load.work is None or load.work.verb is not Verb.TRIM:
            raise CannotBe("not to turn", load.id)
        thing = self.plan.items[load.takes[0]]
        if thing.stock is None or not thing.stock.measured:
            raise CannotBe("no numbers", load.id)
        self._walk(thing.id, thing.stock, thing.lying, thing.id, turned=turned, over=over)

    def _ruined(self) -> None:
        id = self.mishap.thing
        thing = self.plan.items.get(id)
        here = self.state.where(id)
        if thing is None or thing.partner or thing.length is not None:
            raise CannotBe("no such thing", thing=id)
        if here in (Spot.NOWHERE, Spot.TAKEN, Spot.MISSING):
            raise CannotBe("not there", thing=id)
        if thing.role in (Part.SHEET, Part.BASE) and here != Spot.IN_HAND:
            self._lose_sheet(thing)
        elif thing.kind is not None and thing.kind.source is not Source.CUT:
            pocket = here if here >= 0 else self.state.belongs(id)
            self.truth.spent = ((thing.name, pocket),)
            self._wanted[id] = None
        elif here == Spot.IN_HAND:
            self._spoil_load(id)
        else:
            self._spoil(id)

    def _spoil(self, id: str) -> None:
        """A thing is thrown away, and all that was to come of it must come of something else."""
        parent, _, number = id.rpartition("/")
        if load_of(self.plan, parent) is None:
            raise CannotBe("by hand", thing=id)
        self.truth.loads[parent] = self.now(parent).sharing(number, self._spoilt(id))
        self._want(id)

    def _spoil_load(self, id: str) -> None:
        """What is left in the trimmer is thrown away."""
        now = self.now(id)
        if not now.marks:
            if id in self.plan.sheets:
                self._lose_sheet(self.plan.items[id])
            else:
                self._spoil(id)
            return
        # The last cut that was made ends the load.
        self.truth.loads[id] = replace(now, rest=SCRAPPED, left=(), left_shares=(), changed=True)
        for share in now.left_shares:
            if share.name:
                self._want(share.name)

    def _missing(self) -> None:
        thing = self.plan.items.get(self.mishap.thing)
        if thing is None or thing.role not in (Part.SHEET, Part.BASE):
            raise CannotBe("no such thing", thing=self.mishap.thing)
        load = load_of(self.plan, thing.id)
        if load is not None and self.state.done.get(load.id):
            raise CannotBe("cut before", load.id, thing=thing.id)
        self._lose_sheet(thing)

    def _lose_sheet(self, thing: Item) -> None:
        self.truth.gone = (thing.id,)
        if thing.role is Part.SHEET:
            self._want(thing.id)

    def _want(self, id: str) -> None:
        for role in pieces_beneath(self.plan, id):
            self._wanted.setdefault(role, None)

    # What follows

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


def load_now(plan: Plan, state: State, item: str) -> LoadNow:
    """A load as far as it is cut, by the plan.

    Args:
        plan: The plan.
        state: The session.
        item: What the load takes.
    """
    cuts = cuts_of(plan, item)
    made = sum(bool(state.done.get(cut.id)) for cut in cuts)
    work = cuts[0].work
    assert work is not None
    marks = marks_of(work)
    shares = tuple(share_of(plan, part) for part in parts_of(plan, item))
    if made == len(cuts):
        return LoadNow(item, marks, shares[:-1], shares[-1])
    return LoadNow(
        item, marks[:made], shares[:made], None, left=marks[made:], left_shares=shares[made:]
    )
