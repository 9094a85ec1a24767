"""What the table says at each moment, and that it keeps what it promises."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

from model.event import Filed, Left
from model.folders import demo_folder
from model.language import words_of
from model.lengthtext import LengthStyle
from model.manner import Manner
from model.moment import Moment, moment_of
from model.plan import StepKind
from model.session import Session
from model.state import Spot
from model.waiting import waits_of
from model.warning import WarningKind
from tests.hand_kits import CUT_AGAIN, KITS
from tests.kits import random_kit
from tests.tables import P12, P34, P56, only_warning, table, until_in_hand, up_to

TEXTS = [*KITS, *(random_kit(random.Random(seed)) for seed in range(25))]


def manner(session: Session, **choice: bool) -> Manner:
    manner = Manner(**choice)  # type: ignore[arg-type]
    return replace(manner, style=LengthStyle(session.plan.kit.unit, manner.ascii))


def look(session: Session, in_hand: str = "") -> Moment:
    return moment_of(session, manner(session), in_hand)


def moments(session: Session) -> Iterator[Moment]:
    """Every moment of a run in which all goes as it should."""
    while not session.state.due().over:
        yield look(session)
        assert session.next().taken
    yield look(session)


def place_in(session: Session, text: str) -> int:
    """The place that words such as ``pocket 1·2, key 1 or 2`` promise."""
    if text == "to the scraps" or text.startswith("the scraps"):
        return Spot.SCRAPS
    if text.startswith("the pile"):
        return Spot.PILE
    label = re.fullmatch(r"pocket (\S+?)(?:, key .*)?", text)
    assert label, text
    return next(p.index for p in session.plan.kit.pockets if p.label == label[1])


@pytest.mark.parametrize("text", TEXTS)
def test_pockets_are_promised_as_things_are_filed(text: str) -> None:
    """Whatever is announced of what comes off, what stays and what is on the pile comes true."""
    session = table(text)
    promised: dict[str, int] = {}
    for moment in moments(session):
        step = moment.due.step
        if step is not None and step.kind in (StepKind.CUT, StepKind.TEAR):
            promised[step.makes[0]] = place_in(session, moment.goes)
            if len(step.makes) > 1:
                stays = re.search(r", to ((?:the|pocket) [^,]*?)(?:, to be.*)?\.$", moment.more[0])
                assert stays
                promised[step.makes[1]] = place_in(session, stays[1])
        for line in moment.pile:
            assert promised.get(line.id) in (None, place_in(session, line.goes))
        for id in [i for i in promised if session.state.where(i) >= 0]:
            assert promised.pop(id) == session.state.where(id)
    for id, place in promised.items():
        assert session.state.where(id) in (place, Spot.TAKEN)


@pytest.mark.parametrize("text", TEXTS)
def test_the_pile_says_where_each_thing_goes_when_its_turn_comes(text: str) -> None:
    session = table(text)
    session.pace_by(True)
    for moment in moments(session):
        if moment.due.item is None:
            continue
        said = {line.id: place_in(session, line.goes) for line in moment.pile}
        assert moment.goes and place_in(session, moment.goes) == said[moment.due.item]
        assert (
            moment.due.item == moment.pile[0].id or session.state.top_to_file != session.state.top
        )
        first = session.state.belongs(moment.due.item)
        assert said[moment.due.item] == first


def test_while_a_load_is_cut_first_either_pocket_may_be_told() -> None:
    session = table()
    session.pace_by(True)
    up_to(session, "A/1")
    moment = look(session)
    # Three mats come off one after another: one goes to 1·2, two to 5·6, whichever is taken.
    assert moment.goes == "1·2 or 5·6; told when you file it"
    assert not any(pocket.target for pocket in moment.pockets)
    session.next()
    assert [line.goes for line in look(session).pile] == ["pocket 5·6"]
    session.pace_by(False)
    up_to(session, "A/2")
    assert look(session).goes == "pocket 5·6, key 5 or 6"


def test_what_was_taken_up_out_of_turn_is_promised_first() -> None:
    session = table()
    session.pace_by(True)
    until_in_hand(session, "A/3")
    pile = ("A/3", "A/2", "A/1")
    said = {line.id: line.goes for line in look(session).pile if line.id in pile}
    assert said == {"A/3": "pocket 1·2", "A/2": "pocket 5·6", "A/1": "pocket 5·6"}
    moment = look(session, "A/1")
    assert moment.goes.startswith("pocket 1·2")
    said = {line.id: line.goes for line in moment.pile if line.id in pile}
    assert said == {"A/1": "pocket 1·2", "A/3": "pocket 5·6", "A/2": "pocket 5·6"}
    assert session.file_into(P12, "A/1").taken


def test_a_strip_in_hand_stays_on_the_pile() -> None:
    session = table()
    up_to(session, "A/r/load")
    moment = look(session, "A/r")
    assert moment.headline == "On the pile" and "still to be cut" in moment.sentence
    assert not moment.goes and moment.figure is None


# Warnings


def test_what_a_warning_is_about_is_what_is_due() -> None:
    session = table()
    until_in_hand(session, "A/1")
    session.file_into(P34)
    moment = look(session)
    assert moment.pressing is not None and moment.due.item == "A/1"
    assert moment.due.step is None
    session.say(Left(only_warning(session).id))
    assert look(session).pressing is None


def test_copies_that_belong_apart_are_each_told_their_pocket() -> None:
    session = table()
    up_to(session, "fill:white mat:5·6")
    session.file_into(P12)  # both copies for 5·6 went into 1·2
    moment = look(session)
    assert moment.alerts[0].warning.kind in (WarningKind.TOO_MANY, WarningKind.WRONG_POCKET)
    assert "2 " in moment.sentence and "They belong in 5·6" in moment.sentence
    assert moment.alerts[0].remedy == "they are in 5·6 now"
    assert [pocket.index for pocket in moment.pockets if pocket.target] == [P56]


def test_a_warning_that_names_copies_of_several_pockets() -> None:
    session = table(
        'dryfit = 1\ntitle = "T"\npage = "12 x 12"\npages = 6\n[[precut]]\nname = "mat"\n'
        'face = "white"\nsize = "3 x 3"\nto = { "1·2" = 3, "3·4" = 2 }\n'
        '[[sheet]]\nname = "A"\nface = "tan"\n'
        '[[step]]\ntrim = "A"\nmarks = [6]\ngives = "scrap"\nrest = "scrap"\n'
    )
    up_to(session, "fill:mat:1·2")
    session.file_into(P56)  # its three copies
    session.say(Left(only_warning(session).id))
    session.file_into(P12)  # the two for 3·4 are right in 1·2
    moment = look(session)
    assert moment.alerts[0].remedy == "they are in 1·2 and 3·4 now"
    assert "They belong 1 in 1·2, 2 in 3·4" in moment.alerts[0].text
    warning = only_warning(session)
    assert session.put_right(warning).taken
    assert not session.state.warnings


# Steps


@pytest.mark.parametrize("text", KITS)
def test_leaving_out_is_offered_just_where_it_can_be_done(text: str) -> None:
    session = table(text)
    for moment in moments(session):
        step = moment.due.step
        offered = step is not None and session.state.may_skip(step)
        assert moment.optional is offered
        assert ("You may leave this out." in moment.sentence) is offered
    assert moment.over


def test_the_pattern_of_a_trace_is_fetched_from_its_pocket_and_put_back() -> None:
    session = table(next(text for text in KITS if "trace" in text))
    traces = [m for m in moments(session) if m.due.step and m.headline == "Trace and cut"]
    assert traces
    assert traces[0].more[0] == "Take one paper boat from 5·6 to trace, and put it back there."


def test_no_large_word_speaks_of_a_turn_without_its_direction() -> None:
    for text in KITS:
        for moment in moments(table(text)):
            step = moment.due.step
            if step is not None and step.kind is StepKind.LOAD and moment.figure:
                assert "turn" not in moment.figure.text


@pytest.mark.parametrize("text", KITS)
@pytest.mark.parametrize("left_handed", [False, True])
def test_a_run_is_told_in_ascii_to_whom_wants_it(text: str, left_handed: bool) -> None:
    session = table(text)
    ways = Manner(left_handed=left_handed)
    style = type(ways.style)(session.plan.kit.unit, ascii=True)
    ways = Manner(style, ways.ruler, ways.tearing_ruler, left_handed)
    while True:
        moment = moment_of(session, ways)
        told = [moment.headline, moment.sentence, moment.goes, moment.press, *moment.more]
        told += [*moment.cautions, *moment.waits, moment.progress.left]
        told += [part for line in moment.pile for part in (line.text, line.goes)]
        told += [pocket.label for pocket in moment.pockets]
        if moment.figure:
            told += [moment.figure.text, moment.figure.caption, moment.figure.error]
        for block in moment.scene.blocks if moment.scene else ():
            told += [block.name, block.size]
        assert all(each.isascii() for each in told), [t for t in told if not t.isascii()]
        if moment.over:
            break
        session.next()


def test_nothing_is_left_at_the_end() -> None:
    session = table(CUT_AGAIN)
    *_, last = moments(session)
    assert last.over and last.progress.left == "nothing left to do"
    assert last.progress.done == last.progress.steps


def test_said_of_another_copy_it_is_told_as_filed() -> None:
    session = table()
    until_in_hand(session, "A/1")
    assert session.say(Filed("A/1", "1·2")).taken
    assert look(session).due.item != "A/1"


def at_step(text: str, id: str) -> Session:
    session = table(text)
    up_to(session, id)
    return session


def test_what_waits_is_there_already() -> None:
    """Sheets kept back, and what was cut and lies on the pile; not what will be cut of them."""
    harbour = next(text for text in KITS if "A Week at the Harbour" in text)
    session = table(harbour)
    assert waits_of(session, words_of(session.plan, Manner())) == ("sheet M", "sheet N")
    up_to(session, "M/load")
    # The boats are cut out, and their shadows traced, when all is filed; the sentence of a
    # step in words is no thing, and the band that gets a slit lies in its pocket.
    assert waits_of(session, words_of(session.plan, Manner())) == ("boat panel", "shadow stock")
    up_to(session, "do:Round the corners of the six cards")
    assert waits_of(session, words_of(session.plan, Manner())) == ()


def test_a_sheet_of_which_only_the_cut_waits_is_told_as_long_as_it_is_whole() -> None:
    text = CUT_AGAIN.replace('trim = "B"', 'knife = "B"\nwait = "trimmer away"')
    session = table(text)
    assert waits_of(session, words_of(session.plan, Manner())) == ("sheet B",)
    up_to(session, "B/load")
    assert waits_of(session, words_of(session.plan, Manner())) == ()


def test_a_long_list_of_what_waits_says_how_many_more() -> None:
    sheets = "".join(
        f'[[sheet]]\nname = "{n}"\nface = "tan"\nwait = "after filing"\n' for n in range(12)
    )
    steps = "".join(
        f'[[step]]\nknife = "{n}"\nmarks = [6]\ngives = "scrap"\nrest = "scrap"\n'
        for n in range(12)
    )
    head = 'dryfit = 1\ntitle = "T"\npage = "12 x 12"\npages = 2\n'
    session = table(head + sheets + steps)
    assert waits_of(session, words_of(session.plan, Manner()))[0] == "sheet 0"
    assert len(waits_of(session, words_of(session.plan, Manner()))) == 9
    assert waits_of(session, words_of(session.plan, Manner()))[-1] == "4 more"


# Where it goes, more closely

PAGES = """
dryfit = 1
title = "Pages"
page = "12 x 12"
pages = 10

[[pocket]]
label = "1-2"
pages = [1, 2]

[[pocket]]
label = "4-7"
pages = [4, 5, 6, 7]

[[pocket]]
label = "cover"
pages = [3]

[[embellishment]]
name = "tag"
colour = "tan"
to = "3 to 4-7, 1 to page 2"

[[embellishment]]
name = "apple"
colour = "red"
to = "1 to cover, 1 to page 4"

[[sheet]]
name = "A"
face = "navy"

[[step]]
trim = "A"
marks = [6]
gives = { name = "panel", to = "cover" }
rest = { name = "other", to = "page 5" }
"""


DEMOS = [path.read_text("utf-8") for path in demo_folder().glob("*.toml")]


@pytest.mark.parametrize("text", [*TEXTS, *DEMOS, PAGES])
def test_only_pages_of_the_pocket_that_it_goes_into_are_named(text: str) -> None:
    session = table(text)
    pockets = session.plan.kit.pockets
    for moment in moments(session):
        into = [pockets[line.index] for line in moment.pockets if line.target]
        for line in moment.more:
            named = re.fullmatch(r"For pages? ([\d, and]+)\.", line)
            if named:
                (pocket,) = into
                assert {int(page) for page in re.findall(r"\d+", line)} <= set(pocket.pages)


def test_pages_are_named_where_the_kit_knows_them() -> None:
    session = table(PAGES)
    said = {m.sentence: m.more for m in moments(session)}
    assert not any(t.startswith("For") for t in said["Count 3 of tag and file them in 4-7."])
    assert "For page 2." in said["File 1 tag in 1-2."]
    assert not any(t.startswith("For") for t in said["File 1 apple in cover."])
    assert "For page 4." in said["File 1 apple in 4-7."]


def test_ribbons_of_two_lengths_are_not_called_alike() -> None:
    said = {m.sentence: m.more for m in moments(table())}
    assert said["Cut 18 in of twill and file it in 1·2."] == ("Of another length: 12 in to 3·4.",)
    assert said["Cut 12 in of twill and file it in 3·4."] == ("Of another length: 18 in to 1·2.",)
    alike = CUT_AGAIN.replace('"3·4" = "12 in" }', '"3·4" = "18 in" }')
    said = {m.sentence: m.more for m in moments(table(alike))}
    assert said["Cut 18 in of twill and file it in 1·2."] == ("Two alike: 1 to 1·2, 1 to 3·4.",)


# How far the run is


def test_what_is_filed_belongs_to_the_step_that_is_done() -> None:
    session = table()
    seen = [(m.due.item is not None, m.progress.step, m.progress.sheet) for m in moments(session)]
    assert seen[:2] == [(False, "step 1/30", ""), (False, "step 2/30", "")]
    number = 0
    for filing, step, _ in seen[:-1]:
        number += not filing
        assert step == f"step {number}/30" + ", filing" * filing
    assert seen[-1] == (False, "all 30 steps done", "")


@pytest.mark.parametrize("text", KITS)
def test_the_sheet_is_that_of_what_is_filed(text: str) -> None:
    session = table(text)
    filed = 0
    for moment in moments(session):
        item, step = moment.due.item, moment.due.step
        if item is not None and session.plan.items[item].sheet in session.sheet_numbers:
            sheet = session.plan.items[item].sheet
            filed += 1
        elif step is not None and step.load:
            sheet = step.sheet
        else:
            assert moment.progress.sheet == ""
            continue
        numbers = session.sheet_numbers
        assert moment.progress.sheet == f"sheet {numbers[sheet]}/{len(numbers)}"
    assert filed
