"""The pilot waits until all is done, and no longer."""

from __future__ import annotations

import asyncio
from time import monotonic

from textual import app as textual_app
from textual import pilot as textual_pilot
from textual.app import App
from textual.widgets import Label

from tests.settled import messages_left, settled, unpainted


class Chain(App[None]):
    """A key that sets off a row of messages, each after the last was heard and painted."""

    BINDINGS = [("x", "go", "Go")]  # noqa: RUF012
    done = 0

    def compose(self):
        yield Label("0")

    def action_go(self) -> None:
        self.done += 1
        self.query_one(Label).update(str(self.done))
        if self.done % 20:
            (self.call_later if self.done % 3 else self.call_after_refresh)(self.action_go)


def test_it_is_in_force() -> None:
    assert vars(textual_app)["wait_for_idle"] is vars(textual_pilot)["wait_for_idle"] is settled


async def test_nothing_is_left_to_do_after_a_key() -> None:
    app = Chain()
    async with app.run_test() as pilot:
        for presses in range(1, 6):
            await pilot.press("x")
            await pilot.pause()
            assert app.done == 20 * presses
            assert not messages_left(app) and not unpainted(app.screen)


async def test_another_size_is_there_at_once() -> None:
    app = Chain()
    async with app.run_test() as pilot:
        for size in ((60, 20), (120, 40), (80, 24)):
            await pilot.resize_terminal(*size)
            assert app.screen.size == size


async def test_who_never_rests_is_not_waited_for_long() -> None:
    app = Chain()
    async with app.run_test():

        async def restless() -> None:
            while True:
                await asyncio.sleep(0)

        task = asyncio.create_task(restless())
        begin = monotonic()
        await settled(0, 0.1)
        task.cancel()
        assert 0.1 <= monotonic() - begin < 5
