"""Questions an examiner asks at the bench, in the order of an examination, with model answers."""

from typing import NamedTuple


class Viva(NamedTuple):
    """A question to answer aloud.

    read    the address of the passage about it
    sketch  the name of a figure of the theory pages, where an examiner would ask for one; else ""
    """

    key: str
    question: str
    answer: str
    read: str
    sketch: str = ""


VIVA = (
    # -- what is found, and by which law ------------------------------------------
    Viva(
        "aim",
        "What do you find in this experiment, and what do you measure for it?",
        "The magnetic moment and the pole strength of a bar magnet. You measure the deflection of a needle, the "
        "distance from the pivot to the middle of the magnet, and the length of the magnet. The earth's horizontal "
        "field is given.",
        "before/#what-you-will-do",
    ),
    Viva(
        "tangent-law",
        "State the tangent law, and sketch the two fields on the needle.",
        "B = B_H tan θ. The earth's horizontal field B_H points to magnetic north, and the magnet's field B at right "
        "angles to it. The needle settles along their resultant, at the angle θ from north.",
        "before/tangent-law/#why-the-needle-settles-there",
        sketch="two-fields",
    ),
    Viva(
        "why-perpendicular",
        "Why must the magnet's field be at right angles to the earth's horizontal field?",
        "Because only then is the ratio of the two fields the tangent of the deflection. The needle lies along their "
        "resultant, and the two are the short sides of a right-angled triangle.",
        "before/tangent-law/#why-the-fields-must-be-at-right-angles",
    ),
    Viva(
        "horizontal-component",
        "What is the horizontal component of the earth's field? Sketch it with the angle of dip.",
        "The level part of the earth's field. The whole field slants at the angle of dip. The horizontal component is "
        "the whole field times the cosine of the dip. Only this part turns a needle that moves in the level plane.",
        "before/tangent-law/#the-earths-horizontal-field",
        sketch="dip",
    ),
    Viva(
        "declination",
        "What is the declination, and do you need it here?",
        "The angle between magnetic and geographic north. You do not need it: the arms are set by the needle, so they "
        "lie magnetic east–west.",
        "before/tangent-law/#magnetic-and-geographic-north",
    ),
    # -- the instrument ------------------------------------------------------------
    Viva(
        "which-end-is-n",
        "How do you find out which end of a bar magnet is N?",
        "The end that pushes away the N end of a compass needle is N. A magnet that can turn freely points with its N "
        "end to magnetic north.",
        "before/instrument/#which-end-is-n",
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
        "Against parallax. When the pointer hides its own image, the eye is straight above it, and the division seen "
        "under it is the right one.",
        "before/instrument/#the-mirror",
    ),
    Viva(
        "scale",
        "How is the circular scale numbered, and how far does each quadrant go?",
        "In four quadrants from 0 to 90. The two zeros lie where the pointer rests, so both of its ends show the "
        "deflection directly, whichever way the needle turns.",
        "before/instrument/#the-circular-scale",
    ),
    # -- setting up ----------------------------------------------------------------
    Viva(
        "two-adjustments",
        "Which two adjustments do you make in setting up, and in what order?",
        "First turn the box alone, until its 0–0 line is parallel to the arms. Then turn the whole board, until the "
        "pointer reads 0–0.",
        "before/setting-up/",
        sketch="setting-up",
    ),
    Viva(
        "arms-east-west",
        "How do you know, after the two adjustments, that the arms lie magnetic east–west?",
        "The needle points to magnetic north, and the pointer is square to it, so the pointer lies east–west. It reads "
        "0–0, so it lies along the 0–0 line. The 0–0 line is parallel to the arms.",
        "before/setting-up/#second-turn-the-board",
    ),
    Viva(
        "first-turn-left-out",
        "The first adjustment was left out, and the pointer reads 0–0. What is wrong, and which readings show it?",
        "The box stands askew to the arms, so the arms are not east–west. One deflection is too large and the other "
        "too small when the magnet is reversed, by ε sin² θ: more at large deflections. At rest the pointer "
        "does not show it.",
        "before/setting-up/#if-the-first-turn-is-skipped",
        sketch="turn-left-out",
    ),
    Viva(
        "second-turn-left-out",
        "The second adjustment was left out. What does the pointer show at rest, and what do the readings show?",
        "It shows the angle α by which the board is off. One deflection is too large and the other too small, by "
        "α cos² θ: more at small deflections.",
        "before/setting-up/#if-the-second-turn-is-skipped",
    ),
    Viva(
        "board-askew",
        "The arms are a few degrees off east–west. What happens to the two deflections when the magnet is reversed?",
        "One is too large and the other too small, for part of the magnet's field helps or hinders the earth's. Their "
        "mean is nearly right. All the same, set the box parallel to the arms and then turn the board to 0–0.",
        "before/setting-up/#what-the-mean-does",
    ),
    Viva(
        "board-first",
        "A student turns the board first and then the box until the pointer reads 0–0. Is the instrument set up?",
        "No. The box can bring the pointer to 0–0 with the arms at any angle. The box must first be parallel to the "
        "arms; only then does 0–0 show that the arms lie east–west.",
        "before/setting-up/#if-the-first-turn-is-skipped",
    ),
    # -- the readings --------------------------------------------------------------
    Viva(
        "four-places",
        "In which places do you lay the magnet for the eight readings? Sketch them.",
        "East arm with N east, east arm with N west, west arm with N east, west arm with N west, always at the same "
        "d. In each place both ends of the pointer are read.",
        "before/eight-readings/#in-what-order",
        sketch="four-places",
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
        "To remove a zero error of the pointer, a small error of setting up, and a magnet whose magnetic centre is not "
        "its middle: each adds on one side what it takes on the other.",
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
        "tapping",
        "Why do you tap the glass before a reading?",
        "The pivot has friction. A needle that has stopped may not have arrived. The friction need not change its "
        "sign, so the mean does not remove it.",
        "before/precautions/#tap-wait-and-look-straight-down",
    ),
    Viva(
        "iron-near",
        "Which mistakes do eight readings not remove?",
        "A wrong distance on both arms, a wrong length, a needle that sticks, a needle that is long beside d, and iron "
        "or another magnet near the bench, which changes the field for every reading.",
        "before/eight-readings/#what-is-not-removed",
    ),
    # -- the distances -------------------------------------------------------------
    Viva(
        "why-45",
        "Near which deflection is the moment least sensitive to a misreading, and why keep between 30° and 60°?",
        "Near 45°. A misreading δθ, in radians, changes tan θ by the share δθ/(sin θ cos θ), which is least at 45° and "
        "only 15 % more at 30° and 60°. Outside this range it grows fast.",
        "before/choosing-distances/#what-an-error-in-the-angle-does",
        sketch="angle-error",
    ),
    Viva(
        "where-is-d",
        "From where to where do you measure d?",
        "From the pivot of the needle to the middle of the magnet. The distance scale has its zero under the pivot.",
        "before/field-end-on/#from-the-centre",
    ),
    Viva(
        "needle-error",
        "Your needle is 2 cm long. What does its length do, and what do you do about it?",
        "The field is not the same all along it, and the needle turns too far: the moment comes out too large, by "
        "about (half needle/d)² (15 sin² θ − 3), some 3 % at 60° and 1 % at 45°. So work at 30° to 45°.",
        "before/choosing-distances/#clear-of-the-box",
    ),
    # -- the working ---------------------------------------------------------------
    Viva(
        "field-on-axis",
        "How do you get the field on the axis of a bar magnet? Sketch the two poles and the point.",
        "The near pole is d − l away and the far pole d + l, and their fields are opposite. The difference is "
        "µ₀/4π · 2md/(d² − l²)².",
        "before/field-end-on/#two-poles-on-a-line",
        sketch="pole-forces",
    ),
    Viva(
        "moment-formula",
        "Write down the moment in terms of what you measured, and say what each letter is.",
        "m = (4π/µ₀) B_H (d² − l²)² tan θ/2d. B_H is the earth's horizontal field in tesla, d the distance to the "
        "middle of the magnet and l half the magnetic length, both in metres, and θ the mean of eight readings.",
        "before/field-end-on/#the-moment-from-the-deflection",
    ),
    Viva(
        "magnetic-length",
        "What is the magnetic length, and why is it shorter than the bar?",
        "The distance between the two poles. The magnetism spreads over the ends, so it acts as if gathered a little "
        "inside them. A laboratory states it, or takes the length given for it, or takes 5/6 of the measured length.",
        "before/result/#the-magnetic-length",
    ),
    Viva(
        "where-poles-lie",
        "Where do the poles lie in an old steel bar, and where in a ferrite bar that is magnetised evenly?",
        "In old steel with weakened ends about 5/6 of the length apart. In an even ferrite or alnico bar nearly at the "
        "ends, so that 2l is nearly the whole length.",
        "before/field-end-on/#half-the-magnetic-length",
    ),
    Viva(
        "unit-of-moment",
        "What is the unit of the magnetic moment, and of the pole strength?",
        "Ampere square metre for the moment; ampere metre for the pole strength, which is the moment over the magnetic "
        "length.",
        "before/result/#pole-strength",
    ),
    # -- the result ----------------------------------------------------------------
    Viva(
        "straight-line",
        "Which graph shows that your distances agree, and what is its slope? Sketch it.",
        "tan θ against 2d/(d² − l²)². It is a straight line through the origin, with the slope (µ₀/4π) m/B_H.",
        "before/result/#the-mean-moment",
        sketch="straight-line",
    ),
    Viva(
        "distance-error",
        "You set d wrong by half a millimetre at 20 cm. How wrong is the moment?",
        "The field falls about as 1/d³, so the share is more than three times that of d: 0.25 % in d is 0.8 to 0.9 % "
        "in m.",
        "before/choosing-distances/#how-exact-the-distance-must-be",
    ),
    Viva(
        "other-place",
        "You repeat the experiment where the horizontal field is half as strong. What changes?",
        "The same magnet at the same distance turns the needle farther: tan θ is twice as large. The moment is the "
        "same.",
        "before/tangent-law/#why-the-needle-settles-there",
    ),
    # -- the other determinations ----------------------------------------------------
    Viva(
        "tan-a-tan-b",
        "What differs between the tan A and the tan B position?",
        "In tan A the arms lie magnetic east–west and the magnet along them, its end to the box. In tan B the arms lie "
        "magnetic north–south and the magnet across them, its side to the box. At the same distance, if far, the "
        "end-on field is twice the broadside one.",
        "before/field-end-on/#end-on-not-broadside",
    ),
    Viva(
        "setting-up-tan-b",
        "How do you set up for tan B?",
        "First turn the box alone, until its 0–0 line is square to the arms. Then turn the whole board, until the "
        "pointer reads 0–0. The arms then lie magnetic north–south.",
        "exercises/tan-b/#setting-up-for-tan-b",
        sketch="setting-up-tan-b",
    ),
    Viva(
        "needle-period",
        "What must be measured besides the deflection to find the moment and the earth's field both?",
        "The period of the magnet swinging in the earth's field alone, with its moment of inertia: it gives the "
        "product of m and B_H, while the deflection gives their ratio.",
        "exercises/earth/",
    ),
    # -- safety ----------------------------------------------------------------------
    Viva(
        "own-magnet-away",
        "How far away do you put your own magnet when you look at the zero, and why?",
        "Two metres. At one metre a bar of 1.5 A·m² still turns the needle by half a degree; at two metres by less "
        "than a tenth.",
        "before/precautions/#keep-other-magnets-and-iron-away",
    ),
    Viva(
        "strong-magnets",
        "Which cautions go with strong magnets?",
        "Keep them from pacemakers and other implanted devices, from cards, phones and watches; mind your fingers "
        "between two of them; and follow the laboratory's own rules and its staff.",
        "before/precautions/#strong-magnets",
    ),
)
