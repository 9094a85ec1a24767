"""From a kit to its plan: the cuts are replayed, and everything is accounted for.

All errors of meaning are collected in one go. What hangs on a broken part is excused,
so that one mistake is told once.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TypeVar

from model.books import Books, TooManyPieces
from model.closing_checks import check_ends, make_groups, wanted_in_the_end
from model.finding import Findings
from model.handwork import check_handwork, cut_shapes, mark_piece
from model.kit import Kit, Verb, Wait, Work
from model.limits import MOST_PIECES
from model.loads import check_cuts, check_falling, check_load, run_load
from model.names import WORKABLE, Doubts
from model.opening import open_kit, unpack_sheets
from model.plan import Phase, Plan, Role, Step, StepKind, pocket_keys
from model.relations import relate
from model.taking import KEPT, check_named, take

T = TypeVar("T")
_PHASES = {
    Wait.NO: Phase.TRIMMING,
    Wait.TRIMMER_AWAY: Phase.TRIMMER_AWAY,
    Wait.AFTER_FILING: Phase.AFTER_FILING,
}
_PARTS = {"marks", "widths", "gives", "rest"}
_LOADED = (Verb.TRIM, Verb.KNIFE, Verb.TEAR)


def compile_kit(
    kit: Kit,
    findings: Findings,
    doubts: Doubts | None = None,
    phased: Sequence[tuple[Phase, Work]] | None = None,
) -> Plan | None:
    """Work out all steps and things of a kit.

    Args:
        kit: The kit.
        findings: Where errors go; the plan is of use only when none is grave.
        doubts: What could not be read.
        phased: The steps in the order in which they are done, each with its phase, where that
            does not follow from the kit: for a plan that was mended.

    Returns:
        The plan; None when the kit is too large to be worked out.
    """
    books = Books(kit, findings, doubts or Doubts())
    if phased is None:
        phases = zip(phases_of(kit), kit.work, strict=True)
        phased = sorted(phases, key=lambda pair: pair[0].value)
    for phase, work in phased:
        for give in work.parts:
            books.later.setdefault(give.name, phase)
    now: Work | None = None
    try:
        unpack_sheets(books)
        order, stack = open_kit(books, [work for _, work in phased])
        away = False
        for phase, work in phased:
            now = work
            if phase >= Phase.TRIMMER_AWAY and not away:
                away = True
                if any(step.blade for step in books.steps):
                    books.put(Step(*books.next("away"), StepKind.AWAY, phase))
            _run(books, work, phase)
    except TooManyPieces:
        findings.grave(
            "too-many",
            now.where if now else (),
            f"the kit makes more than {MOST_PIECES} things in all",
            "make several kits of it",
        )
        return None
    check_ends(books, order)
    return _finish(books, order, stack)


def phases_of(kit: Kit) -> list[Phase]:
    """The phase of each of the author's steps: its own, or what its paper waits for."""
    waits = {sheet.name: sheet.wait for sheet in kit.sheets}
    phases: list[Phase] = []
    for work in kit.work:
        wait = work.wait
        if work.verb is not Verb.DO:
            wait = max(wait, waits.get(work.take, Wait.NO))
        for give in work.parts:
            if not give.scrap:
                waits[give.name] = max(wait, waits.get(give.name, Wait.NO))
        phases.append(_PHASES[wait])
    return phases


def _finish(books: Books, order: Sequence[str], stack: Sequence[str]) -> Plan:
    kit = books.kit
    groups = make_groups(books)
    keys, keys_of = pocket_keys(kit)
    companions: dict[str, list[str]] = defaultdict(list)
    for item in books.items.values():
        if item.partner:
            companions[item.partner].append(item.id)
    return Plan(
        kit=kit,
        items=books.items,
        steps=tuple(books.steps),
        step_at={step.id: step.index for step in books.steps},
        made_by=books.made_by,
        taken_by=books.taken_by,
        groups=groups,
        companions=_frozen(companions),
        scraps=tuple(i.id for i in books.items.values() if i.role is Role.SCRAP),
        wanted=wanted_in_the_end(books, groups.values(), companions),
        stack=tuple(stack),
        order=tuple(order),
        loads=_frozen(books.loads),
        keys=keys,
        keys_of=keys_of,
        by_sheet=_frozen(books.by_sheet),
        touched_by=_frozen(books.touched_by),
        ties=relate(kit),
        sheets=books.sheets,
        copies=_frozen(books.made),
        later=tuple(name for name in books.sheets if _is_used_later(books, name)),
    )


def _is_used_later(books: Books, sheet: str) -> bool:
    """Whether something is done with a sheet itself after trimming."""
    users = (*books.touched_by.get(sheet, ()), books.taken_by.get(sheet, -1))
    return any(n >= 0 and books.steps[n].phase > Phase.TRIMMING for n in users)


def _frozen(lists: Mapping[str, list[T]]) -> dict[str, tuple[T, ...]]:
    return {key: tuple(value) for key, value in lists.items()}


# The author's steps


def _run(books: Books, work: Work, phase: Phase) -> None:
    _check_needs(books, work)
    if work.verb is Verb.DO:
        books.put(Step(*books.next(f"do:{work.take}"), StepKind.DO, phase, work=work))
        return
    lost = books.doubts.lost_of(work.where)
    if "wait" not in lost:
        _check_phase(books, work, phase)
    whole = True
    if work.verb not in _LOADED:
        check_handwork(books, work, phase)
    elif not lost & _PARTS:
        whole = check_load(books, work)
    unworkable = lost - WORKABLE
    if unworkable:
        check_named(books, work)
    if unworkable or work.take in books.doubts.names:
        if work.verb in _LOADED:
            check_cuts(books, work)
        books.doubts.names.add(work.take)
        books.taken.add(work.take)
        books.excuse(work)
        return
    for number in range(work.times):
        item = take(books, work, number)
        if item is None:
            books.doubts.takes |= not (work.take in books.later or work.take in books.kit.kinds)
            books.excuse(work)
            if work.verb in _LOADED and number == 0:
                check_falling(books, work)
            return
        up = work.up if work.up_said else "reverse" if item.lying.reverse else "face"
        now = work if up == work.up else replace(work, up=up)
        if work.verb in _LOADED:
            run_load(books, now, phase, item, whole)
        elif work.verb in KEPT:
            mark_piece(books, now, phase, item)
        else:
            cut_shapes(books, now, phase, item)


def _check_needs(books: Books, work: Work) -> None:
    """What a step calls for beside what it takes is there by then."""
    for need in work.needs:
        if need not in books.later or need in books.ready or books.doubts.order_unknown():
            continue
        if not books.doubts.silent(need):
            books.findings.grave(
                "not-yet-made",
                (*work.where, "needs"),
                f'"{need}" does not exist yet: a step that comes later makes it',
                "move this step after it, or let it wait as long",
            )


def _check_phase(books: Books, work: Work, phase: Phase) -> None:
    said_here = work.wait is not Wait.NO or work.take in books.sheets
    if work.verb is not Verb.TRIM or phase is Phase.TRIMMING or not said_here:
        return
    if phase is Phase.TRIMMER_AWAY:
        books.findings.grave(
            "trimmer-away",
            (*work.where, "trim"),
            f'"{work.take}" waits until the trimmer is away, and is trimmed then',
            "write knife or tear instead of trim, or take the wait away",
        )
    else:
        books.findings.remark(
            "trimmer-again",
            (*work.where, "trim"),
            f'"{work.take}" is trimmed after filing, when the trimmer has been put away',
            "knife would do without it",
        )
