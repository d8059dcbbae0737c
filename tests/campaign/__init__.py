"""Long, seeded sweeps that are no part of `tests/run`: python -m tests.campaign --help.

A further one is a module with a function that fills a `Tally`, and a row in `__main__`.
"""
