## plain: what to do, on a card of its own; it names no reason

own-card = A card of your own
own-beater = Play with one beater. The instrument stands by itself.
own-stands = It stands or hangs by itself. Strike or shake it with ease: every sound counts.
own-bars = Your bars: { $bars }. They lie right in front of you.
own-near = It lies right in front of you, as low as your lap.
own-rest-of-it = The others of your group play the rest.
own-pair = Two of you share this. One plays and one taps the beat on the table. Swap at each new stage.
own-show = Tap the pattern on your knee, or point to its boxes, before you play it.
own-palm = A flat palm from the conductor means: louder in one bar. Look for it before bars { $bars }.
own-feel = Rest your free hand on the instrument, or your foot on the floor beside it.
own-watch = Watch the conductor's hands, and the hands of whoever sits beside you.
own-tap = A tap on your shoulder comes one bar before you play. Two taps mean stop.
own-cue-touch =
    { $bar ->
        [0] a tap in the count-in
       *[other] a tap in bar { $bar }
    }
own-cue-look = look up
own-steps = The whole piece, step by step
own-step-play = { $bars }: play. { $play }
own-step-wait = { $bars }: wait
own-felt = Drawings to feel
own-felt-curve = How it goes

## plain: how the conductor cues some groups besides

own-note-head = Besides:
own-note-palm =
    { $n ->
        [one] one bar before bar { $bars }
       *[other] one bar before bars { $bars }
    }: a flat palm towards group { $group }.
own-note-face = Group { $group }: your face and hands in the light at every cue.
own-note-touch = Group { $group }: a neighbour taps a shoulder one bar before they come in, and twice at the stop.

# claims: silent
own-step-rest = { $bars }: rest for { $count }

## plain: the places kept, for the teacher alone

own-who = { $need }
own-place-one-hand =
    Group { $group }, “{ $part }”: { $what }, { $beaters ->
        [yes] with one beater
        [own] with the hand that does it best
       *[no] standing or hung up
    }. At the end of the row, free to the side that plays.
own-place-limited-reach =
    Group { $group }, “{ $part }”: { $what }, { $own ->
        [yes] where they sit best
       *[no] turned and lowered so that all that is played lies within five bars side by side
    }.
own-place-startles = Group { $group }, “{ $part }”: { $what }. As far as can be from group { $loud }; where you are seen. The palm a bar ahead of what is loud stands on the cue sheet.
own-place-hearing-aid = Group { $group }, “{ $part }”: { $what }. In front, facing you and the light, the better ear to the group; no cymbal or loud drum behind.
own-place-blind = Group { $group }, “{ $part }”: { $what }. Beside a pupil who taps the cue. Their card has the piece as a list; copy the drawings to feel on swell paper or trace them with a wheel.
own-place-does-not-speak = Group { $group }, “{ $part }”: { $what }. Nothing is sung or said; questions are answered by pointing at boxes and pictures.
own-place-needs-a-partner = Group { $group }, “{ $part }”: { $what }, two at one place. Seat a pupil beside whom both like.
own-place-pictures =
    { $group ->
        [0] Cards by pictures alone
       *[other] Cards by pictures alone, of group { $group }
    }: on the print list.
own-place-card = Card: { $where }.
