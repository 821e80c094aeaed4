"""For every test: hypothesis takes the time it takes, whatever else the machine is doing."""

from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
