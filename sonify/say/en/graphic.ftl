## no claim: how a drawing is read

graphic-legend = Higher: higher notes. Thicker: louder. Closer marks: more sounds.
graphic-blank = Dashed box: your own idea.
graphic-tenfold = Curve: ten times as much from one grey line to the next.

## plain: pictures in words, and titles that no column shows whole

graphic-alt = Graphic score of { $title }. { $parts }
graphic-part = Group { $group }, { $part }: { $plays }.
graphic-part-own = Group { $group }, { $part }: { $plays }. Their own idea: { $own }.
graphic-silent = silent
graphic-title = { $letter }: { $title }.
