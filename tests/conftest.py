"""What holds for every test: properties are never timed, for a busy machine is no fault.

The usual run tries the same cases each time, so that a change is judged by itself. New cases are looked for by
``pytest --hypothesis-profile=explore``, by hand; what it finds becomes a case of its own.
"""

from hypothesis import settings

settings.register_profile("usual", deadline=None, derandomize=True, database=None)
settings.register_profile("explore", deadline=None)
settings.load_profile("usual")
