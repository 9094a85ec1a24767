"""English, from which every other language derives."""
