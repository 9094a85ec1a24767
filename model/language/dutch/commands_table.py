"""The commands of the table, and those of every screen, in Dutch."""

from __future__ import annotations

from model.language.said import Said

COMMANDS = {
    "everywhere.help": Said(
        "hulp",
        "Wat je hier kunt doen.",
        "Hulp",
    ),
    "everywhere.quit": Said(
        "stop",
        "Stop met dryfit; alles wat je hebt gezegd, blijft bewaard.",
    ),
    "everywhere.palette": Said(
        "",
        "Alle opdrachten op naam.",
        "Opdrachten",
    ),
    "table.did": Said(
        "",
        "Doe wat de zin zegt, en zeg dat het gedaan is. Met één toets of een voetpedaal doe je "
        "een hele sessie waarin niets misgaat.",
        "Het is gedaan",
    ),
    "table.pocket": Said(
        "vak",
        "Wat je in de hand hebt, ging in het vak van die pagina; bij een snede ging wat eraf "
        "komt erin.",
    ),
    "table.scrap": Said(
        "restje",
        "Het ging bij de restjes. Met niets in de hand: er is een restje te veel.",
        "Het is een restje",
    ),
    "table.right": Said(
        "",
        "Zet recht wat de waarschuwing noemt.",
        "Rechtzetten wat de waarschuwing noemt",
    ),
    "table.leave": Said(
        "",
        "Laat de waarschuwing nu staan; ze blijft in de lijst.",
        "De waarschuwing nu laten staan",
    ),
    "table.find": Said(
        "zoek",
        "Wat is dit voor stuk, en waar hoort het? Typ de afmeting, de kleur, of woorden die "
        "erop staan.",
        "Een stuk zoeken",
    ),
    "table.not_it": Said(
        "",
        "Wat je in de hand hebt, is niet wat gevraagd wordt: zoek uit wat het is.",
        "Dit is het niet",
    ),
    "table.miscut": Said(
        "missnede",
        "Er ging iets mis bij de snijder, nu of eerder: zeg wat, en zie wat er te redden is."
        " Kijken kost niets.",
        "Missnede",
    ),
    "table.defer": Said(
        "",
        "Doe dit vel als laatste.",
        "Dit vel als laatste doen",
    ),
    "table.take_up": Said(
        "",
        "Pak een uitgesteld vel weer op.",
        "Een uitgesteld vel weer oppakken",
    ),
    "table.warnings": Said(
        "",
        "Alle waarschuwingen die er staan.",
        "Waarschuwingen",
    ),
    "table.undo": Said(
        "terug",
        "Neem terug wat het laatst is gezegd.",
        "Terugnemen",
    ),
    "table.redo": Said(
        "",
        "Zeg opnieuw wat is teruggenomen.",
        "Opnieuw zeggen",
    ),
    "table.pockets": Said(
        "vakken",
        "Elk vak met elk stuk.",
        "Vakken",
    ),
    "table.account": Said(
        "eindstaat",
        "Restjes, vellen en waarschuwingen: de eindstaat.",
        "Restjes en eindstaat",
    ),
    "table.read": Said(
        "notities",
        "Alles wat over deze stap is gezegd, met alle notities en waar je op moet letten.",
        "Notities bij deze stap",
    ),
    "table.pace": Said(
        "",
        "Berg na elke snede op, of snijd eerst een hele lading.",
        "Opbergen na elke snede, of na elke lading",
    ),
    "table.skip": Said(
        "",
        "Sla een stap over die niet hoeft.",
        "Deze stap overslaan",
    ),
    "table.pile_down": Said(
        "",
        "Neem het volgende van het hoopje in de hand.",
        "Het volgende van het hoopje in de hand nemen",
    ),
    "table.pile_up": Said(
        "",
        "Neem het vorige van het hoopje in de hand.",
        "Het vorige van het hoopje in de hand nemen",
    ),
    "table.clear": Said(
        "",
        "Vergeet een half getypt paginanummer; verberg anders de tekst bij 'let op' tot de "
        "volgende keer.",
        "De 'let op' verbergen tot de volgende keer",
    ),
    "table.settings": Said(
        "",
        "Instellingen: eenheden, liniaal, hand, uiterlijk.",
        "Instellingen",
    ),
    "table.shelf": Said(
        "",
        "Leg dit pakket nu weg, en ga naar de plank.",
        "Naar de plank",
    ),
}
