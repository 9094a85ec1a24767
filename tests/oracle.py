"""What must be true of a session at every moment, worked out anew from where things lie.

Nothing here uses the running counts of the state: everything is counted again over the whole
kit, so that a count that went astray is seen.
"""

from __future__ import annotations

import re
from collections import Counter

from model.account import account_of
from model.alerts import alerts_of, places_of
from model.inventory import Inventory
from model.language.english.grammar import number_word
from model.language.english.words import English
from model.manner import Manner
from model.plan import Item, Plan, Role
from model.session import Session
from model.state import Spot, State
from model.warning import WarningKind


def is_piece(plan: Plan, id: str) -> bool:
    """Whether a thing is a piece that goes into a pocket by itself."""
    item = plan.items[id]
    return item.role is Role.PIECE and not item.partner and bool(plan.groups[item.group].wanted)


def pieces_of(plan: Plan) -> list[Item]:
    """Pieces that go into a pocket by themselves."""
    return [item for item in plan.items.values() if is_piece(plan, item.id)]


def waived(state: State, item: str) -> bool:
    """Whether a thing never came, since the step that makes it was left out."""
    made = state.plan.made_by.get(item)
    return (
        state.where(item) == Spot.NOWHERE
        and made is not None
        and state.done.get(state.plan.steps[made].id) is False
    )


def check_places(state: State) -> None:
    """A thing is at one place, and pile, scraps and strays say the same of it."""
    plan = state.plan
    at = Counter(state.place.values())
    assert state.place.keys() <= plan.items.keys()
    assert len(state.pile) == len(set(state.pile)) == at[Spot.PILE]
    assert all(state.where(item) == Spot.PILE for item in state.pile)
    to_file = [
        item for item in state.pile if plan.items[item].role is Role.SCRAP or is_piece(plan, item)
    ]
    assert state.waiting == len(to_file)
    assert state.top_to_file == (to_file[-1] if to_file else None)
    assert state.top == (state.pile[-1] if state.pile else None)
    assert state.scraps == at[Spot.SCRAPS] + state.extra
    for item in plan.items.values():
        if item.partner:
            beside = state.where(item.partner)
            own = state.where(item.id)
            assert own == beside if beside >= 0 else own in (Spot.NOWHERE, Spot.ASIDE)


def check_warnings(state: State) -> None:
    """Each thing that lies wrong is named by one warning, and none names anything else."""
    named = Counter(
        item
        for warning in state.warnings.values()
        for item in warning.items
        if warning.kind is not WarningKind.TWICE
    )
    wrong: set[str] = set()
    for item in state.plan.items.values():
        place = state.where(item.id)
        if item.partner:
            continue
        scrap, piece = item.role is Role.SCRAP, is_piece(state.plan, item.id)
        astray = place >= 0 and (not piece or state.is_stray(item.id))
        lost = place == Spot.MISSING
        if astray or lost or (place == Spot.SCRAPS and not scrap):
            wrong.add(item.id)
    assert named == Counter(wrong)
    assert state.left.keys() <= state.warnings.keys()
    extras = [w for w in state.warnings.values() if w.kind is WarningKind.EXTRA_SCRAP]
    assert len(extras) == state.extra
    for id, warning in state.warnings.items():
        assert id == warning.id
        assert len(warning.items) == len(set(warning.items))
        if warning.kind in (WarningKind.WRONG_POCKET, WarningKind.TOO_MANY):
            assert all(state.where(item) == warning.pocket for item in warning.items)
            assert all(state.belongs(item) != warning.pocket for item in warning.items)
        if warning.kind is WarningKind.TWICE:
            assert all(state.where(item) >= 0 for item in warning.items)


def check_alerts(session: Session) -> None:
    """What each warning says in words is true now."""
    state, plan = session.state, session.plan
    words = English(plan, Manner())
    alerts = alerts_of(state, words)
    assert {alert.warning.id for alert in alerts} == state.warnings.keys()
    for alert in alerts:
        warning, text = alert.warning, alert.text
        if not warning.items:
            continue
        item = plan.items[warning.items[-1]]
        place = state.where(item.id)
        assert item.name in text
        if warning.kind is WarningKind.MISSING:
            assert place == Spot.MISSING
            assert plan.kit.pockets[warning.pocket].label in text
        elif warning.pocket >= 0 and warning.kind is not WarningKind.TWICE:
            assert place == warning.pocket and plan.kit.pockets[place].label in text
        like = [c.id for c in plan.items.values() if c.group == item.group and is_piece(plan, c.id)]
        if "TOO MANY" in text:
            said = re.search(r"holds its (\w+) of", text)
            lying = [c for c in like if state.where(c) == place and not state.is_stray(c)]
            assert said and said[1] == number_word(len(lying))
        if "still to be cut" in text:
            assert item.id in plan.taken_by
            assert plan.steps[plan.taken_by[item.id]].id not in state.done
        if "left out" in text:
            assert state.done[plan.steps[plan.taken_by[item.id]].id] is False
        if "is wanted" in text:
            assert place == Spot.SCRAPS and item.role is not Role.SCRAP
        if "filed already" in text:
            assert place >= 0


def check_counts(state: State) -> None:
    """Pockets hold what lies in them rightly, and never more than they want."""
    plan = state.plan
    held: Counter[int] = Counter()
    for pocket in plan.kit.pockets:
        assert 0 <= state.held(pocket.index) <= state.wanted(pocket.index)
    copies: dict[str, list[Item]] = {}
    for item in pieces_of(plan):
        copies.setdefault(item.group, []).append(item)
    for key, group in plan.groups.items():
        cut_again = sum(state.cut_again(c.id) for c in copies.get(key, ()))
        rooms = 0
        for pocket_index in range(len(plan.kit.pockets)):
            inside = [
                c
                for c in copies.get(key, ())
                if state.where(c.id) == pocket_index and not state.is_stray(c.id)
            ]
            room = state.room(key, pocket_index)
            assert state.right(key, pocket_index) == len(inside) <= room
            assert room <= group.wanted.get(pocket_index, 0)
            rooms += room
            if not cut_again:
                each = 1 + (len(plan.companions.get(inside[0].id, ())) if inside else 0)
                held[pocket_index] += each * len(inside)
        gone = sum(
            waived(state, c.id) or state.where(c.id) in (Spot.TAKEN, Spot.IN_HAND)
            for c in copies.get(key, ())
        )
        assert rooms == len(copies.get(key, ())) - gone
        for c in copies.get(key, ()):
            if state.is_stray(c.id):
                # There is room for it somewhere: that is where it belongs.
                assert state.room(key, state.belongs(c.id)) > state.right(key, state.belongs(c.id))
    if not plan.taken_by.keys() & {item.id for item in pieces_of(plan)}:
        assert {p: n for p, n in held.items() if n} == {
            p.index: state.held(p.index) for p in plan.kit.pockets if state.held(p.index)
        }


def all_right(state: State) -> bool:
    """Whether every piece and every scrap is where it belongs, or never came."""
    plan = state.plan
    for item in plan.items.values():
        place = state.where(item.id)
        if waived(state, item.id):
            continue
        if item.role is Role.SCRAP and place != Spot.SCRAPS:
            return False
        if is_piece(plan, item.id):
            if place >= 0 and not state.is_stray(item.id):
                continue
            if place != Spot.TAKEN:
                return False
        elif (
            not item.partner
            and item.role is not Role.SCRAP
            and (place >= 0 or place == Spot.SCRAPS)
        ):
            return False
    return True


def check_account(session: Session) -> None:
    """Areas add up at every moment, and the account closes exactly when it should."""
    state, plan = session.state, session.plan
    account = account_of(session)
    for sheet in account.sheets:
        if sheet.measured:
            assert sheet.pieces + sheet.scraps + sheet.by_hand + sheet.uncut == sheet.area
            assert min(sheet.pieces, sheet.scraps, sheet.by_hand, sheet.uncut) >= 0
            assert 0 <= sheet.left_out <= sheet.uncut
    over = state.due().over
    assert account.finished == over
    full = all(state.held(p.index) == state.wanted(p.index) for p in plan.kit.pockets)
    calm = not state.warnings
    if over and calm:
        # Companions lie beside their pieces and count as pieces do.
        at = Counter(place for place in state.place.values() if place >= 0)
        assert {p.index: state.held(p.index) for p in plan.kit.pockets} == {
            p.index: at[p.index] for p in plan.kit.pockets
        }
    if over:
        assert (full and calm) == (all_right(state) and calm)
    assert account.closes == (over and calm and all_right(state))


def strays_by_home(state: State) -> Counter[tuple[str, int]]:
    """How many strays of each group belong in each pocket, by what the warnings say."""
    return Counter(
        (state.plan.items[item].group, place)
        for warning in state.warnings.values()
        if warning.kind is not WarningKind.TWICE
        for item, place in zip(warning.items, places_of(state, warning), strict=False)
        if is_piece(state.plan, item) and state.where(item) >= 0
    )


def check_inventory(session: Session) -> None:
    """Every row adds up, and all rows together hold each copy once."""
    state, plan = session.state, session.plan
    inventory = Inventory(plan)
    found: Counter[str] = Counter()
    filed: Counter[str] = Counter()
    astray = strays_by_home(state)
    for pocket in plan.kit.pockets:
        holding = inventory.holding(state, pocket.index)
        filed.update(holding.strays)
        for row in holding.rows:
            parts = (row.filed, row.on_pile, row.to_come, row.scrapped, row.elsewhere, row.lost)
            assert min(parts) >= 0
            assert sum(parts) == row.wanted
            assert len(row.copies) == row.filed
            filed.update(row.copies)
            if not row.item.partner:
                found[row.item.group] += row.on_pile
            if not row.item.partner:
                group = row.item.group
                assert row.elsewhere == astray.pop((group, pocket.index), 0)
    assert not astray  # each stray counts where its warning says that it belongs
    assert all(count == 1 for count in filed.values())
    assert set(filed) == {id for id, place in state.place.items() if place >= 0}
    on_pile = Counter(i.group for i in pieces_of(plan) if state.where(i.id) == Spot.PILE)
    assert {g: n for g, n in found.items() if n} == dict(on_pile)


def check_left_out(state: State) -> None:
    """A step is left out when it may be, or when what it works with never comes; else not."""
    plan = state.plan
    copies: dict[str, list[str]] = {}
    for item in plan.items.values():
        copies.setdefault(item.name, []).append(item.id)
    for step in plan.steps:
        work = step.work
        if work is None:
            continue
        lacks = misses = any(waived(state, item) for item in (*step.takes, *step.touches))
        for name in (work.around, *work.needs):
            known = copies.get(name, ())
            never = [id for id in known if waived(state, id)]
            # A copy that is made later, or is cut up by then, is of no use.
            late = [
                id
                for id in known
                if plan.made_by.get(id, -1) > step.index
                or plan.taken_by.get(id, step.index) < step.index
            ]
            lacks |= 0 < len(known) == len(never)
            misses |= 0 < len(known) == len({*never, *late})
        left_out = state.done.get(step.id) is False
        assert left_out or not lacks
        assert step.optional or misses or not left_out


def check_all(session: Session) -> None:
    """All of it."""
    check_places(session.state)
    check_left_out(session.state)
    check_warnings(session.state)
    check_alerts(session)
    check_counts(session.state)
    check_account(session)
    check_inventory(session)
