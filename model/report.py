"""The account as a report that can be printed, saved, or read by a program."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

from model.account import Account
from model.alerts import alerts_of
from model.inventory import Inventory
from model.language import words_of
from model.language.english.words import English
from model.manner import Manner
from model.session import Session
from model.session_file import free_path, slug
from model.state import Spot

Line = tuple[str, str]
"""A tone (``head``, ``good``, ``bad``, ``plain``) and a line."""


def report_lines(
    session: Session, account: Account, manner: Manner, pieces: bool = False
) -> list[Line]:
    """The account line by line.

    Args:
        session: The session.
        account: Its account.
        manner: How the crafter is told things.
        pieces: Whether each pocket's pieces are listed too; what is missing from a pocket
            when all is done is listed always.

    Returns:
        Pairs of a tone (``head``, ``good``, ``bad``, ``plain``) and a line.
    """
    words = words_of(session.plan, manner)
    return [
        (_tone(account.closes, account), words.verdict(account)),
        ("head", words.account_head("pockets")),
        *_pockets(session, account, words, pieces),
        ("head", words.account_head("sheets")),
        *_sheets(account, words),
        ("head", words.account_head("scraps")),
        *_scraps(session, account, words),
        ("head", words.account_head("warnings")),
        *_warnings(session, account, words),
        *_mended(session, account, words, manner),
        *_later(account, words),
        ("head", words.account_head("time")),
        ("plain", words.time_line(session.pace.spent, session.state.sittings, account.cuts)),
        ("plain", words.kit_line()),
    ]


def _tone(good: bool, account: Account) -> str:
    """Until all is done nothing is wrong with what is still to come."""
    return "good" if good else "bad" if account.finished else "plain"


def _pockets(session: Session, account: Account, words: English, pieces: bool) -> list[Line]:
    inventory, state = Inventory(session.plan), session.state
    lines: list[Line] = []
    for pocket in account.pockets:
        holding = inventory.holding(state, pocket.pocket)
        full = pocket.right and not pocket.lost
        wrong = holding.strays or pocket.lost
        tone = "bad" if wrong else _tone(full, account)
        lines.append((tone, words.pocket_held(pocket)))
        if pieces or (account.finished and not full):
            for row in holding.rows:
                there = row.filed >= row.wanted
                if pieces or not there:
                    tone = "plain" if there else _tone(False, account)
                    lines.append((tone, f"  {words.pieces_held(row)}"))
        for stray in holding.strays:
            item = session.plan.items[stray]
            goes = words.stray_in_list(words.goes(item, state.belongs(stray)))
            lines.append(("bad", f"  {words.named(item)}: {goes}"))
    return lines


def _sheets(account: Account, words: English) -> list[Line]:
    lines = [
        (_tone(sheet.closes, account) if sheet.measured else "plain", words.sheet_line(sheet))
        for sheet in account.sheets
    ]
    return lines + [("plain", words.base_line(*base)) for base in account.bases]


def _scraps(session: Session, account: Account, words: English) -> list[Line]:
    have = len(account.scraps) + account.extra
    expected = account.scraps_expected
    lines = [
        (
            "bad" if have > expected else _tone(have == expected, account),
            words.scraps_of(have, expected),
        )
    ]
    lines += [("plain", words.scrap_line(id)) for id in account.scraps]
    if not account.finished:
        lines += [
            ("plain", words.scrap_line(id, to_come=True))
            for id in session.plan.scraps
            if id not in account.scraps
        ]
    if account.extra:
        lines.append(("bad", words.extra_line(account.extra)))
    return lines


def _warnings(session: Session, account: Account, words: English) -> list[Line]:
    lines = [("bad", alert.text) for alert in alerts_of(session.state, words)]
    if not lines:
        lines.append(("good", words.no_warning()))
    if account.mistakes or account.moved:
        lines.append(("head", words.mistakes_head()))
    lines += [("plain", words.mistake_line(kind, count)) for kind, count in account.mistakes]
    lines += [("plain", words.moved_line(*moved)) for moved in account.moved]
    if account.adrift:
        lines.append(("bad", words.adrift_line(account.adrift)))
    return lines


def _mended(session: Session, account: Account, words: English, manner: Manner) -> list[Line]:
    """What went wrong, how it was rescued, and what pages go without."""
    if not account.mended:
        return []
    before = words_of(session.story.base, manner)  # where it happened, as it was meant
    lines: list[Line] = [("head", words.account_head("mended"))]
    for what, where, way in account.mended:
        known = where in before.plan.items or where in before.plan.step_at
        lines.append(("plain", (before if known else words).mended_line(what, where, way)))
    return lines + [("bad", words.missed_line(*lost)) for lost in account.lost]


def _later(account: Account, words: English) -> list[Line]:
    lines = [
        *(words.aside_line(aside) for aside in account.set_asides),
        *(words.ribbon_line(name, left) for name, left in account.ribbons),
        *(words.left_out_line(id) for id in account.left_out),
    ]
    if not lines:
        return []
    return [("head", words.account_head("later")), *(("plain", line) for line in lines)]


def report_text(session: Session, account: Account, manner: Manner) -> str:
    """The account as plain text."""
    out = [words_of(session.plan, manner).account_title()]
    signs = {"good": "  ok  ", "bad": "  !!  ", "plain": "      "}
    for tone, line in report_lines(session, account, manner, pieces=True):
        out.append(f"\n{line}" if tone == "head" else f"{signs[tone]}{line}")
    return "\n".join(out) + "\n"


def report_data(session: Session, account: Account) -> dict[str, Any]:
    """The account for a program: plain values, areas in exact square millimetres as text."""
    label, inventory = session.label, Inventory(session.plan)
    return {
        "kit": session.plan.kit.title,
        "finished": account.finished,
        "closes": account.closes,
        "pockets": [
            {
                "label": label(p.pocket),
                "held": p.held,
                "wanted": p.wanted,
                "strays": list(inventory.holding(session.state, p.pocket).strays),
            }
            for p in account.pockets
        ],
        "sheets": [
            {
                "name": s.name,
                "measured": s.measured,
                "area": str(s.area),
                "pieces": str(s.pieces),
                "scraps": str(s.scraps),
                "by_hand": str(s.by_hand),
                "uncut": str(s.uncut),
                "piece_count": s.piece_count,
                "scrap_count": s.scrap_count,
                "closes": s.closes,
            }
            for s in account.sheets
        ],
        "bases": [
            {"name": name, "page": page, "stacked": place == Spot.STACK}
            for name, page, place in account.bases
        ],
        "scraps": {
            "have": len(account.scraps) + account.extra,
            "expected": account.scraps_expected,
            "unknown": account.extra,
        },
        "warnings": [
            {
                "kind": str(w.kind),
                "items": list(w.items),
                "pocket": label(w.pocket) if w.pocket >= 0 else "",
            }
            for w in account.warnings
        ],
        "moved": [{"item": id, "from": was, "to": now} for id, was, now in account.moved],
        "mended": [
            {"what": what, "where": where, "way": way} for what, where, way in account.mended
        ],
        "lost": [
            {"name": name, "pocket": label(pocket), "count": count}
            for name, pocket, count in account.lost
        ],
        "mistakes": {str(kind): count for kind, count in account.mistakes},
        "set_asides": [{"name": a.name, "pages": list(a.pages)} for a in account.set_asides],
        "left_out": list(account.left_out),
        "cuts": account.cuts,
        "seconds": round(session.pace.spent.total_seconds()),
    }


def save_report(text: str, folder: Path, title: str, at: datetime) -> Path:
    """Save a report beside the sessions.

    Args:
        text: The report.
        folder: Where to.
        title: The title of the kit, which goes into its name.
        at: The time that goes into its name.

    Returns:
        The file.

    Raises:
        OSError: It can't be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    path = free_path(folder / f"{slug(title)}-account-{at:%Y%m%d-%H%M%S}.txt")
    with path.open("x", encoding="utf-8") as file:
        file.write(text)
    return path
