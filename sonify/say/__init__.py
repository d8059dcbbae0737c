"""Facts to sentences: every word of sheets, page, score, MIDI texts and command line comes out of this room.

The messages stand in `en/*.ftl` (Fluent). A message lives in the file that the first word of its identifier names:
`cooling-apart` in `en/cooling.ftl`, `water_cycle-rain` in `en/water_cycle.ftl`. So a file is read when the first of
its messages is said, and nobody has to search. Above each message, or above a group, a comment declares what it claims:

    # claims: figure, falls                 it speaks of sound or science, and this is checked
    # no claim: a picture, admitted as one  it speaks of sound or science, and cannot be checked
    ## phrase: a value with its unit         a part of sentences, which have the claims
    ## plain: labels of the cue sheet       it speaks of neither: a heading, a button, an instruction, an error

Where a message names a file, one of the same identifier with `-on-page` at its end names the field or the panel: the
server says that one (`on_page`).
"""

from sonify.say.language import ENGLISH, Language, on_page, plain_messages, say, sentence, speaking

__all__ = ["ENGLISH", "Language", "on_page", "plain_messages", "say", "sentence", "speaking"]
