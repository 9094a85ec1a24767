"""The account as a report that can be printed, saved, or read by a program."""

from __future__ import annotations

from datetime import datetime
from fractions import Fraction
from pathlib import Path
from typing import Any

from model.account import Account
from model.length import Unit
from model.manner import Manner
from model.moment import alerts_of
from model.session import Session
from model.state import Spot
from model.wording import English

_SQUARE_INCH = Fraction(127, 5) ** 2


def area_text(area: Fraction, manner: Manner) -> str:
    """An area: square inches with two decimals, or whole square centimetres with one."""
    if manner.style.unit is Unit.IN:
        return f"{_decimal(area / _SQUARE_INCH, 2)} sq in"
    return f"{_decimal(area / 100, 1)} sq cm"


def _decimal(value: Fraction, places: int) -> str:
    scaled = round(value * 10**places)
    whole, rest = divmod(scaled, 10**places)
    tail = f".{rest:0{places}}".rstrip("0").rstrip(".")
    return f"{whole}{tail}"


def report_lines(session: Session, account: Account, manner: Manner) -> list[tuple[str, str]]:
    """The account line by line.

    Args:
        session: The session.
        account: Its account.
        manner: How the crafter is told things.

    Returns:
        Pairs of a tone (``head``, ``good``, ``bad``, ``plain``) and a line.
    """
    words = English(session.plan, manner)
    kit = session.plan.kit
    lines: list[tuple[str, str]] = []
    state = (
        "Everything is accounted for."
        if account.closes
        else (
            "Not everything is accounted for yet."
            if account.finished
            else "The run is not finished yet."
        )
    )
    lines.append(("good" if account.closes else "bad", state))
    lines.append(("head", "Pockets"))
    for pocket in account.pockets:
        full = pocket.held == pocket.wanted
        lines.append(
            (
                "good" if full else "bad",
                f"{words.pocket(pocket.pocket)}: {pocket.held} of {pocket.wanted} pieces",
            )
        )
    lines.append(("head", "Sheets: area = pieces + scraps"))
    for sheet in account.sheets:
        if not sheet.measured:
            lines.append(
                (
                    "plain",
                    f"{sheet.name}: not measured; {sheet.piece_count} pieces and "
                    f"{sheet.scrap_count} scraps by count",
                )
            )
            continue
        parts = [f"pieces {area_text(sheet.pieces, manner)}"]
        if sheet.scraps:
            parts.append(f"scraps {area_text(sheet.scraps, manner)}")
        if sheet.by_hand:
            parts.append(f"cut by hand, with trimmings, {area_text(sheet.by_hand, manner)}")
        if sheet.uncut:
            parts.append(f"not cut {area_text(sheet.uncut, manner)}")
        lines.append(
            (
                "good" if sheet.closes else "bad",
                f"{sheet.name}: {area_text(sheet.area, manner)} = {' + '.join(parts)}",
            )
        )
    for name, page, place in account.bases:
        lines.append(("plain", f"{name}: whole, base of page {page}, {words.at_place(place)}"))
    lines.append(("head", "Scraps"))
    have = len(account.scraps) + account.extra
    lines.append(
        (
            "good" if have == account.scraps_expected else "bad",
            f"{have} of {account.scraps_expected} expected",
        )
    )
    for id in account.scraps:
        item = session.plan.items[id]
        lines.append(("plain", f"{words.named(item)} from {item.sheet or 'the packet'}"))
    for id in session.plan.scraps:
        if id not in account.scraps and not account.finished:
            item = session.plan.items[id]
            lines.append(("plain", f"{words.named(item)} from {item.sheet}: still to come"))
    if account.extra:
        lines.append(("bad", f"{account.extra} more that the kit does not know"))
    lines.append(("head", "Warnings"))
    alerts = alerts_of(session.state, words)
    if not alerts:
        lines.append(("good", "none open"))
    for alert in alerts:
        lines.append(("bad", alert.text))
    for kind, count in account.mistakes:
        lines.append(("plain", f"{kind}: {count} in this run, put right or listed above"))
    if account.set_asides:
        lines.append(("head", "Set aside, and called for later"))
    for aside in account.set_asides:
        pages = f"for {words.pages(aside.pages)}" if aside.pages else "for any page"
        lines.append(("plain", f"{aside.name}: {pages}"))
    for name, left in account.ribbons:
        lines.append(("plain", f"{name}: {manner.length(left)} left over"))
    for id in account.left_out:
        step = session.plan.steps[session.plan.step_at[id]]
        lines.append(("plain", f"left out: {words.headline(step)}, {step.sheet or step.id}"))
    lines.append(("head", "Time"))
    lines.append(
        (
            "plain",
            f"{words.duration(session.pace.spent)} at the table, "
            f"{session.state.sittings} sitting{'s' * (session.state.sittings != 1)}, "
            f"{account.cuts} cuts",
        )
    )
    lines.append(("plain", f"kit: {kit.title}{', ' + kit.edition if kit.edition else ''}"))
    return lines


def report_text(session: Session, account: Account, manner: Manner) -> str:
    """The account as plain text."""
    out = [f"dryfit account: {session.plan.kit.title}"]
    signs = {"good": "  ok  ", "bad": "  !!  ", "plain": "      "}
    for tone, line in report_lines(session, account, manner):
        out.append(f"\n{line}" if tone == "head" else f"{signs[tone]}{line}")
    return "\n".join(out) + "\n"


def report_data(session: Session, account: Account) -> dict[str, Any]:
    """The account for a program: plain values, areas in exact square millimetres as text."""
    label = session.label
    return {
        "kit": session.plan.kit.title,
        "finished": account.finished,
        "closes": account.closes,
        "pockets": [
            {"label": label(p.pocket), "held": p.held, "wanted": p.wanted} for p in account.pockets
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
        "mistakes": {str(kind): count for kind, count in account.mistakes},
        "set_asides": [{"name": a.name, "pages": list(a.pages)} for a in account.set_asides],
        "left_out": list(account.left_out),
        "cuts": account.cuts,
        "seconds": round(session.pace.spent.total_seconds()),
    }


def save_report(text: str, folder: Path, at: datetime) -> Path:
    """Save a report beside the sessions.

    Args:
        text: The report.
        folder: Where to.
        at: The time that goes into its name.

    Returns:
        The file.

    Raises:
        OSError: It can't be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"account-{at:%Y%m%d-%H%M%S}.txt"
    path.write_text(text, encoding="utf-8")
    return path
