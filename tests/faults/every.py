"""Every fault there is, by name."""

from tests.faults import beside, commands, crowd, damage, disk, killing, raising, screens, stalls
from tests.faults.registry import FAULTS

# imported for what they register
_ = killing, commands, raising, screens, disk, damage, beside, stalls, crowd
ALL = FAULTS
