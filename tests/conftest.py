"""Settings for the whole suite: the same examples every time, and no deadline on a shared machine."""

from hypothesis import HealthCheck, settings

settings.register_profile(
    "steady", derandomize=True, deadline=None, max_examples=50, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("steady")
