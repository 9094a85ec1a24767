"""Sentences on what to do at a step, and the few words that stand around it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from model.cutting import second_ruler
from model.event import Entry, Event, Skipped
from model.geometry import Sure
from model.kit import Source, Verb, Wait
from model.language.english.grammar import counted
from model.language.english.lying import LayWords
from model.plan import Item, Role, Step, StepKind
from model.ruler import say_reading
from model.state import Spot

_BY_HAND = {
    Verb.FUSSY_CUT: "Cut out by hand",
    Verb.TRACE: "Trace and cut",
    Verb.SLIT: "Cut a slit",
    Verb.PUNCH: "Punch",
}
_HEADLINES = {
    StepKind.OPEN: "Open the kit",
    StepKind.ASIDE: "Set aside",
    StepKind.FILL: "File ready-made pieces",
    StepKind.STACK: "Build the stack",
    StepKind.TURN_STACK: "Turn the stack",
    StepKind.AWAY: "Trimmer away",
    StepKind.DO: "Next",
}
_PAPER = {Verb.TEAR: "torn", Verb.PUNCH: "punched"}
_SIDED = re.compile(r"\b(left|right)\b", re.IGNORECASE)
_LARGE = {
    StepKind.ASIDE: "aside",
    StepKind.STACK: "stack",
    StepKind.TURN_STACK: "turn",
    StepKind.AWAY: "away",
}
_LARGE_BY_HAND = {
    Verb.FUSSY_CUT: "cut out",
    Verb.TRACE: "trace",
    Verb.SLIT: "slit",
    Verb.PUNCH: "punch",
}


class StepWords(LayWords):
    """Words on steps."""

    def headline(self, step: Step) -> str:
        """A word or two on what kind of step it is."""
        if step.kind is StepKind.CUT:
            word = "Knife cut" if step.verb is Verb.KNIFE else "Cut"
            return f"{word} {step.number} of {step.of}"
        if step.kind is StepKind.TEAR:
            return f"Tear {step.number} of {step.of}"
        if step.kind is StepKind.LOAD:
            if step.verb is Verb.TEAR:
                return "Get ready to tear"
            return "Lay on the cutting mat" if step.verb is Verb.KNIFE else "Into the trimmer"
        if step.kind in (StepKind.SHAPE, StepKind.MARK):
            return _BY_HAND[step.verb or Verb.PUNCH]
        return _HEADLINES[step.kind]

    def large(self, step: Step) -> str:
        """One short word for the large figures, where a step has no number of its own."""
        whole = bool(step.takes or step.touches) and step.sheet in (*step.takes, *step.touches)
        if step.kind in (StepKind.STACK, StepKind.LOAD) and whole and len(step.sheet) <= 3:
            return step.sheet
        if step.kind is StepKind.LOAD:
            return "load" if step.verb is Verb.TRIM else "lay"
        if step.kind in (StepKind.SHAPE, StepKind.MARK):
            return _LARGE_BY_HAND.get(step.verb or Verb.PUNCH, "")
        return _LARGE.get(step.kind, "")

    def call_it(self, step: Step) -> str:
        """What the space key does at a step, in a word or two."""
        return {
            StepKind.CUT: "it is cut",
            StepKind.TEAR: "it is torn",
            StepKind.LOAD: "it lies so",
            StepKind.FILL: "filed",
        }.get(step.kind, "done")

    def was_it_cut(self, step: Step) -> str:
        """Asks, before a cut is taken back, whether it was made."""
        done = _done_to_paper(step)
        return f"Was it really {done}? Paper that is {done} stays {done}."

    def it_is_cut(self, step: Step) -> str:
        """Answers that the cut was made, and nothing is taken back."""
        return f"Yes, it is {_done_to_paper(step)}: leave it as it is"

    def it_is_not_cut(self, step: Step) -> str:
        """Answers that the cut was not made."""
        return f"No, not {_done_to_paper(step)} yet: take it all back"

    def cut_but_take_back(self, step: Step, word: Event, same: bool) -> str:
        """Answers that the cut was made, but something said of where things are is taken back.

        Args:
            step: The step that stays done.
            word: What is taken back.
            same: Whether it was said together with the step, not before it.
        """
        of = "where it went" if same else "what came before"
        return f"It is {_done_to_paper(step)}: take back {of}, {self.said(word)}"

    def left_out(self, answer: Sequence[Entry]) -> str:
        """Says that a step was left out, and how many went with it.

        Args:
            answer: The entries of the answer that left it out.
        """
        events = [entry.event for entry in answer]
        more = sum(event.steps - 1 for event in events if isinstance(event, Skipped))
        if not more:
            return "Left out."
        steps = counted(more, "more step that hangs", "more steps that hang")
        return f"Left out, with {steps} on it."

    # What to do

    def sentence(self, step: Step, place_of: int, may_skip: bool = False) -> str:
        """What to do at a step.

        Args:
            step: The step.
            place_of: Where the thing that it takes up lies now.
            may_skip: Whether the step may be left out now.
        """
        said = self._sentence(step, place_of)
        return f"{said} You may leave this out." if may_skip else said

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
            return f"{self._take(step, place_of)} {self.lay(step)}"
        if step.kind is StepKind.CUT:
            return self._cut(step)
        if step.kind is StepKind.TEAR:
            return self._tear(step)
        if step.kind is StepKind.AWAY:
            return "Lock the blade and put the trimmer away. The rest is done by hand."
        if step.work is not None and step.kind is StepKind.DO:
            return step.work.take.rstrip(".") + "."
        return self._by_hand(step, place_of).rstrip()

    def _aside(self, step: Step) -> str:
        name = step.id.removeprefix("aside:")
        sheet = self.plan.sheets.get(name)
        if sheet is not None:
            until = (
                "the trimmer is away" if sheet.wait is Wait.TRIMMER_AWAY else "everything is filed"
            )
            face = sheet.paper.face.name
            what = name if face == name else f"{name} ({face})"
            return f"Put sheet {what} aside: it waits until {until}."
        kind = self.plan.kit.kinds.get(name)
        if kind is not None:
            return f"Put the {name} aside: file it together with the {kind.companion_of}."
        aside = next(a for a in self.plan.kit.set_asides if a.name == name)
        if not aside.pages:
            return f"Put the {name} aside for later."
        return f"Put the {name} aside for {self.pages(aside.pages)}."

    def _fill(self, step: Step) -> str:
        item = self.plan.items[step.makes[0]]
        pocket = self.pocket(step.pocket)
        count = len(step.makes)
        if item.kind and item.kind.source is Source.RIBBON:
            return f"Cut {self.manner.size(item)} of {item.name} and file it in {pocket}."
        if count == 1:
            return f"File 1 {self.named(item)} in {pocket}."
        return f"Count {count} of {self.named(item)} and file them in {pocket}."

    def _stack(self, step: Step) -> str:
        sheet = self.plan.sheets[step.sheet]
        face = sheet.paper.face.name
        what = sheet.name if face == sheet.name else f"{sheet.name} ({face})"
        what = f"sheet {what}" if sheet.base is None else f"{what}, the base of page {sheet.base},"
        how = "face down" if self.plan.kit.face_down else "face up"
        if sheet.name == self.plan.stack[0]:
            return f"Start the stack: lay {what} {how} on the table."
        return f"Lay {what} {how} on top."

    def _take(self, step: Step, place_of: int) -> str:
        item = self.plan.items[step.takes[0]]
        what = f"sheet {item.name}" if item.role is Role.SHEET else self.named(item)
        if place_of == Spot.STACK:
            return f"Take {what} from the top of the stack."
        return f"Take {what}." if place_of == Spot.NOWHERE else self._fetch(what, place_of)

    def _fetch(self, what: str, place_of: int) -> str:
        return f"Take {what}, {self.at_place(place_of)}."

    def mark(self, step: Step) -> str:
        """The mark as read on this crafter's ruler: ``9⅜, a hair over``."""
        reading = self.manner.reading(self.plan, step)
        if reading is None:
            return "the next printed line"
        said = say_reading(reading, self.manner.style, self.manner.phrases.measures)
        return (
            self.manner.phrases.measures.about(said)
            if step.mark and step.mark.sure is Sure.ABOUT
            else said
        )

    def mark_error(self, step: Step) -> str:
        """How far the true mark is from the one read: ``a hair over``; empty when it is on it."""
        if step.mark is None or step.mark.sure is not Sure.EXACT or step.tears:
            return ""
        return self.mark(step).partition(", ")[2]

    def _cut(self, step: Step) -> str:
        assert step.mark is not None
        mark = self.mark(step)
        if self.manner.must_measure(self.plan, step):
            how = " with ruler and knife" if step.verb is Verb.KNIFE else ""
            exact = self.manner.length(step.mark.value)
            start = f"Measure {exact} from the held edge, mark it by hand, and cut{how} there"
        elif step.verb is Verb.KNIFE:
            start = f"With ruler and knife, cut at {mark}"
        elif step.mark.sure is Sure.PRINTED:
            start = "Hold the next printed line at the blade and cut"
        elif step.mark.sure is Sure.ABOUT:
            start = f"Hold it at {mark}; the printed line rules. Cut"
        else:
            start = f"Hold it at {mark}{',' if ',' in mark else ''} and cut"
        return self._comes_off(start, step)

    def _comes_off(self, start: str, step: Step) -> str:
        """What to do, and what comes of it; no name begins a sentence, so it stays as written."""
        off = self.plan.items[step.makes[0]]
        what = f"a {self.named(off)}" if off.role is Role.SCRAP else self.named(off)
        return f"{start}: {what} comes off."

    def _tear(self, step: Step) -> str:
        assert step.mark is not None
        width = self.manner.length(step.mark.value)
        return self._comes_off(f"Tear off {width} from the loose edge, against the ruler", step)

    @property
    def tearing_ruler(self) -> Fraction:
        """The ruler to tear against, in mm: the kit's, when it says one, else the crafter's."""
        return self.plan.kit.ruler or self.manner.tearing_ruler

    def _by_hand(self, step: Step, place_of: int) -> str:
        work = step.work
        assert work is not None
        item = self.plan.items[(*step.takes, *step.touches)[0]]
        start = "" if place_of == Spot.PILE else f"{self._fetch(item.name, place_of)} "
        named = self.named(item)
        if work.verb is Verb.FUSSY_CUT:
            return f"{start}Cut out {self._shapes(step)} from {named}, along the printed outline."
        if work.verb is Verb.TRACE:
            return (
                f"{start}Trace around {work.around or 'the shape'} on the back of {named} and "
                f"cut {self._shapes(step)}, a little inside the line."
            )
        if work.verb is Verb.SLIT:
            length = f" {self.manner.length(work.length)} long" if work.length else ""
            thread = f" for {work.around}, a hair wider than the strip" if work.around else ""
            return f"{start}Cut a slit{length} in {named}{thread}. {self._back(place_of)}"
        parts = f" {self._shapes(step)} out of" if work.gives else ""
        return f"{start}Punch{parts} {named}. {self._back(place_of)}"

    def _back(self, place_of: int) -> str:
        return f"Then put it back in {self.pocket(place_of)}." if place_of >= 0 else ""

    def _shapes(self, step: Step) -> str:
        counts: dict[str, int] = {}
        for id in step.makes:
            name = self.plan.items[id].name
            counts[name] = counts.get(name, 0) + 1
        return " and ".join(f"{count} of {name}" for name, count in counts.items()) or "the shapes"

    # What else

    def pattern(self, item: Item, place: int) -> str:
        """Where the piece is that is traced around, and where it goes back to."""
        if place >= 0:
            return (
                f"Take one {item.name} from {self.pocket(place)} to trace, and put it back there."
            )
        return f"Trace around the {item.name} {self.at_place(place)}."

    def more(self, step: Step) -> tuple[str, ...]:
        """What else a step wants known: notes, tools, what is called for."""
        work = step.work
        if step.kind is StepKind.OPEN:
            return self.overview()
        if step.kind is StepKind.FILL:
            return self.about_piece(self.plan.items[step.makes[0]], step.pocket)
        if step.kind is StepKind.ASIDE:
            name = step.id.removeprefix("aside:")
            asides = self.plan.kit.set_asides
            return tuple(each.note for each in asides if each.name == name and each.note)
        said: list[str] = []
        if step.kind is StepKind.TEAR and step.mark is not None:
            more = second_ruler(step.mark.value, self.tearing_ruler)
            if more:
                said.append(
                    f"Ruler {self.manner.length(self.tearing_ruler)} wide: lay a second beside "
                    f"it, {self.manner.length(more)} showing."
                )
        if work is not None and step.number == 1:
            if work.note:
                said.append(self._note(work.note, bool(step.load)))
            if work.tools:
                said.append(f"Tools: {', '.join(work.tools)}.")
            if work.needs:
                said.append(f"Now fetch: {', '.join(work.needs)}.")
        return tuple(said)

    def _note(self, note: str, laid: bool) -> str:
        """An author's note on paper that is laid: it tells left from right for one hand only."""
        if self.manner.left_handed and laid and _SIDED.search(note):
            return f"(For the right hand:) {note}"
        return note

    def overview(self) -> tuple[str, ...]:
        """What is in the kit, and what is needed to cut it."""
        kit, said = self.plan.kit, []
        if kit.note:
            said.append(kit.note)
        bases = sum(sheet.base is not None for sheet in kit.sheets)
        parts = [counted(len(kit.sheets) - bases, "sheet to cut", "sheets to cut")]
        if bases:
            parts.append(counted(bases, "sheet kept whole", "sheets kept whole"))
        parts.append(f"{counted(sum(self.plan.wanted), 'piece')} to file")
        parts.append(f"{counted(len(self.plan.scraps), 'scrap')} expected")
        said.append(f"{', '.join(parts)}.")
        tools = dict.fromkeys(tool for work in kit.work for tool in work.tools)
        if tools:
            said.append(f"Tools: trimmer, {', '.join(tools)}.")
        by = ", ".join(text for text in (kit.edition, kit.author) if text)
        if by:
            said.append(f"{by}.")
        return tuple(said)

    # Around the step

    def figure(self, of: str) -> str:
        """One short word in large figures where there is no number: ``line``, ``scrap``."""
        return {"line": "line", "scrap": "scrap"}[of]

    def caption(self, of: str) -> str:
        """What a large figure is of, in a word or two, by its code."""
        return {
            "mark": "mark",
            "by hand": "measure",
            "about": "about",
            "line": "next printed",
            "width": "wide",
            "sheet": "sheet",
            "pocket": "pocket",
            "scrap": "goes to",
            "look again": "look again",
            "belongs": "it belongs in",
            "belongs scrap": "it belongs with the scraps",
        }[of]

    def into_pocket(self, count: int) -> str:
        """What a large figure is of, when so many go into a pocket at once."""
        return f"{count} into pocket"

    def heading(self, of: str) -> tuple[str, str]:
        """Headline, and what the one key does, where no step is due; by a code."""
        return {
            "file": ("File", "filed there"),
            "scrap": ("Scrap", "in the scraps"),
            "keep": ("On the pile", "nothing to do"),
            "warning": ("Warning", ""),
            "over": ("All is done", "the account"),
        }[of]

    def over(self) -> str:
        """Says that nothing is left to do."""
        return "Every step is done. Look through the closing account."


def _done_to_paper(step: Step) -> str:
    """What paper is once a step is done: cut, torn, punched."""
    return _PAPER.get(step.verb or Verb.TRIM, "cut")
