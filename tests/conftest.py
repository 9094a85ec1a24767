"""What every test may count on: the system says no language, so that the usual one is in force."""

from __future__ import annotations

import os

os.environ["LC_ALL"] = "C.UTF-8"
