## plain: what the conductor does, as a heading

cue-action-start = start
cue-action-tempo = new beat
cue-action-enter = come in
cue-action-change = change
cue-action-rest = stop and rest
cue-action-louder = louder
cue-action-softer = softer
cue-action-stop = stop

## plain: names of the gestures, where one is more exact than its action

cue-shown-ready = Get ready
cue-shown-quicker = Quicker beat
cue-shown-slower = Slower beat
cue-shown-keep-going = Keep going
cue-shown-hold = Hold
cue-shown-letter = The next letter
cue-shown-breath = Hold your breath

## plain: how each gesture is shown (common practice of conducting)

cue-show-ready = A bar ahead: hands up, eyes on those who are next, breathe in with them.
cue-show-start = Both hands up on the last click, down on one.
cue-show-come-in = Look at them a bar ahead, breathe in with them, lower an open hand on beat 1.
cue-show-change = An open hand: now it is different.
cue-show-one-finger = One finger.
cue-show-two-fingers = Two fingers.
cue-show-three-fingers = Three fingers.
cue-show-own-idea = Open both hands to them: now their own idea.
cue-show-harder-beaters = Show them, for the next bar: { $what }. Hold your hand up stiff and straight.
cue-show-softer-beaters = Show them, for the next bar: { $what }. Let your hand hang loose and soft.
cue-show-letter = Hold up the card of { $what }: from the next bar on, its notes.
cue-show-breath = Both hands up and still: everybody is silent for one beat.
cue-show-rest = Draw a slow circle towards them and close the hand at the end of the bar.
cue-show-louder = Palms up, raise your hands slowly.
cue-show-softer = Palms down, lower your hands slowly.
cue-show-quicker = In the bar before, beat smaller and already as fast as the new beat.
cue-show-slower = In the bar before, beat larger and already as slow as the new beat.
cue-show-quicker-by-and-by = Little by little make your beat smaller and quicker.
cue-show-slower-by-and-by = Little by little make your beat larger and slower.
cue-show-keep-going = A hand that goes round and round: nobody stops yet.
cue-show-hold = Both arms level and still: let the sound last until you move.
cue-show-stop = Let the sound sink, then close both fists: silence for a breath.
cue-show-fingers-besides = One, two or three fingers: Pattern A, B or C.

## plain: what is asked for, beside the gesture

cue-everybody = everybody
cue-everybody-listens = Everybody listens
cue-count-in = Count in
cue-at-count-in = count-in
cue-bar-and-beat = { $bar }, beat { $beat }
cue-bpm-in-words = { $bpm }, { $words }
cue-then = then { $action }
cue-pattern =
    { $number ->
        [1] Pattern A
        [2] Pattern B
       *[3] Pattern C
    }
cue-mark-by = { $mark } by bar { $bar }
cue-bpm = { $bpm } bpm
cue-glide = little by little from { $from }, reaching { $bpm } bpm at bar { $bar }
cue-own-idea = their own idea
cue-letter = letter { $letter }
cue-with =
    { $level ->
        [soft] { $used ->
            [beaters] soft beaters
            [hands] the flat of the hand
           *[both] soft beaters or the flat of the hand
        }
        [medium] { $used ->
            [beaters] medium beaters
            [hands] flat fingers
           *[both] medium beaters or flat fingers
        }
       *[hard] { $used ->
            [beaters] hard beaters
            [hands] the fingertips
           *[both] hard beaters or the fingertips
        }
    }
cue-told = { $who }: { $action }
cue-told-with = { $who }: { $action }, { $detail }
cue-screen-beat =
    { $way ->
        [quicker] quicker
       *[slower] slower
    }{ $glides ->
        [yes] {" "}little by little, to
       *[no] ,
    } { $bpm } beats a minute
cue-screen-loud = { $action }, to { $mark }
cue-in-beats = in { $beats }: { $told }

## plain: a reason that is none of the science

cue-for-the-music = For the music.
cue-for-the-music-because = For the music: { $because }

# claims: plays
cue-makes-way = others have something to say now, and no more can be followed at once.

# claims: plays
cue-beat-for-others = others have something to say now, and somebody has to keep the beat for them.

# claims: plays
cue-others-play = others have something to say now.

# claims: louder
cue-towards-fullest = the piece grows towards its fullest moment, { $stage }.

# claims: quicker
cue-quicker = { $because }

# claims: slower
cue-slower = { $because }

# claims: more
cue-warmer = On average { $whose } { IS($whose) } warmer than before: { $figures }.

# claims: less
cue-colder = On average { $whose } { IS($whose) } colder than before: { $figures }.

# claims: more
cue-higher = On average the { $quantity } { IS($quantity) } higher than before: { $figures }.

# claims: less
cue-lower = On average the { $quantity } { IS($quantity) } lower than before: { $figures }.

# claims: figure
cue-after = { $now } after { $before }

# claims: figure
cue-after-both = { $now } after { $before } ({ $other } after { $then })

# claims: figure, rises
cue-rises = The { $quantity } { RISES($quantity) } from { $start } to { $end }.

# claims: figure, falls
cue-falls = The { $quantity } { FALLS($quantity) } from { $start } to { $end }.

# claims: rises
cue-rises-here = The { $quantity } { RISES($quantity) }.

# claims: falls
cue-falls-here = The { $quantity } { FALLS($quantity) }.
