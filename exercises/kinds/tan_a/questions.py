"""What an examiner asks about tan A: for a column, one sentence with its own data in it."""

from exercises.kinds.questions import END_ON, MEAN, MEAN_MOMENT, POLE, TANGENT

QUESTIONS = {
    "mean": MEAN,
    "tan": TANGENT,
    "bracket": END_ON,
    "moment": "End-on at d = {d}, (d² − l²)² is {bracket} and tan θ is {tan}. B_H is {B_H}. What is the moment m?",
    "mean-moment": MEAN_MOMENT,
    "pole": POLE,
}
