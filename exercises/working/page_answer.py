"""What Python answers a page with: one JSON object, as text."""

import json


def page_answer(**fields: object) -> str:
    """A JSON object as text.  TypeError if a field is nothing that JSON can hold.

    >>> page_answer(ok=True, text="20°")
    '{"ok": true, "text": "20°"}'
    """
    return json.dumps(fields, ensure_ascii=False)
