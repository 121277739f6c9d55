"""A right number reads the same however it is spelt; what is not certain is asked about; nothing hangs."""

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.judging import answer
from exercises.judging.answer import LONGEST, Ask, Unreadable, read
from exercises.working.quantities import QUANTITIES

NAMES = sorted(QUANTITIES)


def said(text: str, quantity: str = "moment") -> str:
    """The refusal of a text, which must be a kind sentence."""
    with pytest.raises(Unreadable) as told:
        read(text, quantity)
    sentence = str(told.value)
    assert is_a_sentence(sentence), sentence
    return sentence


def is_a_sentence(text: str) -> bool:
    return (text[0].isupper() or text[0] == "“") and text.endswith((".", "?")) and len(text) < 300


# -- one number, many spellings -----------------------------------------------

SCRIPTS = {
    "ascii": "0123456789",
    "full width": "０１２３４５６７８９",
    "Devanagari": "०१२३४५६७८९",
    "Arabic-Indic": "٠١٢٣٤٥٦٧٨٩",
    "Persian": "۰۱۲۳۴۵۶۷۸۹",
    "Thai": "๐๑๒๓๔๕๖๗๘๙",
    "Bengali": "০১২৩৪৫৬৭৮৯",
}
RAISED = str.maketrans("0123456789+-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻")
MINUS = ["-", "−", "–", "‑", "－", "﹣"]
POINTS = [".", ",", "．", "，"]
TIMES = ["x", "X", "×", "*", "·", "⋅", "✕"]
UNIT_OF = {  # as typed -> how many of the quantity's SI unit it is
    "moment": {
        "": 1,
        "A·m²": 1,
        "A m²": 1,
        "Am²": 1,
        "A m2": 1,
        "Am2": 1,
        "A·m^2": 1,
        "A.m^2": 1,
        "A*m^2": 1,
        "A m**2": 1,
        "A⋅m²": 1,
        "A∙m²": 1,
        "A × m²": 1,
        "A×m²": 1,
        "a m2": 1,
        "A㎡": 1,
        "(A m²)": 1,
        "J/T": 1,
        "J T⁻¹": 1,
        "J·T^-1": 1,
        "mA m2": 1e-3,
        "mA·m²": 1e-3,
        "µA m²": 1e-6,
        "μA m²": 1e-6,
        "uA m2": 1e-6,
        "kA m²": 1e3,
        "A cm²": 1e-4,
        "A·cm^2": 1e-4,
        "A mm2": 1e-6,
        "mJ/T": 1e-3,
        "mA cm²": 1e-7,
        "nA m²": 1e-9,
        "emu": 1e-3,
    },
    "pole": {"": 1, "A·m": 1, "A m": 1, "Am": 1, "A*m": 1, "A cm": 1e-2, "A mm": 1e-3, "mA m": 1e-3, "J/(T·m)": 1},
    "angle": {
        "": 1,
        "°": 1,
        " °": 1,
        "º": 1,
        "deg": 1,
        "degrees": 1,
        "Degrees": 1,
        "deg.": 1,
        "˚": 1,
    },  # the last is U+02DA, the ring that some keyboards have in its place
    "ratio": {"": 1},
    "length4": {"": 1, "m⁴": 1, "m^4": 1, "m4": 1, "m**4": 1, "m ^ 4": 1, "cm⁴": 1e-8, "cm^4": 1e-8, "mm4": 1e-12},
}


def in_script(text: str, script: str) -> str:
    return text.translate(str.maketrans(SCRIPTS["ascii"], SCRIPTS[script]))


@st.composite
def spellings(draw, quantity: str):
    """(what is typed, the number it stands for, how many figures, size of its last place)."""
    digits = draw(st.integers(10, 99999).filter(lambda n: n % 10))
    figures = len(str(digits))
    after = draw(st.integers(0, figures))
    power = draw(st.integers(-12, 12))
    negative = draw(st.booleans())
    whole, part = str(digits)[: figures - after], str(digits)[figures - after :]
    point = draw(st.sampled_from(POINTS))
    if point in ",，" and len(part) == 3 and whole:
        point = "."  # that one is asked about, and has its own test
    body = whole + (point + part if part else "")
    if not whole and draw(st.booleans()):
        body = "0" + body
    script = draw(st.sampled_from(sorted(SCRIPTS)))
    sign = draw(st.sampled_from(MINUS)) if negative else draw(st.sampled_from(["", "", "+"]))
    minus = draw(st.sampled_from(MINUS)) if power < 0 else ""
    gap = st.sampled_from(["", " ", "\u00a0", "\u202f"])
    ten = draw(gap) + draw(st.sampled_from(TIMES)) + draw(gap)
    how = draw(st.integers(0, 4))
    exponent = {
        0: "",
        1: draw(st.sampled_from("eE")) + minus + str(abs(power)),
        2: f"{ten}10^{draw(gap)}{minus}{abs(power)}",
        3: f"{ten}10**{minus}{abs(power)}",
        4: ten + "10",
    }[how]
    text = in_script(sign + body + exponent, script)
    if how == 4:
        text += str(power).translate(RAISED)
    unit, factor = draw(st.sampled_from(sorted(UNIT_OF[quantity].items())))
    text = draw(gap) + text + (draw(gap) + unit if unit else "") + draw(gap)
    scale = 10.0 ** (power if how else 0) * factor
    value = (-1 if negative else 1) * digits * 10.0**-after * scale
    return text, value, figures, 10.0**-after * scale


@settings(deadline=None, max_examples=250)
@pytest.mark.parametrize("quantity", sorted(UNIT_OF))
@given(data=st.data())
def test_a_number_reads_the_same_in_every_spelling(quantity, data):
    text, value, figures, last = data.draw(spellings(quantity))
    typed = read(text, quantity)
    assert typed.value == pytest.approx(value, rel=1e-12)
    assert typed.figures == figures
    assert typed.last_place == pytest.approx(last, rel=1e-9)


@pytest.mark.parametrize("script", sorted(SCRIPTS))
def test_a_raised_power_after_the_tens_of_any_script(script):
    """“१.६२×१०⁻³”: people raise the power with the same key whatever their figures are."""
    for times in TIMES:
        typed = read(in_script("1.62", script) + times + in_script("10", script) + "⁻³ A·m²", "moment")
        assert typed.value == pytest.approx(1.62e-3) and typed.figures == 3


@pytest.mark.parametrize(
    "text",
    [
        "1.62",
        "+1.62",
        " 1.62 ",
        "1,62",
        "01.62",
        "1 . 62",
        "١٫٦٢",
        "۱٫۶۲",
        "𝟏.𝟔𝟐",
        "\t1.62\n",
        "1.62e0",
        "0.162e+1",
        "162e-2",
        "1.62×10⁰",
        "0,0162 x 10^2",
        "1620 mA·m²",
        "16200 A cm²",
        "1.62 J/T",
        "1.62\u00a0A\u00a0m²",
    ],
)
def test_many_ways_of_one_moment(text):
    assert read(text, "moment").value == pytest.approx(1.62, rel=1e-12)


@pytest.mark.parametrize("text", ["@1.62 A·m²", "1.62@ A·m²", "1.62 A·m²@"])
def test_marks_that_nobody_sees_are_not_seen(text):
    """Pasted from a page, or typed where the script runs from right to left."""
    for mark in "\u200b\ufeff\u200e\u200f\u202d\u2060\u00ad":
        assert read(text.replace("@", mark), "moment").value == 1.62


def test_a_bare_number_is_in_the_unit_that_is_shown():
    for quantity in NAMES:
        # a field in µT, a distance in cm and a share in %, as the sheet gives them; all others in SI units
        assert read("2.50", quantity).value == pytest.approx(2.5 * QUANTITIES[quantity].bare)
        assert read("2.50", quantity).named is False
    fields = [read(text, "field").value for text in ("36", "36 µT", "0.036 mT", "36000 nT", "3.6e-5 T", "0.36 G")]
    lengths = [read(text, "length").value for text in ("0.36", "0.36 m", "36 cm", "360 mm")]
    assert fields == pytest.approx([3.6e-5] * 6) and lengths == pytest.approx([0.36] * 4)


@pytest.mark.parametrize("quantity", NAMES)
def test_every_unit_that_is_shown_or_listed_is_understood(quantity):
    assert read(f"2.50 {QUANTITIES[quantity].shown}", quantity).value == read("2.50", quantity).value
    for unit, factor in QUANTITIES[quantity].units.items():
        if unit:
            assert read(f"2.50 {unit}", quantity).value == pytest.approx(2.5 * factor)


@pytest.mark.parametrize(
    ("text", "figures", "last"),
    [
        ("1.62", 3, 0.01),
        ("1.620", 4, 0.001),
        ("0.0162", 3, 1e-4),
        ("162", 3, 1),
        ("162.", 3, 1),
        ("1620", 4, 1),
        ("1.62e3", 3, 10),
        ("1.62e-3", 3, 1e-5),
        ("16.2 mA m²", 3, 1e-4),
        ("0", 1, 1),
        ("0.00", 1, 0.01),
        (".5", 1, 0.1),
    ],
)
def test_figures_and_last_place(text, figures, last):
    typed = read(text, "moment")
    assert typed.figures == figures and typed.last_place == pytest.approx(last)


def test_nothing_typed_is_nothing():
    for text in ("", " ", "\t\n", "\u00a0", "\u3000"):
        assert read(text, "moment") is None


# -- two meanings are asked about ---------------------------------------------


@settings(deadline=None)
@given(st.integers(1, 999), st.integers(0, 999), st.sampled_from([",", " , ", "，"]), st.sampled_from(["", " A·m²"]))
def test_a_comma_that_may_part_thousands_is_asked_about(whole, part, comma, unit):
    with pytest.raises(Ask) as told:
        read(f"{whole}{comma}{part:03}{unit}", "moment")
    assert f"{whole}.{part:03}" in str(told.value) and f"{whole}{part:03}" in str(told.value)
    assert is_a_sentence(str(told.value))


def test_a_comma_that_cannot_part_thousands_is_a_point():
    values = {"0,162": 0.162, "00,162": 0.162, ",162": 0.162, "1,62": 1.62, "1,6200": 1.62, "1234,567": 1234.567}
    assert {text: read(text, "moment").value for text in values} == values


@pytest.mark.parametrize("unit", ["", " A·m²", "A m2"])
@pytest.mark.parametrize("sign", ["", "-"])
def test_more_than_one_mark_between_the_figures_is_asked_about(sign, unit):
    """With a unit or a sign as well as without: it is the same question."""
    for number in ("1,234.5", "1.234,5", "1 234", "1 234,5", "12,34,567", "1,234,567", "1.6 2", "1\u202f234.5"):
        with pytest.raises(Ask) as told:
            read(sign + number + unit, "moment")
        assert is_a_sentence(str(told.value))


# -- what is not one number is refused, with what was and was not understood --


def test_no_number_at_the_start():
    for text in [
        "one",
        "nan",
        "NaN",
        "inf",
        "-inf",
        "∞",
        "None",
        "e5",
        "A·m²",
        "--1",
        "+-1",
        "°",
        ".",
        ",",
        "-",
        "π",
        "x10^3",
        "≈1.62",
        "l.62",
        "O.5",
    ]:
        assert "does not begin with a number" in said(text)


@pytest.mark.parametrize("quantity", ["moment", "angle"])
def test_sums_and_programs_are_never_worked_out(quantity):
    for text in [
        "9**9**9",
        "1/2",
        "3*4",
        "2+2",
        "1.6-0.1",
        "1.62(3)",
        "2^10",
        "1.6*1e3",
        "10^3",
        "exit()",
        "1j",
        "0x10",
    ]:
        said(text, quantity)


@pytest.mark.parametrize("quantity", ["moment", "angle", "ratio"])
def test_a_raised_figure_is_no_figure_of_the_number(quantity):
    """“1.62²” is not 1.622, and a footnote's mark is not a last place."""
    for text in ("1.62²", "37¹", "²5", "1²", "5⁰", "1.62⁻³"):
        said(text, quantity)


@pytest.mark.parametrize(("text", "never"), [("37½", "371"), ("1½ A·m²", "“11”"), ("2¼", "“21”")])
def test_a_fraction_is_never_taken_for_a_figure(text, never):
    """Half degrees are on the scale, so somebody types them so: read as a half, or refused as what it is."""
    try:
        assert read(text, "angle" if "A" not in text else "moment").value in (37.5, 1.5, 2.25)
    except Unreadable as error:
        assert never not in str(error)


@pytest.mark.parametrize("quantity", ["angle", "ratio", "length4", "moment"])
def test_a_number_broken_off_is_not_taken_for_a_whole_one(quantity):
    """Someone who meant “9.2 x 10^-4” and was called away must not be judged on 9.2."""
    for text in ("9.2 x", "9.2 ×", "9.2*", "9.2 ·", "9.2(", "9.2 ()", "9.2 x 10", "9.2e", "9.2 x 10^", "9.2 e-"):
        said(text, quantity)


def test_two_numbers_are_not_one():
    for text in ("1.62 × 10^3.5", "1.62e3e4", "1.62e1.5", "1.2.3e4", "1.62 10^-3", "1.62 2 A·m²"):
        said(text)


def test_a_power_beyond_anything_here():
    for text in ("1e31", "1e-31", "1e999", "1e-999", "1e9999", "1e99999999999", "0e999", "1 × 10^−9999"):
        said(text)


@pytest.mark.parametrize(
    ("text", "quantity", "wanted"),
    [
        ("1.62 A·m", "moment", "A·m²"),
        ("20 A·m²", "pole", "A·m"),
        ("0.75°", "ratio", "no unit"),
        ("37 cm", "angle", "°"),
        ("1.62 T", "moment", "A·m²"),
        ("9.2 cm", "length4", "m⁴"),
        ("20 mm", "field", "µT"),
    ],
)
def test_a_unit_of_something_else_is_said_to_be_one(text, quantity, wanted):
    sentence = said(text, quantity)
    assert "unit of something else" in sentence and wanted in sentence
    assert f"“{text.split()[0].rstrip('°')}” was understood" in sentence


@pytest.mark.parametrize("text", ["1.62 kg", "1.62 MA m²", "1.62 A/m²", "1.62 A m-2", "1.62 A m³", "1.62 %", "1.62 😀"])
def test_what_was_understood_and_what_was_not(text):
    sentence = said(text)
    assert "“1.62” was understood" in sentence and text.split(" ", 1)[1].replace("³", "3").replace("²", "2") in sentence


def test_mega_is_never_taken_for_milli():
    for text in ("20 MA·m", "20 MAm"):
        said(text, "pole")
    assert read("20 mA·m", "pole").value == pytest.approx(0.02)


def test_of_what_is_shown_again_thirty_characters_are():
    assert f"“{'q' * 30}”" in said("q" * 30)
    assert f"“{'q' * 30}…”" in said("q" * 31)
    assert f"“{'q' * 30}”" in said("1.62 " + "q" * 31)


def test_the_full_stop_of_a_sentence_is_no_part_of_the_number():
    for text in ("1.62.", "1,62.", " 1.62. "):
        assert read(text, "moment").value == 1.62
        assert read(text, "moment").figures == 3


def test_a_long_text_is_counted_and_not_repeated():
    for text in ("1" * (LONGEST + 1), "9" * 10**6, "1 " * 10**6, "0." + "0" * 10**6, "(" * 10**5):
        start = time.process_time()
        sentence = said(text)
        assert time.process_time() - start < 1
        assert f"{len(text):,}" in sentence and str(LONGEST) in sentence


def test_the_longest_text_that_is_read_is_read():
    assert read("9" * LONGEST, "moment").value == pytest.approx(1e60)
    assert read("1." + "0" * (LONGEST - 2), "moment").value == 1


# -- whatever is typed --------------------------------------------------------
NASTY = st.text(alphabet="0123456789.,eE+-−×x*·^²³⁻¹½ °AmMcµTJ/()\u00a0\u200b٣٫१", max_size=LONGEST)


@settings(deadline=None, max_examples=1000)
@given(st.text(alphabet=st.characters(), max_size=80) | NASTY, st.sampled_from(NAMES))
def test_any_text_is_read_or_refused_with_a_sentence(text, quantity):
    try:
        typed = read(text, quantity)
    except Unreadable as error:
        assert is_a_sentence(str(error)), str(error)
    else:
        if typed is not None:
            assert abs(typed.value) < 1e100 and typed.figures >= 1 and typed.last_place > 0
            assert any(c.isdigit() for c in text)


@settings(deadline=1000)  # milliseconds
@given(st.text(alphabet="0123456789.,- ", min_size=LONGEST - 5, max_size=LONGEST), st.sampled_from(NAMES))
def test_no_row_of_figures_makes_it_hang(text, quantity):
    try:
        assert read(text, quantity) is None or text.strip()
    except Unreadable as error:
        assert is_a_sentence(str(error))


@given(
    st.from_regex(r"[0-9]{1,16}(\.[0-9]{0,16})?(e[+-]?[0-9]{1,3})?", fullmatch=True),
    st.sampled_from(["", " ", "m", "e", "x", *sorted({q.shown for q in QUANTITIES.values()})]),
    st.sampled_from(NAMES),
)
def test_what_is_typed_as_usual_is_read_as_anything_else_is(number, unit, quantity):
    usual = answer._usual(f"{number} {unit}", quantity)
    if usual is not None:
        # with a space more it is not as usual, and means the same
        assert usual == read(f" {number} {unit}", quantity)
