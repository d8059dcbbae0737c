"""What all tests share: property tests find the same examples every time."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

settings.register_profile(
    "house", deadline=None, derandomize=True, print_blob=False, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("house")

#: Nothing kept from an older version of the code may stand in for what is tested.
os.environ["SONIFY_CACHE"] = ""
