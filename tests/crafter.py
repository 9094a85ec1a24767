"""A crafter in a process of their own, to be killed: ``crafter.py FOLDER SEED``.

Goes on with the session in the folder, or begins one of the large demo kit, and does things for
ever. First it prints ``resumed`` with the digest of the state that it found; then a line for
each thing said that the session says is on the disk: its number and what it was.
"""

from __future__ import annotations

import hashlib
import random
import sys
from pathlib import Path

from model.event import Entry, to_record
from model.folders import demo_folder
from model.reading import load_kit
from model.rescue.mending import Mending
from model.session import Session
from model.state import State
from tests.mendings import exchanged
from tests.muddle import muddle


def digest_of(state: State) -> str:
    """A short text that two states share only when they are equal."""
    snapshot = state.snapshot()
    told = [
        (key, sorted(map(repr, value.items())) if isinstance(value, dict) else sorted(value)
         if isinstance(value, set) else value)
        for key, value in sorted(snapshot.items())
    ]  # fmt: skip
    return hashlib.sha256(repr(told).encode()).hexdigest()[:16]


def said(entry: Entry) -> str:
    """One line about an entry."""
    record = to_record(entry)
    words = [f"{key}={value}" for key, value in record.items() if key not in ("at", "event")]
    return f"{entry.n} {' '.join(words)}".replace("\n", "\\n")


class Noted(Session):
    """A session that prints what it acknowledges."""

    def _apply(self, entry: Entry) -> None:
        super()._apply(entry)
        if self.loud and self.unsaved == "":
            print(said(entry), flush=True)

    loud = False


def main(folder: Path, seed: int) -> None:
    """Work until killed."""
    rng = random.Random(seed)
    kit = demo_folder() / "harbour.toml"
    found = sorted(folder.glob("[!.]*.toml"))
    session = Noted.resume(found[0]) if found else Noted.start(load_kit(kit), kit, folder)
    print("resumed", digest_of(session.state), session.said, flush=True)
    session.loud = True
    while True:
        if session.state.due().over:
            for _ in range(rng.randint(1, 60)):
                session.undo()
        if rng.random() < 0.03:
            step = session.state.step()
            loads = exchanged(rng, session.plan)
            session.mend(Mending(step.id if step else "", loads), "piece", "", "role")
        muddle(session, rng, least=25)


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
