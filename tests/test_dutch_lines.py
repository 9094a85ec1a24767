"""Dutch: what is typed, how sentences sound, and what is found, told and counted."""

from __future__ import annotations

import re
from datetime import timedelta
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.account import SheetAccount
from model.language import phrases_for
from model.language.dutch import words as dutch_words
from model.language.dutch.asking import COMMANDS, TypingWords, typed_as
from model.language.dutch.ear import spoken, written
from model.language.dutch.find import FindWords
from model.language.dutch.lessons import LessonWords
from model.language.dutch.lines import LineWords
from model.language.dutch.report import ReportWords
from model.language.english.typed import TypedPhrases
from model.language.english.words import English
from model.length import Unit, parse_length
from model.lengthtext import LengthStyle, write_length, write_size
from model.lessons import Lesson
from model.moment import PileLine
from model.pace import Left
from model.plan import Role
from model.query import read_query
from model.recount import Proposal
from model.settings import Settings
from model.spot import Spot
from model.tells import Reason
from tests.pictures import to_filing
from tests.plain_lines import Sitting
from tests.screens import begun

SIGNS = frozenset(" .,:;?!'\"()-")
"""The signs that may occur: those of punctuation."""


class Words(ReportWords, FindWords, LessonWords, LineWords, English):
    """The sentences that are tested here."""


class Typed(TypedPhrases):
    """What is typed and heard, as far as it is tested here."""

    def spoken(self, text: str, exact: str = "") -> str:
        return spoken(text, exact)

    def written(self, text: str) -> str:
        return written(text)


def sat_down(kit: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> Sitting:
    """Plain lines in Dutch."""
    phrases_for.cache_clear()
    monkeypatch.setattr(type(phrases_for("nl")), "typed", Typed())
    monkeypatch.setattr(dutch_words, "WORDS", Words)
    return Sitting(begun(kit, folder), ascii=False, teach=True, language="nl")


@pytest.fixture
def words(tmp_path: Path) -> Words:
    plan = begun("harbour", tmp_path).plan
    return Words(plan, Settings().manner(plan.kit.unit))


def odd(text: str) -> set[str]:
    """What stands in a text that is no letter, digit or sign of punctuation."""
    return {char for char in text if not (char.isalpha() or char.isdecimal() or char in SIGNS)}


# The ear


# By hand, from what each sign means.
@pytest.mark.parametrize(
    ("shown", "heard"),
    [
        ("rope border (1½ × 12)", "rope border (1 en een half bij 12)"),
        ("3½ × 5½ in", "3 en een half bij 5 en een half inch"),
        ("9⅜ in", "9 en drie achtste inch"),
        ("4 x 6 en 4x6", "4 bij 6 en 4 bij 6"),
        ("maat 10 1/2 in. Houd het op 10½", "maat 10 en een half inch. Houd het op 10 en een half"),
        ("16 in teal ribbon, 1 in ervan", "16 inch teal ribbon, 1 inch ervan"),
        ("⅛ in aan beide kanten", "een achtste inch aan beide kanten"),
        ("½ in, ½ × 3 in", "een halve inch, een half bij 3 inch"),
        ("9 7/16, 17/64 in", "9 en zeven zestiende, 17 vierenzestigste inch"),
        ("9¾ in, ¼ in", "9 en drie kwart inch, een kwart inch"),
        ("~1/32 in verschil", "ongeveer een tweeëndertigste inch verschil"),
        ("~57 × ~203 mm", "ongeveer 57 bij ongeveer 203 millimeter"),
        ("1 mm, 24.1 cm", "1 millimeter, 24.1 centimeter"),
        ("nog 1 u 05 min", "nog 1 uur 5 minuten"),
        ("1 u 01 min aan tafel", "1 uur 1 minuut aan tafel"),
        ("nog 55 min tot 2 u 00 min", "nog 55 minuten tot 2 uur"),
        (
            "A: 4 in² = ½ in² + restjes",
            "A: 4 vierkante inch is een halve vierkante inch plus restjes",
        ),
        ("12.5 cm², 3 sq in", "12.5 vierkante centimeter, 3 vierkante inch"),
        ("Leg strip 2 in vak 7.", "Leg strip 2 in vak 7."),
        ("Tel 2 in 3·4, 1 in het vak", "Tel 2 in 3-4, 1 in het vak"),
        ("2 × te veel, 1 × een restje", "2 keer: te veel, 1 keer: een restje"),
        ('op dit stuk staat "1984", 9 1/2" lang', 'op dit stuk staat "1984", 9 en een half inch '
         "lang"),
        ("op ↑ → ▸ ✓ [x]", "op naar (x)"),
        ("pennen & en/of papier", "pennen en of papier"),
        ("stap 8/19", "stap 8 van 19"),
    ],
)  # fmt: skip
def test_signs_that_bear_meaning_are_words(shown: str, heard: str) -> None:
    assert spoken(shown) == heard


def test_what_is_exact_is_kept() -> None:
    path = "/home/a b/1/2/x·y  é=3.toml"
    assert spoken(f"Het is 1/2, in {path}, ½.", path) == f"Het is een half, in {path}, een half."


@given(st.text(max_size=60))
def test_nothing_but_letters_digits_and_punctuation_is_left(text: str) -> None:
    heard = spoken(text.replace("\ue000", ""))
    assert not {char for char in heard if not (char.isalnum() or char in SIGNS)}
    assert heard == " ".join(heard.split())


SIXTY_FOURTHS = st.integers(1, 64 * 30).map(lambda n: Fraction(n, 64) * Fraction(254, 10))


@given(SIXTY_FOURTHS, st.booleans(), st.booleans())
def test_a_length_that_was_heard_can_be_typed(x: Fraction, unit: bool, plain: bool) -> None:
    heard = spoken(write_length(x, LengthStyle(Unit.IN), with_unit=unit))
    assert not odd(heard)
    # Those who hear it type ë as they can.
    typed = written(heard.replace("ë", "e") if plain else heard).replace("inch", "in")
    assert parse_length(typed, Unit.IN) == x


@given(SIXTY_FOURTHS, SIXTY_FOURTHS, st.sampled_from(Unit), st.booleans())
def test_a_size_that_was_heard_finds_what_it_is_of(
    x: Fraction, y: Fraction, unit: Unit, with_unit: bool
) -> None:
    shown = write_size(x, y, LengthStyle(unit), with_unit=with_unit)
    heard = spoken(shown)
    assert not odd(heard)
    assert read_query(written(heard), unit)[0] == read_query(shown, unit)[0]


@pytest.mark.parametrize(
    ("typed", "figures"),
    [
        ("anderhalve inch", "1 1/2 inch"),
        ("3 en een half bij 8 groen", "3 1/2 x 8 groen"),
        ("een kwart inch", "1/4 inch"),
        ("3 drie vierde bij 12 duim", "3 3/4 x 12 inch"),
        ("3 inch bij 8 inch", "3 inch x 8 inch"),
        ("57 millimeter bij 20 centimeter", "57 mm x 20 cm"),
        ("halve inch", "1/2 inch"),
        ("één achtste inch", "1/8 inch"),
    ],
)
def test_what_is_typed_in_words_is_read(typed: str, figures: str) -> None:
    assert written(typed) == figures


@pytest.mark.parametrize(
    "words",
    ["halve maan", "een halve maan", "een kwart slag naar 3", "de zesde strook", "foto bij 3",
     "3 x 8"],
)  # fmt: skip
def test_words_that_are_no_measure_stay(words: str) -> None:
    assert written(words) == words


# What is typed


def test_nothing_is_left_in_english() -> None:
    """Of the classes that are tested here; `test_language` looks at all of them."""
    for part in (FindWords, ReportWords, LineWords, TypingWords, LessonWords):
        (theirs,) = [
            each
            for each in part.__mro__
            if each.__name__ == part.__name__ and each.__module__.startswith("model.language.eng")
        ]
        names = [name for name in vars(theirs) if not name.startswith("_")]
        assert [name for name in names if name not in vars(part)] == []


def understood(sitting: Sitting, said: str) -> str:
    """The command that something typed begins with, in the words of plain lines; "" for none."""
    desk, parts = sitting.desk, said.casefold().split()
    whole = COMMANDS.get(" ".join(parts), "")
    if whole in {*desk._commands, "count all"} and whole:
        return whole
    for count in range(len(parts), 0, -1):
        command = COMMANDS.get(" ".join(parts[:count]), "")
        if command in desk._with_words:
            return command
    return ""


@pytest.fixture
def sitting(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Sitting:
    return sat_down("harbour", tmp_path, monkeypatch)


def test_every_command_can_be_typed_in_dutch(sitting: Sitting) -> None:
    known = {*sitting.desk._commands, *sitting.desk._with_words} - {""}
    answers = {"yes", "no", "back", "all", "stop", "cancel", "old", "new"}
    assert known | answers == set(COMMANDS.values())


def test_no_dutch_word_is_an_english_command_for_something_else(sitting: Sitting) -> None:
    english = {*sitting.desk._commands, *sitting.desk._with_words, "yes", "no", "back", "all"}
    assert {said for said, meant in COMMANDS.items() if said in english and said != meant} == set()


def test_the_help_names_commands_that_are_understood(sitting: Sitting) -> None:
    """What stands before a colon, and every example after ``zoals``."""
    told = sitting.desk.words
    lines = (*told.lines_help(), *told.lines_help(all=True))
    examples = re.compile(r"zoals ((?!\d)[^:,.]*)")
    parts = [part for line in lines for part in re.split(r"[.:] ", line.rstrip("."))]
    heads = re.findall(r"(?:^|\. )([^.:]{2,40}):", "\n".join(lines), re.MULTILINE)
    said = [each for head in heads for each in head.split(", ")]
    said += [found[1] for part in parts for found in examples.finditer(part)]
    not_commands = ("Een ", "of klaar", "zoals", "hoe ", "Met ", "de zin")
    said = [each for each in said if not each.startswith(not_commands) and "pak en" not in each]
    assert len(said) > 40
    assert [each for each in said if not understood(sitting, each)] == []


def test_the_help_tells_every_command(sitting: Sitting) -> None:
    help = sitting.desk.words.lines_help
    told = " ".join((*help(), *help(all=True))).casefold()
    silent = {"next", "page", "watch", "put off"}  # other words for what is told; asked elsewhere
    for command in {*sitting.desk._commands, *sitting.desk._with_words} - silent - {""}:
        assert re.search(rf"\b{typed_as(command)}\b", told), command


def test_answers_are_asked_for_in_words_that_can_be_typed(words: Words) -> None:
    proposal = Proposal("x", 0, 1, Reason.SEEN)
    answers = [("yes", words.proposal_yes(proposal)), ("no", words.proposal_no(False))]
    assert words.answer_means([*answers, ("later", words.proposal_later())]) == (
        "Zeg ja (daar lag het: het ligt nu in vak 1·2), nee (daar ligt het niet) of later "
        "(nu niet)."
    )
    assert [typed_as(each) for each in ("back", "all", "quit", "put off", "take up")] == [
        "terug", "alles", "afsluiten", "uitstellen", "weer oppakken",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "key", "value"),
    [
        ("eenheden mm", "units", "mm"),
        ("scheurliniaal 3 inch", "tearing_ruler", "3 inch"),
        ("Liniaal 1/16 inch", "ruler", "1/16 inch"),
        ("per lading ja", "by_load", "ja"),
        ("lessen gehoord nee", "taught", "nee"),
        ("left handed yes", "left_handed", "yes"),
        ("liniaaltje 3", "", "liniaaltje 3"),
    ],
)
def test_a_setting_is_named_in_dutch(words: Words, typed: str, key: str, value: str) -> None:
    assert words.setting_named(typed) == (key, value)


def test_settings_are_read_in_dutch(words: Words) -> None:
    assert words.setting_line("units", "kit") == (
        "Lengtes in: zoals het pakket. Zeg zet eenheden, en dan pakket, inch, cm of mm."
    )
    assert words.setting_line("language", "").startswith("Taal: zoals het systeem. Zeg zet taal,")
    assert words.setting_line("left_handed", True).startswith("Snijder met de linkerhand: ja.")


# Sentences


@pytest.mark.parametrize(
    ("left", "said"),
    [
        (None, "nog te gaan: onbekend"),
        (Left(600, None), "nog minstens 10 min"),
        (Left(0, 0), "niets meer te doen"),
        (Left(10, 50), "nog ongeveer een minuut"),
        (Left(600, 600), "nog ongeveer 10 min"),
        (Left(20, 300), "nog hoogstens 5 min"),
        (Left(600, 900), "nog 10 tot 15 min"),
        (Left(3000, 3900), "nog 50 min tot 1 u 05 min"),
    ],
)
def test_what_is_left_to_do(words: Words, left: Left | None, said: str) -> None:
    assert words.left(left) == said


def test_time_at_the_table(words: Words) -> None:
    assert words.time_line(timedelta(0), 1, 2) == (
        "minder dan een minuut aan tafel, in 1 keer, 2 sneden"
    )
    assert words.time_said("1 u 05 min", "nog 10 min") == "1 u 05 min aan tafel; nog 10 min."


def test_where_the_paper_of_a_sheet_is(words: Words) -> None:
    inch = Fraction(127, 5) ** 2
    sheet = SheetAccount("A", 144 * inch, 100 * inch, 40 * inch, Fraction(0), 4 * inch,
                         Fraction(0), 5, 1, True)  # fmt: skip
    assert words.sheet_line(sheet) == (
        "A: 144 in² = stukken 100 in² + restjes 40 in² + niet gesneden 4 in²"
    )
    counted = SheetAccount("M", inch, inch, inch, inch, inch, inch, 5, 1, False)
    assert words.sheet_line(counted) == "M: niet gemeten; 5 stukken en 1 restje geteld"


def test_coming_back(tmp_path: Path) -> None:
    session = begun("harbour", tmp_path)
    told = Words(session.plan, Settings().manner(session.plan.kit.unit))
    to_filing(session, Role.PIECE)
    assert told.standing(session.state, ["vel B"]) == (
        "49 van 176 stappen gedaan. Eerst: Leg rope border (1½ × 12) in vak 1·2.",
        "In de snijder: A, nu 10½ × 12.",
        "Op het hoopje, van boven af: rope border (1½ × 12).",
        "Apart gelegd, wacht nog: vel B.",
    )
    assert told.welcome_briefly(session.state, []) == (
        "Welkom terug: 49/176 gedaan", "1 op het hoopje",
    )  # fmt: skip


def test_what_is_found(tmp_path: Path) -> None:
    session = begun("harbour", tmp_path)
    told = Words(session.plan, Settings().manner(session.plan.kit.unit))

    def find(text: str) -> list[str]:
        found = session.known.finder.find(written(text), Unit.IN, session.state)
        lines = (told.match_line(1, told.match(match, session.state)) for match in found.matches)
        return [told.found(found), *lines]

    assert find("zzz") == ["Zoiets zit niet in dit pakket."]
    assert find("4 bij 6")[:2] == [
        "4 soorten gevonden:", "1: rope mat (4 × 6), vak 3·4; 0 van 3 opgeborgen.",
    ]  # fmt: skip
    assert find("3 bij 8")[:2] == [
        "Precies zo is er geen. Het dichtst erbij:",
        "1: chart column (4½ × 7½), het hoopje, nog te snijden; 1½ in verschil, nog niet gemaakt.",
    ]


def test_what_tells_look_alikes_apart(tmp_path: Path) -> None:
    session = begun("harbour", tmp_path)
    told = Words(session.plan, Settings().manner(session.plan.kit.unit))
    alike = [told.alike(likeness) for likeness in session.known.looks.of("white mat#1")]
    assert alike[:2] == [
        "Niet verwarren met card row, nog te snijden: dit is 5¾ lang, dat is 6.",
        "Niet verwarren met porthole plate voor 3·4: dit is 5¾ lang, dat is 6¼.",
    ]


def test_where_something_missing_is_looked_for(words: Words) -> None:
    def says(place: int, reason: Reason, other: str = "") -> str:
        return words.proposal(Proposal("white mat#1", 0, place, reason, other))

    name = "white mat (4½ × 5¾)"
    size = words.named(words.plan.items["white mat#1"])
    assert size.startswith("white mat (")
    name = size
    assert says(1, Reason.NEXT_FILED) == (
        f"{name} ligt niet in vak 1·2. Kijk in vak 3·4: wat vlak ervoor of erna is opgeborgen, "
        "ging daarheen."
    )
    assert says(1, Reason.SAME_KIND) == (
        f"{name} ligt niet in vak 1·2. Kijk in vak 3·4: daar ligt meer van precies deze, "
        "misschien een te veel."
    )
    assert (
        says(Spot.SCRAPS, Reason.SCRAPS) == f"{name} ligt niet in vak 1·2. Kijk tussen de restjes."
    )
    assert says(1, Reason.STRAY) == f"{name} is gevonden, in vak 3·4. Leg het in vak 1·2."
    assert says(1, Reason.EXCHANGED, "white mat#1") == (
        f"{name} ligt niet in vak 1·2. Daar lag {name}, en dat hoort in vak 3·4: waarschijnlijk "
        "zijn die twee verwisseld. Kijk in vak 3·4, en leg elk in zijn eigen vak."
    )


def test_where_a_thing_goes_stands_behind_its_verb(words: Words) -> None:
    assert words.stray_line("rope mat", "vak 3·4", 2) == (
        "2: Hoort hier niet: rope mat; het gaat naar vak 3·4."
    )
    assert words.stray_line("restje", "naar de restjes", 1) == (
        "1: Hoort hier niet: restje; het gaat naar de restjes."
    )
    line = PileLine(id="x", text="rope half (6 × 12)", goes="het hoopje, nog te snijden", due=True)
    assert words.pile_line(1, line) == (
        "1: rope half (6 × 12), naar het hoopje, nog te snijden; het is nu aan de beurt."
    )


def test_counting_is_asked_in_words(words: Words) -> None:
    assert words.count_begins(0, 1) == (
        "Maak vak 1·2 leeg; 1 soort hoort erin te zitten. Stop breekt het tellen af, terug vraagt "
        "de vorige nog eens, alles zegt dat al het andere er is."
    )
    assert words.is_it_there("rope mat (4 × 6)", 3, False) == (
        "Zijn ze er alle 3: rope mat (4 × 6)? Zeg ja, nee, of hoeveel."
    )
    assert words.counted([], 1) == "Het klopt nog niet."
    assert words.counted([], 1, warned=True) == (
        "Het klopt nog niet; wat ontbreekt, staat bij de waarschuwingen."
    )
    assert words.count_put_off("c") == ("Er moet nog iets gezocht worden: c telt het vak opnieuw.")
    assert words.counted([0], 2) == "Geteld, en het klopt: 1·2. De andere kloppen nog niet."


def test_lessons_name_keys_and_words(words: Words) -> None:
    keys = {"did": "Spatie", "undo": "u", "redo": "r", "scrap": "s", "right": "p", "find": "f",
            "pockets": "k", "help": "?", "quit": "q"}  # fmt: skip
    assert words.lesson(Lesson.UNDO, 5, keys) == (
        "5/8 Iets te vroeg gezegd? u neemt het terug, r zegt het opnieuw. Probeer nu u. "
        "(Esc: geen lessen)"
    )
    assert words.line_lesson(Lesson.SPACE, 1) == (
        "Les 1 van 8: Doe wat de zin zegt, en druk dan op Enter op een lege regel. Zo zeg je dat "
        "het gedaan is. Typ geen lessen om ermee op te houden."
    )
    # No longer than the English ones by more than a few words: they stand on small screens.
    english = English(words.plan, words.manner)
    for lesson in Lesson:
        longest = len(english.lesson(lesson, 1, keys)) + 18
        assert len(words.lesson(lesson, 1, keys)) <= longest


@pytest.mark.parametrize("kit", ["postcard", "harbour", "cards"])
@pytest.mark.parametrize("units", ["kit", "mm", "in"])
def test_a_whole_run_has_no_sign_that_a_voice_spells(
    kit: str, units: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sitting = sat_down(kit, tmp_path, monkeypatch)
    sitting.choices.change("units", units)
    sitting.choices.change("left_handed", units == "mm")
    lists = ("help", "help all", "settings", "pockets", "pocket 1", "where", "pile", "account")
    for number in range(400):
        if sitting.desk.look().over:
            break
        sitting.say("")
        if number % 12 == 0:
            for line in (*lists, "find 4 x 6", "scrap", "warnings", "right"):
                sitting.say(line)
    assert sitting.desk.look().over
    sitting.say("account")
    heard = sitting.says.getvalue().replace("\n", " ")
    assert odd(heard) == set()
    assert set(re.findall(r"\b(?:the|pocket|pockets|sheet|pieces|inches|and|of an|filed)\b", heard)
               ) - set(re.findall(r"\w+", _own_words(sitting))) == set()  # fmt: skip


def _own_words(sitting: Sitting) -> str:
    """What the kit itself says, in its own language."""
    kit = sitting.session.plan.kit
    return repr(kit)
