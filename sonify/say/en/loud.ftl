## no claim: measured in the recording; the meter is held to EBU Tech 3341 by its own tests

loud-measured = The recording measures { $lufs } LUFS with a true peak of { $peak } dBTP.
loud-limited = A limiter takes off up to { $reduction } dB at the loudest strokes.
loud-held-back = Sudden entries are held back by up to { $reduction } dB.

## plain: what to do about a recording that misses its level

loud-mend = Give louder parts softer dynamics, or very few notes more of them: the level is meant to be −18 LUFS.
