"""Where files are kept."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import platformdirs
import pytest

import model.folders
from model.folders import NoHomeError, kits_folder, sessions_folder, settings_file

ROOT = Path(model.folders.__file__).parent.parent


def test_one_variable_puts_all_under_one_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("DRYFIT_HOME", str(tmp_path / "mine"))
    assert sessions_folder() == tmp_path / "mine" / "sessions"
    assert kits_folder() == tmp_path / "mine" / "kits"
    assert settings_file() == tmp_path / "mine" / "settings.toml"
    assert list(tmp_path.iterdir()) == []


def test_a_relative_folder_is_made_absolute(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("DRYFIT_HOME", "mine")
    assert sessions_folder() == tmp_path / "mine" / "sessions"


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the XDG folders are of Linux")
@pytest.mark.parametrize("unset", ["", "  ", None])
def test_otherwise_the_systems_usual_folders(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, unset: str | None
) -> None:
    # Outside check: XDG Base Directory Specification, $XDG_DATA_HOME and $XDG_CONFIG_HOME.
    monkeypatch.delenv("DRYFIT_HOME", raising=False)
    if unset is not None:
        monkeypatch.setenv("DRYFIT_HOME", unset)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    assert sessions_folder() == tmp_path / "data" / "dryfit" / "sessions"
    assert kits_folder() == tmp_path / "data" / "dryfit" / "kits"
    assert settings_file() == tmp_path / "config" / "dryfit" / "settings.toml"


@pytest.mark.parametrize("answer", ["~/.local/share/dryfit", "/.local/share/dryfit", None])
def test_without_a_home_it_is_said(monkeypatch: pytest.MonkeyPatch, answer: str | None) -> None:
    def ask(*_: object, **__: object) -> Path:
        if answer is None:
            raise RuntimeError("no home")
        return Path(answer)

    monkeypatch.delenv("DRYFIT_HOME", raising=False)
    monkeypatch.setattr(platformdirs, "user_data_path", ask)
    monkeypatch.setattr(platformdirs, "user_config_path", ask)
    for function in (sessions_folder, kits_folder, settings_file):
        with pytest.raises(NoHomeError, match="set DRYFIT_HOME to a folder"):
            function()


def test_importing_it_imports_nothing_heavy() -> None:
    code = "import sys, model.folders, model.journal; print(*sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )
    heavy = {"textual", "rich", "pydantic", "platformdirs", "filelock", "asyncio"}
    assert heavy & set(done.stdout.split()) == set()
