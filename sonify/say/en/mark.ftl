## plain: what stands on the staves beside notes

mark-idea = your idea
mark-as-here = as here to bar { $bar }
mark-tempo = { $term } ({ $words })
mark-caption = { $title }: { $caption }
mark-instrument = { $part }, { $instrument }

mark-free-few = free, now and then
# claims: figure
mark-free =
    free, about { $taps } { $n ->
        [one] sound
       *[other] sounds
    } a bar

## plain: instructions to players, where a tempo sets out to glide

mark-faster = little by little faster
mark-slower = little by little slower

## plain: texts of the MIDI file

mark-section = { $letter } { $title }
mark-idea-at =
    Your own idea: { $n ->
        [one] 1 bar
       *[other] { $n } bars
    } from bar { $bar }
mark-stand-in = Stand-in: { $sound }
mark-shares-channel = Shares channel { $channel } with the other parts of this sound
mark-moved = Moved by { $semitones } semitones onto the keyboard
mark-on-key = For keyboards: { $sound } on key { $key }, for the { $instrument }
