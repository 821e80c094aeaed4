"""Curves need scipy, which takes half a second to load."""


def make_ready() -> None:
    """Load what curves are made with; from any thread, once is enough."""
    import scipy.interpolate
    import scipy.optimize  # noqa: F401
