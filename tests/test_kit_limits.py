"""Files that can't be read, or that go past a limit, are told so and never crash."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model import limits
from model.finding import Findings, KitError, clean, did_you_mean
from model.reading import load_kit, read_kit
from tests.big_kits import big_kit
from tests.kit_mistakes import GOOD
from tests.test_kit_words import CUT, A, findings_of, one


def test_a_syntax_error_is_told_alone() -> None:
    text = GOOD.replace('title = "Good"', "title = Good").replace("pages = 6", "pages = six")
    (finding,) = read_kit(text).findings
    assert (finding.code, finding.line) == ("syntax", 2)
    assert "column 9" in finding.what and "in: title = Good" in finding.what
    assert finding.remedy == 'text needs quotes: title = "Good"; the rest is read after that'


@pytest.mark.parametrize(
    "text",
    [
        "x = " + "[" * 5000 + "]" * 5000,
        "x = " + "[" * 5000,
        "x = " + "[" * 12 + "]" * 12,
        "\nx = " + "{a = " * 12 + "1" + "}" * 12,
        "a" + ".a" * 30_000 + " = 1",
        '"a"' + '."a"' * 30_000 + " = 1",
        "[" + "a." * 30 + "a]",
        GOOD.replace("pages = [3]", "pages = " + "[" * 20 + "3" + "]" * 20),
    ],
    ids=lambda text: text[:12],
)
def test_deep_nesting_is_told(text: str) -> None:
    (finding,) = read_kit(text).findings
    assert finding.code == "too-deep" and "8 deep" in finding.what and finding.line >= 1


@pytest.mark.parametrize(
    "value",
    ["1" * 5000, "0x" + "f" * 6000, "1979-05-27", "[[]]", "{}", "true", "1.5", '"\\u0000"', "-1"],
)
@pytest.mark.parametrize(
    "key", ["dryfit", "title", "unit", "page", "pages", "scraps", "stack", "order", "ruler", "step"]
)
def test_any_value_anywhere_is_told_and_never_a_traceback(key: str, value: str) -> None:
    got = read_kit(f"{key} = {value}\n")
    assert got.plan is None and got.findings
    assert all(str(f).isprintable() and len(str(f)) < 1500 for f in got.findings)


@pytest.mark.parametrize("array", ["pocket", "paper", "sheet", "precut", "ribbon", "piece", "step"])
@settings(max_examples=40, deadline=None)
@given(
    key=st.sampled_from(
        ["name", "to", "size", "gives", "rest", "marks", "widths", "face", "landmarks", "trim",
         "length", "bases", "label", "pages", "lay", "times", "goes_with", "with", "colour", "q"]
    ),
    value=st.sampled_from(
        ["1", "0xffffffffffffffffffffffff", "1e3", "nan", '""', '"x"', "[]", "[1]", '["", {}]',
         "{}", "{ a = 1 }", '{ name = "x" }', "1979-05-27", "true", '"3 x 4"', '{ "1·2" = 1 }',
         '{ name = "x", to = [[1]] }', '"\\u001b[31m"', '"about 3"', "[nan, inf]"]
    ),
)  # fmt: skip
def test_any_key_with_any_value_is_read_or_told(array: str, key: str, value: str) -> None:
    got = read_kit(f"{GOOD}\n[[{array}]]\n{key} = {value}\n")
    assert all(str(f).isprintable() for f in got.findings)


def test_a_newer_format_is_told_alone() -> None:
    (finding,) = read_kit(GOOD.replace("dryfit = 1", "dryfit = 2\nfuture = true")).findings
    assert finding.code == "format" and "the file says 2" in finding.what


def test_the_limits_are_kept() -> None:
    large = limits.MOST_PIECES + 200
    (finding, *_) = read_kit(big_kit(large)).findings
    assert finding.code == "too-many" and str(limits.MOST_PIECES) in finding.what
    most = limits.MOST_COPIES
    many = "".join(
        f'[[precut]]\nname = "m{n}"\nface = "red"\nto = {{ "1·2" = {most} }}\n' for n in range(21)
    )
    assert one(A, CUT, many).code == "too-many"
    marks = ", ".join("1" for _ in range(limits.MOST_MARKS + 1))
    assert one(A, CUT.replace("[6]", f"[{marks}]")).code == "too-many"
    assert one(A, CUT, f"[[set_aside]]\nname = '{'x' * 61}'\n").code == "too-long"
    assert one(A.replace("navy", 'navy"\nnote = "' + "x" * 4001), CUT).code == "too-long"
    tables = "[[paper]]\n" * (limits.MOST_TABLES + 1)
    assert "too-many" in {finding.code for finding in findings_of(A, CUT, tables)}
    pages = read_kit(GOOD.replace("pages = 6", f"pages = {limits.MOST_PAGES + 1}")).findings
    assert [finding.code for finding in pages] == ["out-of-bounds", "more-may-follow"]


def test_a_file_that_can_not_be_read_is_told(tmp_path: Path) -> None:
    cases = {
        "gone.toml": (None, "unreadable"),
        "large.toml": (b"# " + b"x" * limits.MOST_BYTES, "too-large"),
        "latin.toml": ("title = 'Café'".encode("latin-1"), "not-utf8"),
    }
    for name, (content, code) in cases.items():
        if content is not None:
            (tmp_path / name).write_bytes(content)
        with pytest.raises(KitError) as caught:
            load_kit(tmp_path / name)
        assert [finding.code for finding in caught.value.findings] == [code]
        assert name in str(caught.value)
    with pytest.raises(KitError):
        load_kit(tmp_path)
    assert read_kit("#" + "x" * limits.MOST_BYTES).findings[0].code == "too-large"


def test_a_file_from_another_system_is_read(tmp_path: Path) -> None:
    path = tmp_path / "kit.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    got = load_kit(path)
    assert got.plan is not None and got.text == GOOD


# Findings as such


def test_a_guess_is_near_or_not_made() -> None:
    assert did_you_mean("pockt", ["pocket", "paper"]) == 'did you mean "pocket"?'
    assert did_you_mean("Pocket", ["pocket"]) == 'did you mean "pocket"?'
    assert did_you_mean("zzz", ["a", "b"]) == 'known here: "a", "b"'
    assert did_you_mean("zzz", []) == ""
    assert did_you_mean("zzz", list("abcdefghijkl")).endswith(", ...")
    many = {f"name {n}" for n in range(150_000)}
    findings = Findings()
    assert findings.near("name 1x", many) and not findings.near("name 1x", many)  # time is up


def test_what_is_shown_can_be_shown() -> None:
    assert clean("a\x1b[31mb\u202ec\nd") == "a\ufffd[31mb\ufffdc d"
    assert len(clean("x" * 10_000)) == 600
