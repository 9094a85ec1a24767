"""All sentences that a crafter is told, in one place.

Each method makes whole sentences from data, so that a translation is another class with
the same methods. Nothing here decides anything.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from fractions import Fraction

from model.cutting import second_ruler
from model.geometry import Orientation, Side, Sure
from model.kit import PieceKind, Source, Tie, Verb, Wait, Work
from model.kitchange import Change
from model.manner import Manner
from model.pace import Left
from model.plan import Item, Plan, Role, Step, StepKind
from model.ruler import read_mark, say_reading
from model.scenes import tear_lying
from model.state import Spot, State
from model.warning import Warning, WarningKind


class English:
    """The sentences in English.

    Args:
        plan: The plan that is told of.
        manner: How the crafter is told things.
    """

    def __init__(self, plan: Plan, manner: Manner) -> None:
        """Keep what the sentences are about, and for whom."""
        self.plan = plan
        self.manner = manner

    # Small words

    def dot(self, text: str) -> str:
        """A label in the crafter's characters: ``1·2`` is ``1-2`` in ASCII."""
        return text.replace("·", "-") if self.manner.ascii else text

    def pocket(self, index: int) -> str:
        """A pocket by its label, with its page when it is a single one."""
        return self.dot(self.plan.kit.pockets[index].label)

    def press(self, pocket: int) -> str:
        """The keys of a pocket: ``1 or 2``."""
        return " or ".join(self.plan.keys_of[pocket])

    def named(self, item: Item) -> str:
        """A thing by name and, when known, size: ``"photo mat" 4 × 6``."""
        size = self.manner.size(item)
        if item.role is Role.SCRAP:
            return f"scrap {size}".strip()
        return f"{item.name} ({size})" if size else item.name

    def printed(self, kind: PieceKind) -> str:
        """What is printed on a piece, to tell it by."""
        parts = []
        if kind.words:
            parts.append(f'reads "{kind.words}"')
        if kind.picture:
            parts.append(f"shows {kind.picture}")
        return ", ".join(parts)

    def at_place(self, place: int) -> str:
        """Where a thing lies now."""
        if place >= 0:
            return f"in pocket {self.pocket(place)}"
        return {
            Spot.SCRAPS: "among the scraps",
            Spot.PILE: "on the pile",
            Spot.IN_HAND: "in hand",
            Spot.STACK: "on the stack",
            Spot.ASIDE: "put aside",
            Spot.TAKEN: "cut up",
        }.get(Spot(place), "not made yet")

    def side_up(self, lying: Orientation) -> str:
        """Which side of the paper is up."""
        return "reverse up" if lying.reverse else "face up"

    def hand_side(self, side: Side) -> str:
        """A side as this crafter sees it: mirrored for the left hand."""
        if not self.manner.left_handed:
            return side
        return {"left": "right", "right": "left"}.get(side, side)

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
        low, high = round(left.low / 60), max(1, -(-left.high // 60))
        if high <= 1:
            return "about a minute left"
        if low >= high:
            return f"about {self.duration(timedelta(minutes=high))} left"
        span = self.duration(timedelta(minutes=high))
        return (
            f"{max(low, 1)} to {span} left"
            if high < 60
            else (f"{self.duration(timedelta(minutes=low))} to {span} left")
        )

    # What to do

    def headline(self, step: Step) -> str:
        """A word or two on what kind of step it is."""
        verb = step.work.verb if step.work else None
        if step.kind is StepKind.CUT:
            word = "Knife cut" if verb is Verb.KNIFE else "Cut"
            return f"{word} {step.number} of {step.of}"
        if step.kind is StepKind.TEAR:
            return f"Tear {step.number} of {step.of}"
        if step.kind is StepKind.LOAD:
            return {
                Verb.TEAR: "Get ready to tear",
                Verb.KNIFE: "Lay on the cutting mat",
            }.get(verb or Verb.TRIM, "Into the trimmer")
        if step.kind in (StepKind.SHAPE, StepKind.MARK):
            return {
                Verb.FUSSY_CUT: "Cut out by hand",
                Verb.TRACE: "Trace and cut",
                Verb.SLIT: "Cut a slit",
                Verb.PUNCH: "Punch",
            }[verb or Verb.PUNCH]
        return {
            StepKind.OPEN: "Open the kit",
            StepKind.ASIDE: "Set aside",
            StepKind.FILL: "File ready-made pieces",
            StepKind.STACK: "Build the stack",
            StepKind.TURN_STACK: "Turn the stack",
            StepKind.AWAY: "Trimmer away",
            StepKind.DO: "Next",
        }[step.kind]

    def large(self, step: Step) -> str:
        """One short word for the large figures, where a step has no number of its own."""
        if step.kind is StepKind.OPEN:
            return ""
        whole = bool(step.takes or step.touches) and step.sheet in (*step.takes, *step.touches)
        if step.kind in (StepKind.STACK, StepKind.LOAD) and whole and len(step.sheet) <= 3:
            return step.sheet
        if step.kind is StepKind.LOAD:
            return "turn" if step.work and step.work.turn else "load"
        if step.work is not None and step.kind in (StepKind.SHAPE, StepKind.MARK):
            return {
                Verb.FUSSY_CUT: "cut out",
                Verb.TRACE: "trace",
                Verb.SLIT: "slit",
                Verb.PUNCH: "punch",
            }.get(step.work.verb, "")
        return {
            StepKind.ASIDE: "aside",
            StepKind.STACK: "stack",
            StepKind.TURN_STACK: "turn",
            StepKind.AWAY: "away",
            StepKind.DO: "do",
        }.get(step.kind, "")

    def sentence(self, step: Step, place_of: int) -> str:
        """What to do at a step.

        Args:
            step: The step.
            place_of: Where the thing that it takes up lies now.
        """
        said = self._sentence(step, place_of)
        if step.optional and step.kind is not StepKind.CUT:
            said += " You may leave this out."
        return said

    def _sentence(self, step: Step, place_of: int) -> str:
        kit = self.plan.kit
        if step.kind is StepKind.OPEN:
            return f"Open the kit: {kit.title}. Read the author's note, and lay everything out."
        if step.kind is StepKind.ASIDE:
            return self._aside(step)
        if step.kind is StepKind.FILL:
            return self._fill(step)
        if step.kind is StepKind.STACK:
            return self._stack(step)
        if step.kind is StepKind.TURN_STACK:
            first = self.plan.order[0] if self.plan.order else self.plan.stack[0]
            return f"Turn the whole stack over: sheet {first} is on top now, face up."
        if step.kind is StepKind.LOAD:
            return self._load(step, place_of)
        if step.kind is StepKind.CUT:
            return self._cut(step)
        if step.kind is StepKind.TEAR:
            return self._tear(step)
        if step.kind is StepKind.AWAY:
            return "Lock the blade and put the trimmer away. The rest is done by hand."
        if step.work is not None and step.kind is StepKind.DO:
            return step.work.take.rstrip(".") + "."
        return self._by_hand(step, place_of)

    def _aside(self, step: Step) -> str:
        name = step.id.removeprefix("aside:")
        sheet = next((s for s in self.plan.kit.sheets if s.name == name), None)
        if sheet is not None:
            until = (
                "the trimmer is away" if sheet.wait is Wait.TRIMMER_AWAY else "everything is filed"
            )
            return f"Put sheet {name} ({sheet.paper.face.name}) aside: it waits until {until}."
        kind = self.plan.kit.kinds.get(name)
        if kind is not None:
            return f"Put the {name} aside: file it together with the {kind.companion_of}."
        aside = next(a for a in self.plan.kit.set_asides if a.name == name)
        if not aside.pages:
            return f"Put the {name} aside for later."
        return f"Put the {name} aside: {self.pages(aside.pages)} will call for it."

    def pages(self, pages: Sequence[int]) -> str:
        """Pages in words: ``page 3``, ``pages 3 and 7``."""
        numbers = [str(page) for page in pages]
        if len(numbers) == 1:
            return f"page {numbers[0]}"
        return f"pages {', '.join(numbers[:-1])} and {numbers[-1]}"

    def _fill(self, step: Step) -> str:
        item = self.plan.items[step.makes[0]]
        pocket = self.pocket(step.pocket)
        count = len(step.makes)
        if item.kind and item.kind.source is Source.RIBBON:
            length = self.manner.size(item)
            return f"Cut {length} of {item.name} and file it in {pocket}."
        if count == 1:
            return f"File 1 {self.named(item)} in {pocket}."
        return f"Count {count} of {self.named(item)} and file them in {pocket}."

    def _stack(self, step: Step) -> str:
        name = step.sheet
        sheet = next(s for s in self.plan.kit.sheets if s.name == name)
        how = "face down" if self.plan.kit.face_down else "face up"
        what = f"{name} ({sheet.paper.face.name})" if sheet.paper.face.name != name else name
        base = sheet.base
        what = f"sheet {what}" if base is None else f"{what}, the base of page {base},"
        if name == self.plan.stack[0]:
            return f"Start the stack: lay {what} {how} on the table."
        return f"Lay {what} {how} on top."

    def _load(self, step: Step, place_of: int) -> str:
        assert step.work is not None
        item = self.plan.items[step.takes[0]]
        what = f"sheet {item.name}" if item.role is Role.SHEET else self.named(item)
        if place_of == Spot.STACK:
            start = f"Take {what} from the top of the stack."
        elif place_of == Spot.NOWHERE:
            start = f"Take {what}."
        else:
            start = f"Take {what}, {self.at_place(place_of)}."
        lying = tear_lying(step) if step.work.verb is Verb.TEAR else step.lying
        return f"{start} {self._lay(step, item, lying)}"

    def _lay(self, step: Step, item: Item, lying: Orientation) -> str:
        work = step.work
        assert work is not None
        parts = [self.side_up(lying).capitalize()]
        advised = ", if you like" if work.advised else ""
        if work.lay is not None:
            what, at = work.lay
            at = " ".join(self.hand_side(_side(word)) for word in at.split())
            parts.append(f"{what} at the {at}{advised}")
        elif work.turn and item.role is not Role.SHEET:
            parts.append(
                {1: "given a quarter turn", 2: "given a half turn", 3: "given a quarter turn"}[
                    work.turn
                ]
            )
        elif item.role is Role.SHEET or (item.paper and item.paper.directional):
            parts.append(f"top edge at the {self.hand_side(lying.up)}")
        else:
            parts.append("as it came off")
        if work.verb is Verb.TEAR:
            parts.append(f"loose edge at the {self.hand_side('right')}")
        return ", ".join(parts) + "."

    def mark(self, step: Step) -> str:
        """The mark as read on this crafter's ruler: ``9⅜, a hair over``."""
        assert step.mark is not None
        if step.mark.sure is Sure.PRINTED:
            return "the next printed line"
        reading = say_reading(read_mark(step.mark.value, self.manner.ruler), self.manner.style)
        return f"about {reading}" if step.mark.sure is Sure.ABOUT else reading

    def _cut(self, step: Step) -> str:
        assert step.mark is not None and step.work is not None
        off = self.plan.items[step.makes[0]]
        if step.work.verb is Verb.KNIFE:
            start = f"With ruler and knife, cut at {self.mark(step)}."
        elif step.mark.sure is Sure.PRINTED:
            start = "Hold it so that the next printed line lies at the blade, and cut."
        elif step.mark.sure is Sure.ABOUT:
            start = f"Hold it at {self.mark(step)}; the printed line rules. Cut."
        else:
            mark = self.mark(step)
            start = f"Hold it at {mark}{',' if ',' in mark else ''} and cut."
        return f"{start} {self._comes_off(off)}"

    def _comes_off(self, off: Item) -> str:
        if off.role is Role.SCRAP:
            return f"A {self.named(off)} comes off."
        return f"{self.named(off)[:1].upper()}{self.named(off)[1:]} comes off."

    def _tear(self, step: Step) -> str:
        assert step.mark is not None
        width = step.mark.value
        off = self.plan.items[step.makes[0]]
        return (
            f"Tear off {self.manner.length(width)} from the loose edge, against the ruler. "
            f"{self._comes_off(off)}"
        )

    @property
    def tearing_ruler(self) -> Fraction:
        """The ruler to tear against: the kit's, when it says one, else the crafter's."""
        return self.plan.kit.ruler or self.manner.tearing_ruler

    def _by_hand(self, step: Step, place_of: int) -> str:
        work = step.work
        assert work is not None
        item = self.plan.items[(*step.takes, *step.touches)[0]]
        start = "" if place_of == Spot.PILE else f"Take {item.name}, {self.at_place(place_of)}. "
        if work.verb is Verb.FUSSY_CUT:
            parts = self._counted(step, work)
            return f"{start}Cut out {parts} from {self.named(item)}, along the printed outline."
        if work.verb is Verb.TRACE:
            around = f"Trace around {work.around} on" if work.around else "Trace the shape on"
            parts = self._counted(step, work)
            return (
                f"{start}{around} the back of {self.named(item)} and cut {parts}, a little "
                "inside the line."
            )
        if work.verb is Verb.SLIT:
            length = f" {self.manner.length(work.length)} long" if work.length else ""
            thread = f" for {work.around}, a hair wider than the strip" if work.around else ""
            return (
                f"{start}Cut a slit{length} in {self.named(item)}{thread}. {self._back(place_of)}"
            )
        parts = f" {self._counted(step, work)} out of" if work.gives else ""
        return f"{start}Punch{parts} {self.named(item)}. {self._back(place_of)}"

    def _back(self, place_of: int) -> str:
        return f"Then put it back in {self.pocket(place_of)}." if place_of >= 0 else ""

    def _counted(self, step: Step, work: Work) -> str:
        counts: dict[str, int] = {}
        for id in step.makes:
            name = self.plan.items[id].name
            counts[name] = counts.get(name, 0) + 1
        return " and ".join(f"{count} of {name}" for name, count in counts.items()) or "the shapes"

    def more(self, step: Step) -> tuple[str, ...]:
        """What else a step wants known: notes, tools, what is called for."""
        work = step.work
        said: list[str] = []
        if step.kind is StepKind.OPEN:
            return self.overview()
        if work is None:
            name = step.id.removeprefix("aside:")
            for aside in self.plan.kit.set_asides:
                if step.kind is StepKind.ASIDE and aside.name == name and aside.note:
                    said.append(aside.note)
            if step.kind is StepKind.FILL:
                said.extend(self.about_piece(self.plan.items[step.makes[0]]))
            return tuple(said)
        if step.kind is StepKind.TEAR and step.mark is not None:
            more = second_ruler(step.mark.value, self.tearing_ruler)
            if more:
                said.append(
                    f"Ruler {self.manner.length(self.tearing_ruler)} wide: lay a second beside "
                    f"it, {self.manner.length(more)} showing."
                )
        if step.number == 1 and work.note:
            said.append(work.note)
        if (step.kind is not StepKind.LOAD and step.number == 1) or step.kind is StepKind.LOAD:
            if work.tools and step.number == 1:
                said.append(f"Tools: {', '.join(work.tools)}.")
            if work.needs and step.number == 1:
                said.append(f"Now fetch: {', '.join(work.needs)}.")
        return tuple(said)

    def overview(self) -> tuple[str, ...]:
        """What is in the kit, and what is needed to cut it."""
        kit, said = self.plan.kit, []
        if kit.note:
            said.append(kit.note)
        bases = sum(sheet.base is not None for sheet in kit.sheets)
        parts = [_count(len(kit.sheets) - bases, "sheet to cut", "sheets to cut")]
        if bases:
            parts.append(_count(bases, "sheet kept whole", "sheets kept whole"))
        parts.append(_count(sum(self.plan.wanted), "piece", "pieces") + " to file")
        parts.append(_count(len(self.plan.scraps), "scrap", "scraps") + " expected")
        said.append(f"{', '.join(parts)}.")
        tools = dict.fromkeys(tool for work in kit.work for tool in work.tools)
        if tools:
            said.append(f"Tools: trimmer, {', '.join(tools)}.")
        by = ", ".join(text for text in (kit.edition, kit.author) if text)
        if by:
            said.append(f"{by}.")
        return tuple(said)

    def call_it(self, step: Step) -> str:
        """What the space key does at a step, in a word or two."""
        return {
            StepKind.CUT: "it is cut",
            StepKind.TEAR: "it is torn",
            StepKind.LOAD: "it lies so",
            StepKind.FILL: "filed",
        }.get(step.kind, "done")

    # Filing

    def goes(self, item: Item, place: int) -> str:
        """Where a thing goes."""
        if item.role is Role.SCRAP:
            return "to the scraps"
        if place < 0:
            return "the pile, to be cut again"
        return f"pocket {self.pocket(place)}"

    def file(self, item: Item, place: int) -> str:
        """Tells to file a thing, or to throw it to the scraps."""
        if item.role is Role.SCRAP:
            return f"Put the {self.named(item)} with the scraps."
        return f"File {self.named(item)} in pocket {self.pocket(place)}."

    def filed(self, item_id: str, place: int) -> str:
        """Says that a thing was filed, or thrown to the scraps."""
        item = self.plan.items[item_id]
        if place >= 0:
            return f"{item.name} is in {self.pocket(place)}."
        return self.scrapped(item_id) if place == Spot.SCRAPS else ""

    def scrapped(self, item_id: str) -> str:
        """Says that a thing was thrown to the scraps."""
        return f"{self.named(self.plan.items[item_id])} is with the scraps."

    def was_it_cut(self) -> str:
        """Asks, before a cut is taken back, whether it was made."""
        return "Was that cut really made? Paper that is cut stays cut."

    def about_piece(self, item: Item) -> tuple[str, ...]:
        """What helps to place a piece: its page, its like, what it goes with, its side."""
        kind = item.kind
        if kind is None:
            return ()
        said: list[str] = []
        group = self.plan.groups.get(item.group)
        pages = sorted({to.page for to in group.to if to.page}) if group else []
        if pages:
            said.append(f"For {self.pages(pages)}.")
        if group and sum(to.count for to in group.to) > 1 and len(group.wanted) > 1:
            count = sum(to.count for to in group.to)
            parts = ", ".join(f"{n} to {self.pocket(pocket)}" for pocket, n in group.wanted.items())
            said.append(f"{_number_word(count).capitalize()} alike: {parts}.")
        if self.printed(kind):
            said.append(f"It {self.printed(kind)}.")
        if item.use == "reverse":
            said.append("Its reverse is the side to be seen.")
        if kind.turnable is False or (
            kind.turnable is None and item.paper is not None and item.paper.directional
        ):
            said.append("Keep its print upright.")
        if kind.smaller_by:
            said.append(f"It may be up to {self.manner.length(kind.smaller_by)} smaller.")
        said.extend(self.ties(kind))
        companions = self.plan.companions.get(item.id, ())
        if companions:
            names = " and ".join(self.plan.items[id].name for id in companions)
            said.append(f"File with it: {names}.")
        for note in dict.fromkeys((kind.note, item.note)):
            if note:
                said.append(note)
        if item.stock is not None and item.stock.torn:
            said.append("Torn edge.")
        return tuple(said)

    def ties(self, kind: PieceKind) -> tuple[str, ...]:
        """What a kind belongs with, from either end: ``Backs rope border.``"""
        return tuple(
            f"{tie.words[:1].upper()}{tie.words[1:]} {tie.other}."
            for tie in self.plan.related(kind.name)
            if tie.tie is not Tie.FILED_WITH
        )

    # Warnings

    def warning(self, warning: Warning, belongs: int) -> str:
        """What went wrong: the thing, where it is, where it belongs, and why."""
        item = self.plan.items[warning.items[-1]] if warning.items else None
        if warning.kind is WarningKind.EXTRA_SCRAP or item is None:
            return (
                "One more scrap than this kit expects. A wanted piece may be among the scraps: "
                "hold it against the pieces still to come."
            )
        what = self.named(item)
        here = self.pocket(warning.pocket) if warning.pocket >= 0 else ""
        there = self._belongs(item, belongs)
        if warning.kind is WarningKind.WRONG_POCKET:
            return f"WRONG POCKET: {what} went into {here}. {there}"
        if warning.kind is WarningKind.TOO_MANY:
            group = self.plan.groups[item.group]
            holds = group.wanted.get(warning.pocket, 0)
            many = f"{here} holds {_number_word(holds)} of {item.name} already"
            if belongs == warning.pocket or belongs < 0:
                return f"TOO MANY: {many}. Look again at what is in your hand."
            return f"TOO MANY: {many}. {there}"
        if warning.kind is WarningKind.WANTED_SCRAPPED:
            return f"NOT A SCRAP: {what} is wanted. {there}"
        if warning.kind is WarningKind.SCRAP_FILED:
            return f"SCRAP IN A POCKET: {what} went into {here}. No page uses it."
        if warning.kind is WarningKind.STRIP_FILED:
            return f"TOO EARLY: {what} went into {here}. It is still to be cut into pieces."
        place = self.pocket(warning.pocket)
        return (
            f"FILED TWICE: {item.name} is filed already, and now again in {place}. "
            "If that paper is another one, find out which."
        )

    def _belongs(self, item: Item, place: int) -> str:
        if item.role is Role.SCRAP:
            return "It belongs with the scraps."
        if place < 0:
            return "It belongs on the pile: it is still to be cut."
        pages = self.plan.kit.pockets[place].pages
        group = self.plan.groups.get(item.group)
        known = [to.page for to in (group.to if group else ()) if to.pocket == place and to.page]
        used = (
            self.pages(sorted(set(known)))
            if known
            else (
                self.pages(pages)
                if len(pages) == 1
                else f"{self.pages(pages).replace(' and ', ' or ')}"
            )
        )
        as_what = ""
        if item.kind is not None:
            said = self.ties(item.kind) or ((item.kind.note,) if item.kind.note else ())
            as_what = f" ({_small(said[0].rstrip('.'))})" if said else ""
        return f"It belongs in {self.pocket(place)}: it is used on {used}{as_what}."

    def remedy(self, warning: Warning, belongs: int) -> str:
        """What putting right does, for its key."""
        if warning.kind is WarningKind.EXTRA_SCRAP:
            return "it was no scrap"
        if warning.kind is WarningKind.TWICE:
            return "it is where it was"
        if belongs >= 0:
            return f"moved to {self.pocket(belongs)}"
        return "moved to the scraps" if belongs == Spot.SCRAPS else "back on the pile"

    # Coming back

    def welcome_back(self, state: State, waits: Sequence[str]) -> str:
        """Where a crafter stands who comes back after an hour or a week."""
        said = [f"Welcome back to {self.plan.kit.title}."]
        step = state.step()
        done = f"{state.steps_done} of {len(self.plan.steps)} steps are done"
        if step is None:
            said.append(f"{done}.")
        elif step.load and step.kind is not StepKind.LOAD:
            said.append(f"{done}; you are at sheet {step.sheet}, {self.headline(step).lower()}.")
            item = self.plan.items[(*step.takes, *step.touches)[0]]
            said.append(f"In the trimmer, or in hand: {item.name}.")
        else:
            said.append(f"{done}; next: {self.headline(step).lower()}.")
        pile = [self.named(self.plan.items[id]) for id in reversed(state.pile)]
        if pile:
            said.append(f"On the pile, from the top: {', '.join(pile)}.")
        if waits:
            said.append(f"Put aside and waiting: {', '.join(waits)}.")
        if state.warnings:
            count = len(state.warnings)
            said.append(f"{count} warning{'s' * (count > 1)} still open.")
        return "\n".join(said)

    def kit_changed(self, change: Change) -> str:
        """How the kit's file changed since the session began, and what can be done."""
        said = ["The kit's file was changed since this session began."]
        if change.plan is None:
            said.append("It can't be used as it is now: " + "; ".join(change.findings[:3]))
            return "\n".join(said)
        for count, what in (
            (len(change.added), "steps are new"),
            (len(change.dropped), "steps are gone"),
            (len(change.altered), "steps are changed"),
        ):
            if count:
                names = {"new": change.added, "gone": change.dropped}.get(
                    what.split()[-1], change.altered
                )
                said.append(
                    f"{count} {what}: {', '.join(names[:6])}" + (", ..." if count > 6 else "")
                )
        if change.blockers:
            said.append(
                "It can't be taken over, since it touches what is done already: "
                + ", ".join(change.blockers[:6])
                + "."
            )
        elif len(said) == 1:
            said.append("No step is touched by it.")
        return "\n".join(said)

    # Cautions

    def caution(self, code: str) -> str:
        """A caution, by its code; local rules come first."""
        return {
            "blade": (
                "Lock the blade when you are not cutting; fingers behind the guard. "
                "Local rules come first."
            ),
            "sliver": ("Narrow: cut it off the larger piece; never hold a sliver at the blade."),
            "knife": (
                "Knife: cutting mat, guarded metal ruler, away from your other hand; cap it "
                "when it is put down."
            ),
            "small": "Small parts: keep them away from small children.",
        }[code]

    def objection(self, code: str) -> str:
        """Why something could not be taken in."""
        return {
            "watching": "Another dryfit has this session open; you are looking on.",
            "nothing to undo": "There is nothing to take back.",
            "nothing to redo": "There is nothing to say again.",
            "not optional": "This step can't be left out: later steps need what it makes.",
            "stays on the pile": "That stays on the pile: it is still to be cut.",
            "nothing to file": "There is nothing to file yet.",
            "over": "All is done.",
            "not yet": "That comes later.",
            "done already": "That is done already.",
        }.get(code, "That can't be done now.")


def _side(word: str) -> Side:
    sides: dict[str, Side] = {
        "top": "top",
        "right": "right",
        "bottom": "bottom",
        "left": "left",
    }
    return sides[word]


def _small(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]


def _count(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def _number_word(count: int) -> str:
    words = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
    return words[count] if count < len(words) else str(count)
