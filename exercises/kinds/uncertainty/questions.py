"""What an examiner asks about the uncertainty of a moment: for a column, one sentence with its own data in it."""

from exercises.kinds.questions import MEAN

QUESTIONS = {
    "mean": MEAN,
    "u-mean": "The scatter s about the pattern is {scatter}. What is s/√8?",
    "u-theta": "s/√8 is {u-mean}, and friction adds a half width of {width_theta}. What is u(θ)?",
    "share-angle": "θ is {mean}, and u(θ) is {u-theta}. What share does the angle add to u(m)/m?",
    "u-d": "The distance is known within a half width of {width_d}. What is u(d)?",
    "sensitivity": "d is {d}, and 2l is {two_l}. What is 4d²/(d² − l²) − 1?",
    "share-distance": (
        "d is {d}, u(d) is {u-d}, and 4d²/(d² − l²) − 1 is {sensitivity}. What share does the distance add to u(m)/m?"
    ),
    "u-l": "2l is known within a half width of {width_two_l}. What is u(l)?",
    "share-length": "End-on at d = {d}, 2l is {two_l} and u(l) is {u-l}. What share does the length add to u(m)/m?",
    "needle-effect": (
        "The needle’s poles are 2n = {needle} apart, d is {d}, and θ is {mean}. What is the effect f of the needle "
        "on m?"
    ),
    "share-needle": (
        "The effect f of the needle is {needle-effect}. 2n is {needle}, within a half width of {width_needle}. "
        "What share does the needle add to u(m)/m?"
    ),
    "combined": (
        "The shares are {share-angle} of the angle, {share-distance} of the distance, {share-length} of the length "
        "and {share-needle} of the needle. What is u(m)/m?"
    ),
    "moment": "End-on at d = {d}, 2l is {two_l}, θ is {mean} and B_H is {B_H}. What is the moment m by the formula?",
    "corrected": (
        "The formula gives m = {moment}, and the effect f of the needle is {needle-effect}. What is m without that "
        "effect?"
    ),
    "coverage": "There are {freedom} effective degrees of freedom. What is the coverage factor k for 95 %?",
    "expanded": "m is {corrected}, u(m)/m is {combined}, and k is {coverage}. What is U?",
    "count": "m is {corrected}, and U is {expanded}. To how many figures do you quote m?",
    "ratio": "How many times as large as at 45° is the share of θ at {other_angle}?",
}
