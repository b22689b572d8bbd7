"""No test is timed: a busy machine must not turn one red."""

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
