"""Help for tests of plain lines: a real process, or a desk within this one."""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path

from model.session import Session
from model.settings import Settings
from tui.lines_choices import Choices
from tui.lines_desk import Desk
from tui.lines_voice import Voice

ROOT = Path(__file__).resolve().parent.parent


def command(*args: str) -> list[str]:
    return [sys.executable, "-m", "tui.command", "lines", *args]


def surroundings(home: Path) -> dict[str, str]:
    return {"DRYFIT_HOME": str(home), "PATH": "/usr/bin:/bin", "LC_ALL": "C"}


def spoken(home: Path, said: str, *args: str) -> subprocess.CompletedProcess[str]:
    """What a real process answers to some lines."""
    return subprocess.run(
        command(*args), input=said, capture_output=True, text=True, encoding="utf-8",
        cwd=ROOT, check=False, env=surroundings(home),
    )  # fmt: skip


def session_in(home: Path) -> Path:
    (path,) = (home / "sessions").glob("*.toml")
    return path


class Sitting:
    """A desk within this process; `say` gives back what one line is answered with."""

    def __init__(
        self,
        session: Session,
        as_json: bool = False,
        ascii: bool = True,
        teach: bool = False,
        settings: Path | None = None,
        language: str = "",
    ) -> None:
        self.hears, self.says = io.StringIO(), io.StringIO()
        self.session = session
        chosen = Settings(ascii=ascii, language=language)
        self.choices = Choices(chosen, settings)
        voice = Voice(self.hears, self.says, as_json, ascii, chosen.phrases.typed)
        self.desk = Desk(session, self.choices, voice, teach)
        self.desk.tell()

    def say(self, line: str, *then: str) -> str:
        """Say a line, with the answers to what it asks."""
        self.hears.seek(0)
        self.hears.truncate()
        self.hears.write("".join(f"{answer}\n" for answer in then))
        self.hears.seek(0)
        start = self.says.tell()
        self.desk.do(line)
        assert not then or not self.hears.read(), "an answer was not asked for"
        return self.says.getvalue()[start:]

    def until(self, sentence: str) -> None:
        """Go on faultlessly until a step says this."""
        while sentence not in self.desk.look().sentence:
            assert not self.desk.look().over, f"nothing says {sentence!r}"
            self.say("")
