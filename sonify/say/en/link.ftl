# claims: more
link-up =
    the { $quantity } { $answer ->
        [yes] changed to yes
        [share] was yes more often
       *[no] went up
    }

# claims: less
link-down =
    the { $quantity } { $answer ->
        [yes] changed to no
        [share] was yes less often
       *[no] went down
    }

# claims: quicker
link-quicker = the beat became quicker

# claims: slower
link-slower = the beat became slower

# claims: higher
link-higher = our notes became higher

# claims: lower
link-lower = our notes became lower

# claims: busier
link-busier = we had more taps

# claims: sparser
link-sparser = we had fewer taps

# claims: louder
link-louder = our sound became louder

# claims: softer
link-softer = our sound became softer

# claims: more or less
link-brighter = our sound became brighter

# claims: more or less
link-darker = our sound became darker

## phrase: the whole sentence; what fills it has the claims

link-when =
    From { $first } to { $last }: when { $went }, { $heard }{ $given ->
        [yes] , because: “{ $why }.”
       *[no] .
    }
link-where =
    From { $first } to { $last }: where { $went }, { $heard }{ $given ->
        [yes] , because: “{ $why }.”
       *[no] .
    }

# no claim: its author's own idea of the sound
link-stage = In “{ $stage }” we were { $sounds }, because: { $why }

# claims: plays
link-plays =
    { $part } { PLAYS($part) } in { $all ->
        [yes] every stage
       *[no] { $stages }
    }.

link-of-stage = stage { $letter }
link-of-bars = bars { $first } and { $last }

## plain: what pupils answer in their own words

link-own = The group's own idea, with a reason from the science.
