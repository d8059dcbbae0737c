"""A plan as it leaves in a file and comes back: the mark of it in a page, and a table's bytes as text."""

from __future__ import annotations

import base64

#: Raise it where an older program would misread what a newer one wrote.
FORM = 1
#: The element of page.html that holds the plan.
ELEMENT = "plan-data"
#: What stands before the bytes of a file that is no text, such as a spreadsheet.
PACKED = "data:;base64,"


def packed(data: bytes) -> str:
    """A file's bytes as text: as it stands where it is UTF-8, else encoded.

    >>> packed(b"a,b"), packed(bytes([0xff]))
    ('a,b', 'data:;base64,/w==')
    """
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return PACKED + base64.b64encode(data).decode("ascii")
