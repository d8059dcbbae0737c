"""The classroom page: one HTML file that plays the piece and helps the teacher to conduct it, with no network."""

from sonify.page.document import PageTooBig, page_html, page_to_sound, served_page_html
from sonify.page.particles import film_text, is_film, retold
from sonify.page.plan import plan_page
from sonify.page.recording import recording_html

__all__ = [
    "PageTooBig",
    "film_text",
    "is_film",
    "page_html",
    "page_to_sound",
    "plan_page",
    "recording_html",
    "retold",
    "served_page_html",
]
