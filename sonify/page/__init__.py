"""The classroom page: one HTML file that plays the piece and helps the teacher to conduct it, with no network."""

from sonify.page.document import PageTooBig, page_html

__all__ = ["PageTooBig", "page_html"]
