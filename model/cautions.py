"""Which cautions stand at a step, by their codes; the words are in `model.language`."""

from __future__ import annotations

from fractions import Fraction

from model.geometry import Sure
from model.kit import Verb
from model.manner import Manner
from model.plan import Step, StepKind
from model.session import Session

SLIVER = Fraction(1905, 100)
"""3/4 in: strips narrower than this are not held by hand at the blade (common practice)."""

MAY_BE_PUT_AWAY = frozenset(("blade", "sliver", "knife", "small", "solvent", "heat"))
"""Cautions that need not be read again in a sitting in which they were put away."""


def cautions_at(session: Session, step: Step, manner: Manner) -> tuple[str, ...]:
    """The cautions that apply at a step.

    Args:
        session: The session, which knows what was read in this sitting.
        step: The step that is due.
        manner: How the crafter is told things.

    Returns:
        ``blade`` and ``knife`` at the first step of a sitting that uses one; ``sliver``,
        ``small``, ``solvent`` and ``heat`` wherever they apply, until one of them was put away
        in this sitting; ``unfit`` and ``far``, which are no cautions but measures, always.
    """
    codes: list[str] = []
    items = session.plan.items
    if step.verb is Verb.TRIM:
        codes.append("blade")
        if step.kind is StepKind.CUT and _narrowest(session, step) < SLIVER:
            codes.append("sliver")
    if manner.must_measure(session.plan, step):
        codes.append("unfit")
    elif step.kind is StepKind.CUT and step.mark and step.mark.sure is Sure.EXACT:
        reading = manner.reading(session.plan, step)
        codes += ["far"] * (reading is not None and reading.far)
    if step.verb is not None and step.verb.cuts_with == "knife":
        codes.append("knife")
    if step.kind is StepKind.FILL:
        kind = items[step.makes[0]].kind
        if kind is not None and kind.small:
            codes.append("small")
    if step.work is not None:
        codes += step.work.hazards
    put_away = session.cautioned & MAY_BE_PUT_AWAY
    return tuple(code for code in dict.fromkeys(codes) if code not in put_away)


def _narrowest(session: Session, step: Step) -> Fraction:
    """The least that is held, or comes off, at a cut, in mm."""
    parts = [session.plan.items[id].stock for id in step.makes]
    sides = [side.value for part in parts if part for side in (part.width, part.height)]
    return min([*sides, step.mark.value if step.mark else SLIVER])
