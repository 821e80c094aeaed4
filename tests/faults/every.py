"""Every fault there is, by name."""

from tests.faults import beside, crowd, damage, disk, killing, stalls
from tests.faults.registry import FAULTS

# imported for what they register
_ = killing, disk, damage, beside, stalls, crowd
ALL = FAULTS
