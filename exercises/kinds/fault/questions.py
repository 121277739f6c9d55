"""What an examiner asks about an instrument with a fault: for a column, one sentence with its own data in it."""

from exercises.kinds.questions import HALVES

QUESTIONS = {
    "ends": "At one distance end ① reads {end_1}, and end ② reads {end_2}. How far apart are their means?",
    "north": HALVES + "How far apart are the means with N east and with N west?",
    "arms": HALVES + "How far apart are the means of the two arms?",
    "outward": HALVES + "How far apart are the means with N outward and with N inward?",
    "removed": "The fault is this: {fault}. Does the mean of eight remove it?",
}
