"""Kits made by hand, for what random kits seldom hold."""

from __future__ import annotations

from model.folders import demo_folder

CUT_AGAIN = """
dryfit = 1
title = "Cut again"
page = "12 x 12"
pages = 6

[[sheet]]
name = "A"
face = "navy"

[[sheet]]
name = "B"
face = "teal"

[[embellishment]]
name = "brass star"
colour = "goldenrod"
with = "mat"

[[precut]]
name = "white mat"
face = "white"
size = "3 x 3"
to = { "1·2" = 1, "3·4" = 2, "5·6" = 2 }

[[ribbon]]
name = "twill"
colour = "teal"
length = "1 yd"
to = { "1·2" = "18 in", "3·4" = "12 in" }

[[piece]]
name = "mat"
to = "1 to 1·2, 2 to 5·6"

[[piece]]
name = "plate"
to = "1 to 1·2, 1 to 3·4"

[[piece]]
name = "half"
to = "3·4"

[[piece]]
name = "quarter"
to = "1 to 3·4, 2 to 5·6"

[[piece]]
name = "other quarter"
to = "5·6"

[[piece]]
name = "sliver"
note = "It is cut again and goes nowhere by itself."

[[piece]]
name = "disc"
to = "1 to 1·2, 1 to 5·6"

[[piece]]
name = "shape"
to = "5·6"

[[step]]
trim = "A"
marks = [9, 6, 3]
gives = "mat"
rest = "block"

[[step]]
trim = "block"
turn = "quarter"
marks = [8, 4]
gives = ["plate", "plate"]
rest = "sliver"

[[step]]
trim = "plate"
times = 2
marks = [2]
gives = "scrap"
rest = "quarter"
optional = true

[[step]]
trim = "B"
marks = [6]
gives = "half"
rest = "other"

[[step]]
trim = "sliver"
marks = [2]
gives = "scrap"
rest = "quarter"

[[step]]
trim = "other"
marks = [3]
gives = "other quarter"
rest = "scrap"
optional = true

[[step]]
punch = "half"
gives = ["disc", "disc"]
optional = true

[[step]]
fussy_cut = "half"
gives = ["shape"]
optional = true
wait = "after filing"
"""
"""Pieces that are filed, taken up and cut again; optional steps and what hangs on them."""


KITS = (CUT_AGAIN, *(path.read_text("utf-8") for path in sorted(demo_folder().glob("*.toml"))))
"""Kits made by hand."""
