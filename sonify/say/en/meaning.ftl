## plain: what a rule changes, as a pupil says it

meaning-head-tempo = How fast
meaning-head-pitch = How high
meaning-head-density = How busy
meaning-head-dynamics = How loud
meaning-head-brightness = How bright

## plain: what stands before a row of short sounds in a card's table

meaning-unit-tempo = beats a minute
meaning-unit-pitch = notes
meaning-unit-density = taps a bar, all of you
meaning-unit-dynamics = how loud
meaning-unit-brightness = how bright

## phrase: what is heard where a control rises, and where it sinks

meaning-way =
    { $control ->
        [tempo] { $way ->
            [up] the beat is quicker
           *[down] the beat is slower
        }
        [pitch] { $way ->
            [up] the notes are higher
           *[down] the notes are lower
        }
        [density] { $way ->
            [up] there are more taps
           *[down] there are fewer taps
        }
        [dynamics] { $way ->
            [up] the sound is louder
           *[down] the sound is softer
        }
       *[brightness] { $way ->
            [up] the sound is brighter
           *[down] the sound is darker
        }
    }

# claims: figure
meaning-figure = { $value }

# claims: figure
meaning-range = { $low } to { $high }

# claims: figure
meaning-range-mean = { $low } to { $high }, mean { $mean }

# claims: figure, greatest
meaning-greatest = { $value }, the warmest

# claims: figure, least
meaning-least = { $value }, the coldest

# claims: at least or at most
meaning-amount =
    { $amount ->
        [very-little] very little
        [little] little
        [some] some
        [much] much
       *[very-much] very much
    }

# no claim: no rule measures it
meaning-amount-unmeasured = { meaning-amount }

# claims: at least or at most, more
meaning-amount-more = { meaning-amount }, more than in { $letter }

# claims: at least or at most, less
meaning-amount-less = { meaning-amount }, less than in { $letter }

# claims: at least or at most, same
meaning-amount-same = { meaning-amount }, as in { $letter }

# claims: at least, at most
meaning-amount-ratio =
    { $ratio ->
        [half] about half as much as in { $letter }
        [third] about a third of what it was in { $letter }
        [quarter] about a quarter of what it was in { $letter }
        [twice] about twice as much as in { $letter }
        [three] about 3 times as much as in { $letter }
       *[four] about 4 times as much as in { $letter }
    }

## phrase: the two ends of a rule

meaning-little = little
meaning-much = much

# claims: figure
meaning-beats = { $bpm } beats a minute

## phrase: a sound of a rule, from the notes and marks themselves

meaning-beats-of-rule = { $bpm } beats a minute
meaning-bpm = { $bpm }
meaning-then = { $first }, then { $last }
meaning-between = between { $low } and { $high }
meaning-notes-span = { $first } to { $last }
meaning-heights =
    { $third ->
        [0] low notes
        [1] middle notes
       *[2] high notes
    }
meaning-bright =
    { $level ->
        [0] soft and dark
        [1] medium
       *[2] hard and bright
    }

# claims: figure
meaning-taps =
    { $n ->
        [one] about { $count } tap a bar from the whole group
       *[other] about { $count } taps a bar from the whole group
    }{ $own ->
        [yes] , and your own
       *[no] { "" }
    }

# claims: figure
meaning-taps-short =
    { $count }{ $own ->
        [yes] { " " }and yours
       *[no] { "" }
    }

# claims: plays
meaning-taps-seldom = now and then a tap

# claims: plays
meaning-taps-seldom-short = seldom

## plain: where there is nothing to tell

meaning-choose = you choose
meaning-any-taps = taps

## phrase: a note below a rule

meaning-arranged = Arranged for your class: { $span }.
meaning-all = { $of }: { $science }
