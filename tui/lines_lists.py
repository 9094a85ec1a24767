"""What plain lines read out on request: pockets, pile, warnings, where one stands, the account."""

from __future__ import annotations

from model.account import account_of
from model.alerts import Alert, alerts_of
from model.found import Found
from model.inventory import Inventory
from model.language.english.words import English
from model.manner import Manner
from model.moment import Moment, PocketLine
from model.report import report_lines, report_text, save_report
from model.session import Session, now
from model.state import State
from tui.lines_voice import Voice

_NEAREST = 4
"""Things that are read out where nothing is just so: a list that is heard is soon too long."""


def read_pockets(voice: Voice, words: English, moment: Moment) -> None:
    """Every pocket in outline."""
    for pocket in moment.pockets:
        _read_outline(voice, words, pocket)


def _read_outline(voice: Voice, words: English, pocket: PocketLine) -> None:
    voice.say(
        "pocket",
        words.pocket_line(pocket),
        pocket=pocket.label,
        held=pocket.held,
        wanted=pocket.wanted,
        wrong=pocket.wrong,
    )


def read_pocket(
    voice: Voice, words: English, session: Session, moment: Moment, at: int
) -> list[str]:
    """One pocket with every piece; gives back what the numbers of those in it mean."""
    state, items = session.state, session.plan.items
    _read_outline(voice, words, moment.pockets[at])
    if at in state.checked:
        voice.say("said", words.pocket_counted(at))
    holding = Inventory(session.plan).holding(state, at)
    numbered: list[str] = []
    for stray in holding.strays:
        numbered.append(stray)
        goes = words.goes(items[stray], state.belongs(stray))
        line = words.stray_line(words.named(items[stray]), goes, len(numbered))
        voice.say("piece", line, number=len(numbered), item=stray)
    for row in holding.rows:
        copy = row.copies[-1] if row.copies else ""
        numbered += [copy] if copy else []
        number = len(numbered) if copy else 0
        line = words.held_line(row, words.pieces_held(row), number)
        voice.say("piece", line, number=number, item=copy)
    for sheet, place in holding.bases:
        line = f"{words.base_line(sheet.name, sheet.base or 0, place)}."
        voice.say("piece", line, number=0, item="")
    if numbered:
        pages = (page for p in session.plan.kit.pockets if p.index != at for page in p.pages)
        voice.say("said", words.take_ending(next(pages, session.plan.kit.pockets[at].pages[0])))
    return numbered


def read_found(voice: Voice, words: English, found: Found, state: State) -> list[str]:
    """What was found, numbered; gives back what the numbers mean."""
    voice.say("said", words.found(found))
    heard = found.matches if found.exact else found.matches[:_NEAREST]
    for number, match in enumerate(heard, 1):
        line = words.match_line(number, words.match(match, state))
        voice.say("match", line, number=number, item=match.copy)
    return [match.copy for match in heard]


def read_pile(voice: Voice, words: English, moment: Moment) -> list[str]:
    """What is cut and not filed, numbered; gives back what the numbers mean."""
    if not moment.pile:
        voice.say("said", words.brief("pile empty"))
    for number, line in enumerate(moment.pile, 1):
        voice.say("pile", words.pile_line(number, line), number=number, item=line.id)
    return [line.id for line in moment.pile]


def read_warnings(voice: Voice, words: English, session: Session) -> list[Alert]:
    """All warnings, numbered; gives back what the numbers mean."""
    alerts = list(alerts_of(session.state, words))
    if not alerts:
        voice.say("said", words.brief("no warning"))
    for number, alert in enumerate(alerts, 1):
        voice.say("warning", words.warning_line(alert, number), number=number)
    return alerts


def read_where(voice: Voice, words: English, session: Session, moment: Moment) -> None:
    """How far the run is, what lies about and what waits."""
    for line in words.standing(session.state, moment.waits):
        voice.say("where", line)
    progress = moment.progress
    voice.say("where", words.time_said(words.duration(progress.spent), progress.left))


def read_account(voice: Voice, words: English, session: Session, manner: Manner) -> None:
    """Where all the paper is."""
    for tone, line in report_lines(session, account_of(session), manner):
        voice.say("account", words.account_line(tone, line), tone=tone)


def save_account(voice: Voice, words: English, session: Session, manner: Manner) -> None:
    """Save the account as a text file beside the session."""
    if session.path is None:
        voice.say("objection", words.brief("no folder"))
        return
    text = report_text(session, account_of(session), manner)
    try:
        saved = save_report(text, session.path.parent, session.plan.kit.title, now())
    except OSError as error:
        voice.say("objection", words.not_saved_report(why := str(error.strerror or error)), why)
        return
    voice.say("said", words.saved_report(str(saved)), str(saved), path=str(saved))
