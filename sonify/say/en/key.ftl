## phrase: the name of a quantity

key-quantity = the { $quantity }
key-quantity-of = the { $quantity } of { $owner }
key-quantity-in-group = { $quantity } ({ $group })

# claims: by rule
key-sentence =
    When { $whose } { IS($whose) } { $low }, { $control ->
        [tempo] the beat is { $low_sound }
        [pitch] { $who ->
            [part] the part "{ $part }" plays
           *[all] everybody plays
        } around { $low_sound }
        [brightness] { $who ->
            [part] the part "{ $part }" sounds
           *[all] everybody sounds
        } { $low_sound }
       *[other] { $who ->
            [part] the part "{ $part }" plays
           *[all] everybody plays
        } { $low_sound }
    }; at { $high }, { $high_sound }. { $answer ->
        [yes] The nearer to yes
       *[no] { GREATER($quantity) } { $quantity }
    }, { $control ->
        [tempo] { $way ->
            [up] the faster the beat
           *[down] the slower the beat
        }
        [pitch] { $way ->
            [up] the higher the notes
           *[down] the lower the notes
        }
        [density] { $way ->
            [up] the more taps
           *[down] the fewer taps
        }
        [dynamics] { $way ->
            [up] the louder the sound
           *[down] the softer the sound
        }
       *[brightness] { $way ->
            [up] the brighter the sound
           *[down] the darker the sound
        }
    }.{ $ratios ->
        [yes] { " " }Each doubling makes the same step.
       *[no] { "" }
    }
