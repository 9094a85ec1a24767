"""What holds for all tests."""

from __future__ import annotations

from tests import settled

settled.install()
