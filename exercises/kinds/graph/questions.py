"""What an examiner asks about the graph: for a column, one sentence with its own data in it."""

from exercises.kinds.questions import TANGENT_OF_DATUM

QUESTIONS = {
    "tan": TANGENT_OF_DATUM,
    "x": "For the graph: d is {d}, and 2l is {two_l}. What is 2d/(d² − l²)²?",
    "root": "For the second line: d is {d}, and tan θ is {tan}. What is √(d cot θ)?",
    "moment-a": "tan θ against 2d/(d² − l²)² is a line of slope {slope-a}. B_H is {B_H}. What is the moment m?",
    "moment-b": "d² against √(d cot θ) is a line of slope {slope-b}. B_H is {B_H}. What is the moment m?",
    "found-2l": (
        "d² against √(d cot θ) is a line that meets the axis of d² at {intercept}. What is the magnetic length 2l?"
    ),
}
