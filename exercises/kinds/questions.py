"""Questions that an examiner asks about several kinds; how they are filled in is in student/asked.py."""

MEAN = "Eight readings at one distance are {readings}. What is the mean θ?"
TANGENT = "The mean deflection is {mean}. What is its tangent?"
TANGENT_OF_DATUM = "The mean deflection is {theta}. What is its tangent?"
MEAN_MOMENT = "From the distances one by one the moment comes out as {moment}. What is the mean moment?"
POLE = "The mean moment is {mean-moment}, and 2l is {two_l}. What is the pole strength p?"
END_ON = "The magnet lies end-on with its middle at d = {d}, and 2l is {two_l}. What is (d² − l²)²?"
HALVES = (
    "On the east arm the two ends of the pointer read {east_east} with N east and {east_west} with N west; on "
    "the west arm {west_east} and {west_west}. "
)
