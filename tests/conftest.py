"""Settings that every test shares."""

import os

from hypothesis import HealthCheck, settings

# No test is timed: the machine is shared. In CI hypothesis has its own profile: the same examples every time.
settings.register_profile("unhurried", deadline=None, suppress_health_check=[HealthCheck.too_slow])
if "CI" not in os.environ:
    settings.load_profile("unhurried")
