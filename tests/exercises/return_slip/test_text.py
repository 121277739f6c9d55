"""The return slip: it comes back as typed through mail, chat and paper, and what was changed is named."""

import email
import email.policy
import re
import time
import unicodedata
from email.message import EmailMessage

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.return_slip import characters as slip_marks
from exercises.return_slip import text as slip_text
from exercises.return_slip.files import text_of
from exercises.return_slip.text import (
    MOST_CHARACTERS,
    Problem,
    ReturnSlip,
    ReturnSlipError,
    return_slip_text,
    return_slips_in,
)

SLIP = ReturnSlip(
    "Ringed Plover",
    "A3H-222-222",
    {
        "mean-1": "45.2°",
        "tan-1": "1.0070",
        "bracket-1": "3.9e-3 m^4",
        "moment-1": "4.1 × 10⁻³ A·m²",
        "pole": "−16,2 A·m",
    },
    {"tan-1": "0.9931", "moment-1": "4 ‘×’"},
)
TEXT = return_slip_text(SLIP)

texts = st.text(max_size=200)
typed = st.one_of(
    texts,
    st.text(
        alphabet="0123456789.,eE+-−– ×x*·^⁻³²°º µμ\u00a0{}[]\\<>|:%#\"'’…½ ４é\u0301\u200b\t\r\n\0א٣४", max_size=200
    ),
)
steps = st.from_regex(r"\A[a-z][a-z0-9-]{0,15}\Z").filter(lambda s: s not in ("who", "code", "written"))
slips = st.builds(
    ReturnSlip,
    st.text(max_size=160),
    st.just(SLIP.code),
    st.dictionaries(steps, typed, max_size=12),
    st.dictionaries(steps, typed, max_size=4),
)


def read(text):
    """The one slip of a text, whole."""
    found, problems = return_slips_in(text, "here")
    assert problems == [], problems
    assert len(found) == 1
    return found[0]


def refused(text):
    """What is said of a text in which nothing can be used."""
    found, problems = return_slips_in(text, "here")
    assert found == [] and problems
    assert all(isinstance(p, Problem) and p.source.startswith("here") and p.text for p in problems)
    return " ".join(p.text for p in problems)


def as_it_comes_back(slip):
    """Empty answers, and firsts that are the last, have no line; half a character cannot be sent."""

    def whole(text):
        return "".join("\ufffd" if unicodedata.category(c) == "Cs" else c for c in text)

    answers = {k: whole(v) for k, v in slip.answers.items() if v}
    firsts = {k: whole(v) for k, v in slip.firsts.items() if v and v != slip.answers.get(k)}
    return ReturnSlip(whole(slip.who), slip.code, answers, firsts)


def test_the_form_of_a_slip():
    assert read(slip_text.__doc__).answers == {"mean-1": "45.2°", "moment-1": "1.62 A·m²"}
    lines = TEXT.splitlines()
    assert lines[0] == "EIGHT READINGS RETURN SLIP 1"
    assert re.fullmatch(r"03 mean-1: 45\.2° \[..\]", lines[3])
    assert re.fullmatch(r"06 moment-1: 4\.1 × 10\{\^-3\} A·m\{\^2\} \[..\]", lines[6])
    assert re.fullmatch(r"END OF SLIP 9 LINES .{5}", lines[-1])


@settings(deadline=None)
@given(slips)
def test_what_was_typed_comes_back_exactly(slip):
    assert read(return_slip_text(slip)) == as_it_comes_back(slip)


@settings(deadline=None)
@given(slips)
def test_it_is_narrow_and_plain(slip):
    text = return_slip_text(slip)
    # 40, and the check of a line that would not break; a mark over or under a letter takes no room
    assert max(sum(not unicodedata.category(c).startswith("M") for c in line) for line in text.splitlines()) <= 48
    assert all(c == "\n" or unicodedata.category(c) not in ("Cc", "Cs") for c in text)
    # UAX #15: each normal form comes back to the same slip, so no program that changes the form harms it
    for form in ("NFC", "NFD", "NFKC", "NFKD"):
        assert read(unicodedata.normalize(form, text)) == as_it_comes_back(slip)


def test_marks_that_a_normal_form_would_put_in_another_order_come_back_in_theirs():
    """UAX #15 sorts combining marks by their class: one below goes before one above."""
    for text in ("q\u035b\u0316", "q\u0301\u0323", "e\u0301", "\u1100\u1161"):
        slip = ReturnSlip("1", SLIP.code, {"l": text}, {})
        assert read(return_slip_text(slip)) == slip


HARMLESS = {
    "quoted": lambda t: "".join(f"> {line}\n" for line in t.splitlines()),
    "quoted three times": lambda t: "".join(f">> | {line}\n" for line in t.splitlines()),
    "line ends": lambda t: t.replace("\n", "\r\n"),
    "old line ends": lambda t: t.replace("\n", "\r"),
    "no-break spaces": lambda t: t.replace(" ", "\u00a0"),
    "empty lines": lambda t: t.replace("\n", "\n\n\n"),
    "doubled spaces": lambda t: t.replace(" ", "  "),
    "spaces at the ends": lambda t: t.replace("\n", "   \n\t"),
    "one line": lambda t: t.replace("\n", " "),
    "a line a space": lambda t: t.replace(" ", "\n"),
    "line numbers": lambda t: "".join(f"{n}. {line}\n" for n, line in enumerate(t.splitlines(), 1)),
    "bullets": lambda t: "".join(f" • {line}\n" for line in t.splitlines()),
    "dashes": lambda t: t.replace("-", "–"),
    "other dashes": lambda t: t.replace("-", "\u2011"),
    "no-width spaces": lambda t: "\ufeff" + t.replace("\n", "\u200b\n"),
    "other letters' case": lambda t: re.sub(
        r"\d\d (\S+|first \S+):|\[..\]|^E.*", lambda m: m[0].swapcase(), t, flags=re.MULTILINE
    ),
    "lines in another order": lambda t: "\n".join([t.splitlines()[0], *t.splitlines()[-2:0:-1], t.splitlines()[-1]]),
    "twice the same lines": lambda t: "\n".join([t.splitlines()[0], *t.splitlines()[1:-1] * 2, t.splitlines()[-1]]),
    "UTF-8 read as Windows' letters": lambda t: t.encode().decode("cp1252"),
    "in a chat": lambda t: f"[24/11/2026, 10:31] Sanderling: {t}[24/11/2026, 10:32] Knot: 12 to go: thanks",
    "in a cell": lambda t: f'7,Sanderling,"{t}",late',
}


@pytest.mark.parametrize("how", HARMLESS)
def test_harmless_changes_do_no_harm(how):
    assert read(HARMLESS[how](TEXT)) == SLIP


def test_marks_that_the_judge_takes_for_the_same_may_change():
    got = read(TEXT.replace("×", "x").replace("−", "-"))
    assert got.answers["moment-1"] == "4.1 x 10⁻³ A·m²"
    assert got.answers["pole"] == "-16,2 A·m"
    # as a person types it who has the marks, or has none of them
    assert read(TEXT.replace("{^-3}", "⁻³").replace("{^2}", "²")) == SLIP
    assert read(TEXT.replace("·", "{.}").replace("°", "{o}").replace("×", "{x}")) == SLIP
    assert read(TEXT.replace("°", "º")) == SLIP
    assert read(TEXT.replace("87X5", "87×5")) == SLIP


def _meaningful(text):
    """Places in a slip at which a character is part of what it says."""
    body = text[text.index("01 who") : text.rindex("END OF")]
    start = text.index("01 who")
    return [start + m.start() for m in re.finditer(r"\S", body)]


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(_meaningful(TEXT)), st.characters(min_codepoint=33, max_codepoint=0x2FF))
def test_a_changed_character_never_passes_silently(at, put):
    """Either nothing that was typed is changed by it, to the judge's eye, or the slip is refused."""
    changed = TEXT[:at] + put + TEXT[at + 1 :]
    found, problems = return_slips_in(changed, "here")
    if found:
        same = str.maketrans("×−", "x-")
        for got, was in ((found[0].answers, SLIP.answers), (found[0].firsts, SLIP.firsts)):
            assert {k: v.translate(same) for k, v in got.items()} == {k: v.translate(same) for k, v in was.items()}
        assert (found[0].who.casefold(), found[0].code.casefold()) == (SLIP.who.casefold(), SLIP.code.casefold())
    else:
        assert problems


@settings(deadline=None)
@given(st.integers(1, 9), st.data())
def test_a_changed_line_is_named_with_its_check(number, data):
    lines = TEXT.splitlines()
    start = lines[number].index(":") + 2
    at = data.draw(st.integers(start, lines[number].rindex("[") - 2))
    put = data.draw(st.sampled_from("0123456789qz").filter(lambda c: c.lower() != lines[number][at].lower()))
    said = re.search(r"\[(..)\]", lines[number])[1]
    lines[number] = lines[number][:at] + put + lines[number][at + 1 :]
    told = refused("\n".join(lines))
    assert re.search(rf"Line {number} |has lost", told)  # a brace that was broken leaves no line
    if "has lost" not in told:
        assert f"its check says {said}" in told


@settings(deadline=None)
@given(st.text(alphabet="0123456789.e-+ ×AmT", min_size=2, max_size=60), st.data())
def test_two_characters_swapped_change_the_check(text, data):
    """The weights are powers of 2³², of order 261 modulo 523: no two places within 261 weigh the same."""
    i, j = sorted(data.draw(st.sets(st.integers(0, len(text) - 1), min_size=2, max_size=2)))
    swapped = text[:i] + text[j] + text[i + 1 : j] + text[i] + text[j + 1 :]
    for length in slip_marks.PRIMES:
        assert (slip_marks.check(text, length) == slip_marks.check(swapped, length)) == (text == swapped)


def test_the_checks_leave_as_few_as_they_say():
    """Of random other texts 1 in 523 has the same check: 20,000 tries give 38 on average, and hardly ever over 70."""
    import random

    chance = random.Random(8)
    hits = sum(
        slip_marks.check("4 tan-1: " + "".join(chance.choices("0123456789.", k=8)), 2)
        == slip_marks.check("4 tan-1: 1.0070", 2)
        for _ in range(20_000)
    )
    assert 12 < hits < 70


def test_missing_and_mixed_lines_are_named():
    lines = TEXT.splitlines()
    assert "Lines 4 and 6 are missing" in refused("\n".join(lines[:4] + lines[5:6] + lines[7:]))
    other = return_slip_text(
        ReturnSlip("Ringed Plover", SLIP.code, {**SLIP.answers, "tan-1": "1.1106"}, SLIP.firsts)
    ).splitlines()
    told = refused("\n".join(lines[:4] + other[4:5] + lines[5:]))
    assert "lines of two slips are mixed" in told
    # of a line that is there twice the one that the check over all agrees with is the slip's own
    assert (
        read("\n".join(lines[:5] + other[4:5] + lines[5:]))
        == read("\n".join(lines[:4] + other[4:5] + lines[4:]))
        == SLIP
    )
    third = return_slip_text(
        ReturnSlip("Ringed Plover", SLIP.code, {**SLIP.answers, "tan-1": "1.2"}, SLIP.firsts)
    ).splitlines()
    assert "is there twice, and the two differ" in refused("\n".join(lines[:4] + other[4:5] + third[4:5] + lines[5:]))
    # an instructor who is sure can mend it, as the sentence says
    mended = (
        "\n".join(lines[:4] + other[4:5] + lines[5:-1])
        + f"\nEND OF SLIP 9 LINES {re.search('must end in (.{5})', told)[1]}"
    )
    assert read(mended).answers["tan-1"] == "1.1106"


def test_what_can_be_read_of_a_changed_slip_is_kept_to_look_at():
    (problem,) = return_slips_in(TEXT.replace("1.0070", "1.0071"), "here")[1]
    assert (problem.who, problem.code) == (SLIP.who, SLIP.code)
    assert problem.slip.answers == {**SLIP.answers, "tan-1": "1.0071"}
    assert "Line 4 (tan-1) was changed on the way: it reads “1.0071”" in problem.text


def test_a_slip_cut_short_is_said_to_be():
    for kept in range(1, len(TEXT.splitlines())):
        assert "cut short" in refused("\n".join(TEXT.splitlines()[:kept]))
    assert "without its first lines" in refused("\n".join(TEXT.splitlines()[3:]))


def test_slips_glued_together_and_one_after_one_cut_short():
    others = [ReturnSlip(f"Knot {n}", SLIP.code, {"l": str(n)}, {}) for n in range(3)]
    found, problems = return_slips_in("".join(map(return_slip_text, others)).replace("\n", ""), "mail")
    assert found == [] and problems  # without even a space no line is safe: said, not guessed
    found, problems = return_slips_in(" and ".join(map(return_slip_text, others)), "mail")
    assert (found, problems) == (others, [])
    assert [s.source for s in found] == ["mail", "mail, slip 2", "mail, slip 3"]
    # as they are where one box is copied after the other, without the last line end
    assert return_slips_in("".join(return_slip_text(other).rstrip() for other in others), "mail") == (others, [])
    found, problems = return_slips_in(TEXT[:100] + "\n" + TEXT, "mail")
    assert (
        found == [SLIP]
        and "cut short" in problems[0].text
        and (found[0].source, problems[0].source) == ("mail, slip 2", "mail")
    )
    found, problems = return_slips_in(TEXT[:100] + "\n" + TEXT + TEXT[:100] + "\n" + TEXT[:90], "mail")
    assert [s.source for s in found] == ["mail, slip 2"] and [p.source for p in problems] == [
        "mail",
        "mail, slip 3",
        "mail, slip 4",
    ]


def test_another_form_is_not_guessed_at():
    assert "of form 2; this page reads form 1. It was made by a newer site" in refused(TEXT.replace("SLIP 1", "SLIP 2"))
    assert "of form 0; this page reads form 1. It was made by another site" in refused(TEXT.replace("SLIP 1", "SLIP 0"))


# -- what is said of a line -------------------------------------------------------


def of(number: int, to: str) -> str:
    """The slip with one of its lines put otherwise."""
    lines = TEXT.splitlines()
    return "\n".join([*lines[:number], *([to] if to else []), *lines[number + 1 :]])


def test_a_line_that_lost_its_check_or_its_label():
    own = TEXT.splitlines()[4]
    label, mark = own[: own.index(":") + 1], own[-4:]
    bare = refused(of(4, f"{label} 1.0070"))
    assert "Line 4 (tan-1) has lost the check at its end: “1.0070”." in bare and "Line 5" not in bare
    # a line that lost its check stands in one piece with the next, whose check is wrong: both are told
    lines = TEXT.splitlines()
    two = refused("\n".join([*lines[:4], f"{label} 1.0070", lines[5].replace("3.9e", "3.8e"), *lines[6:]]))
    assert "Line 4 (tan-1) has lost the check at its end" in two
    assert "Line 5 (bracket-1) was changed on the way: it reads “3.8e-3 m^4”" in two
    assert f"A line that ends in {mark} has lost its number or label: “1.0070”." in refused(of(4, f"1.0070 {mark}"))
    check = slip_marks.check("4 tan-1: 1.0071", 2)
    assert f"its check says {mark[1:3]}, and for what stands there it should be {check}." in refused(
        of(4, f"{label} 1.0071 {mark}")
    )


def test_lines_that_are_missing_are_listed():
    lines = TEXT.splitlines()
    assert "Line 4 is missing." in refused(of(4, ""))
    assert "Lines 4, 5 and 7 are missing." in refused("\n".join(lines[:4] + lines[6:7] + lines[8:]))
    many = return_slip_text(ReturnSlip("1", SLIP.code, {f"s-{n}": "1" for n in range(20)}, {})).splitlines()
    assert "Lines 3, 4, 5, 6, 7, 8, 9, 10, 11, 12 and others are missing." in refused("\n".join(many[:3] + many[14:]))
    assert "Lines 3, 4, 5, 6, 7, 8, 9, 10, 11 and 12 are missing." in refused("\n".join(many[:3] + many[13:]))


def test_the_number_of_lines_is_held_to():
    lines = TEXT.splitlines()
    assert "Its last line says 8 lines, and 9 are here." in refused(TEXT.replace("SLIP 9 LINES", "SLIP 8 LINES"))
    assert "A slip has at most 200 lines." in refused(TEXT.replace("SLIP 9 LINES", "SLIP 201 LINES"))
    assert "at most 200" not in refused("\n".join([*lines[:-1], lines[-1].replace("9 LINES", "200 LINES")]))
    most = ReturnSlip("1", SLIP.code, {f"s-{n}": "1" for n in range(198)}, {})
    assert read(return_slip_text(most)) == most


def test_six_troubles_are_told_and_the_rest_counted():
    def changed(many):
        lines = enumerate(TEXT.splitlines())
        return refused(
            "\n".join(re.sub(r": \S+", ": 7777", line, count=1) if 2 < n <= 2 + many else line for n, line in lines)
        )

    assert "more lines" not in changed(6) and changed(6).count("was changed on the way") == 6
    assert changed(7).count("was changed on the way") == 6 and "And 1 more line." in changed(7)


def test_what_stands_in_a_sentence_is_short_and_visible():
    from exercises.return_slip.lines import shown

    assert shown("x" * 60) == "x" * 60 and shown("x" * 61) == "x" * 60 + "…" and shown(" a\0b ") == "a\ufffdb"


@pytest.mark.parametrize(
    "junk",
    [
        "",
        "\0" * 1000,
        "hello",
        "[" * 200_000,
        "{" * 200_000,
        "EIGHT READINGS RETURN SLIP 1\n" * 20_000,
        "EIGHT READINGS RETURN SLIP 1 x\n" * 20_000,
        "END OF SLIP 2 LINES QK7M3\n" * 20_000,
        "EIGHT READINGS RETURN SLIP 1\n" + "01 a: 5 " * 100_000,
        "EIGHT READINGS RETURN SLIP 1\n" + "01 a: 5 [QK]\n" * 1_000_000,
        "EIGHT READINGS RETURN SLIP 1\n" + "01 a: 5 " * 12_000 + "\nEND OF SLIP 9 LINES QK7M3",
        "EIGHT READINGS RETURN SLIP 1\n" + "1 a:{" * 19_000 + "\nEND OF SLIP 9999 LINES QK7M3",
        "EIGHT READINGS RETURN SLIP 1\n" + "12 ab: 5 [22] " * 7_000 + "\nEND OF SLIP 9999 LINES QK7M3",
        "eight " * 500_000,
        "> " * 500_000,
        "EIGHT READINGS RETURN SLIP 9999\n",
        "x" * (MOST_CHARACTERS + 1),
        "EIGHT READINGS RETURN SLIP 1\n01 who: {110000} [22]\n02 code: {d800} [22]\nEND OF SLIP 2 LINES QK7M3",
    ],
    ids=lambda t: f"{t[:12]!r} {len(t)}",
)
def test_junk_gets_a_sentence_in_time(junk):
    start = time.process_time()
    told = refused(junk)
    assert time.process_time() - start < 2.0
    assert told.isprintable()


def test_what_is_too_large_for_a_slip_is_not_written():
    with pytest.raises(ReturnSlipError, match="mean-1 has 201 characters"):
        return_slip_text(ReturnSlip("1", SLIP.code, {"mean-1": "1" * 201}, {}))
    with pytest.raises(ReturnSlipError, match="at most 200 lines"):
        return_slip_text(ReturnSlip("1", SLIP.code, {f"s-{n}": "1" for n in range(199)}, {}))
    with pytest.raises(ReturnSlipError, match="cannot be called"):
        return_slip_text(ReturnSlip("1", SLIP.code, {"Mean 1": "1"}, {}))


@pytest.mark.parametrize("encoding", ["quoted-printable", "base64", "8bit"])
@pytest.mark.parametrize("charset", ["utf-8", "iso-8859-1", "windows-1252"])
def test_mail_brings_it_whole(encoding, charset):
    """MIME (RFC 2045) as Python's own library writes and reads it."""
    text = TEXT if charset == "utf-8" else TEXT.replace("−", "-")  # the long minus is in neither of the others
    message = EmailMessage()
    message["Subject"] = "My slip"
    message.set_content(f"Here it is:\n\n{text}\n-- \nPlover", charset=charset, cte=encoding)
    raw = message.as_bytes(policy=email.policy.SMTP)
    got = read(text_of(raw, "mail.eml"))
    assert got.answers["moment-1"] == SLIP.answers["moment-1"] and got.who == SLIP.who


def test_flowed_text_of_mail():
    """RFC 3676: lines broken with a space at their end, quoted with >, and stuffed with a space."""
    soft = "".join(
        f" {line[:20].rstrip()} \n{line[20:].lstrip()}\n" if " " in line[19:21] else f" {line}\n"
        for line in TEXT.splitlines()
    )
    assert soft != TEXT
    assert read(soft) == SLIP
    assert read("".join(f">> {line}\n" for line in soft.splitlines())) == SLIP


def test_mail_in_html_alone_and_as_an_attached_file():
    page = EmailMessage()
    page.set_content(
        "<style>p{}</style><p>" + TEXT.replace("\n", "<br>\n").replace(" ", "&nbsp;") + "</p>", subtype="html"
    )
    assert read(text_of(page.as_bytes(), "a.eml")) == SLIP
    mail = EmailMessage()
    mail.set_content("See the file.")
    mail.add_attachment(TEXT.encode(), maintype="text", subtype="plain", filename="slip.txt")
    assert read(text_of(mail.as_bytes(), "a.eml")) == SLIP


def test_files_of_text_in_the_usual_encodings():
    for raw in (
        TEXT.encode(),
        TEXT.encode("utf-8-sig"),
        TEXT.encode("utf-16"),
        TEXT.replace("−", "-").encode("cp1252"),
    ):
        assert read(text_of(raw, "a.txt")).answers["moment-1"] == SLIP.answers["moment-1"]


@pytest.mark.parametrize(
    ("raw", "part"),
    [
        (b"\x89PNG\r\n\x1a\n\0", "picture"),
        (b"\xff\xd8\xff\xe0", "picture"),
        (b"%PDF-1.7", "PDF"),
        (b"PK\x03\x04", "packed"),
        (b"abc\0def", "not text"),
        (b"", "empty"),
        (b"\xff\xfe\x00\xd8", "not text"),
        (b"x" * (MOST_CHARACTERS * 2 + 1), "bytes"),
    ],
)
def test_files_that_are_no_text_get_a_sentence(raw, part):
    with pytest.raises(ValueError, match=rf"^It .*{part}"):  # the name of the file stands before the sentence
        text_of(raw, "slip.bin")


def test_a_mail_of_mails_in_mails_gets_a_sentence():
    parts = "".join(f"Content-Type: multipart/mixed; boundary=b{n}\n\n--b{n}\n" for n in range(3000))
    with pytest.raises(ValueError, match="too deep to be read"):
        text_of(f"From: a@b\nMIME-Version: 1.0\n{parts}".encode(), "nest.eml")


def test_ten_thousand_slips_in_time():
    answers = {
        f"{column}-{row}": f"{row / 7:.4g}" for column in ("mean", "tan", "bracket", "moment") for row in range(1, 7)
    }
    many = "\n".join(
        return_slip_text(ReturnSlip(str(n), SLIP.code, {**answers, "pole": f"{n} A·m"}, {})) for n in range(1000)
    )
    start = time.process_time()
    found, problems = return_slips_in(many, "here")
    assert len(found) == 1000 and not problems
    assert time.process_time() - start < 1.0  # 0.08 s on a quiet machine


def test_a_misspelt_step_is_mended_where_the_checks_say_so():
    """Typed again from a photograph, “bracket-1” easily becomes “bracket-l”."""
    for spelt in ("bracket-l", "braket-1", "BRACKET-1", "bracket-i"):
        assert read(TEXT.replace("bracket-1", spelt)) == SLIP
    assert read(TEXT.replace("first tan-1", "first tan-l").replace("bracket-1", "bracket-l")) == SLIP
    slip = ReturnSlip(SLIP.who, SLIP.code, SLIP.answers, SLIP.firsts, "", 3, "2026-11-26 14:05")
    text = return_slip_text(slip)
    assert read(text.replace("hand-in", "handin").replace("written", "writen")) == slip


def test_a_misspelt_step_is_named_with_the_nearest_and_its_value_is_not_blamed():
    cut = TEXT.replace("END OF SLIP 9", "END OF SLIP 8")
    told = refused(cut.replace("bracket-1", "bracket-l"))
    assert "Line 5 is called “bracket-l”; by its check it is bracket-1. Mend that word." in told
    told = refused(cut.replace("bracket-1: 3.9", "bracket-l: 3.8"))
    assert (
        "Line 5 has a wrong name or a wrong answer: this sheet has no step “bracket-l”; the nearest is bracket-1."
        in told
    )
    assert "3.8" not in told
    assert "this sheet has no step “zigzag”." in refused(cut.replace("bracket-1", "zigzag"))
    # of a sheet that is not known no name is wrong
    other = cut.replace("A3H-222-222", "A3H-222-22X").replace("bracket-1", "bracket-l")
    assert "Line 5 (bracket-l) was changed on the way" in refused(other)


def test_a_slip_may_not_have_a_step_called_as_its_own_lines():
    for name in ("who", "code", "hand-in", "written"):
        with pytest.raises(ReturnSlipError, match="A step cannot be called"):
            return_slip_text(ReturnSlip("7", SLIP.code, {name: "1"}, {}))


def test_the_five_characters_by_which_a_slip_is_told_from_others_stand_at_its_end():
    for number, hour in ((0, ""), (3, "2026-11-26 14:05")):
        slip = ReturnSlip(SLIP.who, SLIP.code, {**SLIP.answers, "mean-2": ""}, SLIP.firsts, "", number, hour)
        assert (
            return_slip_text(slip).split()[-1]
            == slip_text.check_of(slip)
            == slip_text.check_of(read(return_slip_text(slip)))
        )
