"""What an examiner asks about the tangent law: for a column, one sentence with its own data in it."""

from exercises.kinds.questions import TANGENT_OF_DATUM

_ASKEW = "The first turn was left out: the east arm points {tilt} to the {side} of east. "
QUESTIONS = {
    "tan-1": TANGENT_OF_DATUM,
    "field-1": "B_H is {B_H}, and the tangent of the deflection is {tan-1}. What is the magnet’s field B?",
    "theta-2": "A field of {fields} lies across B_H, which is {B_H}. What is the deflection θ?",
    "along-2": "A field of {fields} lies across B_H, which is {B_H}. How strong is the field along the needle?",
    "earth-3": "A field of {fields} across the earth’s turns the needle by {theta}. What is B_H there?",
    "way-4": _ASKEW + "The magnet lies on that arm. Which way turns the needle farther?",
    "east-4": _ASKEW + "Along it lies a field of {fields}, and B_H is {B_H}. What is θ with the N pole east?",
    "west-4": _ASKEW + "Along it lies a field of {fields}, and B_H is {B_H}. What is θ with the N pole west?",
    "mean-4": "The needle turns by {east-4} with the N pole east and by {west-4} with it west. What is the mean?",
    "field-4": "The mean of the two deflections is {mean-4}, and B_H is {B_H}. Which field B does it give?",
}
