# claims: by rule
change-both =
    From { $low } to { $high } { $whose }{ $kelvin ->
        [yes] , counted in kelvin from absolute zero,
       *[no] { "" }
    } { $real }, { $control ->
        [tempo] our beat
        [pitch] the frequency of our notes
        [density] the number of our taps
       *[dynamics] the strength of our sound
    } { $sound }.

## phrase: one of the two changes

change-times = becomes { $times } times as much
change-down-to = falls to { $percent } %
change-up-by = rises by { $percent } %
change-down-by = falls by { $percent } %

# claims: same
change-as-strong =
    The sound changes as strongly as the { $subject ->
        [drawing] drawing
       *[science] science
    } does{ $turned ->
        [yes] , the other way round
       *[no] { "" }
    }. Nothing is exaggerated.
# claims: more
change-stronger =
    The sound changes more than the { $subject ->
        [drawing] drawing
       *[science] science
    } does{ $turned ->
        [yes] , and the other way
       *[no] { "" }
    }. Do not read the real change off the music.
# claims: less
change-weaker =
    The sound changes less than the { $subject ->
        [drawing] drawing
       *[science] science
    } does{ $turned ->
        [yes] , and the other way
       *[no] { "" }
    }.

## no claim: why no ratio is told; the quantity's own declaration says so

change-no-unit = How many times bigger the sound makes it cannot be said: brightness has no unit, it only goes from dark to bright.
change-no-zero = How many times bigger the sound makes it cannot be said: the zero of the { $quantity } is only a point on its scale; compare differences.
# claims: at most
change-from-nothing =
    How many times bigger the sound makes it cannot be said: the range of the { $quantity } { $begins ->
        [at] starts from nothing
       *[below] goes below nothing
    }, and no number of times nothing makes something.
change-from-silence = How many times bigger the sound makes it cannot be said: the sound starts from silence, and no number of times silence makes a sound.

# claims: by rule
change-for-pupils =
    { $reached ->
        [yes] From { $low } to { $high } the { $quantity }
       *[no] If it goes from { $low } to { $high }, the { $quantity }
    } { $subject ->
        [drawing] in our drawing
       *[science] really
    } { $real }. { $control ->
        [tempo] Our beat
        [pitch] The pitch of our notes
        [density] The number of our taps
       *[dynamics] The strength of our sound
    } { $sound }, so that you can hear it.
