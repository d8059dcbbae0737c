"""One helper for writing XML."""

from __future__ import annotations

from lxml import etree

from sonify.records.safe_text import for_document


def add(parent: etree._Element, tag: str, text: str | None = None, **attributes: str) -> etree._Element:
    """A new last child of `parent`. In names of attributes an underscore stands for a hyphen."""
    child = etree.SubElement(parent, tag, {name.replace("_", "-"): value for name, value in attributes.items()})
    child.text = None if text is None else for_document(text)
    return child
