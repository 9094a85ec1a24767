"""People err; the table tells at once what it can know, and the closing count finds the rest.

The rates are our own guess of human error (3 % filed wrong, 2 % mixed up or taken up where a
look-alike is at hand, 1 % missed, 0.5 % called a scrap); `python tests/benchmark.py errors` takes
2,000 runs.
"""

from __future__ import annotations

import pytest

from model.find import Finder
from model.folders import demo_folder
from model.likeness import LookAlikes
from model.reading import load_kit, read_kit
from tests.simulated import Crafter
from tests.simulated_outcome import RATES, Slip, summary


@pytest.mark.parametrize(("name", "runs"), [("harbour", 60), ("cards", 40), ("postcard", 150)])
def test_what_is_told_is_warned_of_and_what_is_not_is_found_by_counting(name, runs):
    read = load_kit(demo_folder() / f"{name}.toml")
    assert read.plan is not None
    looks, finder = LookAlikes(read.plan), Finder(read.plan)
    outcomes = [Crafter(read, seed, looks, finder).run() for seed in range(runs)]
    figures = summary(outcomes)
    assert figures["told"] > 3
    assert figures["warned at once"] >= 0.99
    assert figures["astray at the count"] > 2
    assert figures["never found"] == 0
    assert figures["false alarms per hundred right"] == 0


def test_the_large_kit_names_look_alikes_sparingly():
    read = load_kit(demo_folder() / "harbour.toml")
    assert read.plan is not None
    looks, finder = LookAlikes(read.plan), Finder(read.plan)
    outcomes = [Crafter(read, seed, looks, finder).run() for seed in range(10)]
    figures = summary(outcomes)
    assert 0 < figures["notices per hundred right"] <= 3
    assert any(Slip.WRONG_POCKET in outcome.unaware for outcome in outcomes)


def test_a_count_that_is_not_made_finds_nothing():
    """The figures are worth something: without the count what was done unaware stays wrong."""
    read = load_kit(demo_folder() / "harbour.toml")
    assert read.plan is not None
    looks, finder = LookAlikes(read.plan), Finder(read.plan)
    astray = 0
    for seed in range(20):
        crafter = Crafter(read, seed, looks, finder)
        crafter._settle = lambda recount: None  # type: ignore[method-assign]
        outcome = crafter.run()
        astray += outcome.astray
        assert len(outcome.lost) == outcome.astray
    assert astray > 10


CUT_AGAIN = """
dryfit = 1
title = "Cut again"
note = "Invented."
page = "12 x 12"
pages = 4
scraps = 0
[[precut]]
name = "mat"
face = "white"
size = "4 x 6"
to = "2 to 1·2"
[[precut]]
name = "wide mat"
face = "white"
size = "4 1/2 x 6"
to = "1·2"
[[piece]]
name = "half"
to = "2 to 3·4"
[[step]]
trim = "wide mat"
marks = ["2 1/4"]
gives = "half"
rest = "half"
"""


def test_what_was_cut_up_in_anothers_stead_is_named_as_missing():
    """It is gone, so a count can put nothing right; it can say what the pocket lacks."""
    read = read_kit(CUT_AGAIN)
    assert read.plan is not None, read.findings
    looks, finder = LookAlikes(read.plan), Finder(read.plan)
    spoilt = named = 0
    for seed in range(400):
        outcome = Crafter(read, seed, looks, finder).run()
        assert outcome.named == outcome.short
        assert outcome.spoilt == outcome.short + outcome.unshown
        assert not outcome.lost
        spoilt, named = spoilt + outcome.spoilt, named + outcome.named
    assert 0 < named == spoilt


def test_each_goes_wrong_as_often_as_is_said():
    read = load_kit(demo_folder() / "harbour.toml")
    assert read.plan is not None
    looks, finder = LookAlikes(read.plan), Finder(read.plan)
    outcomes = [Crafter(read, seed, looks, finder).run() for seed in range(120)]
    for slip, rate in RATES.items():
        chances = sum(outcome.chances[slip] for outcome in outcomes)
        slips = sum(outcome.told[slip] + outcome.unaware[slip] for outcome in outcomes)
        assert chances > 300
        within = 4 * (rate * (1 - rate) / chances) ** 0.5
        assert abs(slips / chances - rate) < within, slip
