## plain: sentences to end; ___ is a line to write on, [] a box to tick

frame-head-help = Tick one box each time. Then end the sentence.
frame-head-all = End each sentence. The words in the box can help.
frame-head-plain = End each sentence.
frame-head-more = End each sentence. Then show it with numbers from your card.
frame-from = From { $first } to { $last }
frame-change =
    { $level ->
        [help] { $order ->
            [size] Where the { $quantity } { WAS($quantity) } [] more [] less, { frame-ticks }, because
           *[time] When the { $quantity } went [] up [] down, { frame-ticks }, because
        }
       *[other] { $order ->
            [size] Where the ___ was { $way ->
                [up] more
               *[down] less
            }, { frame-became }, because
           *[time] When the ___ went { $way ->
                [up] up
               *[down] down
            }, { frame-became }, because
        }
    }
frame-became =
    { $control ->
        [tempo] the beat became ___
        [pitch] our notes became ___
        [density] we had ___ taps
       *[dynamics] our sound became ___
    }
frame-ticks =
    { $control ->
        [tempo] the beat became [] quicker [] slower
        [pitch] our notes became [] higher [] lower
        [density] we had [] more [] fewer taps
        [brightness] our sound became [] brighter [] darker
       *[dynamics] our sound became [] louder [] softer
    }
frame-stage = In “{ $stage }” we were ___, because
frame-plays = We play ___, because
frame-numbers = At the start of this it was ___, at the end ___.
frame-model = Our music is a model. One way in which it is not like the real thing:

## plain: words of a sound

frame-quicker = quicker
frame-slower = slower
frame-higher = higher
frame-lower = lower
frame-busier = more
frame-sparser = fewer
frame-louder = louder
frame-softer = softer
frame-brighter = brighter
frame-darker = darker

## plain: the question of the lesson; its answer is computed

frame-what-does = From “{ $first }” to “{ $last }”: what { DOES($quantity) } the { $quantity } do?
frame-which-most =
    For which { IS($quantity) } the { $quantity } { $answer ->
        [yes] yes
        [share] yes most often
       *[no] greatest
    }?
frame-what-next = What comes next after “{ $title }”?
frame-what-heard = What do you hear in “{ $title }”?
frame-goes =
    { $way ->
        [up] It goes up.
        [down] It goes down.
       *[same] It stays the same.
    }
frame-choice = { $title }
frame-before = Before
frame-after = After
frame-later = 3 weeks later
frame-because = After: in our music you hear it, because
frame-can-say = Now I can say that
frame-still-ask = I still ask
