"""Settings of laboratories for tests: any that can be set, and one with all choices made."""

from hypothesis import strategies as st

from exercises.bench.local_field import PLACES
from exercises.bench.magnets import Bar
from exercises.codes.sheet_code import (
    DISTANCES,
    FIELDS_UT10,
    FIRST_YEAR,
    GRIDS_MM,
    LENGTHS_MM,
    SCALE_STEPS,
    TWO_L,
    YEARS,
    Setting,
    Station,
)

STATIONS = st.builds(
    Station,
    st.integers(0, len(PLACES) - 1),
    st.integers(FIRST_YEAR, FIRST_YEAR + YEARS - 1),
    st.integers(1, 12),
)
SETTINGS = st.builds(
    Setting,
    st.sampled_from(TWO_L),
    st.none() | STATIONS | st.sampled_from(FIELDS_UT10).map(lambda tenths: tenths / 10),
    st.sampled_from(LENGTHS_MM),
    st.sampled_from(GRIDS_MM),
    st.sampled_from(DISTANCES),
    st.sampled_from(SCALE_STEPS),
)
#: Bergen in May 2026, and everything else fixed too.
FIXED = Setting("given", Station(3, 2026, 5), 80, 5, 5, 0.5)
#: One setting for each way of knowing 2l, and nothing else fixed.
BY_RULE = tuple(Setting(two_l=rule) for rule in TWO_L)


def half_length(setting: Setting, bar: Bar) -> float:
    """l in m as a sheet of these settings takes it, worked with none of the kinds' own code."""
    return {"stated": bar.magnetic_length, "given": bar.length, "five-sixths": bar.length * 5 / 6}[setting.two_l] / 2
