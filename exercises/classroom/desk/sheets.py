"""Workbooks on the class desk: the page puts the pieces together, of which the first and the last are no text."""

from binascii import b2a_base64

from exercises.files.workbook import Written, around


def around_sheet(sheet: Written) -> dict[str, str]:
    """What stands before the sheet and after it, in base 64."""
    front, back = (b2a_base64(raw, newline=False).decode() for raw in around(sheet))
    return {"front": front, "back": back}
