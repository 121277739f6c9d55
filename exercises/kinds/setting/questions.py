"""What an examiner asks about setting up: for a column, one sentence with its own data in it."""

from exercises.kinds.questions import HALVES, MEAN

QUESTIONS = {
    "turn-first": "The line of the arms stands at {line} on the scale of the box. How large is the first turn?",
    "turn-next": "After the first turn the pointer shows {shows}. How large is the second turn?",
    "diff": HALVES + "What is the difference between the means with N east and with N west?",
    "left-out": (
        "One turn was left out. The means with N east and with N west differ by {diff}, first at the nearer "
        "distance and then at the farther. Which turn was it?"
    ),
    "mean": MEAN,
    "askew": (
        "Left out was {left-out}. The means with N east and with N west differ by {diff}, and the mean of all "
        "eight is {mean}. By which angle α are the arms askew?"
    ),
    "rest": "The arms are askew by {askew}, and the mean of eight is {mean}. How far off is m from this mean?",
}
