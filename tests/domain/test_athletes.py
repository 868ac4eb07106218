from datetime import date

import pytest

from tests.builders import athlete


@pytest.mark.parametrize(
    ("born", "day", "minor"),
    [
        (date(2008, 12, 15), date(2026, 12, 14), True),
        (date(2008, 12, 14), date(2026, 12, 14), False),
        (date(2008, 2, 29), date(2026, 2, 28), True),
        (date(2008, 2, 29), date(2026, 3, 1), False),
        (None, date(2026, 12, 14), False),
    ],
)
def test_an_athlete_is_a_minor_until_the_eighteenth_birthday(born, day, minor):
    assert athlete(born=born).is_minor_on(day) is minor
