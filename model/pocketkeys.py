"""The keys of a pocket, as few as will do."""

from __future__ import annotations

from collections.abc import Sequence

from model.plan import Plan


def keys_of(plan: Plan, pocket: int) -> tuple[str, ...]:
    """What is pressed for a pocket, as little as will do, and runs as one.

    ``1`` and ``2``; ``1-4``; ``2`` where 1 begins other pages. Where every page of it
    begins others, one of its pages and then ``Enter``: zeros in front are nobody's way
    of writing a page.

    Args:
        plan: The plan.
        pocket: The pocket's index.
    """
    plain = [key for key in plan.keys_of[pocket] if len(key) == 1 or key[0] != "0"]
    if not plain:
        return (*key_runs([str(page) for page in plan.kit.pockets[pocket].pages]), "Enter")
    return key_runs([key for key in plain if len(key) == len(plain[0])])


def key_runs(keys: Sequence[str]) -> tuple[str, ...]:
    """Keys with three or more that follow each other as one: ``1-4``; two stay two."""
    runs: list[list[str]] = []
    for key in keys:
        if runs and int(key) == int(runs[-1][-1]) + 1:
            runs[-1].append(key)
        else:
            runs.append([key])
    said: list[str] = []
    for run in runs:
        said += run if len(run) < 3 else [f"{run[0]}-{run[-1]}"]
    return tuple(said)
