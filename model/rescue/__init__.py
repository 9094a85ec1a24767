"""A mistake at the trimmer: what is so in truth, what can be saved, and how."""
