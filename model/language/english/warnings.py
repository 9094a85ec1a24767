"""Sentences on what went wrong, what to be careful of, and what can't be done now."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from model.language.english.grammar import number_word
from model.language.english.pieces import PieceWords
from model.plan import Item, Role
from model.state import Spot
from model.warning import Warning, WarningKind

_CAUTIONS = {
    "blade": (
        "Lock the blade when you are not cutting; fingers behind the guard. Local rules come first."
    ),
    "sliver": "Narrow: cut it off the larger piece; never hold a sliver at the blade.",
    "knife": (
        "Knife: cutting mat, guarded metal ruler, away from your other hand; cap it when it is "
        "put down."
    ),
    "solvent": (
        "Solvent: open a window, keep it from flames and skin, close it after use. Local rules "
        "come first."
    ),
    "heat": "Hot: let it cool out of reach, never leave it on alone. Local rules come first.",
    "small": "Small parts: keep them away from small children.",
    "unfit": (
        "No line of your ruler serves for this mark. With a finer ruler, choose it in the settings."
    ),
    "far": (
        "Off by more than a hair on your ruler: measure {} and mark it by hand, or choose a finer "
        "ruler in the settings."
    ),
}

OBJECTIONS = {
    "watching": "Another dryfit has this session open; you are looking on.",
    "closed": "This session was put away; open it again from the shelf.",
    "over": "All is done.",
    "not yet": "That comes later.",
    "done already": "That is done already.",
    "not optional": "This step can't be left out: later steps need what it makes.",
    "begun": "This step is begun; it can't be left out any more.",
    "file first": "File what is on the pile first.",
    "stays on the pile": "That stays on the pile: it is still to be cut.",
    "nothing to file": "There is nothing to file yet.",
    "nothing to undo": "There is nothing to take back.",
    "nothing to redo": "There is nothing to say again.",
    "not made": "That is not made yet.",
    "in hand": "That is in the trimmer, or in your hand: finish cutting it first.",
    "cut up": "That is cut up: what came of it can be filed.",
    "not cut yet": "That sheet is not cut yet.",
    "filed with its piece": "That is filed together with its piece; file the piece.",
    "no such step": "This kit has no such step.",
    "no such thing": "This kit has no such thing.",
    "no such pocket": "There is no such pocket.",
    "no such warning": "That warning is settled already.",
    "finish the load": "Paper is in the trimmer: finish these cuts first.",
    "last already": "It is the last one already.",
    "not put off": "That sheet is not put off.",
    "not filed": "That is in no pocket.",
    "not right yet": "A warning about this pocket stands: put it right first.",
    "cannot mend": "That can't be done now: the kit's steps no longer fit it. Nothing was changed.",
    "kit touched": "The changed kit touches what is done already; the old one stays.",
}
"""Why something could not be taken in, by the code."""

_NAMES = {
    WarningKind.WRONG_POCKET: "Filed in a wrong pocket",
    WarningKind.TOO_MANY: "Too many in a pocket",
    WarningKind.WANTED_SCRAPPED: "A wanted piece called a scrap",
    WarningKind.SCRAP_FILED: "A scrap filed in a pocket",
    WarningKind.STRIP_FILED: "A strip filed before it was cut",
    WarningKind.TWICE: "A piece filed twice",
    WarningKind.EXTRA_SCRAP: "A scrap too many",
    WarningKind.MISSING: "A piece that was not in its pocket",
}


class WarningWords(PieceWords):
    """Words on warnings, cautions and objections."""

    def warning_name(self, kind: WarningKind) -> str:
        """What a sort of mistake is called."""
        return _NAMES[kind]

    def mistakes_head(self) -> str:
        """Stands above the mistakes of a run in the account."""
        return "Mistakes in this run, put right or listed above"

    def mistake_line(self, kind: WarningKind, count: int) -> str:
        """How often a sort of mistake happened, for the account."""
        return f"{count} x {self.warning_name(kind)[:1].lower()}{self.warning_name(kind)[1:]}"

    def warning(
        self, warning: Warning, belongs: int | Sequence[int], needless: bool = False
    ) -> str:
        """What went wrong: the thing, where it is, where it belongs, and why.

        Args:
            warning: The warning.
            belongs: Where the things that it names belong, one for each; or one for all.
            needless: What was to be cut from them was left out.
        """
        if warning.kind is WarningKind.EXTRA_SCRAP or not warning.items:
            return (
                "A scrap that this kit does not expect. A wanted piece may be among the scraps: "
                "hold it against the pieces still to come."
            )
        item = self.plan.items[warning.items[-1]]
        count = len(warning.items)
        what = self.named(item) if count == 1 else f"{count} of {self.named(item)}"
        here = self.pocket(warning.pocket) if warning.pocket >= 0 else ""
        places = _each(belongs, count)
        needless = needless and places[-1] < 0
        there = self._belongs(item, places, needless)
        if warning.kind is WarningKind.WRONG_POCKET:
            return f"WRONG POCKET: {what} went into {here}. {there}"
        if warning.kind is WarningKind.TOO_MANY:
            group = self.plan.groups[item.group]
            holds = number_word(group.wanted.get(warning.pocket, 0))
            are = "is" if count == 1 else "are"
            many = f"TOO MANY: {here} holds its {holds} of {item.name}; {count} {are} too many"
            if all(place in (warning.pocket, Spot.PILE) for place in places):
                return f"{many}. Look again at what is in your hand."
            return f"{many}. {there}"
        if warning.kind is WarningKind.WANTED_SCRAPPED:
            wanted = "is not one of the kit's scraps" if needless else "is wanted"
            return f"NOT A SCRAP: {what} {wanted}. {there}"
        if warning.kind is WarningKind.SCRAP_FILED:
            return f"SCRAP IN A POCKET: {what} went into {here}. No page uses it."
        if warning.kind is WarningKind.MISSING:
            return f"MISSING: {what} was not in {here} when it was counted. {there}"
        if warning.kind is WarningKind.STRIP_FILED:
            if needless:
                return f"NOT FOR A POCKET: {what} went into {here}. {there}"
            return f"TOO EARLY: {what} went into {here}. It is still to be cut into pieces."
        return (
            f"FILED TWICE: {item.name} is filed already, and now again in {here}. "
            "If that paper is another one, find out which."
        )

    def _belongs(self, item: Item, places: Sequence[int], needless: bool) -> str:
        """Where what a warning names belongs, and why there."""
        many = len(places) > 1
        they = "They belong" if many else "It belongs"
        if item.role is Role.SCRAP:
            return f"{they} with the scraps."
        if places[-1] < 0:
            if needless:
                return f"{they} on the pile: what was to be cut of it was left out."
            return f"{they} on the pile, still to be cut."
        apart = list(dict.fromkeys(places))
        if len(apart) > 1:
            counts = [f"{places.count(place)} in {self.pocket(place)}" for place in apart]
            return f"They belong {', '.join(counts)}{self._as_what(item)}."
        place = apart[0]
        group = self.plan.groups.get(item.group)
        known = {to.page for to in (group.to if group else ()) if to.pocket == place and to.page}
        pages = sorted(known) or self.plan.kit.pockets[place].pages
        used = self.pages(pages, "and" if known and many else "or")
        are = "they are" if many else "it is"
        return f"{they} in {self.pocket(place)}: {are} used on {used}{self._as_what(item)}."

    def _as_what(self, item: Item) -> str:
        if item.kind is None:
            return ""
        # Names and notes stay as the kit writes them; the words of a tie are ours.
        ties = [f"{tie[:1].lower()}{tie[1:]}" for tie in self.ties(item.kind)]
        said = ties or ([item.kind.note] if item.kind.note else [])
        return f" ({said[0].rstrip('.')})" if said else ""

    def remedy(self, warning: Warning, belongs: int | Sequence[int]) -> str:
        """What the crafter says with the key that puts it right."""
        if warning.kind is WarningKind.EXTRA_SCRAP:
            return "it was no scrap"
        if warning.kind is WarningKind.TWICE:
            return "it is where it was"
        places = list(dict.fromkeys(_each(belongs, max(1, len(warning.items)))))
        if warning.kind is WarningKind.MISSING and places[0] >= 0:
            return f"found: it is in {self.pocket(places[0])} now"
        they = "they are" if len(warning.items) > 1 else "it is"
        if places[0] >= 0:
            return f"{they} in {' and '.join(self.pocket(place) for place in places)} now"
        where = "with the scraps" if places[0] == Spot.SCRAPS else "on the pile"
        return f"{they} {where} now"

    def not_saved(self, why: str, waiting: int) -> str:
        """That what was said is not on the disk, and why; the view adds the file.

        Args:
            why: The reason, as a clause: 'the disk is full'.
            waiting: How many entries are not on the disk.
        """
        waits = f"; {waiting} {'entries wait' if waiting > 1 else 'entry waits'}" if waiting else ""
        return f"NOT SAVED: {why}{waits}."

    def looking_on(self, trouble: str) -> str:
        """That another program has the session; and why nothing is seen of it, if so."""
        if trouble:
            return f"You are looking on, and see nothing new: {trouble}"
        return "You are looking on: another dryfit has this session."

    def caution(self, code: str, mark: Fraction | None = None) -> str:
        """A caution, by its code; local rules come first.

        Args:
            code: One of `model.cautions`.
            mark: Where the cut is to be made, in mm.
        """
        return _CAUTIONS[code].format("" if mark is None else self.manner.finely(mark))

    def objection(self, code: str) -> str:
        """Why something could not be taken in, by a code of `State.objection` or `Session`."""
        return OBJECTIONS.get(code, "That can't be done now.")


def _each(belongs: int | Sequence[int], count: int) -> list[int]:
    return [belongs] * count if isinstance(belongs, int) else list(belongs)
