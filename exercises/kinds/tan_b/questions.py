"""What an examiner asks about tan B: for a column, one sentence with its own data in it."""

from exercises.kinds.questions import MEAN, MEAN_MOMENT, POLE, TANGENT

QUESTIONS = {
    "turns": (
        "In tan B the magnet lies across the {arm_laid} arm with its N pole to the {pole}. Which way does the "
        "needle turn?"
    ),
    "mean": MEAN,
    "tan": TANGENT,
    "bracket": "The magnet lies broadside-on at d = {d}, and 2l is {two_l}. What is (d² + l²)^(3/2)?",
    "moment": "Broadside-on, (d² + l²)^(3/2) is {bracket} and tan θ is {tan}. B_H is {B_H}. What is the moment m?",
    "mean-moment": MEAN_MOMENT,
    "pole": POLE,
}
