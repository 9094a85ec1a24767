"""Values that can be put back, and rows from which anything can be taken."""

from __future__ import annotations

import random

from hypothesis import given
from hypothesis import strategies as st

from model.ledger import GONE, Chains, Changes, Ledger, take_back


@given(st.randoms(use_true_random=False))
def test_rows_are_lists_and_all_can_be_taken_back(rng: random.Random) -> None:
    """Against plain lists, which are the outside check."""
    ledger = Ledger()
    chains = Chains(ledger)
    lists: dict[str, list[str]] = {"a": [], "b": []}
    log: list[tuple[dict[str, list[str]], Changes]] = []
    for _ in range(40):
        if log and rng.random() < 0.25:
            lists, changes = log.pop()
            take_back(changes)
        else:
            before = {row: list(names) for row, names in lists.items()}
            row = rng.choice("ab")
            everything = lists["a"] + lists["b"]
            name = rng.choice("uvwxyz")
            if name in everything:
                row = "a" if name in lists["a"] else "b"
                lists[row].remove(name)
                chains.remove(row, name)
            else:
                lists[row].append(name)
                chains.add(row, name)
            log.append((before, ledger.take()))
        for row, names in lists.items():
            assert list(chains.names(row)) == names
            assert chains.first(row) == (names[0] if names else None)
            assert chains.last(row) == (names[-1] if names else None)
        assert chains.rows() == {row: tuple(names) for row, names in lists.items() if names}


def test_taking_back_restores_what_was_not_there() -> None:
    ledger = Ledger()
    values = {"one": 1, "two": 2}
    ledger.set(values, "one", GONE)
    ledger.set(values, "three", 3)
    ledger.set(values, "three", 4)
    ledger.set(values, "nothing", GONE)
    ledger.set(values, "two", 5)
    assert values == {"three": 4, "two": 5}
    take_back(ledger.take())
    assert values == {"one": 1, "two": 2}
    assert ledger.take() == []
