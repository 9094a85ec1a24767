"""Sentences on things and pockets: what they are called, where they are, where they go."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from model.event import Done, Event, Extra, Filed, Left, Mended, Moved, Scrapped
from model.kit import PieceKind, Tie
from model.language.english.grammar import listed, number_word
from model.manner import Manner
from model.plan import Item, Plan, Role
from model.pocketkeys import keys_of
from model.relations import Related
from model.state import Spot

_PLACES = {
    Spot.SCRAPS: "among the scraps",
    Spot.PILE: "on the pile",
    Spot.IN_HAND: "in hand",
    Spot.STACK: "on the stack",
    Spot.ASIDE: "put aside",
    Spot.TAKEN: "cut up",
}

_FORWARD: dict[Tie, str] = {
    Tie.GOES_WITH: "goes with",
    Tie.BACKS: "backs",
    Tie.COMPLETES: "completes",
    Tie.TRACED_FROM: "is traced from",
    Tie.FILED_WITH: "is filed with",
    Tie.SLIT_FOR: "has a slit for",
}
_BACK: dict[Tie, str] = {
    Tie.GOES_WITH: "goes with",
    Tie.BACKS: "is backed by",
    Tie.COMPLETES: "is completed by",
    Tie.TRACED_FROM: "is later traced around for",
    Tie.FILED_WITH: "is filed with",
    Tie.SLIT_FOR: "is threaded through",
}


class PieceWords:
    """Words on things and pockets.

    Attributes:
        plan: The plan that is told of.
        manner: How the crafter is told things.
    """

    def __init__(self, plan: Plan, manner: Manner) -> None:
        """Keep what the sentences are about, and for whom.

        Args:
            plan: The plan that is told of.
            manner: How the crafter is told things.
        """
        self.plan = plan
        self.manner = manner

    # Small words

    def dot(self, text: str) -> str:
        """A label in the crafter's characters: ``1·2`` is ``1-2`` in ASCII."""
        return text.replace("·", "-") if self.manner.ascii else text

    def pocket(self, index: int) -> str:
        """A pocket by its label."""
        return self.dot(self.plan.kit.pockets[index].label)

    def press(self, pocket: int) -> str:
        """The keys of a pocket in words: ``1 or 2``, ``1-4``, ``1 or 2, Enter``."""
        keys = keys_of(self.plan, pocket)
        if keys[-1:] == ("Enter",):
            return f"{listed(keys[:-1], 'or')}, Enter"
        return listed(keys, "or")

    def pages(self, pages: Sequence[int], last: str = "and") -> str:
        """Pages in words: ``page 3``, ``pages 3 and 7``, ``page 3 or 4``."""
        numbers = listed([str(page) for page in pages], last)
        return f"page{'s' * (len(pages) > 1 and last == 'and')} {numbers}"

    def named(self, item: Item) -> str:
        """A thing by name and, when known, size: ``photo mat (4 × 6)``."""
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
        return _PLACES.get(Spot(place), "not made yet")

    # Filing

    def goes(self, item: Item, place: int) -> str:
        """Where a thing goes."""
        if item.role is Role.SCRAP:
            return "to the scraps"
        return f"pocket {self.pocket(place)}" if place >= 0 else "the pile, to be cut again"

    def goes_in_short(self, item: Item, place: int) -> str:
        """The same as short as can be: of a pocket, its label."""
        return self.pocket(place) if place >= 0 else self.goes(item, place)

    def goes_with_key(self, item: Item, places: Sequence[int]) -> str:
        """Where a thing goes, and what is pressed for it.

        Args:
            item: The thing.
            places: Where it may go; several when only the filing tells.
        """
        goes = self.goes_briefly(item, places)
        if len(places) > 1:
            return f"{goes}; told when you file it"
        return f"{goes}, key {self.press(places[0])}" if places[0] >= 0 else goes

    def goes_briefly(self, item: Item, places: Sequence[int]) -> str:
        """The same without what is pressed, for where there is little room."""
        return self._one_of(places) if len(places) > 1 else self.goes(item, places[0])

    def stays(self, item: Item, places: Sequence[int]) -> str:
        """What stays on the bed after the last cut, and where it goes."""
        if len(places) > 1:
            return f"What stays: {self.named(item)}, to {self._one_of(places)}."
        goes = self.goes(item, places[0]).removeprefix("to ")
        return f"What stays: {self.named(item)}, to {goes}."

    def _one_of(self, places: Sequence[int]) -> str:
        return listed([self.pocket(place) for place in places], "or")

    def file(self, item: Item, place: int) -> str:
        """Tells to file a thing, or to throw it to the scraps."""
        if item.role is Role.SCRAP:
            return f"Put the {self.named(item)} with the scraps."
        return f"File {self.named(item)} in pocket {self.pocket(place)}."

    def keep(self, item: Item) -> str:
        """Tells that a thing is not filed."""
        return f"{self.named(item)} stays on the pile: it is still to be cut."

    def filed(self, item_id: str, place: int) -> str:
        """Says that a thing was filed, or thrown to the scraps."""
        item = self.plan.items[item_id]
        if place >= 0:
            return f"{item.name} is in {self.pocket(place)}."
        return self.scrapped(item_id) if place == Spot.SCRAPS else ""

    def scrapped(self, item_id: str) -> str:
        """Says that a thing was thrown to the scraps."""
        return f"{self.named(self.plan.items[item_id])} is with the scraps."

    def said(self, event: Event) -> str:
        """What was said of where something is, in few words."""
        if isinstance(event, Done):
            step = self.plan.steps[self.plan.step_at[event.step]]
            label = event.into or self.plan.kit.pockets[step.pocket].label
            return f"{self.plan.items[step.makes[0]].name} in {self.dot(label)}"
        if isinstance(event, (Filed, Moved)):
            name = self.plan.items[event.item].name
            return f"{name} in {self.dot(event.pocket)}" if event.pocket else f"{name} on the pile"
        if isinstance(event, Scrapped):
            return f"{self.plan.items[event.item].name} with the scraps"
        if isinstance(event, Extra):
            return "one more scrap"
        if isinstance(event, Mended):
            return "the rescue"
        return "a warning left" if isinstance(event, Left) else "a warning settled"

    def about_piece(self, item: Item, place: int) -> tuple[str, ...]:
        """What helps to place a piece: its page, its like, what it goes with, its side.

        Args:
            item: The piece.
            place: The pocket that it goes into; only pages of that pocket are told.
        """
        kind = item.kind
        if kind is None:
            return ()
        said: list[str] = []
        group = self.plan.groups.get(item.group)
        to_here = [to for to in group.to if to.pocket == place] if group else []
        pages = sorted({to.page for to in to_here if to.page})
        if pages:
            said.append(f"For {self.pages(pages)}.")
        # Before all else what it belongs with: it may be told nowhere but here.
        companions = self.plan.companions.get(item.id, ())
        if companions:
            names = " and ".join(self.plan.items[id].name for id in companions)
            said.append(f"File with it: {names}.")
        said.extend(self.ties(kind))
        if item.length is not None:
            said.extend(self._other_lengths(item))
        elif group and sum(group.wanted.values()) > 1 and len(group.wanted) > 1:
            said.append(self._alike(group.wanted))
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
        said.extend(note for note in dict.fromkeys((kind.note, item.note)) if note)
        if item.stock is not None and item.stock.torn:
            said.append("Torn edge.")
        return tuple(said)

    def _alike(self, counts: Mapping[int, int]) -> str:
        parts = ", ".join(f"{n} to {self.pocket(pocket)}" for pocket, n in counts.items())
        return f"{number_word(sum(counts.values())).capitalize()} alike: {parts}."

    def _other_lengths(self, item: Item) -> Iterator[str]:
        """Where else a ribbon goes: its pieces are alike only where they are of one length."""
        lengths: dict[Fraction, dict[int, int]] = {}
        for id in self.plan.copies.get(item.name, ()):
            pocket = self.plan.steps[self.plan.made_by[id]].pocket
            counts = lengths.setdefault(self.plan.items[id].length or Fraction(0), {})
            counts[pocket] = counts.get(pocket, 0) + 1
        same = lengths.pop(item.length or Fraction(0), {})
        if sum(same.values()) > 1:
            yield self._alike(same)
        other = [
            f"{self.manner.length(length)} to {self.pocket(pocket)}"
            for length, counts in lengths.items()
            for pocket in counts
        ]
        if other:
            yield f"Of another length: {', '.join(other)}."

    def tie(self, related: Related) -> str:
        """A tie, such as ``is backed by``; the other's name follows."""
        return (_BACK if related.back else _FORWARD)[related.tie]

    def ties(self, kind: PieceKind) -> tuple[str, ...]:
        """What a kind belongs with, from either end: ``Backs rope border and twine.``"""
        others: dict[str, list[str]] = {}
        for tie in self.plan.related(kind.name):
            if tie.tie is not Tie.FILED_WITH:
                others.setdefault(self.tie(tie), []).append(tie.other)
        return tuple(
            f"{words[:1].upper()}{words[1:]} {listed(names)}." for words, names in others.items()
        )
