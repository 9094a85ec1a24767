"""Planning cuts: wanted pieces and paper at hand in, loads for the trimmer out.

`task` says what is wanted and what comes of it, `checking` replays a plan without sharing any code
with the search, and the search states of each figure whether it is proved least.
"""
