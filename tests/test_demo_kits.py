"""The demo kits can be cut, and the schema beside them is that of the models."""

from __future__ import annotations

import json
import tomllib
from collections import Counter
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from jsonschema import Draft202012Validator  # type: ignore[import-untyped]

from model import kitfile as f
from model.geometry import Sure
from model.kitschema import kit_schema, schema_text
from model.plan import Plan, Role, StepKind
from model.reading import load_kit, read_kit
from tests.kits import kit_texts

KITS = Path(__file__).parent.parent / "kits"
DEMOS = sorted(path.name for path in KITS.glob("*.toml"))
INCH = Fraction(127, 5)
SCHEMA = kit_schema()
VALIDATOR = Draft202012Validator(SCHEMA)


def plan_of(name: str) -> Plan:
    got = load_kit(KITS / name)
    assert got.plan is not None and got.findings == (), [str(f) for f in got.findings]
    return got.plan


def errors_of(text: str) -> list[str]:
    return [error.message for error in VALIDATOR.iter_errors(tomllib.loads(text))]


def test_there_are_three() -> None:
    assert DEMOS == ["cards.toml", "harbour.toml", "postcard.toml"]


@pytest.mark.parametrize("name", DEMOS)
def test_nothing_is_wrong_with_it_and_it_says_that_it_is_invented(name: str) -> None:
    plan = plan_of(name)
    assert "invented" in plan.kit.note
    assert plan.kit.scraps == len(plan.scraps)
    # Cuts = pieces + scraps - sheets cut, over what a ruler measures and what it does not.
    cuts = sum(step.kind in (StepKind.CUT, StepKind.TEAR) for step in plan.steps)
    loads = [step for step in plan.steps if step.kind is StepKind.LOAD]
    sheets = {step.sheet for step in loads}
    taken = {item for step in loads for item in step.takes}
    parts = [
        item
        for step in plan.steps
        if step.kind in (StepKind.CUT, StepKind.TEAR)
        for item in step.makes
        if item not in taken
    ]
    assert cuts == len(parts) - len(sheets)
    assert sum(plan.wanted) == sum(
        item.role is Role.PIECE and item.id not in plan.taken_by for item in plan.items.values()
    )


@pytest.mark.parametrize("name", DEMOS)
def test_each_measured_sheet_is_its_pieces_and_scraps(name: str) -> None:
    plan = plan_of(name)
    area: Counter[str] = Counter()
    for item in plan.items.values():
        if item.role in (Role.SHEET, Role.BASE) or item.id in plan.taken_by or not item.sheet:
            continue
        if item.stock is not None and item.id in plan.made_by:
            step = plan.steps[plan.made_by[item.id]]
            if step.kind in (StepKind.CUT, StepKind.TEAR):
                area[item.sheet] += item.stock.area  # type: ignore[assignment]
    shapes = {step.sheet for step in plan.steps if step.kind is StepKind.SHAPE}
    for sheet in plan.order:
        stock = plan.items[sheet].stock
        assert stock is not None
        if sheet not in shapes:  # fussy cutting leaves trimmings
            assert area[sheet] == stock.area


def test_the_large_one_is_what_a_large_kit_should_be() -> None:
    plan = plan_of("harbour.toml")
    kit = plan.kit
    assert kit.pages == 10 and kit.page == (12 * INCH, 12 * INCH)
    cut = [sheet for sheet in kit.sheets if sheet.base is None]
    assert len(cut) >= 12 and any(sheet.cut_apart and sheet.size is None for sheet in cut)
    assert sorted(sheet.base for sheet in kit.sheets if sheet.base) == list(range(1, 11))
    assert any(sheet.paper.directional for sheet in cut)
    assert any(sheet.wait for sheet in cut)
    assert any(kind.lengths for kind in kit.kinds.values())
    assert len(plan.scraps) == 2
    kinds = {step.kind for step in plan.steps}
    assert kinds == set(StepKind)  # every kind of step is in it
    assert any(step.mark and step.mark.sure is Sure.PRINTED for step in plan.steps)
    assert plan.items["plank base 5"].use == "reverse"


def test_the_first_one_is_small() -> None:
    plan = plan_of("postcard.toml")
    assert plan.kit.pages == 2 and len(plan.kit.pockets) == 1
    cuts = [step for step in plan.steps if step.kind in (StepKind.CUT, StepKind.TEAR)]
    assert len(cuts) <= 8 and [s.kind for s in cuts].count(StepKind.TEAR) == 1


def test_the_metric_one_is_in_whole_millimetres() -> None:
    plan = plan_of("cards.toml")
    marks = [step.mark.value for step in plan.steps if step.mark]
    assert marks and all(mark.denominator == 1 for mark in marks)
    # ISO 216: A4 is 210 x 297 mm, and a blank of 105 x 148 mm is A6 (from memory).
    assert plan.kit.page == (Fraction(105), Fraction(148))
    assert (Fraction(210), Fraction(297)) in {sheet.size for sheet in plan.kit.sheets}


# The schema


def test_the_schema_beside_the_kits_is_that_of_the_models() -> None:
    kept = (KITS / "kit.schema.json").read_text(encoding="utf-8")
    assert kept == schema_text(), "run: python -m model.kitschema kits/kit.schema.json"
    Draft202012Validator.check_schema(json.loads(kept))


@pytest.mark.parametrize("name", DEMOS)
def test_a_demo_kit_names_the_schema_and_keeps_it(name: str) -> None:
    text = (KITS / name).read_text(encoding="utf-8")
    assert text.startswith("#:schema ./kit.schema.json\n")
    assert errors_of(text) == []


@settings(max_examples=60, deadline=None)
@given(kit_texts())
def test_the_schema_takes_every_kit_that_is_good(text: str) -> None:
    assert read_kit(text).plan is not None
    assert errors_of(text) == []


def _tables(schema: dict[str, Any]) -> dict[str, dict[str, Any]]:
    """The tables of the schema by the names of their models."""
    found = {"KitFile": schema}
    for name, table in schema["$defs"].items():
        full = [t for t in table.get("anyOf", ()) if t.get("type") == "object"]
        found[name] = full[0] if "properties" not in table else table
    return found


def test_every_key_of_every_table_is_in_it_with_a_word_on_it() -> None:
    tables = _tables(SCHEMA)
    models: list[type[f.Table]] = [f.KitFile, f.FaceTable, f.GiveTable, *f.TABLES.values()]
    for model in models:
        table = tables[model.__name__]
        assert set(table["properties"]) == set(f.keys_of(model))
        assert table["additionalProperties"] is False
        for key, form in table["properties"].items():
            assert form.get("description"), f"{model.__name__}.{key}"


BROKEN = {
    "no title": ('title = "A Wet Weekend"\n', ""),
    "another format": ("dryfit = 1", "dryfit = 2"),
    "unknown key": ("pages = 2 ", "pagse = 2 "),
    "unknown word": ('stack = "face down"', 'stack = "upside down"'),
    "text for a number": ("pages = 2 ", 'pages = "two" '),
    "no page": ("pages = 2 ", "pages = 0 "),
    "a size without x": ('page = "8 x 8"', 'page = "8"'),
    "a sheet named with a slash": ('name = "puddle"\nface', 'name = "puddle/1"\nface'),
    "a sheet without paper": ('face = { name = "mustard", colour = "goldenrod" }\n', ""),
    "a face without colour": ('{ name = "mustard", colour = "goldenrod" }', '{ name = "x" }'),
    "a count of none": ('to = { "1·2" = 2 }', 'to = { "1·2" = 0 }'),
    "no place": ('to = { "1·2" = 2 }', "note = ''"),
    "two verbs": ('tear = "puddle"', 'tear = "puddle"\ntrim = "puddle"'),
    "no verb": ('tear = "puddle"', "needs = []"),
    "an edge that is none": ('edge = "right"', 'edge = "far"'),
    "marks that are no list": ("marks = [4]", "marks = 4"),
    "no marks at all": ("marks = [4]", "marks = []"),
    "a turn that is none": ('turn = "quarter"\nmarks = [4]', 'turn = "third"\nmarks = [4]'),
    "an unknown key in gives": ('gives = ["scrap", "story card"]', 'gives = [{ nmae = "x" }]'),
    "a negative length": ('ruler = "3"', "ruler = -3"),
    "a long name": ('name = "puddle"\nface', f'name = "{"x" * 61}"\nface'),
}


@pytest.mark.parametrize("case", BROKEN)
def test_the_schema_refuses_what_a_schema_can_see(case: str) -> None:
    text = (KITS / "postcard.toml").read_text(encoding="utf-8")
    right, wrong = BROKEN[case]
    assert text.count(right) == 1, right
    broken = text.replace(right, wrong)
    assert errors_of(broken)
    assert read_kit(broken).plan is None  # and so does the program
