"""What holds for every test: properties are never timed, for a busy machine is no fault."""

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
