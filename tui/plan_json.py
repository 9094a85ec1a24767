"""A plan of cuts as plain values, for programs."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from model.length import Unit
from model.planning.checking import FIGURES
from model.planning.task import CutPlan, Figure, Part
from model.planning.wanted_text import exact
from model.planning.wanted_told import Told


def plan_data(told: Told, ended: str) -> dict[str, Any]:
    """A plan as values that JSON knows; lengths are text, exact, in the file's unit and in mm.

    Args:
        told: The plan.
        ended: How the search ended: ``done``, ``time``, ``stopped``.
    """
    wanted, plan = told.wanted, told.plan
    unit = wanted.unit
    paper = told.names.paper
    return {
        "title": wanted.title,
        "unit": str(unit),
        "graduation": _length(wanted.task.graduation, unit),
        "ended": ended,
        "proved": told.proved,
        "figures": _figures(told),
        "yours": _yours(wanted.yours),
        "better": None if told.better is None else {1: "plan", 0: "same", -1: "yours"}[told.better],
        "missing": [
            {
                "name": each.name,
                "count": each.count,
                "wanted": each.wanted,
                "must": each.must,
                "for": [{"pocket": p.pocket, "page": p.page} for p in each.places],
            }
            for each in told.missing
        ],
        "sheets": [
            {
                "part": sheet.number,
                "name": sheet.name,
                "paper": sheet.board.paper,
                "offcut": sheet.board.left_over,
                "size": [_length(side, unit) for side in (sheet.board.width, sheet.board.height)],
                "pieces": [
                    {
                        "part": number,
                        "x": _length(box.x, unit),
                        "y": _length(box.y, unit),
                        "width": _length(box.w, unit),
                        "height": _length(box.h, unit),
                    }
                    for number, box in sheet.ends.items()
                ],
            }
            for sheet in told.sheets
        ],
        "idle": list(told.idle),
        "left_alone": [{"sheet": alone.sheet, "why": alone.why} for alone in wanted.alone],
        "loads": [
            {
                "takes": load.takes,
                "turned": load.turned,
                "marks": [_length(mark, unit) for mark in load.marks],
                "gives": list(load.gives),
                "rest": load.rest,
            }
            for load in plan.loads
        ],
        "parts": [
            {
                "part": number,
                "name": _name(told, number),
                "role": _role(told, number, part),
                "paper": paper[number],
                "width": _length(part.width if part.upright else part.height, unit),
                "height": _length(part.height if part.upright else part.width, unit),
            }
            for number, part in plan.parts.items()
        ],
    }


def _length(length: Fraction, unit: Unit) -> dict[str, str]:
    return {"text": exact(length, unit), "mm": str(length)}


def _name(told: Told, number: int) -> str:
    sheet = next((sheet.name for sheet in told.sheets if sheet.number == number), "")
    return told.names.called.get(number, sheet)


def _role(told: Told, number: int, part: Part) -> str:
    if any(sheet.number == number for sheet in told.sheets):
        return "sheet"
    return "piece" if part.want else "scrap" if part.scrap else "strip"


def _figures(told: Told) -> dict[str, Any]:
    found: dict[str, Figure] = {name: getattr(told.figures, name) for name in FIGURES}
    found["cuts"] = told.cuts
    return {
        name: {"value": figure.value, "least": figure.least, "proved": figure.proved}
        for name, figure in found.items()
    }


def _yours(yours: CutPlan | None) -> dict[str, int] | None:
    if yours is None or yours.figures is None:
        return None
    found = {name: getattr(yours.figures, name).value for name in FIGURES}
    return {**found, "cuts": sum(len(load.marks) for load in yours.loads)}
