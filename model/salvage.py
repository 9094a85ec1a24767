"""What of a broken table can be read all the same, so that one error hides no other.

A key that can't be read is left out, and the rest of its table is read again. Which keys are
lost is told to whoever looks at the table, so that nothing is said that hangs on them.
"""

from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy
from typing import Any

from pydantic import ValidationError

from model import kitfile as f
from model.finding import Path, nearest
from model.remedies import COUNT_WORDS, PLACE_WORDS

_ROUNDS = 8  # a part without its name takes the list with it, and that its table
# Values that stand where a key must be; each is taken out again once the table has been read.
_STAND_INS: Mapping[str, object] = {
    "name": "x",
    "label": "x",
    "face": {"name": "paper", "colour": "white"},
    "colour": "white",
    "length": "1 mm",
    "pages": [1],
    "to": {"x": "1 mm"},
}
_EMPTIED: Mapping[str, object] = {"name": "", "label": "", "pages": [], "to": ()}
# What stands for an entry of a list, so that those after it keep their numbers.
_ENTRIES = {"marks": "line", "gives": "scrap"}
_GONE = object()


def salvage(
    raw: Mapping[str, Any], model: type[f.Table], context: Mapping[str, Any], error: ValidationError
) -> tuple[f.Table | None, frozenset[str]]:
    """Read a table without what can't be read of it.

    Args:
        raw: The table as it stands in the file.
        model: What it should be.
        context: The context of validation.
        error: Why it can't be read whole.

    Returns:
        The table, or None when nothing of it can be read, and the keys that are lost. A name
        or label that is lost is empty, a lost list too; other keys that must be there have a
        value that means nothing.
    """
    kept: dict[str, Any] = deepcopy(dict(raw))
    lost: set[str] = set()
    for _ in range(_ROUNDS):
        stands = _leave_out(kept, error, model, lost)
        if stands is None:
            break
        try:
            table = model.model_validate(kept, context=context)
        except ValidationError as again:
            error = again
            continue
        emptied = {key: _EMPTIED[key] for key in lost & stands & _EMPTIED.keys()}
        return table.model_copy(update=emptied), frozenset(lost)
    return None, frozenset(f.keys_of(model))


def _leave_out(
    kept: dict[str, Any], error: ValidationError, model: type[f.Table], lost: set[str]
) -> set[str] | None:
    """Leave out what an error speaks of; the keys with a stand-in, None when that fails."""
    details = error.errors(include_url=False, include_input=False)
    known = f.keys_of(model)
    gone: list[Path] = []
    for detail in details:
        path, _, missing = real_path(kept, detail["loc"])
        if detail["type"] == "extra_forbidden" and len(path) == 1:
            lost |= _meant(str(path[0]), known, kept)
        if path:
            lost.add(str(path[0]))
            gone.append(path)
        elif missing:
            lost.add(missing)
        else:
            return None
    for path in gone:
        _take_out(kept, path)
    for key, value in [*kept.items()]:
        kept[key] = _without_gone(value, _ENTRIES.get(key))
    stands = {
        field.alias or name for name, field in model.model_fields.items() if field.is_required()
    } & _STAND_INS.keys()
    stands = {key for key in stands if key in lost and key not in kept}
    kept.update({key: deepcopy(_STAND_INS[key]) for key in stands})
    return {key for key in lost if kept.get(key) == _STAND_INS.get(key)}


def _meant(key: str, known: list[str], kept: Mapping[str, Any]) -> set[str]:
    """The keys that an unknown one may be; without a clear guess any that is not there."""
    if "to" in known and key in (*PLACE_WORDS, *COUNT_WORDS):
        return {"to"}
    near = nearest(key, known)
    return ({near} if near else {*known}) - kept.keys()


def _take_out(kept: dict[str, Any], path: Path) -> None:
    here: Any = kept
    for part in path[:-1]:
        if here is _GONE or (isinstance(here, dict) and part not in here):
            return  # what it stands in is out already
        here = here[part]
    if isinstance(here, dict):
        here.pop(path[-1], None)
    elif isinstance(here, list):
        here[int(path[-1])] = _GONE


def _without_gone(value: Any, instead: object) -> Any:
    if not isinstance(value, list):
        return value
    if instead is None:
        return [each for each in value if each is not _GONE]
    return [instead if each is _GONE else each for each in value]


def real_path(raw: Any, loc: tuple[int | str, ...]) -> tuple[Path, Any, str]:
    """Where an error stands in the file; pydantic's own labels in between are dropped.

    Args:
        raw: The table.
        loc: The place as pydantic says it.

    Returns:
        The path as far as it exists, the value there, and the missing key's name, if one
        is missing.
    """
    path: list[int | str] = []
    here = raw
    for part in loc:
        inside = part in here if isinstance(here, dict) else False
        if isinstance(here, list) and isinstance(part, int):
            inside = part < len(here)
        if inside:
            here = here[part]
            path.append(part)
        elif isinstance(here, dict) and part == loc[-1] and isinstance(part, str):
            return tuple(path), here, part
    return tuple(path), here, ""
