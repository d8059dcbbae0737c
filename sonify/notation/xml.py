"""One helper for writing XML."""

from __future__ import annotations

from lxml import etree


def add(parent: etree._Element, tag: str, text: str | None = None, **attributes: str) -> etree._Element:
    """A new last child of `parent`. In names of attributes an underscore stands for a hyphen."""
    child = etree.SubElement(parent, tag, {name.replace("_", "-"): value for name, value in attributes.items()})
    child.text = text
    return child
