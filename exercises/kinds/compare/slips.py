"""Slips in comparing two magnets: what stands above the line and what below, and what drops out."""

from exercises.slips.catalogue import Slip, always

SLIPS = (
    Slip(
        "upside-down",
        "m₂/m₁ given for m₁/m₂",
        "which_over_which",
        always(lambda a, ratio: a.keep(1 / ratio)),
        "This looks like m₂/m₁. What belongs to magnet 1 stands above the line; turn the fraction over.",
        "exercises/compare/#which-over-which",
    ),
    Slip(
        "distances-upside-down",
        "d₁/d₂ taken for d₂/d₁",
        "distances_compared",
        always(lambda a, d1, d2: (d1, d2)),
        "This looks like d₁/d₂ where d₂/d₁ belongs. The d of a magnet stands above the line in its field, so in the "
        "ratio of the moments it goes below.",
        "exercises/compare/#the-balance",
    ),
    Slip(
        "distances-left-out",
        "d₂/d₁ left out",
        "distances_compared",
        always(lambda a, d1, d2: (1, 1)),
        "This looks like the two brackets alone: the factor d₂/d₁ was left out. It drops out only when both distances "
        "are the same.",
        "exercises/compare/#the-balance",
    ),
    Slip(
        "settings-not-divided",
        "the sum of the four settings not divided",
        "mean_of_settings",
        always(lambda a, found: a.total(found)),
        "This looks like the sum of the four settings. Divide it by four.",
        "exercises/compare/#four-settings-for-one-balance",
        hides=True,
    ),
    Slip(
        "one-setting-only",
        "the first of the four settings taken for their mean",
        "mean_of_settings",
        always(lambda a, found: found[0]),
        "This looks like the first setting alone. The other three belong to it: together they take out a box that is "
        "not at the scale's zero, and magnets whose centre is not their middle.",
        "exercises/compare/#four-settings-for-one-balance",
        hides=True,
    ),
    Slip(
        "ratios-not-divided",
        "the sum of the ratios not divided",
        "mean_of_ratios",
        always(lambda a, ratios: a.total(ratios)),
        "This looks like the sum of the ratios. Divide it by how many balances there are.",
        "exercises/compare/#the-balance",
        hides=True,
    ),
)
