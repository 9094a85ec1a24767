"""Commands that need no screen: kits, check, sessions, report, plain lines, plan, the schema."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from model.settings import Settings


def run(args: Sequence[str]) -> int:
    """Run one of the commands; see `tui.command.main` for the exit codes."""
    parser = argparse.ArgumentParser(prog="dryfit")
    commands = parser.add_subparsers(dest="command", required=True)
    check = commands.add_parser("check", help="what is wrong with a kit file")
    check.add_argument("kit", help="a kit file, or a demo kit's name")
    check.add_argument("--json", action="store_true", help="as JSON")
    sessions = commands.add_parser("sessions", help="what was begun")
    sessions.add_argument("--json", action="store_true", help="as JSON")
    report = commands.add_parser("report", help="the account of a session")
    report.add_argument("session", help="the session's file")
    report.add_argument("--json", action="store_true", help="as JSON")
    lines = commands.add_parser("lines", help="the same run by plain lines, without a screen")
    lines.add_argument("kit", help="a kit file, a session to go on with, or a demo kit's name")
    lines.add_argument(
        "--resume", action="store_true", help="go on with the newest unfinished session of the kit"
    )
    lines.add_argument("--json", action="store_true", help="one JSON object a line")
    lines.add_argument("--ascii", action="store_true", help="only ASCII characters, this once")
    kits = commands.add_parser("kits", help="the kits at hand: demo kits, and your own")
    kits.add_argument("--json", action="store_true", help="as JSON")
    from tui.plan_command import add_parser, run_plan

    add_parser(commands)
    schema = commands.add_parser("schema", help="the JSON Schema of kit files")
    schema.add_argument("--json", action="store_true", help="as JSON, which it always is")
    chosen = parser.parse_args(args)
    if chosen.command == "check":
        return _check(chosen.kit, chosen.json)
    if chosen.command == "kits":
        return _kits(chosen.json)
    if chosen.command == "sessions":
        return _sessions(chosen.json)
    if chosen.command == "report":
        return _report(Path(chosen.session).expanduser(), chosen.json)
    if chosen.command == "plan":
        return run_plan(chosen, _failed, _settings)
    if chosen.command == "lines":
        from tui.plainlines import run_lines

        return run_lines(chosen.kit, chosen.resume, chosen.json, chosen.ascii)
    from model.kitschema import kit_schema

    print(json.dumps(kit_schema(), indent=2, ensure_ascii=False))
    return 0


def _failed(why: str, as_json: bool, code: int = 1) -> int:
    """Say why nothing came of a command: to a program as an object of its own."""
    if as_json:
        print(json.dumps({"error": why}, indent=2, ensure_ascii=False))
    print(f"dryfit: {why}", file=sys.stderr)
    return code


def _kits(as_json: bool) -> int:
    from model.folders import NoHomeError, kits_folder
    from model.shelf import kits_at_hand

    try:
        folders = [kits_folder()]
    except NoHomeError:
        folders = []
    found = kits_at_hand(folders)
    if as_json:
        rows = [
            {
                "name": kit.path.stem if kit.demo else str(kit.path),
                "path": str(kit.path),
                "kit": kit.title,
                "pages": kit.pages,
                "note": kit.note,
                "demo": kit.demo,
                "trouble": kit.trouble,
            }
            for kit in found
        ]
        print(json.dumps(rows, indent=2, ensure_ascii=False))
        return 0
    for kit in found:
        name = kit.path.stem if kit.demo else str(kit.path)
        print(f"{name}: {kit.title}: {kit.trouble or _count(kit.pages, 'page')}")
    return 0


def _check(name: str, as_json: bool) -> int:
    from model.finding import KitError
    from model.folders import find_kit, why_no_kit
    from model.reading import load_kit

    path = find_kit(name)
    if path is None:
        return _failed(why_no_kit(name), as_json, 2)
    try:
        read = load_kit(path)
        findings = read.findings
    except KitError as error:
        read, findings = None, error.findings
    plan = read.plan if read else None
    if as_json:
        found = [
            {
                "code": f.code,
                "line": f.line,
                "what": f.what,
                "remedy": f.remedy,
                "grave": f.grave,
            }
            for f in findings
        ]
        print(
            json.dumps(
                {"kit": str(path), "usable": plan is not None, "findings": found},
                indent=2,
                ensure_ascii=False,
            )
        )
    else:
        for finding in findings:
            print(f"{path}: {'' if finding.grave else '(remark) '}{finding}")
        if plan is not None:
            cuts = sum(step.mark is not None for step in plan.steps)
            parts = [
                _count(len(plan.steps), "step"),
                _count(cuts, "cut"),
                f"{_count(sum(plan.wanted), 'piece')} in {_count(len(plan.kit.pockets), 'pocket')}",
                _count(len(plan.scraps), "scrap"),
            ]
            print(f"{path}: {plan.kit.title}: {', '.join(parts)}")
    return 0 if plan is not None else 1


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'s' * (number != 1)}"


def _sessions(as_json: bool) -> int:
    from model.folders import NoHomeError, sessions_folder
    from model.shelf import sessions_in

    try:
        folder = sessions_folder()
    except NoHomeError as error:
        return _failed(str(error), as_json)
    found = sessions_in(folder)
    if as_json:
        rows = [
            {
                "path": str(s.path),
                "kit": s.title,
                "done": s.done,
                "steps": s.steps,
                "to_file": s.to_file,
                "touched": s.touched.isoformat(),
                "trouble": s.trouble,
            }
            for s in found
        ]
        print(json.dumps(rows, indent=2, ensure_ascii=False))
        return 0
    words = _settings().phrases.shelf
    for session in found:
        far = session.trouble or words.how_far(session.done, session.steps, session.to_file)
        print(f"{session.touched:%Y-%m-%d %H:%M}  {session.title}: {far}  {session.path}")
    if not found:
        print(f"No sessions in {folder}.")
    return 0


def _settings() -> Settings:
    """The crafter's settings, of which these commands need the language."""
    from model.folders import NoHomeError, settings_file
    from model.settings import Settings, read_settings

    try:
        return read_settings(settings_file())[0]
    except NoHomeError:
        return Settings()


def _report(path: Path, as_json: bool) -> int:
    from model.account import account_of
    from model.report import report_data, report_text
    from model.session import Session, SessionError

    try:
        session = Session.watch(path)
    except SessionError as error:
        return _failed(str(error), as_json)
    account = account_of(session)
    if as_json:
        data: dict[str, Any] = report_data(session, account)
        print(json.dumps(data, indent=2, ensure_ascii=False))
    else:
        manner = _settings().manner(session.plan.kit.unit)
        print(report_text(session, account, manner))
    return 0 if account.closes else 1
