"""The layers, checked in fresh interpreters: what may be imported by what."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
MODULES = sorted(path.stem for path in (ROOT / "model").glob("*.py") if path.stem != "__init__")


def loaded(code: str) -> set[str]:
    """The top-level packages that are loaded after some code ran in a fresh interpreter."""
    done = subprocess.run(
        [sys.executable, "-c", f"{code}\nimport sys\nprint(*sys.modules)"],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return {name.partition(".")[0] for name in done.stdout.split()}


def test_the_whole_model_knows_no_screen():
    imports = "\n".join(f"import model.{name}" for name in MODULES)
    assert not loaded(imports) & {"textual", "rich", "tui"}


@pytest.mark.parametrize("args", [["--version"], ["-V"]])
def test_the_version_loads_neither_textual_nor_pydantic(args):
    found = loaded(f"from tui.command import main\nmain({args!r})")
    assert not found & {"textual", "rich", "pydantic", "model"}


@pytest.mark.parametrize(
    "args", [["check", "postcard"], ["check", "postcard", "--json"], ["schema"], ["sessions"]]
)
def test_commands_without_a_screen_load_no_textual(args, monkeypatch, tmp_path):
    monkeypatch.setenv("DRYFIT_HOME", str(tmp_path))
    found = loaded(f"from tui.command import main\nmain({args!r})")
    assert not found & {"textual", "rich"}


@pytest.mark.parametrize("module", MODULES)
def test_each_module_of_the_model_can_be_imported_first(module):
    # A cycle of imports shows itself when one of its modules is imported first.
    assert "model" in loaded(f"import model.{module}")
