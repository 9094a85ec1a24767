"""Tests of screens wait until there is nothing left to do, and no longer.

Textual's pilot waits until the processor rests, in steps of 20 ms, three times a key: most of the
time of a test of screens, and a guess on a machine that others use. Here the event loop, the
queues and the screen are asked instead. `install` puts it in force.
"""

from __future__ import annotations

import asyncio
from time import monotonic
from typing import Any

from textual import app as textual_app
from textual import pilot
from textual._context import active_app
from textual._wait import wait_for_idle
from textual.app import App
from textual.screen import Screen

QUIET = 2
"""How often in a row nothing must be left; in between, threads and short timers get a turn."""
LONGEST = 1.0
"""Seconds after which one stops waiting: something may never come to rest."""


def messages_left(app: App[Any]) -> bool:
    """Whether anybody was told something that was not heard yet."""
    pumps = (app, *app.screen.walk_children(with_self=True)) if app.screen_stack else (app,)
    return any(not pump._message_queue.empty() or pump._next_callbacks for pump in pumps)


def unpainted(screen: Screen[Any]) -> bool:
    """Whether a change waits for the screen's next frame."""
    return bool(
        screen._layout_required
        or screen._scroll_required
        or screen._repaint_required
        or screen._recompose_required
        or screen._dirty_widgets
        or screen._callbacks
    )


async def settled(min_sleep: float = 0.02, max_sleep: float = LONGEST) -> None:
    """Wait until nothing is left to do.

    Args:
        min_sleep: Seconds to wait at least.
        max_sleep: Seconds to wait at most.
    """
    app = active_app.get(None)
    if app is None or app._exit:
        await wait_for_idle(min_sleep, max_sleep)
        return
    loop: Any = asyncio.get_running_loop()
    start, quiet = monotonic(), 0
    while (spent := monotonic() - start) < max_sleep:
        await asyncio.sleep(0)
        if loop._ready:
            quiet = 0
        elif app._resize_event is not None:
            quiet = 0
            app._check_resize()  # due at most 1/120 s later anyway
        elif messages_left(app):
            quiet = 0
            await asyncio.sleep(0.001)  # whoever is told waits for something else
        elif app.screen_stack and unpainted(app.screen):
            quiet = 0
            app.screen._on_timer_update()  # the frame is due at most 1/60 s later anyway
        elif quiet < QUIET or spent < min_sleep:
            quiet += 1
            await asyncio.sleep(0.001)
        else:
            return


def install() -> None:
    """Let the pilot wait so, instead of as Textual has it."""
    for module in (textual_app, pilot):
        assert "wait_for_idle" in vars(module), "Textual waits in another way now"
        vars(module)["wait_for_idle"] = settled
