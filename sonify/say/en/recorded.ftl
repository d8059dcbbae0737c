## plain: what was measured in a recording of the class, and why something cannot be told from it

recorded-silent = There is no sound in this recording.
recorded-too-short = The recording is too short to have the piece in it.
recorded-not-found = This recording is not the piece, or the piece cannot be told from the other sounds in it. Put the recorder nearer to the class, further from talk and traffic.
recorded-not-whole = this stage was not heard from its first bar to its last in one go
recorded-begins-later = what was found of the piece begins after this stage
recorded-ends-sooner = what was found of the piece ends before this stage
recorded-left-out = nothing of this stage was found between the others
recorded-twice = this stage was played more than once, at different tempi
recorded-alike = this stage cannot be told from another that sounds like it
recorded-beat-lost = its beat goes to and fro so much that it may have been lost on the way
recorded-faint = too little of this stage stands out from the other sounds
recorded-noisy = the other sounds in the room are nearly as loud as the class
recorded-free-taps = its taps come where each player likes, so no first one can be told
recorded-shaken = it sounds on and on, so no first stroke of it stands out
recorded-same-sound = another group plays the same sound
recorded-covered = its strokes are covered by the other groups
recorded-throughout = it may have been played from the very beginning
recorded-never = it may not have come in at all
recorded-not-there = too few of its bars were heard
recorded-too-near = the two tempi, { $one } and { $two } beats a minute, are too near to each other
recorded-tempi = { $one } and then { $two } beats a minute
recorded-levels-near = the change in loudness is too small to be sure of
recorded-levels = { $decibels } dB { $found }
recorded-grew = { $decibels } dB { $found } at its end
recorded-entry-untold = { $part }: { $why }
recorded-came = it came in about bar { $bar }
recorded-came-near = its first bar cannot be told so closely
recorded-entries = { $part } came in about bar { $bar }, { $later } about bar { $other }
recorded-entries-apart = { $part } came in well { $way ->
        [before] before
       *[after] after
    } { $later }
recorded-entries-near = { $part } (about bar { $bar }) and { $later } (about bar { $other }) came in too near to each other

recorded-ask-tempo = Was { $stage } ({ $title }) { $way ->
        [quicker] quicker
       *[slower] slower
    } than { $other } ({ $before })?
recorded-ask-level = Was { $stage } ({ $title }) { $way ->
        [louder] louder
       *[softer] softer
    } than { $other } ({ $before })?
recorded-ask-crescendo = Did { $stage } ({ $title }) grow { $way ->
        [louder] louder
       *[softer] softer
    }?
recorded-ask-came = Did { $part } (group { $group }) come in within { $bars } bars of bar { $bar }?
recorded-ask-entry = Did { $part } (group { $group }) come in before { $later } (group { $other })?

## plain: three sentences for the next run

recorded-well = { $right ->
        [one] One thing that the science asks for could be heard.
       *[other] { $right } things that the science asks for could be heard.
    }
recorded-wish-tempo = Stage { $stage } was meant to be { $meant } than { $other }. Yours was { $share } % { $was }: watch the conductor at bar { $bar }.
recorded-wish-entry = { $part } (group { $group }) is to come in at bar { $planned }. It came in about bar { $heard }: count the bars together before it.
recorded-wish-crescendo = The change of loudness in stage { $stage } went the other way: show it with your hands from bar { $bar }.
recorded-wish-steady = The beat of stage { $stage } wandered: keep it with a quiet foot from bar { $bar }.

## plain: what the command prints

recorded-not = The piece was not found in this recording.
recorded-found = { $takes ->
        [one] The piece was found, from { $start } to { $end } of the recording.
       *[other] The piece was found { $takes } times. The best take, from { $start } to { $end }, is measured.
    }
recorded-clipped = The recording is overdriven: its loudest moments are cut off. Put the recorder further away.
recorded-because = cannot be told from this recording, because { $why }
recorded-beats = { $value } ({ $low } to { $high })
recorded-stage = { $letter } { $title }
recorded-questions = Did our sound say what the science says?
recorded-answer = { $asked } { $answer ->
        [yes] Yes:
       *[no] No:
    } { $why }.
recorded-answer-untold = { $asked } This { $why }.
recorded-more = { $count ->
        [one] One more question, and why things cannot be told: --all
       *[other] { $count } more questions, and why things cannot be told: --all
    }
recorded-untold = { $count ->
        [one] One question cannot be answered from this recording.
       *[other] { $count } questions cannot be answered from this recording.
    }
recorded-next-run = For the next run
recorded-nothing-kept = Nothing of the recording was kept or copied. Follow your school’s policy before you record pupils.
recorded-reading = reading the recording
recorded-finding = finding the piece
recorded-wrote = Wrote { $files } in { $folder }.
