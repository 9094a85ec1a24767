"""Dutch: sentences word for word, nothing left in English, and all of it fits on a screen.

The expected sentences were judged by reading them aloud; common usage, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from model.event import Entry, Skipped
from model.geometry import CORNERS, SIDES
from model.kit import Tie
from model.language import phrases_for, words_for, words_of
from model.language.dutch.grammar import counted, listed, number_word, of_it, some
from model.language.dutch.lying import _EDGES, _WHERE
from model.language.dutch.warnings import OBJECTIONS
from model.language.english.steps import StepWords as EnglishSteps
from model.language.english.warnings import _CAUTIONS as ENGLISH_CAUTIONS
from model.language.english.warnings import OBJECTIONS as ENGLISH_OBJECTIONS
from model.language.english.warnings import WarningWords as EnglishWarnings
from model.length import Unit
from model.lengthtext import LengthStyle
from model.manner import Manner
from model.moment import Moment, moment_of
from model.plan import Role, StepKind
from model.relations import Related
from model.ruler import GRADUATIONS
from model.session import Session
from model.settings import Settings
from model.state import Spot
from model.warning import WarningKind
from tests.pictures import to_filing, to_step
from tests.screens import begun, table
from tests.tables import P34, only_warning, until_in_hand
from tests.tables import table as hand_table
from tests.test_whole import shown

KITS = ["postcard", "harbour", "cards"]
SIZES = [(80, 24), (60, 20)]
DUTCH = Settings(language="nl")


def manner(**more: object) -> Manner:
    return Manner(phrases=phrases_for("nl"), **more)  # type: ignore[arg-type]


def moments(
    kit: str, folder: Path, by_load: bool = False, left: bool = False, code: str = "nl"
) -> Iterator[Moment]:
    """Every moment of a whole run without a mistake, in Dutch."""
    session = begun(kit, folder)
    session.pace_by(by_load)
    how = Settings(language=code, left_handed=left).manner(session.plan.kit.unit)
    while True:
        moment = moment_of(session, how)
        yield moment
        if moment.over:
            return
        assert session.next().taken


# Word for word


@pytest.mark.parametrize(
    ("kit", "sentence"),
    [
        ("harbour", "Begin de stapel: leg vel A (rope coils) op tafel, voorkant onder."),
        ("harbour", "Leg navy base 3 (navy) erop, voorkant onder. Basisvel van pagina 3."),
        ("harbour", "Keer de hele stapel om: vel A ligt nu bovenop, voorkant boven."),
        ("harbour", "Leg foam dots apart voor pagina 5 en 9."),
        ("harbour", "Leg lifebuoy apart, om op te bergen samen met boat band."),
        ("harbour", "Leg vel M (surf) apart: het wacht tot de papiersnijder weg is."),
        ("harbour", "Leg 1 white mat (3¾ × 5¾) in vak 1·2."),
        ("harbour", "Tel 4 stuks brass brad af en leg ze in vak 3·4."),
        ("harbour", "Knip 16 in van striped ribbon af en leg dat stuk in vak 1·2."),
        ("harbour", "Neem vel D boven van de stapel. Voorkant boven, lighthouse linksonder."),
        ("harbour", "Neem vel K boven van de stapel. Achterkant boven."),
        (
            "harbour",
            "Neem rope half (6 × 12) van het hoopje. Voorkant boven, de zijde van 12 in langs "
            "de liniaal.",
        ),
        ("harbour", "Leg aan op 10½ en snijd: rope border (1½ × 12) komt eraf."),
        ("harbour", "Leg de volgende gedrukte lijn bij het mes en snijd: knot komt eraf."),
        ("harbour", "Leg het restje van 1 × 4½ bij de restjes."),
        ("harbour", "Neem vel M: dat ligt apart. Losse rand rechts."),
        (
            "harbour",
            "Scheur van de losse rand 3½ in af, langs de liniaal: thin wave (3½ × 12) komt eraf.",
        ),
        (
            "harbour",
            "Leg de liniaal op 6¼ en snijd met het hobbymes: er komt een restje van 2 × 4¼ af.",
        ),
        (
            "harbour",
            "Neem boat band uit vak 5·6. Snijd in boat band (12 × 4) een gleuf van 9/16 in lang "
            "voor mooring strip, een haartje breder dan de strook. Leg het stuk dan terug in 5·6.",
        ),
        (
            "harbour",
            "Neem porthole plate uit vak 3·4. Pons 6 stuks porthole uit porthole plate "
            "(4¼ × 6¼). Leg het stuk dan terug in 3·4.",
        ),
        ("harbour", "Knip 2 stuks paper boat uit boat panel, langs de gedrukte omtrek."),
        (
            "harbour",
            "Trek paper boat om op de achterkant van shadow stock (4 × 6) en knip 2 stuks boat "
            "shadow uit, net binnen de lijn.",
        ),
        ("cards", "Leg vel C (kites) erop, voorkant boven."),
        ("cards", "Leg aan op 280 mm en snijd: er komt een restje van 17 × 210 mm af."),
        ("postcard", "Neem vel mustard boven van de stapel. Elke kant mag boven."),
        (
            "postcard",
            "Neem vel puddle boven van de stapel. Losse rand rechts: de zijde van 8 in.",
        ),
        ("postcard", "Elke stap is klaar. Kijk de eindstaat door."),
    ],
)
def test_what_to_do_word_for_word(tmp_path: Path, kit: str, sentence: str) -> None:
    assert sentence in {moment.sentence for moment in moments(kit, tmp_path)}


@pytest.mark.parametrize(
    "note",
    [
        "Voor pagina 3 en 4.",
        "Komt op navy strip.",
        "Komt achter anchor, lantern en knot.",
        "Maakt deel uit van kettle.",
        "Wordt compleet met home for tea.",
        "Gaat door een gleuf in boat band.",
        "Leg erbij: lifebuoy.",
        "Vier dezelfde: 2 naar 1·2, 2 naar 9·10.",
        "Van een andere lengte: 18 in naar 7·8.",
        "Mag kleiner zijn, hooguit ⅛ in.",
        "Wat blijft liggen: rope half (6 × 12), naar het hoopje, nog te snijden.",
        "Wat blijft liggen: navy square (5 × 5), naar vak 9·10.",
        "De liniaal is 3 in breed: leg er een tweede naast, met 1 in zichtbaar.",
        "Neem 1 paper boat uit 5·6 als mal, en leg die daar terug.",
        "14 vellen om te snijden, 10 vellen die heel blijven, 136 stukken om op te bergen, "
        "2 restjes te verwachten.",
    ],
)
def test_what_helps_word_for_word(tmp_path: Path, note: str) -> None:
    assert note in {note for moment in moments("harbour", tmp_path) for note in moment.more}


def test_where_it_may_go_while_loads_are_cut_first(tmp_path: Path) -> None:
    goes = {moment.goes for moment in moments("cards", tmp_path, by_load=True)}
    assert "5, 6 of 7; blijkt bij het opbergen" in goes
    assert "vak 1·2·3·4, toets 1-4" in goes


def test_the_left_hand_is_told_mirrored(tmp_path: Path) -> None:
    sentences = {moment.sentence for moment in moments("harbour", tmp_path, left=True)}
    assert "Neem vel D boven van de stapel. Voorkant boven, lighthouse rechtsboven." in sentences
    assert "Neem vel M: dat ligt apart. Losse rand links." in sentences
    notes = {note for moment in moments("cards", tmp_path / "2", left=True) for note in moment.more}
    assert any(note.startswith("(Voor rechtshandigen:) With the sun") for note in notes)


def test_a_note_in_dutch_that_tells_left_from_right_is_for_the_right_hand(tmp_path: Path) -> None:
    words = words_of(begun("postcard", tmp_path).plan, manner(left_handed=True))
    assert words._note("De zon ligt linksboven.", True) == (
        "(Voor rechtshandigen:) De zon ligt linksboven."
    )
    assert words._note("De zon ligt boven.", True) == "De zon ligt boven."
    assert words._note("De zon ligt linksboven.", False) == "De zon ligt linksboven."


def _warned(kit: str, folder: Path, pocket: int) -> str:
    session = begun(kit, folder)
    to_filing(session, Role.PIECE)
    assert session.file_into(pocket).raised
    return moment_of(session, DUTCH.manner(session.plan.kit.unit)).sentence


def test_warnings_word_for_word(tmp_path: Path) -> None:
    assert _warned("harbour", tmp_path, 2) == (
        "VERKEERD VAK: rope border (1½ × 12) ligt in 5·6. Dat hoort in 1·2, voor pagina 1 of 2 "
        "(komt op navy strip)."
    )
    session = begun("harbour", tmp_path / "scrap")
    to_filing(session, Role.SCRAP)
    assert session.file_into(0).raised
    words = words_of(session.plan, manner())
    warning = only_warning(session)
    assert words.warning(warning, Spot.SCRAPS) == (
        "RESTJE IN EEN VAK: restje van 1 × 4½ ligt in 1·2. Geen pagina gebruikt dat."
    )
    assert words.remedy(warning, Spot.SCRAPS) == "ligt nu bij de restjes"


def test_several_of_one_kind_are_told_in_the_plural() -> None:
    session = hand_table()
    until_in_hand(session, "A/1")
    assert session.file_into(P34).taken
    warning = only_warning(session)
    two = replace(warning, items=warning.items * 2)
    words = words_of(session.plan, manner())
    assert words.warning(warning, 0) == (
        "VERKEERD VAK: mat (3 × 12) ligt in 3·4. Dat hoort in 1·2, voor pagina 1 of 2."
    )
    assert words.warning(two, (0, 2)) == (
        "VERKEERD VAK: 2 stuks mat (3 × 12) liggen in 3·4. Waar ze horen: 1 in 1·2, 1 in 5·6."
    )
    assert words.remedy(two, (0, 2)) == "liggen nu in 1·2 en 5·6"


def test_before_a_cut_is_taken_back_it_is_asked(tmp_path: Path) -> None:
    session = begun("harbour", tmp_path)
    words = words_of(session.plan, manner())
    for kind, done in ((StepKind.CUT, "gesneden"), (StepKind.TEAR, "gescheurd")):
        to_step(session, kind)
        step = session.state.due().step
        assert step is not None
        assert words.was_it_cut(step) == (
            f"Is het echt {done}? Papier dat {done} is, blijft {done}."
        )


def test_a_mark_beside_a_line_is_told_with_how_far(tmp_path: Path) -> None:
    """Thirty-seconds on a ruler of sixteenths, and millimetres on one of inches."""
    session = begun("cards", tmp_path)
    words = words_of(session.plan, manner(style=LengthStyle(Unit.MM)))
    told = 0
    for step in session.plan.steps:
        if step.kind is not StepKind.CUT or not (error := words.mark_error(step)):
            continue
        told += 1
        assert error in words.mark(step)
        if not words.manner.must_measure(words.plan, step):
            assert f", {error}, en snijd: " in words.sentence(step, Spot.PILE)
    assert told


def test_a_mark_that_no_line_serves_is_measured(tmp_path: Path) -> None:
    session = begun("harbour", tmp_path)
    words = words_of(session.plan, manner(ruler=GRADUATIONS["1 mm"]))
    measured = [
        words.sentence(step, Spot.PILE)
        for step in session.plan.steps
        if words.manner.must_measure(words.plan, step)
    ]
    for sentence in measured:
        assert re.match(
            r"Meet \S+ in vanaf de aangelegde rand, zet daar met de hand een streepje en snijd er"
            r"( met liniaal en hobbymes)?: ",
            sentence,
        )


# Grammar


def test_lists_and_numbers() -> None:
    assert [listed(each) for each in ([], ["a"], ["a", "b"], ["a", "b", "c"])] == [
        "", "a", "a en b", "a, b en c"
    ]  # fmt: skip
    assert listed(["3", "4"], "of") == "3 of 4"
    assert counted(1, "restje", "restjes") == "1 restje"
    assert counted(0, "restje", "restjes") == "0 restjes"
    assert (number_word(1), number_word(10), number_word(11)) == ("een", "tien", "11")
    assert of_it(1, "brad") == "1 brad" and of_it(3, "brad") == "3 stuks brad"
    assert some(["a", "b", "c"], 2) == "a, b en nog 1" and some(["a", "b"], 2) == "a, b"


def test_each_side_each_corner_and_each_tie_has_a_word_of_its_own(tmp_path: Path) -> None:
    for table_of in (_WHERE, _EDGES):
        assert table_of.keys() == {*SIDES, *CORNERS}
        assert len(set(table_of.values())) == len(table_of)
    words = words_of(begun("postcard", tmp_path).plan, manner())
    for tie in Tie:
        for back in (False, True):
            assert words.tie(Related(tie, "x", back))
    assert words.tie(Related(Tie.BACKS, "x", False)) != words.tie(Related(Tie.BACKS, "x", True))


def test_each_objection_and_each_caution_is_there_and_none_is_english(tmp_path: Path) -> None:
    assert OBJECTIONS.keys() == ENGLISH_OBJECTIONS.keys()
    assert len(set(OBJECTIONS.values())) == len(OBJECTIONS)
    words = words_of(begun("postcard", tmp_path).plan, manner())
    for code in OBJECTIONS:
        assert words.objection(code) == OBJECTIONS[code] != ENGLISH_OBJECTIONS[code]
    assert words.objection("of no such code") == "Dat kan nu niet."
    for code, english in ENGLISH_CAUTIONS.items():
        assert words.caution(code) != english
    assert len({words.warning_name(kind) for kind in WarningKind}) == len(WarningKind)


WORD = re.compile(r"[a-z]{2,}")
IN_BOTH = {"hand", "in", "is", "mm", "of", "open", "rest"}
"""Words of both languages, and the units."""


def _said(moment: Moment, names: list[str]) -> set[str]:
    """The words of a moment, but for those of the kit, its notes and what `find` says."""
    figure = moment.figure
    drawn = f"{figure.caption} {figure.error}" if figure else ""
    said = " | ".join((moment.headline, moment.sentence, moment.goes, moment.press, drawn))
    for name in names:
        said = said.replace(name, "#")
    return set(WORD.findall(said.lower()))


@pytest.mark.parametrize("left", [False, True], ids=["right", "left"])
@pytest.mark.parametrize("kit", KITS)
def test_no_word_of_an_english_sentence_is_left(tmp_path: Path, kit: str, left: bool) -> None:
    """Right-handed, filing at once; left-handed, cutting whole loads first."""
    plan = begun(kit, tmp_path).plan
    names = {item.name for item in plan.items.values()} | {plan.kit.title}
    names |= {sheet.paper.face.name for sheet in plan.kit.sheets}
    names |= {name for sheet in plan.kit.sheets for name in sheet.paper.landmarks}
    names |= {aside.name for aside in plan.kit.set_asides}
    names |= {work.take for work in plan.kit.work}
    longest = sorted((name for name in names if len(name) > 1), key=len, reverse=True)
    said = {
        code: {
            word
            for moment in moments(kit, tmp_path / code, left, left, code)
            for word in _said(moment, longest)
        }
        for code in ("nl", "en")
    }
    assert len(said["nl"]) > 40
    assert said["nl"] & said["en"] <= IN_BOTH


def test_all_that_gives_words_on_steps_and_warnings_is_in_dutch() -> None:
    words = words_for("nl")
    for english in (EnglishSteps, EnglishWarnings):
        for each in english.__mro__[:-1]:
            for name, value in vars(each).items():
                if callable(value) and not name.startswith("_") and name != "lying":
                    assert getattr(words, name) is not value, name


# Room


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("kit", KITS)
async def test_no_sentence_is_cut_short(tmp_path: Path, kit: str, size: tuple[int, int]) -> None:
    """Each step of each demo kit, as it is laid out and painted."""
    session = begun(kit, tmp_path)
    async with table(session, size, DUTCH) as (pilot, screen):
        while True:
            await pilot.pause()
            moment = screen.moment
            assert shown(screen, "sentence") == " ".join(moment.sentence.split())
            goes = shown(screen, "goes")
            assert f": {moment.press}" in goes, goes
            assert not moment.goes or moment.goes in goes or moment.goes_briefly in goes, goes
            assert ".." not in goes
            assert moment.headline in shown(screen, "head")
            if size == (80, 24):
                said = shown(screen, "more")
                assert all(caution in said for caution in moment.cautions), said
            if moment.over:
                break
            assert session.next().taken
            screen.look_again()


def _by_load(kit: str, folder: Path) -> Session:
    session = begun(kit, folder)
    session.pace_by(True)
    return session


@pytest.mark.parametrize("kit", KITS)
async def test_where_it_goes_is_whole_while_loads_are_cut_first(tmp_path: Path, kit: str) -> None:
    session = _by_load(kit, tmp_path)
    async with table(session, (60, 20), DUTCH) as (pilot, screen):
        while not screen.moment.over:
            moment = screen.moment
            if moment.goes:
                await pilot.pause()
                goes = shown(screen, "goes")
                assert moment.goes_briefly in goes, goes
                assert f": {moment.press}" in goes, goes
            assert session.next().taken
            screen.look_again()


async def test_the_cautions_are_whole_on_a_small_terminal(tmp_path: Path) -> None:
    session = begun("harbour", tmp_path)
    cautioned = 0
    async with table(session, (60, 20), DUTCH) as (pilot, screen):
        while not screen.moment.over:
            if screen.moment.cautions:
                cautioned += 1
                await pilot.pause()
                said = shown(screen, "more")
                assert all(caution in said for caution in screen.moment.cautions), said
            assert session.next().taken
            screen.look_again()
    assert cautioned


# All sorts


def test_too_many_too_early_twice_and_missing_word_for_word() -> None:
    session = hand_table()
    words = words_of(session.plan, manner())
    until_in_hand(session, "A/1")
    assert session.file_into(P34).taken
    at = replace(only_warning(session), pocket=0)

    def said(kind: WarningKind, belongs: int, needless: bool = False) -> str:
        return words.warning(replace(at, kind=kind), belongs, needless)

    assert said(WarningKind.TOO_MANY, 0) == (
        "TE VEEL: in 1·2 ligt al 1 keer mat; 1 is te veel. Kijk nog eens wat je in je hand hebt."
    )
    assert said(WarningKind.TOO_MANY, 2) == (
        "TE VEEL: in 1·2 ligt al 1 keer mat; 1 is te veel. Dat hoort in 5·6, voor pagina 5 of 6."
    )
    assert said(WarningKind.WANTED_SCRAPPED, 0) == (
        "GEEN RESTJE: mat (3 × 12) is nog nodig. Dat hoort in 1·2, voor pagina 1 of 2."
    )
    assert said(WarningKind.MISSING, 0) == (
        "ONTBREEKT: mat (3 × 12) lag niet in 1·2 bij het tellen. Dat hoort in 1·2, voor pagina 1 "
        "of 2."
    )
    assert said(WarningKind.STRIP_FILED, Spot.PILE) == (
        "TE VROEG: mat (3 × 12) ligt in 1·2. Dat moet nog in stukken gesneden worden."
    )
    assert said(WarningKind.STRIP_FILED, Spot.PILE, True) == (
        "NIET VOOR EEN VAK: mat (3 × 12) ligt in 1·2. Dat hoort op het hoopje: wat eruit zou "
        "komen, is overgeslagen."
    )
    assert said(WarningKind.TWICE, 0) == (
        "TWEE KEER OPGEBORGEN: mat ligt al in een vak, en nu nog eens in 1·2. Is dit ander "
        "papier, zoek dan uit welk."
    )


@pytest.mark.parametrize(
    ("steps", "said"),
    [
        (1, "Overgeslagen."),
        (2, "Overgeslagen, met nog 1 stap die eraan vastzit."),
        (5, "Overgeslagen, met nog 4 stappen die eraan vastzitten."),
    ],
)
def test_what_is_left_out_is_counted(steps: int, said: str) -> None:
    words = words_of(hand_table().plan, manner())
    assert (
        words.left_out([Entry(9, datetime(2026, 1, 2, tzinfo=UTC), Skipped("A/load", steps))])
        == said
    )


def test_all_that_is_said_can_be_said_in_ascii(tmp_path: Path) -> None:
    """A report is written as it is said, with no letters changed afterwards."""
    ascii_only = manner(style=LengthStyle(Unit.IN, ascii=True))
    session = begun("harbour", tmp_path)
    words = words_of(session.plan, ascii_only)
    assert all(words.warning_name(kind).isascii() for kind in WarningKind)
    assert all(map(str.isascii, OBJECTIONS.values()))
    assert all(words.caution(code).isascii() for code in ENGLISH_CAUTIONS)
    while True:
        moment = moment_of(session, ascii_only)
        assert " ".join((moment.headline, moment.sentence, moment.goes, moment.press)).isascii()
        if moment.over:
            break
        assert session.next().taken
