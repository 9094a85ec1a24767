"""``dryfit lines``: the same run without a full screen, for screen readers and scripts."""

from __future__ import annotations

import io
import sys
from pathlib import Path
from shlex import quote

from model.finding import KitError
from model.folders import NoHomeError, sessions_folder, settings_file
from model.journal import JournalBusy
from model.language import words_for
from model.language.sentences import sentence
from model.reading import load_kit
from model.session import Session, SessionError
from model.session_file import is_session
from model.settings import Settings, read_settings
from model.shelf import sessions_in
from model.waiting import waits_of
from tui.lines_choices import Choices
from tui.lines_desk import Desk
from tui.lines_voice import Voice

_TAUGHT_PAGES = 2
"""Kits of so few pages teach what can be typed, as they teach the table."""


def run_lines(name: str, resume: bool, as_json: bool, ascii: bool) -> int:
    """Run a kit or a session by plain lines.

    Args:
        name: A kit's or a session's file, or a demo kit's name.
        resume: Of a kit, go on with the newest session that is not finished.
        as_json: One JSON object a line.
        ascii: Only ASCII characters.

    Returns:
        The exit code: 0 when all is saved, also where Ctrl+C or the end of the input ends it;
        1 when something is wrong with a file, or not everything is saved; 2 when there is no
        such kit.
    """
    from model.folders import find_kit, why_no_kit

    path = find_kit(name)
    if path is None:
        why = why_no_kit(name)
        if as_json:
            _trouble(Voice(sys.stdin, sys.stdout, as_json, ascii), sentence(why))
        print(f"dryfit: {why}; dryfit kits lists those at hand", file=sys.stderr)
        return 2
    choices, troubles = _settings(ascii)
    if isinstance(sys.stdin, io.TextIOWrapper):
        sys.stdin.reconfigure(encoding="utf-8", errors="replace")
    settings = choices.settings
    voice = Voice(sys.stdin, sys.stdout, as_json, settings.ascii, settings.phrases.typed)
    for trouble in troubles:
        _trouble(voice, sentence(trouble))
    put_back = voice.catch_interrupts()
    try:
        return _run(path, resume, choices, voice)
    finally:
        put_back()


def _settings(ascii: bool) -> tuple[Choices, tuple[str, ...]]:
    try:
        path = settings_file()
    except NoHomeError:
        return Choices(Settings(), None, ascii), ()
    settings, troubles = read_settings(path)
    return Choices(settings, path, ascii), troubles


def _trouble(voice: Voice, text: str) -> None:
    """What is wrong with a file: it is told as it stands there."""
    text = " ".join(text.split())
    voice.say("trouble", text, text)


def _run(path: Path, resume: bool, choices: Choices, voice: Voice) -> int:
    try:
        session, begun = _open(path, resume, choices.settings, voice)
    except KitError as error:
        for finding in error.findings:
            _trouble(voice, f"{path}: {finding}")
        return 1
    except SessionError as error:
        _trouble(voice, sentence(str(error)))
        return 1
    if session is None:
        return 0
    try:
        few = session.plan.kit.pages <= _TAUGHT_PAGES
        teach = begun and few and not choices.settings.taught and not voice.json
        desk = Desk(session, choices, voice, teach)
        _welcome(desk, begun, voice)
        desk.run()
    finally:
        unsaved = session.close()
    _farewell(desk, voice, not unsaved)
    if unsaved and not session.watching:
        voice.say("unsaved", desk.words.not_saved(unsaved, session.waiting), unsaved)
        return 1
    return 0


def _open(
    path: Path, resume: bool, settings: Settings, voice: Voice
) -> tuple[Session | None, bool]:
    """The session, and whether it is a new one; None when another program has it."""
    try:
        folder: Path | None = sessions_folder()
        why = ""
    except NoHomeError as error:
        folder, why = None, str(error)
    code = settings.phrases.code
    if is_session(path):
        return _resume(path, voice, code), False
    read = load_kit(path)
    if resume and read.plan is not None:
        title = read.plan.kit.title
        for found in sessions_in(folder):
            if found.title == title and not (found.finished or found.trouble):
                return _resume(found.path, voice, code), False
    session = Session.start(read, path, folder, why_no_folder=why)
    if settings.by_load:
        session.pace_by(True)
    return session, True


def _resume(path: Path, voice: Voice, code: str) -> Session | None:
    try:
        return Session.resume(path)
    except JournalBusy as busy:
        hint = words_for(code).brief("ask busy")
        said = sentence(str(busy))
        if voice.ask(f"{said} {hint}", ("watch",), hint, said) != "watch":
            return None
        return Session.watch(path)


def _welcome(desk: Desk, begun: bool, voice: Voice) -> None:
    """Say where one stands, what was wrong with the session's file, and how the kit changed."""
    session, words = desk.session, desk.words
    title, kept = session.plan.kit.title, str(session.path or "")
    voice.say("start", words.started(title, kept), kept, kit=title, session=kept, new=begun)
    if session.watching:
        said = f"{words.looking_on(session.unsaved)} {words.brief('watching')}"
        voice.say("said", said, session.unsaved)
    for trouble in session.troubles:
        _trouble(voice, sentence(trouble.text))
    change = None if begun or session.watching else session.changed_kit()
    if change is not None:
        may = change.plan is not None and not change.blockers
        hint = words.brief("ask kit both" if may else "ask kit")
        answers = ("old", "new") if may else ("old",)
        if voice.ask(f"{words.kit_changed(change)} {hint}", answers, hint) == "new":
            session.adopt(change)
    if not begun:
        for line in words.standing(session.state, waits_of(session, words)):
            voice.say("where", line)


def _farewell(desk: Desk, voice: Voice, saved: bool) -> None:
    session, words = desk.session, desk.words
    if voice.interrupted:
        voice.say("said", words.brief("interrupted"))
    if session.watching:
        return
    state = session.state
    steps = len(session.plan.steps)
    standing = words.how_far(state.steps_done, steps, len(state.pile))
    kept = "" if state.due().over or session.path is None else quote(str(session.path))
    voice.say(
        "end",
        words.put_away(standing, kept, saved and session.path is not None),
        kept,
        done=state.steps_done,
        steps=steps,
        over=state.due().over,
        session=str(session.path or ""),
    )
