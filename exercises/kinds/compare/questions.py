"""What an examiner asks about two magnets: for a column, one sentence with its own data in it."""

from exercises.kinds.questions import TANGENT

QUESTIONS = {
    "mean": "One of two magnets gives the eight readings {readings}. What is its mean θ?",
    "tan": TANGENT,
    "bracket-1": "Magnet 1 lies end-on at d = {d}, and its 2l is {two_ls}. What is (d² − l₁²)²?",
    "bracket-2": "Magnet 2 lies end-on at d = {d}, and its 2l is {two_ls}. What is (d² − l₂²)²?",
    "ratio-angles": (
        "At one distance tan θ is {tan} for magnets 1 and 2; (d² − l₁²)² is {bracket-1}, and (d² − l₂²)² is "
        "{bracket-2}. What is m₁/m₂?"
    ),
    "null": "Magnet 2 balances magnet 1 at {found}, in the four ways of laying them. What is its mean distance d₂?",
    "near-1": "In a balance magnet 1 lies at d₁ = {d1}, and its 2l is {two_ls}. What is (d₁² − l₁²)²?",
    "far-1": "In a balance magnet 2 lies at d₂ = {null}, and its 2l is {two_ls}. What is (d₂² − l₂²)²?",
    "mean-ratio": "From the balances one by one m₁/m₂ comes out as {ratio}. What is the mean?",
}
