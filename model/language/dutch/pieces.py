"""Sentences on things and pockets: what they are called, where they are, where they go.

The names of a kit may be of either gender, and are seldom Dutch: no article, adjective or
pronoun here agrees with one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from model.event import Done, Event, Extra, Filed, Left, Mended, Moved, Scrapped
from model.kit import PieceKind, Tie
from model.language.dutch.grammar import listed, number_word
from model.language.english import pieces as english
from model.plan import Item, Role
from model.pocketkeys import keys_of
from model.relations import Related
from model.state import Spot

_PLACES = {
    Spot.SCRAPS: "bij de restjes",
    Spot.PILE: "op het hoopje",
    Spot.IN_HAND: "in je hand",
    Spot.STACK: "op de stapel",
    Spot.ASIDE: "apart gelegd",
    Spot.TAKEN: "in stukken gesneden",
}

_FORWARD: dict[Tie, str] = {
    Tie.GOES_WITH: "hoort bij",
    Tie.BACKS: "komt achter",
    Tie.COMPLETES: "maakt deel uit van",
    Tie.TRACED_FROM: "heeft als mal",
    Tie.FILED_WITH: "wordt opgeborgen met",
    Tie.SLIT_FOR: "heeft een gleuf voor",
}
_BACK: dict[Tie, str] = {
    Tie.GOES_WITH: "hoort bij",
    Tie.BACKS: "komt op",
    Tie.COMPLETES: "wordt compleet met",
    Tie.TRACED_FROM: "is later de mal voor",
    Tie.FILED_WITH: "wordt opgeborgen met",
    Tie.SLIT_FOR: "gaat door een gleuf in",
}


class PieceWords(english.PieceWords):
    """Words on things and pockets."""

    # Small words

    def dot(self, text: str) -> str:
        """A label in the crafter's characters: ``1·2`` is ``1-2`` in ASCII."""
        return super().dot(text)  # a kit's own

    def pocket(self, index: int) -> str:
        """A pocket by its label."""
        return super().pocket(index)  # a kit's own

    def press(self, pocket: int) -> str:
        """The keys of a pocket in words: ``1 of 2``, ``1-4``, ``1 of 2, Enter``."""
        keys = keys_of(self.plan, pocket)
        if keys[-1:] == ("Enter",):
            return f"{listed(keys[:-1], 'of')}, Enter"
        return listed(keys, "of")

    def pages(self, pages: Sequence[int], last: str = "and") -> str:
        """Pages in words: ``pagina 3``, ``pagina 3 en 7``, ``pagina 3 of 4``."""
        numbers = [str(page) for page in pages]
        return f"pagina {listed(numbers, 'of' if last == 'or' else 'en')}"

    def named(self, item: Item) -> str:
        """A thing by name and, when known, size: ``photo mat (4 × 6)``."""
        size = self.manner.size(item)
        if item.role is Role.SCRAP:
            return f"restje van {size}" if size else "restje"
        return f"{item.name} ({size})" if size else item.name

    def printed(self, kind: PieceKind) -> str:
        """What is printed on a piece, to tell it by."""
        parts = []
        if kind.words:
            parts.append(f'heeft als opschrift "{kind.words}"')
        if kind.picture:
            parts.append(f"toont {kind.picture}")
        return ", ".join(parts)

    def at_place(self, place: int) -> str:
        """Where a thing lies now."""
        if place >= 0:
            return f"in vak {self.pocket(place)}"
        return _PLACES.get(Spot(place), "nog niet gemaakt")

    # Filing

    def goes(self, item: Item, place: int) -> str:
        """Where a thing goes."""
        if item.role is Role.SCRAP:
            return "naar de restjes"
        return f"vak {self.pocket(place)}" if place >= 0 else "het hoopje, nog te snijden"

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
            return f"{goes}; blijkt bij het opbergen"
        return f"{goes}, toets {self.press(places[0])}" if places[0] >= 0 else goes

    def goes_briefly(self, item: Item, places: Sequence[int]) -> str:
        """The same without what is pressed, for where there is little room."""
        return self._one_of(places) if len(places) > 1 else self.goes(item, places[0])

    def stays(self, item: Item, places: Sequence[int]) -> str:
        """What stays on the bed after the last cut, and where it goes."""
        goes = self._one_of(places) if len(places) > 1 else self.goes(item, places[0])
        return f"Wat blijft liggen: {self.named(item)}, naar {goes.removeprefix('naar ')}."

    def _one_of(self, places: Sequence[int]) -> str:
        return listed([self.pocket(place) for place in places], "of")

    def file(self, item: Item, place: int) -> str:
        """Tells to file a thing, or to throw it to the scraps."""
        if item.role is Role.SCRAP:
            return f"Leg het {self.named(item)} bij de restjes."
        return f"Leg {self.named(item)} in vak {self.pocket(place)}."

    def keep(self, item: Item) -> str:
        """Tells that a thing is not filed."""
        return f"{self.named(item)} blijft op het hoopje en moet nog gesneden worden."

    def filed(self, item_id: str, place: int) -> str:
        """Says that a thing was filed, or thrown to the scraps."""
        item = self.plan.items[item_id]
        if place >= 0:
            return f"{item.name} ligt in {self.pocket(place)}."
        return self.scrapped(item_id) if place == Spot.SCRAPS else ""

    def scrapped(self, item_id: str) -> str:
        """Says that a thing was thrown to the scraps."""
        return f"{self.named(self.plan.items[item_id])} ligt bij de restjes."

    def said(self, event: Event) -> str:
        """What was said of where something is, in few words."""
        if isinstance(event, Done):
            step = self.plan.steps[self.plan.step_at[event.step]]
            label = event.into or self.plan.kit.pockets[step.pocket].label
            return f"{self.plan.items[step.makes[0]].name} in {self.dot(label)}"
        if isinstance(event, (Filed, Moved)):
            name = self.plan.items[event.item].name
            at = f"in {self.dot(event.pocket)}" if event.pocket else "op het hoopje"
            return f"{name} {at}"
        if isinstance(event, Scrapped):
            return f"{self.plan.items[event.item].name} bij de restjes"
        if isinstance(event, Extra):
            return "nog een restje"
        if isinstance(event, Mended):
            return "de redding"
        if isinstance(event, Left):
            return "een waarschuwing die je liet staan"
        return "een waarschuwing die je rechtzette"

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
            said.append(f"Voor {self.pages(pages)}.")
        # Before all else what it belongs with: it may be told nowhere but here.
        companions = self.plan.companions.get(item.id, ())
        if companions:
            said.append(f"Leg erbij: {listed([self.plan.items[id].name for id in companions])}.")
        said.extend(self.ties(kind))
        if item.length is not None:
            said.extend(self._other_lengths(item))
        elif group and sum(group.wanted.values()) > 1 and len(group.wanted) > 1:
            said.append(self._alike(group.wanted))
        if self.printed(kind):
            said.append(_begun(f"{self.printed(kind)}."))
        if item.use == "reverse":
            said.append("De achterkant komt in het zicht.")
        if kind.turnable is False or (
            kind.turnable is None and item.paper is not None and item.paper.directional
        ):
            said.append("Houd de opdruk rechtop.")
        if kind.smaller_by:
            said.append(f"Mag kleiner zijn, hooguit {self.manner.length(kind.smaller_by)}.")
        said.extend(note for note in dict.fromkeys((kind.note, item.note)) if note)
        if item.stock is not None and item.stock.torn:
            said.append("Gescheurde rand.")
        return tuple(said)

    def _alike(self, counts: Mapping[int, int]) -> str:
        parts = ", ".join(f"{n} naar {self.pocket(pocket)}" for pocket, n in counts.items())
        return f"{number_word(sum(counts.values())).capitalize()} dezelfde: {parts}."

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
            f"{self.manner.length(length)} naar {self.pocket(pocket)}"
            for length, counts in lengths.items()
            for pocket in counts
        ]
        if other:
            yield f"Van een andere lengte: {', '.join(other)}."

    def tie(self, related: Related) -> str:
        """A tie, such as ``komt op``; the other's name follows."""
        return (_BACK if related.back else _FORWARD)[related.tie]

    def ties(self, kind: PieceKind) -> tuple[str, ...]:
        """What a kind belongs with, from either end: ``Komt achter rope border en twine.``"""
        others: dict[str, list[str]] = {}
        for tie in self.plan.related(kind.name):
            if tie.tie is not Tie.FILED_WITH:
                others.setdefault(self.tie(tie), []).append(tie.other)
        return tuple(_begun(f"{words} {listed(names)}.") for words, names in others.items())


def _begun(sentence: str) -> str:
    return f"{sentence[:1].upper()}{sentence[1:]}"
