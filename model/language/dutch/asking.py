"""Sentences of plain lines on what can be typed, in Dutch, and the words that are typed."""

from __future__ import annotations

from collections.abc import Mapping

from model.language.dutch.pieces import PieceWords
from model.language.english import asking as english
from model.lessons import Lesson

COMMANDS: Mapping[str, str] = {
    # Doing
    "klaar": "done", "gedaan": "done", "verder": "next", "volgende": "next",
    "restje": "scrap", "rechtzetten": "right", "zet recht": "right",
    "laat staan": "leave", "laten staan": "leave",
    "terugnemen": "undo", "neem terug": "undo", "ongedaan maken": "undo",
    "opnieuw zeggen": "redo", "zeg opnieuw": "redo",
    "overslaan": "skip", "sla over": "skip", "tempo": "pace",
    "later": "later", "later vel": "later", "uitstellen": "put off", "uitstellen vel": "put off",
    "weer oppakken": "take up", "weer oppakken vel": "take up", "pak weer op": "take up",
    "pak": "take", "neem": "take", "pagina": "page", "bladzijde": "page",
    "alles opbergen": "file all", "berg alles op": "file all",
    "missnede": "miscut", "verkeerd gesneden": "miscut",
    # Asking
    "nog eens": "again", "herhaal": "again", "notities": "notes", "waar": "where",
    "waar ben ik": "where", "hoopje": "pile", "vakken": "pockets", "vak": "pocket",
    "waarschuwingen": "warnings", "eindstaat": "account", "bewaar eindstaat": "save report",
    "eindstaat bewaren": "save report", "zoek": "find", "zoeken": "find", "vind": "find",
    "iets anders": "not it", "dat is het niet": "not it", "meekijken": "watch",
    "tel alles": "count all", "alles tellen": "count all", "tel": "count", "tel vak": "count",
    "tel pagina": "count", "tellen": "count",
    # The program
    "geen let op": "no cautions", "instellingen": "settings", "zet": "set", "stel in": "set",
    "lessen": "lessons", "geen lessen": "no lessons", "help": "help", "hulp": "help",
    "help alles": "help all", "hulp alles": "help all", "afsluiten": "quit", "sluit af": "quit",
    # Answers
    "ja": "yes", "j": "yes", "nee": "no", "terug": "back", "t": "back", "alles": "all",
    "stop": "stop", "stoppen": "stop", "annuleren": "cancel", "laat maar": "cancel",
    "oud": "old", "nieuw": "new",
}  # fmt: skip
"""What is typed in Dutch, and what plain lines know it by.

A line is one of these as a whole, or begins with one; the longest that fits is meant. Where
several mean the same, the first is the one that sentences tell. An ``n`` needs no word here: it
begins what it means in either language.
"""


def typed_as(command: str) -> str:
    """What is typed in Dutch for a command or an answer of plain lines."""
    return next((said for said, meant in COMMANDS.items() if meant == command), command)


_HELP = (
    "Een lege regel: het is gedaan zoals de zin zegt.",
    "Een paginanummer, zoals 3: het ging in het vak van die pagina. restje: naar de restjes.",
    "terugnemen: neem terug wat je het laatst zei. nog eens: lees de stap nog een keer voor.",
    "zoek en hoe een stuk eruitziet, zoals zoek 3 bij 8 groen: wat het is, en waar het hoort.",
    "rechtzetten, laat staan: wat je met een waarschuwing doet. waar: hoe ver je bent.",
    "afsluiten: leg het pakket weg; alles is bewaard. help alles: alle opdrachten.",
)
_HELP_ALL = (
    "Een lege regel, of klaar: het is gedaan zoals de zin zegt.",
    "Een paginanummer of de naam van een vak, zoals 3 of 3-4: het ging in dat vak.",
    "restje: het ging naar de restjes. Met niets in je hand: er kwam een restje te veel.",
    "rechtzetten: zet recht wat de waarschuwing noemt. laat staan: later kijk je verder. Met een "
    "nummer: die ene waarschuwing, zoals rechtzetten 2.",
    "waarschuwingen: alle die open staan, met hun nummers.",
    "terugnemen: neem terug wat je het laatst zei. opnieuw zeggen: het geldt toch weer.",
    "nog eens: lees de stap nog een keer voor. notities: alles wat erbij hoort, ook elke let op.",
    "waar: hoe ver je bent, en wat er wacht.",
    "hoopje: wat gesneden is en nog niet opgeborgen, met nummers. pak 2: neem het tweede uit de "
    "lijst die het laatst is voorgelezen in je hand; het paginanummer daarna zegt waar het ging.",
    "alles opbergen: alles van het hoopje dat opgeborgen kan worden, ligt nu in zijn vak.",
    "vakken: elk vak. vak 3: wat er in het vak van pagina 3 zit, met nummers. Een stuk "
    "verplaatsen dat al is opgeborgen: pak en zijn nummer, en daarna het paginanummer.",
    "zoek 3 bij 8 groen: wat een los stuk kan zijn. iets anders: wat je in je hand hebt, is niet "
    "wat er gevraagd wordt.",
    "tel 3: tel het vak van pagina 3. tel alles: het ene vak na het andere.",
    "later: stel het vel uit dat nu komt. later B: stel vel B uit. weer oppakken: een uitgesteld "
    "vel komt nu; zijn het er meer, zeg dan welk, zoals weer oppakken B.",
    "missnede: er ging iets mis bij de snijder, nu of eerder; je hoort wat er te redden is. "
    "missnede 9 1/4: de laatste snede was op die maat. missnede snede 2 maat 9 1/4: die daarvoor.",
    "overslaan: laat een stap weg die niet hoeft. tempo: berg op na elke snede, of na elke lading.",
    "eindstaat: waar al het papier is. bewaar eindstaat: hetzelfde als tekstbestand.",
    "instellingen: wat er is ingesteld. zet eenheden mm: verander er een.",
    "geen let op: tot de volgende keer hoor je die niet meer.",
    "lessen: leer het nog eens. geen lessen: die hoor je niet meer.",
    "help: de meest gebruikte opdrachten. afsluiten: leg het pakket weg; alles is bewaard.",
)

_LESSONS: Mapping[Lesson, str] = {
    Lesson.SPACE: "Doe wat de zin zegt, en druk dan op Enter op een lege regel. Zo zeg je dat het "
    "gedaan is.",
    Lesson.POCKET: "Een lege regel zegt dat het in het genoemde vak ligt. Ligt het elders, typ dan "
    "een paginanummer van dat vak.",
    Lesson.MARK: "De maat is een getal op de liniaal van de snijder: houd het papier daar, snijd, "
    "en dan een lege regel.",
    Lesson.FILE: "Het stuk dat eraf kwam, gaat in het genoemde vak. Leg het erin, en dan een lege "
    "regel.",
    Lesson.UNDO: "Iets te vroeg gezegd? Terugnemen neemt het terug, en met opnieuw zeggen geldt "
    "het weer. Typ nu terugnemen.",
    Lesson.WARNING: "Probeer een fout: typ restje, alsof dit een restje is. Typ daarna "
    "rechtzetten; dat zet het recht.",
    Lesson.FIND: "Weet je niet waar een stuk hoort? Typ zoek en de afmetingen of de kleur, zoals "
    "zoek 3 bij 8.",
    Lesson.END: "Meer hoef je niet te weten. Vakken leest de vakken voor, help zegt wat je kunt "
    "typen, afsluiten bewaart alles.",
}

_AGAIN = "Typ nog eens om te horen wat er komt."
_TRY: Mapping[str, str] = {
    "watching": "Typ afsluiten om te stoppen.",
    "over": "Typ eindstaat om die te horen, of afsluiten.",
    "not optional": "Typ later om dat vel uit te stellen.",
    "file first": "Typ hoopje om te horen wat het is.",
    "no such pocket": "Typ vakken om ze te horen.",
    "no such warning": "Typ waarschuwingen om te horen welke open staan.",
    "not right yet": "Typ waarschuwingen om te horen wat.",
    "not put off": "Typ waar om te horen wat er wacht.",
    **dict.fromkeys(
        ("not yet", "done already", "begun", "stays on the pile", "nothing to file",
         "nothing to redo", "nothing to undo", "not made", "in hand", "finish the load",
         "last already", "not cut yet"), _AGAIN),
}  # fmt: skip
"""What can be typed after an objection, by its code; the others say it themselves."""


_SET: Mapping[str, tuple[str, str, str]] = {
    "units": ("eenheden", "Lengtes in", "pakket, inch, cm of mm"),
    "ruler": ("liniaal", "De liniaal van de snijder is af te lezen tot op",
              "pakket, of de fijnste streepjes, zoals 1/16 inch of 1 mm"),
    "tearing_ruler": ("scheurliniaal", "Breedte van de liniaal waarlangs je scheurt",
                      "een lengte, zoals 3 inch"),
    "left_handed": ("linkshandig", "Snijder met de linkerhand", "ja of nee"),
    "by_load": ("per lading", "Nieuwe pakketten: snijd een hele lading, berg dan op", "ja of nee"),
    "ascii": ("ascii", "Alleen gewone letters, zonder accenten", "ja of nee"),
    "language": ("taal", "Taal", "een code, zoals nl"),
    "taught": ("lessen gehoord", "De lessen zijn gehoord", "ja of nee"),
}  # fmt: skip
"""The settings that plain lines know: what is typed, what it is, and what each may be."""
_SET_HOW = (
    "Typ zet, een instelling en de waarde, zoals zet eenheden mm. Instellingen leest ze voor."
)


class TypingWords(PieceWords, english.TypingWords):
    """Words on what can be typed."""

    def lines_help(self, all: bool = False) -> tuple[str, ...]:
        """What can be said: the most used, or all of it."""
        return _HELP_ALL if all else _HELP

    def what_to_type(self, objection: str) -> str:
        """What can be typed after an objection, by its code; empty where it says so itself."""
        return _TRY.get(objection, "")

    def set_how(self) -> str:
        """How a setting is changed."""
        return _SET_HOW

    # Lessons

    def line_lesson(self, lesson: Lesson, number: int) -> str:
        """A lesson of the first run, for plain lines."""
        said = f"Les {number} van {len(Lesson)}: {_LESSONS[lesson]}"
        return f"{said} Typ geen lessen om ermee op te houden." if number == 1 else said

    # Settings

    @staticmethod
    def setting_named(text: str) -> tuple[str, str]:
        """The setting that a line begins with, and the rest of it; empty for none."""
        low = text.casefold()
        for key, (name, _, _) in _SET.items():
            if low == name or low.startswith(f"{name} "):
                return key, text[len(name) :].strip()
        return english.TypingWords.setting_named(text)

    def settings_lines(self, values: Mapping[str, object]) -> tuple[str, ...]:
        """What is set, and how it is changed."""
        said = [self.setting_line(key, values[key]) for key in _SET]
        return (*said, _SET_HOW)

    def setting_line(self, key: str, value: object) -> str:
        """One setting, with its value and what it may be."""
        name, what, may = _SET[key]
        shown = {True: "ja", False: "nee"}.get(value, value) if isinstance(value, bool) else value
        shown = {"kit": "zoals het pakket", "": "zoals het systeem"}.get(str(shown), shown)
        return f"{what}: {shown}. Zeg zet {name}, en dan {may}."

    def not_set(self, key: str, why: str) -> str:
        """That a setting was not changed, and what it may be."""
        name, _, may = _SET[key]
        # Why is said in English by the settings, and says no more than what follows.
        return f"Niet veranderd. Zeg zet {name}, en dan {may}."

    def not_kept(self, why: str) -> str:
        """That a setting holds only until the end."""
        return f"Het geldt voor nu, maar is niet bewaard: {why}."
