"""A plan as tables ready to be pasted into the kit that it was made for."""

from __future__ import annotations

from model.planning.kitlines import kit_text, piece_table, step_tables
from model.planning.wanted_told import Told
from model.toml_lines import TomlLines


def toml_of_plan(told: Told, text: str = "") -> str:
    """The loads of a plan as a kit has them.

    Args:
        told: The plan.
        text: The text of the kit that it is for, to tell which lines are replaced.

    Returns:
        For a wanted list a whole kit; for a kit its steps, sheet by sheet, with a word on what
        else changes in it.

    Raises:
        ValueError: A length can't be written exactly in a kit.
    """
    wanted, plan = told.wanted, told.plan
    if not wanted.kit:
        return kit_text(wanted.task, plan, title=wanted.title, unit=wanted.unit)
    blocks = [_heading(told)]
    wants = {want.name: want for want in wanted.task.wants}
    for name, to in wanted.on_the_spot.items():
        blocks.append(piece_table(wants[name], wanted.called[name], to, wanted.unit))
    lines = TomlLines(text) if text else None
    steps = step_tables(wanted.task, plan, told.names, wanted.unit)
    names = {sheet.number: sheet.name for sheet in told.sheets}
    for run, step in zip(told.names.runs, steps, strict=True):
        if run[0].takes not in names:
            blocks.append(step)
            continue
        name = names[run[0].takes]
        old = [lines.line_of(where) for where in wanted.replaced.get(name, ())] if lines else []
        instead = f", instead of the steps at {_lines(sorted(set(old)))}" if old else ""
        blocks.append(f"# Sheet {name}{instead}\n{step}")
    return "\n\n".join(blocks) + "\n"


def _heading(told: Told) -> str:
    """What changes in the kit beside its steps, as comments."""
    wanted = told.wanted
    said = [f"# {wanted.title}: {told.cuts.value} cuts as planned"]
    if wanted.scraps_beside is not None:
        scraps = wanted.scraps_beside + told.figures.scraps.value
        said.append(f"# At the top of the kit: scraps = {scraps}")
    if told.idle:
        said.append(f"# Take out, since they need not be cut: sheet {', '.join(told.idle)}")
    for sheet in told.sheets:
        want = told.plan.parts[sheet.number].want
        if want:
            said.append(
                f"# Sheet {sheet.name} is {wanted.called[want]} as it is: make it a [[precut]]"
            )
    for missing in told.missing:
        said.append(f"# {missing.count} of {missing.name} are missing")
    if wanted.freed:
        said.append(f"# Their [[piece]] needs turnable = true: {', '.join(wanted.freed)}")
    if wanted.own_copies:
        own = ", ".join(dict.fromkeys(wanted.called[name] for name in wanted.own_copies))
        said.append(f"# Say again of single copies what your steps say (use, note): {own}")
    return "\n".join(said)


def _lines(numbers: list[int]) -> str:
    if len(numbers) == 1:
        return f"line {numbers[0]}"
    return f"lines {', '.join(map(str, numbers[:-1]))} and {numbers[-1]}"
