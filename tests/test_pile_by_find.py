"""A pile of cut pieces in random order: each is looked for by what is seen of it, then filed."""

from __future__ import annotations

import random

from model.colour import colour_word
from model.lengthtext import LengthStyle, write_length
from model.plan import Role
from tests.screens import begun, table
from tui.screens.find import FindScreen

KEYS = {" ": "space", "/": "slash", ".": "full_stop"}


def described(session, item: str) -> str:
    """What a crafter reads off a ruler and sees: both sides, either way round, and the colour."""
    thing = session.plan.items[item]
    sides = (thing.stock.width.value, thing.stock.height.value)
    style = LengthStyle(ascii=True)
    size = " x ".join(write_length(side, style) for side in random.Random(item).sample(sides, 2))
    return f"{size} {colour_word(thing.paper.side(thing.use).rgb)}"


async def test_a_shuffled_pile_is_filed_by_find_alone(tmp_path) -> None:
    session = begun("harbour", tmp_path)
    session.pace_by(True)
    rng, filed, looked = random.Random(7), 0, 0
    async with table(session) as (pilot, screen):
        while not session.state.due().over and filed < 40:
            due = session.state.due()
            if due.item is None:
                assert session.next().taken
                continue
            screen.look_again()
            pile = [
                id for id in session.state.pile
                if session.plan.items[id].role is Role.PIECE and session.state.belongs(id) >= 0
                and session.plan.items[id].stock is not None
                and session.plan.items[id].stock.measured
            ]  # fmt: skip
            if not pile:
                assert session.next().taken
                continue
            item = rng.choice(pile)
            wanted = session.plan.items[item].name
            await pilot.press("f")
            assert isinstance(pilot.app.screen, FindScreen)
            await pilot.press(*(KEYS.get(c, c) for c in described(session, item)))
            await pilot.pause()
            names = [m.sought.item.name for m in pilot.app.screen._found.matches]
            assert wanted in names
            looked += 1
            await pilot.press(*["down"] * names.index(wanted), "enter")
            assert session.plan.items[screen.moment.due.item].name == wanted
            chosen = screen.moment.due.item
            home = session.state.belongs(chosen)
            await pilot.press("space")
            assert session.state.where(chosen) == home
            filed += 1
    assert looked == filed == 40
    assert not session.state.warnings
