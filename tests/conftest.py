"""What all tests share: property tests find the same examples every time."""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile

from hypothesis import HealthCheck, settings

settings.register_profile(
    "house", deadline=None, derandomize=True, print_blob=False, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("house")

#: librosa brings compiled code that two test workers must not write to one folder at a time.
os.environ["NUMBA_CACHE_DIR"] = tempfile.mkdtemp(prefix="sonify-tests-")
#: Nothing kept from an older version of the code may stand in for what is tested.
os.environ["SONIFY_CACHE"] = ""
atexit.register(shutil.rmtree, os.environ["NUMBA_CACHE_DIR"], ignore_errors=True)
