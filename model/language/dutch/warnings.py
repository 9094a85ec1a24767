"""Sentences on what went wrong, what to be careful of, and what can't be done now."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from model.language.dutch.grammar import listed, of_it
from model.language.dutch.pieces import PieceWords
from model.language.english import warnings as english
from model.plan import Item, Role
from model.state import Spot
from model.warning import Warning, WarningKind

_LOCAL = "Plaatselijke regels gaan voor."
_CAUTIONS = {
    "blade": f"Vergrendel het mes als je niet snijdt; vingers achter de kap. {_LOCAL}",
    "sliver": "Smal: snijd het van het grotere deel; houd nooit een smal reepje bij het mes.",
    "knife": (
        "Hobbymes: snijmat, metalen liniaal met opstaande rand, van je andere hand af; dop "
        "erop als je het neerlegt."
    ),
    "solvent": ("Oplosmiddel: raam open, weg van vuur en huid, na gebruik meteen dicht. " + _LOCAL),
    "heat": f"Heet: laat het buiten bereik afkoelen, laat het nooit alleen aanstaan. {_LOCAL}",
    "small": "Kleine onderdelen: houd ze weg van kleine kinderen.",
    "unfit": (
        "Voor deze maat heeft je liniaal geen streepje. Heb je een fijnere, kies die dan bij de "
        "instellingen."
    ),
    "far": (
        "Je liniaal zit er meer dan een haartje naast: meet {} en zet zelf een streepje, of kies "
        "een fijnere liniaal bij de instellingen."
    ),
}

OBJECTIONS = {
    "watching": "Een andere dryfit heeft deze sessie open; je kijkt mee.",
    "closed": "Deze sessie is weggelegd; open haar weer vanaf de plank.",
    "over": "Alles is klaar.",
    "not yet": "Dat komt later.",
    "done already": "Dat is al gedaan.",
    "not optional": "Deze stap overslaan kan niet: latere stappen hebben nodig wat hij oplevert.",
    "begun": "Deze stap is begonnen; overslaan kan niet meer.",
    "file first": "Berg eerst op wat op het hoopje ligt.",
    "stays on the pile": "Dat blijft op het hoopje: het moet nog gesneden worden.",
    "nothing to file": "Er is nog niets op te bergen.",
    "nothing to undo": "Er is niets terug te nemen.",
    "nothing to redo": "Er is niets opnieuw te zeggen.",
    "not made": "Dat is nog niet gemaakt.",
    "in hand": "Dat is in de papiersnijder of in je hand: snijd het eerst af.",
    "cut up": "Dat is in stukken gesneden: wat eruit kwam, kun je opbergen.",
    "not cut yet": "Dat vel is nog niet gesneden.",
    "filed with its piece": "Dat gaat mee met het stuk waar het bij hoort; berg dat stuk op.",
    "no such step": "Zo'n stap heeft dit pakket niet.",
    "no such thing": "Zoiets zit niet in dit pakket.",
    "no such pocket": "Zo'n vak is er niet.",
    "no such warning": "Die waarschuwing is al afgehandeld.",
    "finish the load": "Er ligt papier in de papiersnijder: maak deze sneden eerst af.",
    "last already": "Dat is al het laatste.",
    "not put off": "Dat vel is niet uitgesteld.",
    "not filed": "Dat ligt in geen vak.",
    "not right yet": "Er staat een waarschuwing over dit vak: zet die eerst recht.",
    "cannot mend": (
        "Dat kan nu niet: het past niet meer bij de stappen van het pakket. Er is niets veranderd."
    ),
    "kit touched": "Het gewijzigde pakket raakt wat al gedaan is; het oude blijft.",
}
"""Why something could not be taken in, by the code."""

_NAMES = {
    WarningKind.WRONG_POCKET: "In een verkeerd vak gelegd",
    WarningKind.TOO_MANY: "Te veel in een vak",
    WarningKind.WANTED_SCRAPPED: "Een nodig stuk bij de restjes gelegd",
    WarningKind.SCRAP_FILED: "Een restje in een vak gelegd",
    WarningKind.STRIP_FILED: "Een strook opgeborgen voor die gesneden was",
    WarningKind.TWICE: "Een stuk twee keer opgeborgen",
    WarningKind.EXTRA_SCRAP: "Een restje te veel",
    WarningKind.MISSING: "Een stuk dat niet in zijn vak lag",
}


class WarningWords(PieceWords, english.WarningWords):
    """Words on warnings, cautions and objections."""

    def warning_name(self, kind: WarningKind) -> str:
        """What a sort of mistake is called."""
        return _NAMES[kind]

    def mistakes_head(self) -> str:
        """Stands above the mistakes of a run in the account."""
        return "Fouten in deze sessie, rechtgezet of hierboven genoemd"

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
                "Een restje dat dit pakket niet verwacht. Misschien ligt er een stuk bij dat nog "
                "nodig is: leg het naast de stukken die nog komen."
            )
        item = self.plan.items[warning.items[-1]]
        count = len(warning.items)
        what = self.named(item) if count == 1 else of_it(count, self.named(item))
        lies, lay, are = ("ligt", "lag", "is") if count == 1 else ("liggen", "lagen", "zijn")
        here = self.pocket(warning.pocket) if warning.pocket >= 0 else ""
        places = _each(belongs, count)
        needless = needless and places[-1] < 0
        there = self._belongs(item, places, needless)
        if warning.kind is WarningKind.WRONG_POCKET:
            return f"VERKEERD VAK: {what} {lies} in {here}. {there}"
        if warning.kind is WarningKind.TOO_MANY:
            group = self.plan.groups[item.group]
            holds = group.wanted.get(warning.pocket, 0)
            many = f"TE VEEL: in {here} ligt al {holds} keer {item.name}; {count} {are} te veel"
            if all(place in (warning.pocket, Spot.PILE) for place in places):
                return f"{many}. Kijk nog eens wat je in je hand hebt."
            return f"{many}. {there}"
        if warning.kind is WarningKind.WANTED_SCRAPPED:
            wanted = "hoort niet bij de restjes van dit pakket" if needless else f"{are} nog nodig"
            return f"GEEN RESTJE: {what} {wanted}. {there}"
        if warning.kind is WarningKind.SCRAP_FILED:
            return f"RESTJE IN EEN VAK: {what} {lies} in {here}. Geen pagina gebruikt dat."
        if warning.kind is WarningKind.MISSING:
            return f"ONTBREEKT: {what} {lay} niet in {here} bij het tellen. {there}"
        if warning.kind is WarningKind.STRIP_FILED:
            if needless:
                return f"NIET VOOR EEN VAK: {what} {lies} in {here}. {there}"
            return f"TE VROEG: {what} {lies} in {here}. Dat moet nog in stukken gesneden worden."
        return (
            f"TWEE KEER OPGEBORGEN: {item.name} ligt al in een vak, en nu nog eens in {here}. "
            "Is dit ander papier, zoek dan uit welk."
        )

    def _belongs(self, item: Item, places: Sequence[int], needless: bool) -> str:
        """Where what a warning names belongs, and why there."""
        many = len(places) > 1
        they = "Die horen" if many else "Dat hoort"
        if item.role is Role.SCRAP:
            return f"{they} bij de restjes."
        if places[-1] < 0:
            if needless:
                return f"{they} op het hoopje: wat eruit zou komen, is overgeslagen."
            return f"{they} op het hoopje, om nog te snijden."
        apart = list(dict.fromkeys(places))
        if len(apart) > 1:
            counts = [f"{places.count(place)} in {self.pocket(place)}" for place in apart]
            return f"Waar ze horen: {', '.join(counts)}{self._as_what(item)}."
        place = apart[0]
        group = self.plan.groups.get(item.group)
        known = {to.page for to in (group.to if group else ()) if to.pocket == place and to.page}
        pages = sorted(known) or self.plan.kit.pockets[place].pages
        used = self.pages(pages, "and" if known and many else "or")
        return f"{they} in {self.pocket(place)}, voor {used}{self._as_what(item)}."

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
            return "het was geen restje"
        if warning.kind is WarningKind.TWICE:
            return "het ligt waar het lag"
        places = list(dict.fromkeys(_each(belongs, max(1, len(warning.items)))))
        if warning.kind is WarningKind.MISSING and places[0] >= 0:
            return f"gevonden: ligt nu in {self.pocket(places[0])}"
        lie = "liggen" if len(warning.items) > 1 else "ligt"
        if places[0] >= 0:
            return f"{lie} nu in {listed([self.pocket(place) for place in places])}"
        where = "bij de restjes" if places[0] == Spot.SCRAPS else "op het hoopje"
        return f"{lie} nu {where}"

    def not_saved(self, why: str, waiting: int) -> str:
        """That what was said is not on the disk, and why; the view adds the file.

        Args:
            why: The reason, as a clause: 'the disk is full'.
            waiting: How many entries are not on the disk.
        """
        entries = "aantekeningen wachten" if waiting > 1 else "aantekening wacht"
        waits = f"; {waiting} {entries}" if waiting else ""
        return f"NIET BEWAARD: {why}{waits}."

    def looking_on(self, trouble: str) -> str:
        """That another program has the session; and why nothing is seen of it, if so."""
        if trouble:
            return f"Je kijkt mee en ziet niets nieuws: {trouble}"
        return "Je kijkt mee: een andere dryfit heeft deze sessie."

    def caution(self, code: str, mark: Fraction | None = None) -> str:
        """A caution, by its code; local rules come first.

        Args:
            code: One of `model.cautions`.
            mark: Where the cut is to be made, in mm.
        """
        return _CAUTIONS[code].format("" if mark is None else self.manner.finely(mark))

    def objection(self, code: str) -> str:
        """Why something could not be taken in, by a code of `State.objection` or `Session`."""
        return OBJECTIONS.get(code, "Dat kan nu niet.")


def _each(belongs: int | Sequence[int], count: int) -> list[int]:
    return [belongs] * count if isinstance(belongs, int) else list(belongs)
