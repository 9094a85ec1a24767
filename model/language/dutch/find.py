"""Sentences on what a thing is, in Dutch: what was found, what is alike, what is missing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from model.geometry import PaperSide
from model.kit import SetAside
from model.language.dutch.grammar import counted, listed, some
from model.language.dutch.pieces import PieceWords
from model.language.english import find as english
from model.plan import Item, Role
from model.spot import Spot
from model.state import State
from model.tells import Reason, Tell

if TYPE_CHECKING:
    from model.found import Found, Match
    from model.likeness import Likeness
    from model.recount import Line, Proposal
    from model.thin import Backing

_COLOURS: Mapping[str, str] = {
    "rood": "red", "rode": "red", "oranje": "orange", "geel": "yellow", "gele": "yellow",
    "groen": "green", "groene": "green", "turkoois": "teal", "turquoise": "teal",
    "blauw": "blue", "blauwe": "blue", "paars": "purple", "paarse": "purple", "roze": "pink",
    "bruin": "brown", "bruine": "brown", "zwart": "black", "zwarte": "black", "grijs": "grey",
    "grijze": "grey", "wit": "white", "witte": "white", "crème": "cream", "creme": "cream",
    "goud": "golden", "gouden": "golden", "licht": "light", "lichte": "light",
    "donker": "dark", "donkere": "dark", "fel": "bright", "felle": "bright",
}  # fmt: skip
_THINGS: Mapping[str, str] = {
    "bij": "by", "strook": "strip", "vel": "sheet", "restje": "scrap", "gescheurd": "torn",
    "effen": "plain", "duim": "inch",
}  # fmt: skip
_IDLE = ("de", "het", "een", "en", "met", "van", "op", "is", "dit", "die", "dat")
_ASKED: Mapping[str, str] = {**_COLOURS, **_THINGS, **dict.fromkeys(_IDLE, "")}
_MOST_ASIDES = 2
_MOST_POCKETS = 3


class FindWords(PieceWords, english.FindWords):
    """Words on telling things apart, and finding them."""

    # Find

    def find_hint(self) -> str:
        """What can be typed to find a piece."""
        return "Typ wat je liniaal zegt, een kleur of woorden erop: 3 x 8 groen, hallo"

    def asked(self, text: str) -> str:
        """What was typed to find a piece, with colours in the words that Find knows."""
        said = [_ASKED.get(word.casefold(), word) for word in text.split()]
        return " ".join(word for word in said if word)

    def found(self, found: Found) -> str:
        """How much was found, and in which reading."""
        as_unit = ""
        if found.query.unit is not None and found.query.unit is not self.manner.style.unit:
            as_unit = f" (gelezen in {found.query.unit})"
        if found.query.empty:
            return self.find_hint()
        if found.asides:
            more = " Lijkt er ook op:" if found.exact else " Komt er het dichtst bij:"
            said = " ".join(self._set_aside(aside) for aside in found.asides[:_MOST_ASIDES])
            return said + more * bool(found.matches)
        if not found.matches:
            return "Zoiets zit niet in dit pakket."
        given = found.query.given
        left = f"Van {given} maten zijn alleen de eerste 2 gezocht. " if given > 2 else ""
        if not found.exact:
            return f"{left}Precies zo is er geen{as_unit}. Het dichtst erbij:"
        more = f", en nog {found.more}" if found.more else ""
        return f"{left}{counted(len(found.matches), 'soort', 'soorten')} gevonden{as_unit}{more}:"

    def _set_aside(self, aside: SetAside) -> str:
        pages = self.pages(aside.pages) if aside.pages else "elke pagina"
        return f"Apart gelegd: {aside.name}, voor {pages}."

    def match(self, match: Match, state: State) -> tuple[str, str, str]:
        """A match: what it is, where it goes, and how it differs or where it is now."""
        item = self.plan.items[match.copy]
        goes = self._bound_for(match.sought.item, match, state)
        return self.named(item), goes, self._standing(match, state)

    def _bound_for(self, item: Item, match: Match, state: State) -> str:
        if item.role in (Role.SHEET, Role.BASE):
            base = self.plan.sheets[item.name].base
            return f"basisvel van pagina {base}" if base else "een vel om te snijden"
        if item.kind is not None and item.kind.companion_of:
            return f"wordt opgeborgen met {item.kind.companion_of}"
        if item.role is Role.PIECE:
            group = self.plan.groups.get(item.group)
            if group is None or not group.wanted:
                return "nog te snijden"
            if match.place < 0 or state.is_stray(match.copy):
                return self.goes(item, match.belongs)
            pockets = [self.pocket(pocket) for pocket in group.wanted]
            return f"{'vak' if len(pockets) == 1 else 'vakken'} {some(pockets, _MOST_POCKETS)}"
        return self.goes(item, match.belongs)

    def _standing(self, match: Match, state: State) -> str:
        said: list[str] = []
        if "size" in match.misses:
            said.append(f"{self.manner.length(match.off)} verschil")
        if "colour" in match.misses:
            said.append("een andere kleur")
        said += [f'niet "{word}"' for word in match.misses if word not in ("size", "colour")]
        copies = match.sought.copies
        filed = sum(state.where(id) >= 0 for id in copies)
        piles = sum(state.where(id) == Spot.PILE for id in copies)
        if match.sought.item.role is Role.PIECE:
            said.append(f"{filed} van {len(copies)} opgeborgen")
            if piles:
                said.append(f"{piles} op het hoopje")
        else:
            said.append(self.at_place(match.place))
        return ", ".join(said)

    def not_it(self, wanted: str) -> str:
        """Stands above Find when what is in hand is not what is asked for."""
        return f"Niet {self.named(self.plan.items[wanted])}? Zeg wat je in je hand hebt"

    def taken_in_hand(self, item: str) -> str:
        """That a thing of the pile is in hand now."""
        return f"In je hand: {self.named(self.plan.items[item])}."

    def found_again(self, item: str) -> str:
        """That something missing is found."""
        return f"Gevonden: {self.named(self.plan.items[item])}. Het ligt nu in zijn vak."

    def is_by_the_journal(self, item: str, place: int, key: str = "k") -> str:
        """Where something is by what was said, when it does not lie about."""
        name = self.named(self.plan.items[item])
        if place >= 0:
            home = self.pocket(place)
            return (
                f"Al opgeborgen in vak {home}: {name}. Lag het los, leg het daar terug; "
                f"{key} verplaatst het."
            )
        return f"Volgens wat tot nu toe gezegd is, {self.at_place(place)}: {name}."

    # Sheets put off

    def defer_when(self) -> str:
        """When a sheet can be put off."""
        return "Je kunt een vel uitstellen als het net in de snijder zou gaan."

    def deferred(self, sheet: str, key: str = "t") -> str:
        """That a sheet was put off."""
        return f"Vel {sheet} komt als laatste; leg het apart. {key} pakt het weer op."

    def taken_up(self, sheet: str) -> str:
        """That a sheet was taken up again."""
        return f"Vel {sheet} is nu aan de beurt."

    def which_sheet(self) -> str:
        """Asks which sheet is taken up."""
        return "Welk vel pak je weer op?"

    # Look-alikes

    def alike(self, likeness: Likeness) -> str:
        """What a thing must not be taken for, and what tells them apart."""
        return f"Niet verwarren met {self._other(likeness)}: {self.tell(likeness)}."

    def _other(self, likeness: Likeness) -> str:
        other = likeness.other.item
        if other.role is Role.SCRAP:
            return "een restje"
        group = self.plan.groups.get(other.group)
        if group is None or not group.wanted:
            return f"{other.name}, nog te snijden"
        pockets = listed([self.pocket(pocket) for pocket in list(group.wanted)[:_MOST_POCKETS]])
        return f"{other.name} voor {pockets}"

    def tell(self, likeness: Likeness) -> str:
        """The one measurement or mark that tells two things apart."""
        one, other = likeness.one.item, likeness.other.item
        if likeness.tell in (Tell.LONG, Tell.SHORT):
            side = 1 if likeness.tell is Tell.LONG else 0
            word = "lang" if likeness.tell is Tell.LONG else "breed"
            this, that = (
                self.manner.length(sides[side], unit=False)
                for sides in (likeness.one.sides, likeness.other.sides)
            )
            return f"dit is {this} {word}, dat is {that}"
        if likeness.tell is Tell.PRINTED:
            return self._printed_apart(one, other)
        if likeness.tell is Tell.TORN:
            torn = one.stock is not None and bool(one.stock.torn)
            return f"{'dit' if torn else 'dat'} stuk heeft een gescheurde rand"
        if likeness.tell is Tell.PATTERN:
            sides = [self._paper_side(item, item.use) for item in (one, other)]
            return f"dit is {sides[0]}, dat is {sides[1]}"
        backs: list[PaperSide] = ["reverse" if i.use == "face" else "face" for i in (one, other)]
        return (
            f"omgedraaid is dit {self._paper_side(one, backs[0])}, "
            f"en dat {self._paper_side(other, backs[1])}"
        )

    def _printed_apart(self, one: Item, other: Item) -> str:
        for item, which in ((one, "dit"), (other, "dat")):
            if item.kind is not None and (shown := self._print(item.kind.words, item.kind.picture)):
                return f"op {which} stuk staat {shown}"
        return "kijk wat erop gedrukt is"

    def _print(self, words: str, picture: str) -> str:
        return " en ".join(part for part in (f'"{words}"' if words else "", picture) if part)

    def _paper_side(self, item: Item, side: PaperSide) -> str:
        return item.paper.side(side).name if item.paper is not None else "ander papier"

    # Thin strips

    def backing(self, backing: Backing) -> str:
        """What a thin strip most likely backs, where the kit does not say."""
        where = listed([self.pocket(pocket) for pocket in backing.pockets[:_MOST_POCKETS]])
        pockets = f" in vak {where}" if where else ""
        reveal = self.manner.length(backing.reveal)
        return (
            f"Een smalle strook: waarschijnlijk komt die achter {backing.other}{pockets}, "
            f"met {reveal} zichtbaar aan beide kanten."
        )

    # Counting

    def count_line(self, line: Line) -> str:
        """What the journal has in a pocket, for ticking off."""
        beside = f", met {listed(line.companions)}" if line.companions else ""
        return f"{self.named(line.item)}{beside}"

    def proposal(self, proposal: Proposal) -> str:
        """Where something missing most likely is, why, and what to do."""
        name = self.named(self.plan.items[proposal.item])
        home, there = self.pocket(proposal.home), self.at_place(proposal.place)
        if proposal.reason is Reason.STRAY:
            put = "" if proposal.place == proposal.home else f" Leg het in vak {home}."
            return f"{name} is gevonden, {there}.{put}"
        start = f"{name} ligt niet in vak {home}."
        if proposal.reason is Reason.TABLE:
            return f"{start} Kijk op de tafel, onder de snijder, op de grond en in de prullenbak."
        if proposal.reason is Reason.SCRAPS:
            return f"{start} Kijk tussen de restjes."
        if proposal.reason is Reason.SAME_KIND:
            return f"{start} Kijk {there}: daar ligt meer van precies deze, misschien een te veel."
        if proposal.reason is Reason.NEXT_FILED:
            return f"{start} Kijk {there}: wat vlak ervoor of erna is opgeborgen, ging daarheen."
        if proposal.reason is Reason.SEEN:
            return f"{start} Bij het tellen lag het {there}: leg het terug in vak {home}."
        apart = f" ({self.tell(proposal.likeness)})" if proposal.likeness is not None else ""
        if proposal.reason is Reason.EXCHANGED:
            other = self.named(self.plan.items[proposal.other])
            return (
                f"{start} Daar lag {other}, en dat hoort {there}: waarschijnlijk zijn die twee "
                f"verwisseld{apart}. Kijk {there}, en leg elk in zijn eigen vak."
            )
        like = (
            self.named(proposal.likeness.other.item) if proposal.likeness else "iets dat erop lijkt"
        )
        return f"{start} Kijk {there}, bij {like}: die twee lijken op elkaar{apart}."

    def proposal_yes(self, proposal: Proposal) -> str:
        """The answer that a proposal is true, and was put right."""
        if proposal.other:
            return "Ja, ze waren verwisseld: elk ligt nu in zijn eigen vak"
        return f"Ja, daar lag het: het ligt nu in vak {self.pocket(proposal.home)}"

    def proposal_no(self, last: bool) -> str:
        """The answer that it is not there."""
        return "Nee, het is nergens: het is zoek" if last else "Nee, daar ligt het niet"

    def proposal_later(self) -> str:
        """The answer that nobody looks now."""
        return "Nu niet"

    def checked(self) -> str:
        """That a pocket was counted, and is right."""
        return "geteld"

    def counted(self, right: Sequence[int], of: int, warned: bool = False) -> str:
        """What came of a count."""
        names = listed([self.pocket(pocket) for pocket in right])
        if len(right) == of:
            return f"Geteld, en het klopt: {names}."
        listed_there = "; wat ontbreekt, staat bij de waarschuwingen" * warned
        if not right:
            return f"Het klopt nog niet{listed_there}."
        return f"Geteld, en het klopt: {names}. De andere kloppen nog niet{listed_there}."

    def count_put_off(self, key: str) -> str:
        """That something was missed by a count, and nobody has looked for it."""
        return f"Er moet nog iets gezocht worden: {key} telt het vak opnieuw."
