"""Runs that are pressed in the real program end with an error when a key no longer works."""

from __future__ import annotations

import pytest

from model.folders import demo_kit
from model.plan import StepKind
from model.reading import load_kit
from model.settings import Settings
from tests.bench_keys import MISTAKES, KeyBroken, run
from tui.screens.table import TableScreen


async def test_space_is_pressed_once_for_each_step_and_each_filing(tmp_path):
    path = demo_kit("postcard")
    assert path is not None
    plan = load_kit(path).plan
    assert plan is not None
    cut = [id for id in plan.items if id in plan.made_by and id not in plan.taken_by]
    filed = [id for id in cut if plan.steps[plan.made_by[id]].kind is not StepKind.FILL]
    made = await run("postcard", tmp_path, pockets=False)
    assert made == {"space": len(plan.steps) + len(filed) + 1}  # and one for the account


async def test_a_pocket_key_says_cut_and_filed_at_once(tmp_path):
    alone = await run("postcard", tmp_path / "a", pockets=False)
    both = await run("postcard", tmp_path / "b", pockets=True)
    assert both.total() < alone.total()
    assert both["1"] > 2


@pytest.mark.parametrize("pockets", [False, True])
async def test_mistakes_cost_a_key_each_and_a_cut_told_too_soon_three(tmp_path, pockets):
    faultless = await run("cards", tmp_path / "a", pockets)
    erring = await run("cards", tmp_path / "b", pockets, len(MISTAKES))
    soon = MISTAKES.count("too soon")
    assert erring.total() == faultless.total() + len(MISTAKES) - soon + 3 * soon


@pytest.mark.parametrize(
    "action", ["action_did", "action_digit", "action_put_right", "action_scrap", "action_undo"]
)
async def test_a_key_that_does_nothing_is_noticed(tmp_path, monkeypatch, action):
    monkeypatch.setattr(TableScreen, action, lambda self, *_: None)
    with pytest.raises(KeyBroken):
        await run("cards", tmp_path, True, len(MISTAKES))


async def test_the_keys_are_those_in_force(tmp_path):
    settings = Settings(keys={"table": {"right": "x"}})
    made = await run("cards", tmp_path, True, len(MISTAKES), settings)
    assert made["x"] == MISTAKES.count("pocket, put right") + MISTAKES.count("scrap")
    assert not made["p"]
