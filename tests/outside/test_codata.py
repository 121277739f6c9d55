"""Our constants against CODATA's recommended values, as scipy.constants carries them."""

import math

import pytest
from scipy import constants

from exercises.bench.field import MU_0, MU_0_OVER_4PI


def test_mu_0_is_codatas_within_its_own_uncertainty():
    """Source: CODATA 2022, vacuum magnetic permeability (scipy.constants.physical_constants)."""
    value, unit, uncertainty = constants.physical_constants["vacuum mag. permeability"]
    assert unit == "N A^-2"
    assert abs(MU_0 - value) <= uncertainty
    assert pytest.approx(constants.mu_0, rel=1e-12) == MU_0


def test_the_textbooks_round_value_is_close_enough_for_any_compass():
    """µ0/4π = 1e-7 N/A² was exact before 2019; since then it is measured, and 1.3e-10 away."""
    departure = MU_0_OVER_4PI / (constants.mu_0 / (4 * math.pi)) - 1
    assert 0 < abs(departure) < 1e-9
    assert departure == pytest.approx(1.3e-10, abs=0.2e-10)  # the figure that field.py's comment gives
