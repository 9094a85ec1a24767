"""The part of the benchmark about people who err: what is warned of, what a count finds."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from tests.bench_parts import Row, at_most
from tests.bench_terminal import ROOT
from tests.simulated import Crafter
from tests.simulated_outcome import RATES, Outcome, Slip


def errors(runs: int) -> list[Row]:
    """Many runs of the large demo kit by a simulated crafter.

    Args:
        runs: How many.
    """
    from model.find import Finder
    from model.likeness import LookAlikes
    from model.reading import load_kit

    read = load_kit(ROOT / "kits" / "harbour.toml")
    assert read.plan is not None, read.findings
    looks, finder = LookAlikes(read.plan), Finder(read.plan)
    outcomes = [Crafter(read, seed, looks, finder).run() for seed in range(runs)]
    return [*_figures(outcomes), *_by_kind(outcomes), *_not_seen(outcomes)]


def _sum(outcomes: list[Outcome], of: Callable[[Outcome], Counter[Slip]]) -> Counter[Slip]:
    return sum(map(of, outcomes), Counter())


def _share(part: int, whole: int) -> str:
    return f"{100 * part / whole:.1f} %  ({part:,} of {whole:,})" if whole else "none"


def _at_least(what: str, part: int, whole: int, goal: float) -> Row:
    met = None if not whole else part >= goal * whole
    return Row(what, _share(part, whole), f">= {100 * goal:g} %", met)


def _figures(outcomes: list[Outcome]) -> list[Row]:
    served = _sum(outcomes, lambda o: o.served).total()
    told = _sum(outcomes, lambda o: o.told).total() - served
    warned = _sum(outcomes, lambda o: o.warned).total() - served
    astray = sum(o.astray for o in outcomes)
    found, lost = sum(o.found for o in outcomes), sum(len(o.lost) for o in outcomes)
    right = sum(o.right_actions for o in outcomes)
    alarms, notices = (
        100 * sum(counts) / right
        for counts in ([o.false_alarms for o in outcomes], [o.notices for o in outcomes])
    )
    looked = sum(o.proposals for o in outcomes) / max(1, astray)
    rates = ", ".join(f"{slip} {100 * rate:g} %" for slip, rate in RATES.items())
    return [
        Row(f"{len(outcomes):,} runs of harbour", f"{right:,} right actions; {rates}"),
        _at_least("told wrong: warned of at once", warned, told, 0.99),
        _at_least("told nothing: found by the count and put right", found, astray, 1.0),
        Row("   never found", _share(lost, astray)),
        _at_least(
            "cut up in another's stead: named as missing",
            sum(o.named for o in outcomes),
            sum(o.short for o in outcomes),
            1.0,
        ),
        Row("   places looked at for a thing that is found", f"{looked:.2f}"),
        at_most("false warnings per hundred right actions", alarms, 0, ""),
        at_most("look-alikes named per hundred right actions", notices, 3, ""),
    ]


def _by_kind(outcomes: list[Outcome]) -> list[Row]:
    rows = []
    for slip in Slip:
        told, served, warned, unaware = (
            _sum(outcomes, of)[slip]
            for of in (
                lambda o: o.told,
                lambda o: o.served,
                lambda o: o.warned,
                lambda o: o.unaware,
            )
        )
        astray, lost = (
            sum(counts[str(slip)] for counts in each)
            for each in ([o.astray_by for o in outcomes], [o.lost_by for o in outcomes])
        )
        chances = _sum(outcomes, lambda o: o.chances)[slip]
        made = told + unaware
        rate = 100 * made / max(1, chances)
        said = (
            f"{made:,} slips of {chances:,} chances, {rate:.2f} %; "
            f"told {told - served:,}, warned {warned - served:,}; untold {unaware:,}, "
            f"things astray {astray:,}, found {astray - lost:,}"
        )
        rows.append(Row(f"   {slip}", said))
    return rows


def _not_seen(outcomes: list[Outcome]) -> list[Row]:
    """What nobody can see, and why: numbers from the runs, reasons from how it works."""
    served = _sum(outcomes, lambda o: o.served).total()
    unaware = _sum(outcomes, lambda o: o.unaware)
    unseen = _sum(outcomes, lambda o: o.unseen).total()
    lost = sum((o.lost_by for o in outcomes), Counter())
    kinds = ", ".join(f"{kind}: {many}" for kind, many in lost.items())
    return [
        Row("not seen at once: what is told as if it were right", f"{unaware.total():,} slips"),
        Row("", "why: dryfit sees no paper, only keys; the right key says that all is well"),
        Row("never seen: things that nothing tells apart", f"{unseen:,} untold, {served:,} told"),
        Row("", "why: every place holds as many of the kind as it wants; no harm is done"),
        Row(
            "never found: the wrong piece cut up or worked on",
            f"{sum(o.unshown for o in outcomes):,} of {sum(o.spoilt for o in outcomes):,} untold",
        ),
        Row("", "why: no pocket is short: it was to be cut up itself, or was slit or punched and"),
        Row("", "put back; a count asks how many there are, and measures nothing"),
        Row("never seen: what was not counted", "a count must be made, and be right"),
        Row("", "why: here every pocket is counted once, at the end, by one who counts well"),
        Row(
            "not found in these runs, by kind",
            kinds or "none",
        ),
    ]
