"""What is postponed and still waits, so that nothing that is kept back is forgotten."""

from __future__ import annotations

from model.plan import Phase, Role
from model.session import Session

_MOST_WAITING = 8
"""Names that are told; of more only how many."""


def waits_of(session: Session) -> tuple[str, ...]:
    """What is postponed: sheets that are kept back, and what lies cut for a later phase.

    Only what is there by now, not what will be cut of it; what lies in its pocket meanwhile
    is not in the way. The names of a few, the first to be taken first, and how many more.
    """
    plan, state = session.plan, session.state
    step = state.step()
    phase = max(Phase.TRIMMING, step.phase) if step else Phase.AFTER_FILING
    waiting: dict[str, int] = {}
    for id in (*plan.sheets, *state.pile):
        users = (*plan.touched_by.get(id, ()), plan.taken_by.get(id, -1))
        ahead = [n for n in users if n >= 0 and plan.steps[n].id not in state.done]
        if not ahead or plan.steps[min(ahead)].phase <= phase:
            continue
        item = plan.items[id]
        name = f"sheet {item.name}" if item.role is Role.SHEET else item.name
        waiting[name] = min(*ahead, waiting.get(name, ahead[0]))
    names = sorted(waiting, key=waiting.__getitem__)
    more = len(names) - _MOST_WAITING
    return (*names[:_MOST_WAITING], *([f"{more} more"] if more > 0 else []))
