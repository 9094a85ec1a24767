"""Sentences that only plain lines need, in Dutch: what a screen shows by place or colour."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from model.language.dutch.asking import TypingWords, typed_as
from model.language.dutch.grammar import counted, listed
from model.language.dutch.steps import StepWords
from model.language.english import lines as english

if TYPE_CHECKING:
    from model.alerts import Alert
    from model.figure import Figure
    from model.inventory import Row
    from model.moment import Moment, PileLine, PocketLine

_SAID: Mapping[str, str] = {
    "left": "Die laat je nu staan; typ waarschuwingen om die weer te horen.",
    "undone": "Teruggenomen; met opnieuw zeggen geldt het weer.",
    "rescue undone": "De redding is teruggenomen; met opnieuw zeggen geldt die weer.",
    "undone cut": "Teruggenomen: dat moet nog gebeuren.",
    "word undone": "Teruggenomen; het papier blijft zoals het is. Met opnieuw zeggen geldt het "
    "weer.",
    "not undone": "Het papier is zoals het is, dus er is niets teruggenomen.",
    "redone": "Opnieuw gezegd.",
    "by load": "Vanaf nu: snijd de hele lading, berg daarna op vanaf het hoopje.",
    "by cut": "Vanaf nu: berg op na elke snede.",
    "no warning": "Er staat geen waarschuwing open.",
    "pile empty": "Het hoopje is leeg.",
    "no number": "Dat nummer staat niet in de lijst die het laatst is voorgelezen. Typ hoopje, "
    "zoek of vak om er een te horen.",
    "no warning number": "Dat nummer is er niet. Typ waarschuwingen om ze met hun nummers te "
    "horen.",
    "nothing new": "Niets nieuws.",
    "saved again": "Alles is weer bewaard.",
    "no folder": "Er is geen map om in te bewaren.",
    "cancelled": "Alles blijft zoals het was.",
    "which sheet": "Zeg welk vel, zoals later B.",
    "ask hand": "Zeg wat je in je hand hebt: de afmetingen, een kleur of woorden erop. Of nee.",
    "ask find": "Zeg de afmetingen, een kleur of woorden erop, zoals 3 bij 8 groen. Of nee.",
    "nothing all": "Niets op het hoopje kan nu worden opgeborgen. Typ nog eens om te horen wat "
    "er komt.",
    "count off": "Er moet nog iets gezocht worden. Typ tel en de pagina om opnieuw te tellen.",
    "lessons": "De lessen beginnen.",
    "no cautions": "Tot de volgende keer hoor je geen let op meer.",
    "no lessons": "Geen lessen meer; help zegt wat je kunt typen.",
    "find first": "Typ eerst hoopje, zoek of vak; die lezen de nummers voor.",
    "no notes": "Over deze stap valt niets meer te zeggen.",
    "interrupted": "Gestopt.",
    "ask busy": "Zeg meekijken om te kijken zonder iets te zeggen, of afsluiten.",
    "ask kit": "Zeg oud om verder te gaan met het pakket zoals het was.",
    "ask kit both": "Zeg oud om verder te gaan met het pakket zoals het was, of nieuw om het "
    "veranderde pakket over te nemen.",
    "watching": "Een lege regel kijkt opnieuw; afsluiten stopt.",
    "ask other": "Zit er nog iets anders in? Zeg hoe het eruitziet, of nee.",
    "ask which": "Welk is het? Zeg het nummer, of nee.",
    "over": "Een lege regel leest die voor.",
    "all done": "Alles is gedaan, en de eindstaat is voorgelezen. Eindstaat leest die nog eens "
    "voor; afsluiten stopt.",
}


class LineWords(TypingWords, StepWords, english.LineWords):
    """Words on what a screen shows without any."""

    @staticmethod
    def brief(of: str) -> str:
        """A fixed sentence, by its code."""
        return _SAID[of]

    # The step

    def mark_said(self, figure: Figure | None) -> str:
        """The mark of the very large figures: ``maat 9 1/2 in, een haartje meer``."""
        if figure is None or figure.tone != "cut":
            return ""
        number = " ".join(part for part in (figure.text.lstrip("~"), figure.unit) if part)
        if figure.caption == self.caption("width"):
            said = f"{number} {figure.caption}"
        elif figure.caption == self.caption("about"):
            said = f"{self.caption('mark')} {figure.caption} {number}"
        else:
            said = f"{figure.caption} {number}"
        return f"{said}, {figure.error}" if figure.error else said

    def step_line(self, moment: Moment) -> str:
        """A moment in one line: mark, what to do, where it goes, what stays as it is."""
        if moment.pressing is not None:
            return self.warning_line(moment.pressing)
        if moment.over:
            return f"{moment.sentence} {self.brief('over')}"
        mark = self.mark_said(moment.figure)
        start = f"{moment.headline}, {mark}. " if mark else ""
        said = f"{start}{moment.sentence}"
        if mark and moment.goes_briefly:
            said = f"{said} Het gaat {_to(moment.goes_briefly)}."
        return f"{said} Zeg overslaan om dat weg te laten." if moment.optional else said

    def warning_line(self, alert: Alert, number: int = 0) -> str:
        """A warning, and what can be answered."""
        start = f"Waarschuwing {number}: " if number else "Waarschuwing: "
        what, colon, rest = alert.text.partition(":")
        # Capitals are loud on a screen, but some voices spell them.
        text = f"{what.capitalize() if what.isupper() else what}{colon}{rest}"
        if alert.left:
            return f"{start}{text} Blijft nog staan. Rechtzetten betekent: {_remedy(alert)}."
        return f"{start}{text} Zeg rechtzetten: {_remedy(alert)}. Of laat staan, voor later."

    def answer_first(self, alert: Alert) -> str:
        """That nothing goes on before a warning is answered, and what can be answered."""
        return (
            f"Antwoord eerst op de waarschuwing. Zeg rechtzetten: {_remedy(alert)}. "
            "Of laat staan, voor later."
        )

    def caution_line(self, text: str) -> str:
        """A caution that applies now."""
        return f"Let op: {text}"

    def notes_line(self, notes: Sequence[str]) -> str:
        """What else helps."""
        return f"Notitie: {' '.join(notes)}"

    # Lists

    def pocket_line(self, pocket: PocketLine) -> str:
        """One pocket in outline."""
        pages = self.pages(self.plan.kit.pockets[pocket.index].pages)
        said = f"Vak {pocket.label}, {pages}: {pocket.held} van {pocket.wanted} opgeborgen"
        if pocket.wrong:
            said += f", en {pocket.wrong} {'dat' if pocket.wrong == 1 else 'die'} er niet "
            said += "hoort" if pocket.wrong == 1 else "horen"
        full = ", vol" if pocket.full else ""
        here = "; wat je in je hand hebt, gaat hierin" if pocket.target else ""
        return f"{said}{full}{here}."

    def pile_line(self, number: int, line: PileLine) -> str:
        """One thing on the pile."""
        due = "; het is nu aan de beurt" if line.due else ""
        return f"{number}: {line.text}, {_to(line.goes)}{due}."

    def held_line(self, row: Row, said: str, number: int = 0) -> str:
        """One row of a pocket: how many of how many, and what it is for."""
        done, _, rest = said.partition(" ")
        about = [f"voor {self.pages(row.pages)}"] if row.pages else []
        about += [f"uit {listed(row.sources)}"] if row.sources else []
        about += ["later verder gesneden"] if row.again else []
        start = f"{f'{number}: ' if number else ''}{done.replace('/', ' van ')} {rest}"
        return f"{'; '.join([start, *about])}."

    def stray_line(self, name: str, goes: str, number: int) -> str:
        """A thing in a pocket that does not belong there, with the number to take it by."""
        return f"{number}: Hoort hier niet: {name}; het gaat {_to(goes)}."

    def match_line(self, number: int, match: tuple[str, str, str]) -> str:
        """Something that was found."""
        name, goes, standing = match
        return f"{number}: {name}, {goes.removeprefix('naar ')}; {standing}."

    def found_ending(self) -> str:
        """What can be said of what was found."""
        return "Zeg pak en een nummer om het in je hand te nemen."

    def account_line(self, tone: str, line: str) -> str:
        """One line of the account; what is wrong is told in words, not by a colour."""
        line = line.strip()
        if tone == "head":
            return f"{line}."
        return f"Klopt niet: {line}" if tone == "bad" else line

    def take_ending(self, page: int) -> str:
        """How a numbered piece of a pocket is moved."""
        return (
            "Een stuk verplaatsen: zeg pak en zijn nummer, en daarna het paginanummer, "
            f"zoals {page}."
        )

    def taken_from(self, item: str, place: int) -> str:
        """That something is in hand now, where it was, and what to type."""
        name = self.named(self.plan.items[item])
        return (
            f"In je hand: {name}; tot nu toe lag het {self.at_place(place)}. Zeg het "
            "paginanummer van het vak waar je het in legt, of restje."
        )

    def time_said(self, spent: str, left: str) -> str:
        """Time at the table, and what is left."""
        return f"{spent[:1].upper()}{spent[1:]} aan tafel; {left}."

    # Answers

    def filed_into(self, pocket: int) -> str:
        """Says which pocket was meant, where no thing was named."""
        return f"Opgeborgen in vak {self.pocket(pocket)}."

    def put_off(self, sheet: str) -> str:
        """Says that a sheet was put off."""
        return f"Vel {sheet} is uitgesteld: dat snijd je na alle andere."

    def taken_up(self, sheet: str) -> str:
        """Says that a sheet is put off no longer."""
        return f"Vel {sheet} is weer opgepakt."

    def which_put_off(self, sheets: Sequence[str]) -> str:
        """Asks which sheet is taken up."""
        names = listed([f"weer oppakken {sheet}" for sheet in sheets], "of")
        return f"Zeg welk vel: {names}."

    def put_right(self, alert: Alert) -> str:
        """Says that what a warning names was put right, and how."""
        return f"Rechtgezet: {_remedy(alert)}."

    def saved_report(self, path: str) -> str:
        """Says where a report was saved."""
        return f"Bewaard: {path}"

    def not_saved_report(self, why: str) -> str:
        """Says why a report was not saved."""
        return f"Niet bewaard: {why}"

    def unknown(self, text: str) -> str:
        """Says that something was not understood, and what can be said."""
        return f'"{text}" is hier niet bekend. Typ help om te horen wat je kunt typen.'

    def no_pocket(self, text: str) -> str:
        """Says that there is no such pocket."""
        return f'Geen vak heeft pagina of naam "{text}". Typ vakken om ze te horen.'

    def started(self, title: str, path: str) -> str:
        """Says what is begun, and where it is kept."""
        kept = f" Alles wordt bewaard in {path}." if path else ""
        return f"{title}.{kept} Zeg help om te horen wat je kunt zeggen."

    def put_away(self, standing: str, path: str, saved: bool) -> str:
        """Says, at the end, where a run stands, that it is saved, and how to go on."""
        kept = f" Ga verder met: dryfit lines {path}" if path else ""
        return f"Weggelegd: {standing}.{' Alles is bewaard.' if saved else ''}{kept}"

    def answer_means(self, answers: Sequence[tuple[str, str]]) -> str:
        """What can be answered, and what each answer means."""
        said = []
        for answer, means in answers:
            word = typed_as(answer)
            means = means.removeprefix(f"{word.capitalize()}, ")
            said.append(f"{word} ({means[:1].lower()}{means[1:]})")
        return f"Zeg {listed(said, 'of')}."

    # Counting

    def is_it_there(self, text: str, count: int, stray: bool) -> str:
        """Asks whether what the journal has in a pocket is there."""
        odd = " Het hoort hier niet." if stray else ""
        if count == 1:
            return f"Is dit er: {text}?{odd} Zeg ja of nee."
        return f"Zijn ze er alle {count}: {text}?{odd} Zeg ja, nee, of hoeveel."

    def count_begins(self, pocket: int, rows: int) -> str:
        """Begins a count."""
        kinds = counted(rows, "soort hoort", "soorten horen")
        return (
            f"Maak vak {self.pocket(pocket)} leeg; {kinds} erin te zitten. Stop breekt het tellen "
            "af, terug vraagt de vorige nog eens, alles zegt dat al het andere er is."
        )

    def count_empty(self, pocket: int) -> str:
        """Begins the count of a pocket that should be empty."""
        return f"Vak {self.pocket(pocket)} hoort leeg te zijn. Stop breekt het tellen af."

    def pocket_counted(self, pocket: int) -> str:
        """Says that a pocket holds just what it should."""
        return f"Vak {self.pocket(pocket)} is geteld, en het klopt."


def _to(goes: str) -> str:
    """Where something goes, behind its verb: ``naar vak 3·4``, ``naar de restjes``."""
    return goes if goes.startswith(("naar ", "bij ", "in ", "op ")) else f"naar {goes}"


def _remedy(alert: Alert) -> str:
    """What is said by right; it stands after a colon, and has none of its own."""
    return alert.remedy.replace(": ", ", ")
