"""Voices: what each instrument of the catalogue sounds like, from how it is built and how it is played.

The tables hold facts (modes, ring times, contact times, resonances), the generators hold the few physical pictures.
"""
