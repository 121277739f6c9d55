"""What an examiner asks about the earth's field: for a column, one sentence with its own data in it."""

from exercises.kinds.questions import END_ON, TANGENT_OF_DATUM

QUESTIONS = {
    "tan": TANGENT_OF_DATUM,
    "bracket": END_ON,
    "ratio": "End-on at d = {d}, (d² − l²)² is {bracket} and tan θ is {tan}. What is m/B_H?",
    "period": (
        "The magnet makes {swings} swings, there and back, in {timings}: timed three times. What is the period T?"
    ),
    "inertia": "A bar of {mass} is {length} long and {breadth} broad. What is its moment of inertia I as it swings?",
    "product": "The moment of inertia is {inertia}, and the period is {period}. What is m·B_H?",
    "moment": "m·B_H is {product}, and m/B_H is {ratio}. What is the moment m?",
    "earth": "m·B_H is {product}, and m/B_H is {ratio}. What is B_H?",
}
