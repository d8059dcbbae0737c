"""A page of a PDF as a picture, and how many pages there are: the typesetter draws the file itself."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

_NONE, _PAGES = 1_000_000, re.compile(r"only has (\d+) page")


def _compiler(file: Path, page: int) -> Any:
    import typst

    named = file.name.replace("\\", "\\\\").replace('"', '\\"')
    text = f'#set page(width: auto, height: auto, margin: 0pt)\n#image("/{named}", page: {page})\n'
    main: Any = {"main": text.encode()}  # its stubs leave out that input may be a dict of files
    return typst.Compiler(main, root=str(file.parent), ignore_system_fonts=True)


def page_png(file: Path, page: int, *, dots_per_inch: float = 96.0) -> bytes:
    """One page, counted from 1, as a PNG. Raises IndexError where there is no such page."""
    import typst

    try:
        return bytes(_compiler(file, page).compile(format="png", ppi=dots_per_inch))
    except typst.TypstError as error:
        raise IndexError(f"{file.name} has no page {page}") from error


def page_count(file: Path) -> int:
    """How many pages a PDF has: asked for one that cannot be there, the typesetter says."""
    import typst

    try:
        _compiler(file, _NONE).compile(format="png", ppi=1.0)
    except typst.TypstError as error:
        for hint in error.hints:
            if found := _PAGES.search(hint):
                return int(found[1])
        raise ValueError(f"{file.name} cannot be read as a PDF: {error}") from error
    raise ValueError(f"{file.name} has a page {_NONE}")
