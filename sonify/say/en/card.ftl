## plain: headings of a group's card

card-instruments = Your instruments
card-meaning = What your sound means
card-what-you-play = What you play
card-own-idea = Your own idea
card-when = When you come in
card-loud-and-soft = Loud and soft
card-loud-and-soft-draw = Loud and soft: draw how you want it
card-own-notes = Your own notes and drawings
card-come-in = Come in
card-listen = Listen, and watch for your sign
card-part-of = , part { $part } of { $parts }
card-page-of = , page { $page } of { $pages }
card-bar = bar { $bar }
card-bar-in-stage = Bar { $bar }
card-idea-in-stage = Stage { $letter }, { $where }.

## plain: what players are told to do

card-at-a-time = { $n } at a time, changing every { $bars }
card-take-turns = share and take turns
card-own-how = Play it gently, as your teacher shows you.
card-other-lines = Other lines
card-easy =
    Easy: play only the bold notes and { $held ->
        [yes] hold it
       *[no] let it ring
    }.
card-play-for = { $play }, for { $bars }
card-play-bars = Play for { $bars }
card-your-notes = Your notes, { $bars }
card-use-notes = Use the notes { $notes }.
card-listen-count-in = Listen to the count-in.
card-keep-going = Keep going, with no gap.
card-watch = Watch the conductor.
card-notes-on-long = Your notes stand on the long card.
card-entries-on-long = All your entries stand on the long card.
card-loudness =
    Start { $start }{ $loudest ->
        [first] : your loudest. End { $end }.
       *[later] . In bar { $bar } you first reach your loudest: { $most }. End { $end }.
    }
card-comes-in-softly = Come in softly each time, then grow. Your loudness tells of the science only when you have grown.
card-quiet-start = In our class the first stage is quiet. Your loudness tells of the science only after it.
card-mark =
    Bar { $bar }: { $words }{ $then ->
        [cresc] , then grow louder{ $until ->
            [0] { "" }
           *[other] { " " }until bar { $until }
        }
        [dim] , then fade softer{ $until ->
            [0] { "" }
           *[other] { " " }until bar { $until }
        }
       *[stays] { "" }
    }.

# claims: silent
card-quiet-before = It is quiet before you. Watch the conductor.

# claims: plays
card-listen-for =
    Listen for { $pulse ->
        [yes] the pulse
       *[no] { $part }
    } (group { $group }) in the bar before.

# no claim: what they play there is their own idea
card-listen-for-idea = Listen for { $part } (group { $group }) in the bar before.

## plain: the heads of a tune's bars

card-each-of = each of bars { $first } to { $last }
card-same-again = { $head }, the same again in { $again }
card-strip-of = { $instrument }: { $head }

## plain: pictures in words, for those who listen to the page

card-plays-in = { $part } { PLAYS($part) } in { $bars }.
card-bar-plays = bar { $bar }: { $played }
card-rest = rest
card-a-tap = a tap
card-sound-at = bar { $bar } count { $count }: { $sounds }
card-no-sounds = no sounds
card-notations = { $name } on a staff, and as a picture: high marks are high notes, thick is loud.
card-named = { $name }. { $told }
card-taps-of-bars = Taps in each bar: { $bars }.
card-taps-of-bar = bar { $bar }, { $taps }
