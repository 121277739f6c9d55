"""What an examiner asks about choosing distances: for a column, one sentence with its own data in it."""

QUESTIONS = {
    "l": "The magnetic length 2l is {two_l}. What is l?",
    "field": "B_H is {B_H}. Which field B turns the needle by {angle}?",
    "cube": "A magnet of {moment} shall make a field of {field}. What is d₀³ = (µ₀/4π)·2m/B?",
    "guess": "d₀³ is {cube}. What is the first guess d₀?",
    "correction": "The first guess d₀ is {guess}, and l is {l}. What is the correction 2l²/3d₀?",
    "distance": "The first guess is {guess}, and the correction is {correction}. What is the distance d?",
    "gap": (
        "A bar {length} long lies with its middle {distance} from the pivot. The radius of the box is {radius}. "
        "How wide is the gap between box and bar?"
    ),
    "clear": "The gap between box and bar is {gap}. Is the bar at least 1 cm clear of the box?",
    "from": (
        "For 60° the distance would be {distance}, and there the gap between box and bar is {gap}. At least 1 cm "
        "shall be clear. From which distance on do you work?"
    ),
    "reach": (
        "A bar {length} long lies with its middle {distance} from the pivot. How far from the pivot is its far end?"
    ),
    "fits": "The far end of the bar would lie {reach} from the pivot, and the arm is {arm} long. Is it long enough?",
    "to": (
        "For 30° the distance would be {distance}. The bar is {length} long, and its far end shall not lie beyond "
        "the arm, which ends {arm} from the pivot. Up to which distance do you work?"
    ),
}
