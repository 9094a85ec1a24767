"""The commands of all screens but the table, and what each screen is for, in Dutch."""

from __future__ import annotations

from model.language.said import Said

COMMANDS = {
    "shelf.open": Said(
        "open",
        "Ga verder met de sessie, of begin met het pakket.",
    ),
    "shelf.path": Said(
        "pad",
        "Open een pakket of een sessie met het pad.",
        "Een bestand openen met het pad",
    ),
    "shelf.again": Said(
        "ververs",
        "Kijk opnieuw in de mappen.",
    ),
    "shelf.settings": Said(
        "instellen",
        "Instellingen: eenheden, liniaal, hand, uiterlijk.",
        "Instellingen",
    ),
    "pockets.back": Said(
        "terug",
        "Terug naar de tafel.",
    ),
    "pockets.move": Said(
        "verplaats",
        "Het stuk van deze rij ligt eigenlijk in een ander vak: druk daarna op de toets van "
        "dat vak.",
    ),
    "pockets.count": Said(
        "tel",
        "Tel dit vak: vink aan wat er echt in zit.",
    ),
    "pockets.count_all": Said(
        "",
        "Tel alle vakken, het ene na het andere.",
        "Alle vakken tellen",
    ),
    "pockets.next_pocket": Said(
        "volgend vak",
        "Naar het volgende vak.",
    ),
    "pockets.last_pocket": Said(
        "",
        "Naar het vorige vak.",
        "Vorig vak",
    ),
    "pockets.undo": Said(
        "",
        "Neem terug wat het laatst is gezegd.",
        "Terugnemen",
    ),
    "account.back": Said(
        "terug",
        "Terug naar de tafel.",
    ),
    "account.save": Said(
        "bewaar",
        "Bewaar de eindstaat als tekstbestand.",
        "Eindstaat bewaren",
    ),
    "warnings.back": Said(
        "terug",
        "Terug naar de tafel.",
        "Terug",
    ),
    "warnings.right": Said(
        "rechtzetten",
        "Zet recht wat deze waarschuwing noemt.",
        "Rechtzetten",
    ),
    "warnings.leave": Said(
        "laten staan",
        "Laat deze waarschuwing staan voor later.",
        "De waarschuwing laten staan",
    ),
    "count.tick": Said(
        "zit erin",
        "Alles van deze rij zit erin, of niets.",
    ),
    "count.fewer": Said(
        "minder",
        "Van deze rij zit er één minder in.",
    ),
    "count.more": Said(
        "",
        "Van deze rij zit er één meer in.",
        "Meer",
    ),
    "count.all": Said(
        "alles zit erin",
        "Alles van de lijst zit erin.",
    ),
    "count.other": Said(
        "iets anders",
        "Er zit iets anders in dit vak: zoek het op.",
    ),
    "count.counted": Said(
        "geteld",
        "Dat is alles wat in dit vak zit.",
    ),
    "count.back": Said(
        "terug",
        "Terug, zonder te tellen.",
    ),
    "find.take": Said(
        "in de hand",
        "Wat gevonden is, heb je in de hand.",
        "In de hand nemen",
    ),
    "find.up": Said(
        "",
        "Naar het stuk erboven.",
        "Omhoog",
    ),
    "find.down": Said(
        "volgende",
        "Naar het stuk eronder.",
    ),
    "find.back": Said(
        "terug",
        "Terug.",
    ),
    "miscut.take": Said(
        "dat is het",
        "Dat is wat er gebeurde.",
        "Dat is er gebeurd",
    ),
    "miscut.other": Said(
        "andere snede",
        "Het was een andere snede: kies welke.",
        "Een andere snede",
    ),
    "miscut.back": Said(
        "terug",
        "Terug naar de tafel; er verandert niets.",
        "Terug",
    ),
    "pick.take": Said(
        "deze",
        "Wat gemarkeerd is, wordt bedoeld.",
        "Deze",
    ),
    "pick.up": Said(
        "",
        "Naar de regel erboven.",
        "Omhoog",
    ),
    "pick.down": Said(
        "volgende",
        "Naar de regel eronder.",
    ),
    "pick.back": Said(
        "terug",
        "Terug; er verandert niets.",
    ),
    "pick.help": Said("hulp", "Wat je hier kunt typen."),
    "say.take": Said(
        "zo was het",
        "Zo was het: laat zien wat er te redden is.",
        "Zo was het",
    ),
    "say.other": Said(
        "",
        "Meet het andere stuk van deze snede.",
        "Het andere stuk meten",
    ),
    "say.back": Said(
        "terug",
        "Terug; er verandert niets.",
    ),
    "say.help": Said("hulp", "Wat je hier kunt typen."),
    "ways.take": Said(
        "doe het zo",
        "Doe het op de gemarkeerde manier: de tafel volgt die vanaf nu. Terugnemen kan altijd.",
        "Doe het zo",
    ),
    "ways.next_step": Said(
        "toon",
        "Laat stap voor stap zien wat je zou snijden.",
        "De volgende stap tonen",
    ),
    "ways.last_step": Said(
        "",
        "De stap ervoor; voor de eerste: alle manieren.",
        "De stap ervoor tonen",
    ),
    "ways.down": Said(
        "volgende",
        "Naar de volgende manier.",
        "Volgende manier",
    ),
    "ways.up": Said(
        "",
        "Naar de manier ervoor.",
        "Manier ervoor",
    ),
    "ways.back": Said(
        "terug",
        "Terug; er verandert niets.",
    ),
    "settings.change": Said(
        "wijzig",
        "Wijzig de instelling van deze rij.",
    ),
    "settings.keys": Said(
        "toetsen",
        "Alle opdrachten met hun toetsen.",
    ),
    "settings.back": Said(
        "terug",
        "Terug.",
    ),
    "keys.change": Said(
        "wijzig",
        "Wijzig de toets van deze rij: druk daarna op de nieuwe.",
    ),
    "keys.add": Said(
        "nog één",
        "Geef deze rij nog een toets.",
    ),
    "keys.usual": Said(
        "gewone",
        "Deze rij krijgt haar gewone toetsen terug.",
        "Gewone toetsen",
    ),
    "keys.all": Said(
        "alles gewoon",
        "Alle rijen krijgen hun gewone toetsen terug.",
        "Overal de gewone toetsen",
    ),
    "find.help": Said("hulp", "Wat je hier kunt typen."),
    "keys.back": Said(
        "terug",
        "Terug.",
    ),
    "help.back": Said(
        "terug",
        "Terug.",
    ),
    "question.yes": Said("ja", "Antwoordt ja: het is zo, het is gemaakt, het is er."),
    "question.no": Said("nee", "Antwoordt nee; gaat terug uit de notities."),
    "question.but": Said("maar", "Antwoordt ja, maar neemt iets anders terug; of gaat terug."),
    "question.leave": Said("later", "Laat het voor later; stopt, ook als niet alles bewaard is."),
    "question.stay": Said("blijven", "Blijft, waar bij stoppen iets verloren zou gaan."),
    "question.watch": Said("meekijken", "Kijkt mee met wat een ander programma open heeft."),
    "question.old": Said("oud pakket", "Gaat verder met het pakket zoals het was."),
    "question.changed": Said("gewijzigd pakket", "Neemt het pakket over zoals het nu is."),
    "question.go": Said("verder", "Gaat verder na wat is gemeld."),
}
ABOUT = {
    "shelf": (
        "Kies een sessie om verder te gaan waar je stopte, of een pakket om mee te beginnen. "
        "Onderaan staat meer over de gekozen rij. Pakketten in de map voor je eigen pakketten "
        "staan hier ook; {path} opent er een die ergens anders ligt."
    ),
    "pockets": (
        "Elk vak met zijn stukken: opgeborgen, op het hoopje, nog te komen. Een paginanummer "
        "gaat naar het vak van die pagina."
    ),
    "account": (
        "De oppervlakte van elk vel is die van zijn stukken en restjes; elk stuk zit in zijn vak."
    ),
    "warnings": "Wat niet ligt waar het hoort, en nog niet is rechtgezet.",
    "count": (
        "Maak het vak leeg en vink aan wat er echt in zit. Wat ontbreekt, wordt gezocht waar het "
        "het waarschijnlijkst ligt."
    ),
    "find": (
        "Typ wat je liniaal aangeeft, een kleur, of woorden op het stuk, in welke volgorde ook. "
        "Welke kant eerst komt, maakt niet uit; één kant is genoeg. Wat je afleest mag 1/16 in "
        "ernaast zitten."
    ),
    "miscut": (
        "Zeg wat er echt gebeurde, in je eigen maat. Bedoeld is de laatste snede; {other} kiest"
        " een eerdere, en alles wat er sindsdien van kwam wordt opnieuw uitgerekend. Er verandert"
        " niets tot je een manier kiest."
    ),
    "pick": (
        "Het waarschijnlijkste staat bovenaan. Typ een deel van een naam, een vel, een maat of een"
        " vak om de lijst korter te maken."
    ),
    "say": (
        "Typ de maat zoals je die afleest. Wat niet kan, wordt meteen gezegd. Er verandert nog"
        " niets."
    ),
    "ways": (
        "De beste manier staat bovenaan; er kunnen nog betere komen. {next_step} tekent stap voor"
        " stap wat je zou snijden. {take} kiest de gemarkeerde manier, en terugnemen kan altijd."
    ),
    "settings": (
        "Elke rij is een instelling; eronder staat wat ze doet. Een wijziging zie je meteen, en "
        "ze wordt meteen bewaard."
    ),
    "keys": (
        "Elke rij is een opdracht met haar toetsen. Een sterretje staat bij die van jezelf. Wat "
        "een scherm altijd nodig heeft, zoals Space en Enter aan tafel, blijft ernaast "
        "werken. De cijfers zijn de toetsen van de vakken."
    ),
}
"""What a screen is for; a command's name in braces stands for its key."""
