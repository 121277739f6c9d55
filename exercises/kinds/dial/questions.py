"""What an examiner asks about the dial: for a column, one sentence with its own data in it."""

QUESTIONS = {
    "read": "Read this dial to the nearest division. Where does end {end} of the pointer stand?",
    "mean": "From four dials you read {read}. What is the mean?",
}
