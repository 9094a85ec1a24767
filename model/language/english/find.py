"""Sentences on what a thing is: what was found, what is alike, what it backs, what is missing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from model.geometry import PaperSide
from model.kit import SetAside
from model.language.english.grammar import counted, listed, some
from model.language.english.pieces import PieceWords
from model.plan import Item, Role
from model.spot import Spot
from model.state import State
from model.tells import Reason, Tell

if TYPE_CHECKING:
    from model.found import Found, Match
    from model.likeness import Likeness
    from model.recount import Line, Proposal
    from model.thin import Backing

_MOST_ASIDES = 2
_MOST_POCKETS = 3


class FindWords(PieceWords):
    """Words on telling things apart, and finding them."""

    # Find

    def find_hint(self) -> str:
        """What can be typed to find a piece."""
        return "Type what your ruler says, a colour, or words on it: 3 x 8 green, hello"

    def asked(self, text: str) -> str:
        """What was typed to find a piece, with colours in the words that Find knows.

        Another language puts its own words for colours, and for ``by`` and ``strip``, into
        these; what it does not know stays as it is.
        """
        return text

    def found(self, found: Found) -> str:
        """How much was found, and in which reading."""
        as_unit = ""
        if found.query.unit is not None and found.query.unit is not self.manner.style.unit:
            as_unit = f" (read in {found.query.unit})"
        if found.query.empty:
            return self.find_hint()
        if found.asides:
            more = " Like that, too:" if found.exact else " The nearest beside it:"
            said = " ".join(self._set_aside(aside) for aside in found.asides[:_MOST_ASIDES])
            return said + more * bool(found.matches)
        if not found.matches:
            return "Nothing in this kit is like that."
        given = found.query.given
        left = f"Of {given} sizes only the first 2 are looked for. " if given > 2 else ""
        if not found.exact:
            return f"{left}None is just so{as_unit}. The nearest:"
        more = f", and {found.more} more" if found.more else ""
        return f"{left}{counted(len(found.matches), 'kind')} like that{as_unit}{more}:"

    def _set_aside(self, aside: SetAside) -> str:
        pages = self.pages(aside.pages) if aside.pages else "any page"
        return f"Set aside: {aside.name}, for {pages}."

    def match(self, match: Match, state: State) -> tuple[str, str, str]:
        """A match: what it is, where it goes, and how it differs or where it is now."""
        item = self.plan.items[match.copy]
        goes = self._bound_for(match.sought.item, match, state)
        return self.named(item), goes, self._standing(match, state)

    def _bound_for(self, item: Item, match: Match, state: State) -> str:
        if item.role in (Role.SHEET, Role.BASE):
            base = self.plan.sheets[item.name].base
            return f"base of page {base}" if base else "a sheet to be cut"
        if item.kind is not None and item.kind.companion_of:
            return f"filed with {item.kind.companion_of}"
        if item.role is Role.PIECE:
            group = self.plan.groups.get(item.group)
            if group is None or not group.wanted:
                return "to be cut again"
            if match.place < 0 or state.is_stray(match.copy):
                return self.goes(item, match.belongs)
            pockets = [self.pocket(pocket) for pocket in group.wanted]
            return f"pocket {some(pockets, _MOST_POCKETS)}"
        return self.goes(item, match.belongs)

    def _standing(self, match: Match, state: State) -> str:
        said: list[str] = []
        if "size" in match.misses:
            said.append(f"{self.manner.length(match.off)} off")
        if "colour" in match.misses:
            said.append("another colour")
        said += [f'not "{word}"' for word in match.misses if word not in ("size", "colour")]
        copies = match.sought.copies
        filed = sum(state.where(id) >= 0 for id in copies)
        piles = sum(state.where(id) == Spot.PILE for id in copies)
        if match.sought.item.role is Role.PIECE:
            said.append(f"{filed} of {len(copies)} filed")
            if piles:
                said.append(f"{piles} on the pile")
        else:
            said.append(self.at_place(match.place))
        return ", ".join(said)

    def not_it(self, wanted: str) -> str:
        """Stands above Find when what is in hand is not what is asked for."""
        return f"Not {self.named(self.plan.items[wanted])}? Say what is in your hand"

    def taken_in_hand(self, item: str) -> str:
        """That a thing of the pile is in hand now."""
        return f"In your hand: {self.named(self.plan.items[item])}."

    def found_again(self, item: str) -> str:
        """That something missing is found."""
        return f"{self.named(self.plan.items[item])} is found, and in its pocket."

    def is_by_the_journal(self, item: str, place: int, key: str = "k") -> str:
        """Where something is by what was said, when it does not lie about."""
        name = self.named(self.plan.items[item])
        if place >= 0:
            home = self.pocket(place)
            return f"{name} is filed in {home}. If it lay about, put it there; {key} moves it."
        return f"{name} is {self.at_place(place)} by what was said so far."

    # Sheets put off

    def defer_when(self) -> str:
        """When a sheet can be put off."""
        return "A sheet can be put off when it is about to be loaded."

    def deferred(self, sheet: str, key: str = "t") -> str:
        """That a sheet was put off."""
        return f"Sheet {sheet} is done last; lay it aside. {key} takes it up again."

    def taken_up(self, sheet: str) -> str:
        """That a sheet was taken up again."""
        return f"Sheet {sheet} is next."

    def which_sheet(self) -> str:
        """Asks which sheet is taken up."""
        return "Which sheet is taken up again?"

    # Look-alikes

    def alike(self, likeness: Likeness) -> str:
        """What a thing must not be taken for, and what tells them apart."""
        return f"Not {self._other(likeness)}: {self.tell(likeness)}."

    def _other(self, likeness: Likeness) -> str:
        other = likeness.other.item
        if other.role is Role.SCRAP:
            return "a scrap"
        group = self.plan.groups.get(other.group)
        if group is None or not group.wanted:
            return f"the {other.name}, which is cut again"
        pockets = listed([self.pocket(pocket) for pocket in list(group.wanted)[:_MOST_POCKETS]])
        return f"the {other.name} for {pockets}"

    def tell(self, likeness: Likeness) -> str:
        """The one measurement or mark that tells two things apart."""
        one, other = likeness.one.item, likeness.other.item
        if likeness.tell in (Tell.LONG, Tell.SHORT):
            side = 1 if likeness.tell is Tell.LONG else 0
            word = "long" if likeness.tell is Tell.LONG else "wide"
            this, that = (
                self.manner.length(sides[side], unit=False)
                for sides in (likeness.one.sides, likeness.other.sides)
            )
            return f"this one is {this} {word}, that one {that}"
        if likeness.tell is Tell.PRINTED:
            return self._printed_apart(one, other)
        if likeness.tell is Tell.TORN:
            torn = one.stock is not None and bool(one.stock.torn)
            return f"{'this' if torn else 'that'} one has a torn edge"
        if likeness.tell is Tell.PATTERN:
            sides = [self._paper_side(item, item.use) for item in (one, other)]
            return f"this one is {sides[0]}, that one {sides[1]}"
        backs: list[PaperSide] = ["reverse" if i.use == "face" else "face" for i in (one, other)]
        return (
            f"turned over, this one is {self._paper_side(one, backs[0])}, "
            f"that one {self._paper_side(other, backs[1])}"
        )

    def _printed_apart(self, one: Item, other: Item) -> str:
        for item, which in ((one, "this"), (other, "that")):
            if item.kind is not None and self.printed(item.kind):
                return f"{which} one {self.printed(item.kind)}"
        return "look at what is printed on them"

    def _paper_side(self, item: Item, side: PaperSide) -> str:
        return item.paper.side(side).name if item.paper is not None else "another paper"

    # Thin strips

    def backing(self, backing: Backing) -> str:
        """What a thin strip most likely backs, where the kit does not say."""
        where = listed([self.pocket(pocket) for pocket in backing.pockets[:_MOST_POCKETS]])
        reveal = self.manner.length(backing.reveal)
        return (
            f"A thin strip: most likely it backs the {backing.other}"
            f"{f' in {where}' if where else ''}, showing {reveal} on either side."
        )

    # Counting

    def count_line(self, line: Line) -> str:
        """What the journal has in a pocket, for ticking off."""
        beside = f", with {listed(line.companions)}" if line.companions else ""
        return f"{self.named(line.item)}{beside}"

    def proposal(self, proposal: Proposal) -> str:
        """Where something missing most likely is, why, and what to do."""
        item = self.plan.items[proposal.item]
        home = self.pocket(proposal.home)
        if proposal.reason is Reason.STRAY:
            put = "" if proposal.place == proposal.home else f" Put it into {home}."
            return f"{self.named(item)} was found {self.at_place(proposal.place)}.{put}"
        start = f"{self.named(item)} is not in {home}."
        there = self.at_place(proposal.place)
        if proposal.reason is Reason.TABLE:
            return f"{start} Look on the table, under the trimmer, on the floor, and in the bin."
        if proposal.reason is Reason.SCRAPS:
            return f"{start} Look among the scraps."
        if proposal.reason is Reason.SAME_KIND:
            return f"{start} Look {there}: others just like it went there, perhaps one too many."
        if proposal.reason is Reason.NEXT_FILED:
            return f"{start} Look {there}: what was filed just before or after it went there."
        if proposal.reason is Reason.SEEN:
            return f"{start} It was found {there} by your count: put it back into {home}."
        apart = f" ({self.tell(proposal.likeness)})" if proposal.likeness is not None else ""
        if proposal.reason is Reason.EXCHANGED:
            other = self.named(self.plan.items[proposal.other])
            return (
                f"{start} {other} was found in its place, and belongs {there}: most likely the two "
                f"were exchanged{apart}. Look {there}, and put each into its own pocket."
            )
        like = self.named(proposal.likeness.other.item) if proposal.likeness else "its like"
        return f"{start} Look {there}, where {like} was filed: they look alike{apart}."

    def proposal_yes(self, proposal: Proposal) -> str:
        """The answer that a proposal is true, and was put right."""
        if proposal.other:
            return "Yes, they were exchanged: each is in its own pocket now"
        return f"Yes, it was there: it is in {self.pocket(proposal.home)} now"

    def proposal_no(self, last: bool) -> str:
        """The answer that it is not there."""
        return "No, it is nowhere: it is missing" if last else "No, it is not there"

    def proposal_later(self) -> str:
        """The answer that nobody looks now."""
        return "Not now"

    def checked(self) -> str:
        """That a pocket was counted, and is right."""
        return "counted"

    def counted(self, right: Sequence[int], of: int, warned: bool = False) -> str:
        """What came of a count.

        Args:
            right: The pockets that are right, by index.
            of: How many were counted.
            warned: Whether a warning about one of them stands.
        """
        names = listed([self.pocket(pocket) for pocket in right])
        if len(right) == of:
            return f"Counted, and right: {names}."
        listed_there = "; what is missing is listed with the warnings" * warned
        if not right:
            return f"Not right yet{listed_there}."
        return f"Counted, and right: {names}. The others are not right yet{listed_there}."

    def count_put_off(self, key: str) -> str:
        """That something was missed by a count, and nobody has looked for it.

        Args:
            key: The key that counts again.
        """
        return f"Something is still to be looked for: {key} counts the pocket again."
