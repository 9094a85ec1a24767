"""What every test may count on: no language is asked for, and a screen settles when it is done."""

from __future__ import annotations

import os

from tests import settled

os.environ["LC_ALL"] = "C.UTF-8"
settled.install()
