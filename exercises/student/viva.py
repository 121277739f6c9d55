"""Questions an examiner asks at the bench, with model answers and where to read more."""

from typing import NamedTuple


class Viva(NamedTuple):
    key: str
    question: str
    answer: str
    read: str


VIVA = (
    Viva(
        "why-perpendicular",
        "Why must the magnet's field be at right angles to the earth's horizontal field?",
        "Because only then is the ratio of the two fields the tangent of the deflection. The needle lies along their "
        "resultant, and the two are the short sides of a right-angled triangle.",
        "before/tangent-law/#why-the-fields-must-be-at-right-angles",
    ),
    Viva(
        "why-45",
        "Near which deflection is the moment least sensitive to a misreading, and why keep between 30° and 60°?",
        "Near 45°. A misreading dθ changes tan θ by the share dθ/(sin θ cos θ), which is least at 45° and only 15 % "
        "more at 30° and 60°; beyond them it grows fast.",
        "before/choosing-distances/",
    ),
    Viva(
        "both-ends",
        "Why are both ends of the pointer read?",
        "If the pivot is not at the centre of the circular scale, one end reads too much and the other too little by "
        "the same amount. Their mean is free of it.",
        "before/eight-readings/#what-each-pair-removes",
    ),
    Viva(
        "reversal",
        "Why is the magnet turned end for end?",
        "To be rid of a zero error of the pointer and of a magnet whose magnetic centre is not its middle: each adds "
        "on one side what it takes on the other.",
        "before/eight-readings/#what-each-pair-removes",
    ),
    Viva(
        "both-arms",
        "Why is the magnet carried to the other arm?",
        "Because the pivot may not stand at the zero of the distance scale. Then d is too long on one arm by as much "
        "as it is too short on the other, and the mean of both is nearly right.",
        "before/eight-readings/#what-each-pair-removes",
    ),
    Viva(
        "short-needle",
        "Why is the needle short and the pointer long?",
        "The tangent law takes the magnet's field to be the same all along the needle, which is so only if the needle "
        "is short beside d. The long pointer makes a small angle easy to read.",
        "before/instrument/#the-needle",
    ),
    Viva(
        "aluminium",
        "Why is the pointer made of aluminium?",
        "It must be light, and no magnet may act on it: a steel pointer would be a second needle.",
        "before/instrument/#the-pointer",
    ),
    Viva(
        "mirror",
        "What is the mirror under the pointer for?",
        "Against parallax. When the pointer hides its own image the eye is straight above it, and the division seen "
        "under it is the right one.",
        "before/instrument/#the-mirror",
    ),
    Viva(
        "magnetic-length",
        "What is the magnetic length, and why is it shorter than the bar?",
        "The distance between the two poles. The magnetism spreads over the ends, so it acts as if gathered a little "
        "inside them. A laboratory states it, or takes the length given for it, or takes 5/6 of the measured length.",
        "before/result/#the-magnetic-length",
    ),
    Viva(
        "tan-a-tan-b",
        "What differs between the tan A and the tan B position?",
        "In tan A the arms lie east–west and the magnet along them, its end to the box. In tan B the arms lie "
        "north–south and the magnet across them, its side to the box. At the same distance, if far, the end-on field "
        "is "
        "twice the broadside one.",
        "before/field-end-on/#end-on-not-broadside",
    ),
    Viva(
        "unit-of-moment",
        "What is the unit of the magnetic moment, and of the pole strength?",
        "Ampere square metre for the moment; ampere metre for the pole strength, which is the moment over the magnetic "
        "length.",
        "before/result/#pole-strength",
    ),
    Viva(
        "board-askew",
        "The arms are a few degrees off east–west. What happens to the two deflections when the magnet is reversed?",
        "One is too large and the other too small, for part of the magnet's field helps or hinders the earth's. Their "
        "mean is nearly right, but the board should be turned all the same.",
        "before/setting-up/",
    ),
    Viva(
        "iron-near",
        "Which mistakes do eight readings not remove?",
        "A wrong distance on both arms, a wrong length, a needle that sticks, and iron or another magnet near the "
        "bench, "
        "which changes the field for every reading.",
        "before/eight-readings/#what-is-not-removed",
    ),
    Viva(
        "needle-period",
        "What must be measured besides the deflection to find the moment and the earth's field both?",
        "The period of the magnet swinging in the earth's field alone, with its moment of inertia: it gives the "
        "product "
        "of m and B_H, while the deflection gives their ratio.",
        "exercises/earth/",
    ),
    Viva(
        "strong-magnets",
        "Which cautions go with strong magnets?",
        "Keep them from pacemakers and other implanted devices, from cards, phones and watches; mind your fingers "
        "between two of them; and follow the laboratory's own rules and its staff.",
        "before/precautions/#strong-magnets",
    ),
)
