"""One helper for writing XML."""

from __future__ import annotations

from lxml import etree

from sonify.records.safe_text import for_document


def add(parent: etree._Element, tag: str, text: str | None = None, **attributes: str) -> etree._Element:
    """A new last child of `parent`. In names of attributes an underscore stands for a hyphen."""
    child = etree.SubElement(parent, tag)
    for name, value in attributes.items():
        child.set(name.replace("_", "-"), value)
    if text is not None:
        child.text = text if text.isascii() and text.isalnum() else for_document(text)
    return child
