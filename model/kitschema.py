"""The JSON Schema of a kit file, for editors that complete and check as one types.

Run this module to write it: ``python -m model.kitschema kits/kit.schema.json``.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from model import kitfile as f

_BARE = {"FaceTable": "A colour word or #rrggbb", "GiveTable": 'A name, or "scrap"'}


def kit_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a kit file."""
    schema = f.KitFile.model_json_schema(by_alias=True, ref_template="#/$defs/{model}")
    tables = schema["$defs"]
    for name, about in _BARE.items():  # a bare name stands for a table with that name
        table = tables[name]
        bare = {"type": "string", "minLength": 1, "description": about}
        tables[name] = {"title": table["title"], "anyOf": [bare, table]}
    tables["StepTable"]["oneOf"] = [{"required": [verb]} for verb in f.VERBS]
    tables["PackedTable"]["oneOf"] = [{"required": ["to"]}, {"required": ["with"]}]
    tables["SheetTable"]["not"] = {"required": ["base", "bases"]}
    tables["SheetTable"]["anyOf"] = [{"required": ["paper"]}, {"required": ["face"]}]
    schema["properties"]["dryfit"]["const"] = f.FORMAT
    plain: dict[str, Any] = _without_null(schema)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **plain,
        "title": "dryfit kit",
        "description": "A page kit: its papers, sheets, pieces and pockets, and the work in order.",
    }


def schema_text() -> str:
    """The schema as it is kept beside the demo kits."""
    return json.dumps(kit_schema(), indent=2, ensure_ascii=False) + "\n"


def _without_null(schema: Any) -> Any:
    """TOML has no null; a key that is not there is just left out."""
    if isinstance(schema, list):
        return [_without_null(each) for each in schema if each != {"type": "null"}]
    if not isinstance(schema, dict):
        return schema
    kept = {
        key: _without_null(value)
        for key, value in schema.items()
        if not (key == "default" and value is None)
    }
    options = kept.get("anyOf")
    if isinstance(options, list) and len(options) == 1 and "anyOf" in schema:
        del kept["anyOf"]
        kept = {**options[0], **kept}
    return kept


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(schema_text(), encoding="utf-8")
