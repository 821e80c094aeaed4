"""Two clocks: when it was, and how long it took."""

from datetime import UTC, datetime, timedelta, timezone

import pytest

from provenance.records.clock import Moment, SetClock, SystemClock, elapsed_ms

NOON = datetime(2031, 3, 2, 12, 0, tzinfo=UTC)


def moment(wall: timedelta, boot: str, boot_ms: int) -> Moment:
    return SetClock(NOON + wall, boot, boot_ms)()


@pytest.mark.parametrize(
    ("wall", "boot", "expected"),
    [
        (timedelta(minutes=2), "first", (120_000, True)),
        (timedelta(hours=-1), "first", (120_000, True)),
        (timedelta(days=400), "first", (120_000, True)),
        (timedelta(minutes=5), "second", (300_000, False)),
        (timedelta(minutes=-5), "second", (-300_000, False)),
    ],
    ids=["steady", "set back", "set forward", "restarted", "restarted and set back"],
)
def test_the_boot_clock_vouches_within_one_boot(
    wall: timedelta, boot: str, expected: tuple[int, bool]
) -> None:
    start, end = moment(timedelta(), "first", 1_000), moment(wall, boot, 121_000)
    assert elapsed_ms(start, end) == expected


def test_a_machine_that_does_not_name_its_boots_has_only_the_wall_clock() -> None:
    start, end = moment(timedelta(), "", 0), moment(timedelta(seconds=3), "", 500_000)
    assert elapsed_ms(start, end) == (3_000, False)


def test_the_date_is_the_one_on_the_studio_wall() -> None:
    east = timezone(timedelta(hours=13))
    late = SetClock(datetime(2031, 3, 3, 0, 30, tzinfo=east))()
    assert late.at == "2031-03-02T11:30:00.000Z"
    assert late.local_date().isoformat() == "2031-03-03"


def test_this_machine_keeps_one_boot_and_goes_forward() -> None:
    clock = SystemClock()
    start, end = clock(), clock()
    assert start.boot == end.boot
    assert end.boot_ms >= start.boot_ms
    assert start.utc().tzinfo is not None
