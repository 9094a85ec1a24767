"""Events in the journal: what is written is read back, and nothing else passes for an event."""

from __future__ import annotations

import tomllib
from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.event import (
    Adopted,
    Done,
    Ended,
    Entry,
    Event,
    Extra,
    Filed,
    Foreign,
    Left,
    Moved,
    Paced,
    Restored,
    Retracted,
    Sat,
    Scrapped,
    Settled,
    Skipped,
    Withdrawn,
    from_record,
    number_of,
    to_record,
)
from model.journal_text import Record, write_record

AT = datetime(2026, 3, 1, 9, 30, 1, 250_000, tzinfo=UTC)
# What TOML can hold: any text but halves of surrogate pairs.
TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
NUMBER = st.integers(1, 2**40)
EVENTS: st.SearchStrategy[Event] = st.one_of(
    st.builds(Done, TEXT, TEXT),
    st.builds(Filed, TEXT, TEXT),
    st.builds(Scrapped, TEXT),
    st.builds(Moved, TEXT, TEXT),
    st.builds(Left, TEXT),
    st.builds(Settled, TEXT),
    st.builds(Skipped, TEXT, NUMBER),
    st.just(Extra()),
    st.builds(Retracted, NUMBER),
    st.builds(Restored, NUMBER),
    st.builds(Withdrawn, NUMBER),
    st.just(Sat()),
    st.builds(Paced, st.booleans()),
    st.builds(Adopted, TEXT, NUMBER),
    st.just(Ended()),
    st.builds(
        Foreign,
        st.sampled_from(["counted", "glued", "Done", ""]),
        st.dictionaries(
            st.sampled_from(["pocket", "page", "x y", "ok"]),
            st.one_of(TEXT, st.booleans(), st.integers(-9, 9), st.lists(TEXT, max_size=2)),
        ),
    ),
)


@given(EVENTS, st.integers(1, 10**6), st.datetimes(timezones=st.just(UTC)), st.data())
def test_what_is_written_is_read_back(
    event: Event, n: int, at: datetime, data: st.DataObject
) -> None:
    part_of = data.draw(st.sampled_from([0, n // 2]))
    entry = Entry(n, at, event, part_of)
    text = write_record(to_record(entry), 7)
    (record,) = tomllib.loads(text.decode())["did"]
    assert record.pop("n") == 7
    assert number_of(record, 0) == n
    assert from_record(n, record) == entry


def test_the_file_reads_like_a_report() -> None:
    """A person can read what was done, and when."""
    entry = Entry(12, AT, Filed("A/1", "3·4"), 11)
    assert write_record(to_record(entry), 12).decode() == (
        "\n[[did]]\nat = 2026-03-01T09:30:01.250000+00:00\n"
        'did = "filed"\nitem = "A/1"\npocket = "3·4"\nwith = 11\nevent = 12\nn = 12\n'
    )


def test_what_says_nothing_new_is_left_out() -> None:
    assert to_record(Entry(3, AT, Done("open"))) == {
        "at": AT, "did": "done", "step": "open", "event": 3,
    }  # fmt: skip
    assert "steps" not in to_record(Entry(3, AT, Skipped("s")))


def test_an_event_of_a_later_kind_is_kept() -> None:
    record: Record = {"at": AT, "did": "dry fitted", "page": 3, "turned": ["a", "b"], "event": 9}
    entry = from_record(9, record)
    assert entry == Entry(9, AT, Foreign("dry fitted", {"page": 3, "turned": ["a", "b"]}))
    assert entry is not None
    assert not entry.event.undoable
    assert to_record(entry) == record


def test_a_known_event_with_more_to_say_is_still_known() -> None:
    """So that later kits of keys do not make an old program forget what was done."""
    record: Record = {"at": AT, "did": "filed", "item": "A/1", "pocket": "1·2", "by": "camera"}
    assert from_record(4, record) == Entry(4, AT, Filed("A/1", "1·2"))


@pytest.mark.parametrize(
    "record",
    [
        {},
        {"did": "sat"},
        {"at": AT},
        {"at": "2026-03-01", "did": "sat"},
        {"at": AT, "did": 3},
        {"at": AT, "did": "filed", "item": "A/1"},
        {"at": AT, "did": "filed", "item": "A/1", "pocket": 3},
        {"at": AT, "did": "done"},
        {"at": AT, "did": "done", "step": ["open"]},
        {"at": AT, "did": "retracted", "of": True},
        {"at": AT, "did": "retracted", "of": "3"},
        {"at": AT, "did": "paced", "by_load": 1},
    ],
)
def test_what_says_too_little_or_nonsense_is_none(record: dict[str, object]) -> None:
    assert from_record(5, record) is None  # type: ignore[arg-type]


def test_a_time_without_a_zone_is_taken_as_utc() -> None:
    """Only an editor can have written it; comparing it with the others must not fail."""
    entry = from_record(1, {"at": datetime(2026, 3, 1, 9), "did": "sat"})
    assert entry is not None
    assert entry.at == datetime(2026, 3, 1, 9, tzinfo=UTC)
    elsewhere = datetime(2026, 3, 1, 11, tzinfo=timezone(timedelta(hours=2)))
    again = from_record(1, {"at": elsewhere, "did": "sat"})
    assert again is not None
    assert again.at == entry.at


@pytest.mark.parametrize(
    ("said", "number"), [(17, 17), (0, 6), (-3, 6), (True, 6), ("17", 6), (None, 6)]
)
def test_a_lost_number_follows_the_one_before(said: object, number: int) -> None:
    record = {} if said is None else {"event": said}
    assert number_of(record, 5) == number  # type: ignore[arg-type]


@pytest.mark.parametrize("part", [0, -1, 5, 9, True, "3"])
def test_an_answer_begins_before_its_parts(part: object) -> None:
    record = {"at": AT, "did": "extra", "with": part}
    entry = from_record(5, record)  # type: ignore[arg-type]
    assert entry is not None
    assert entry.part_of == 0
