"""What is postponed and still waits, by name."""

from __future__ import annotations

from model.language.english.words import English
from model.plan import Phase, Role
from model.session import Session

_MOST_WAITING = 8


def waits_of(session: Session, words: English) -> tuple[str, ...]:
    """What waits: sheets put off or kept back, and what lies cut for a later phase.

    Only what is there by now, not what will be cut of it; what lies in its pocket meanwhile
    is not in the way. The names of a few, the first to be taken first, and how many more.

    Args:
        session: The session.
        words: The sentences for this crafter.
    """
    plan, state = session.plan, session.state
    step = state.step()
    phase = max(Phase.TRIMMING, step.phase) if step else Phase.AFTER_FILING
    waiting: dict[str, int] = {}
    for id in (*plan.later, *state.pile):
        users = (*plan.touched_by.get(id, ()), plan.taken_by.get(id, -1))
        ahead = [n for n in users if n >= 0 and plan.steps[n].id not in state.done]
        if not ahead or plan.steps[min(ahead)].phase <= phase:
            continue
        item = plan.items[id]
        name = words.sheet_waits(item.name) if item.role is Role.SHEET else item.name
        waiting[name] = min(*ahead, waiting.get(name, ahead[0]))
    put_off = [words.sheet_put_off(name) for name in state.deferred]
    names = [*put_off, *sorted(waiting, key=waiting.__getitem__)]
    more = len(names) - _MOST_WAITING
    return (*names[:_MOST_WAITING], *([words.more_wait(more)] if more > 0 else []))
