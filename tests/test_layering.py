"""The layers, checked in fresh interpreters: what may be imported by what."""

from __future__ import annotations

import ast
import subprocess
import sys
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
MODULES = sorted(
    ".".join(path.relative_to(ROOT / "model").with_suffix("").parts).removesuffix(".__init__")
    for path in (ROOT / "model").rglob("*.py")
    if path.parent.name != "model" or path.stem != "__init__"
)


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


SOURCES = [path for folder in ("model", "tui") for path in sorted((ROOT / folder).rglob("*.py"))]


def imported(source: str) -> set[str]:
    """What a source imports, at once or when it comes to it, but not for its types only."""
    found: set[str] = set()
    waiting: list[ast.AST] = [ast.parse(source)]
    while waiting:
        node = waiting.pop()
        if isinstance(node, ast.If) and ast.unparse(node.test).endswith("TYPE_CHECKING"):
            waiting += node.orelse
            continue
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.module is not None and not node.level, "imports name the whole module"
            found |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
        waiting += ast.iter_child_nodes(node)
    return found


def circle(sources: dict[str, str]) -> list[str]:
    """A circle of modules that import one another; empty where there is none."""
    needs = {name: imported(source) & sources.keys() for name, source in sources.items()}
    try:
        TopologicalSorter(needs).prepare()
    except CycleError as error:
        return list(error.args[1])
    return []


def test_no_module_imports_itself_by_way_of_others_not_even_late():
    names = {path: ".".join(path.relative_to(ROOT).with_suffix("").parts) for path in SOURCES}
    assert circle({names[path]: path.read_text(encoding="utf-8") for path in SOURCES}) == []


def test_a_circle_of_late_imports_is_found():
    late = "def late():\n    from tui.one import what\n"
    assert circle({"tui.one": "import tui.two\n", "tui.two": late}) != []
    types = f"from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    {late.splitlines()[1]}\n"
    assert circle({"tui.one": "from tui import two\n", "tui.two": types}) == []
    assert circle({"tui.one": "from tui import two\n", "tui.two": late}) != []


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(ROOT)))
def test_no_file_is_long(path):
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400
