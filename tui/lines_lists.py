"""What plain lines read out on request: pockets, pile, warnings, where one stands, the account."""

from __future__ import annotations

from model.account import account_of
from model.alerts import Alert, alerts_of
from model.inventory import Inventory
from model.language.english.words import English
from model.manner import Manner
from model.moment import Moment, PocketLine
from model.report import report_lines, report_text, save_report
from model.session import Session, now
from tui.lines_voice import Voice


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


def read_pocket(voice: Voice, words: English, session: Session, moment: Moment, at: int) -> None:
    """One pocket with every piece."""
    state, items = session.state, session.plan.items
    _read_outline(voice, words, moment.pockets[at])
    holding = Inventory(session.plan).holding(state, at)
    for row in holding.rows:
        voice.say("piece", words.held_line(row, words.pieces_held(row)))
    for stray in holding.strays:
        goes = words.goes(items[stray], state.belongs(stray))
        voice.say("piece", words.stray_line(words.named(items[stray]), goes))
    for sheet, place in holding.bases:
        voice.say("piece", f"{words.base_line(sheet.name, sheet.base or 0, place)}.")


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
        voice.say("objection", words.not_saved_report(str(error.strerror or error)))
        return
    voice.say("said", words.saved_report(str(saved)), path=str(saved))
