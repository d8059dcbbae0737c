## plain: the assessment grid

aims-towards = Working towards it
aims-at = At it
aims-depth = In greater depth
aims-how-to = Write only the names of those who are not there yet and of those who go further: all others are at it. Listen while groups explore, at the rehearsal, and when you play the recording back.
aims-science = Science
aims-music = Music
aims-names = Names:

## plain: aims, each at three levels: wording of our own

aims-knowing = Knowing what happens
aims-knowing-towards = Names some of the stages with the cards in view.
aims-knowing-at =
    { $n ->
        [one] Tells the stage
        [2] Puts both stages in order
       *[other] Puts all { $n } stages in order
    } and says what happens{ $words ->
        [none] { "" }
       *[some] , using words such as { $such }
    }.
aims-knowing-at-measured =
    Tells { $n ->
        [2] both
       *[other] all { $n }
    } apart and says what was measured{ $words ->
        [none] { "" }
       *[some] , using words such as { $such }
    }.
aims-knowing-at-walked =
    Says in order of the { $changed } what was measured at all { $n } steps{ $words ->
        [none] { "" }
       *[some] , using words such as { $such }
    }.
aims-knowing-depth = Explains how one stage brings on the next, also in another place than this one.
aims-knowing-depth-measured = Explains why they differ, and what else could be measured in the same way.
aims-why = Explaining why
aims-why-towards = Says that something changes, the { $quantity } for example.
aims-why-towards-heard = Says that something changes, what we heard for example.
aims-why-at = Says what makes it change, with a reason from the science.
aims-why-depth = Uses a figure or a curve as evidence, and foretells what another start would bring.
aims-why-depth-told = Backs it with the words or pictures of the lesson, and foretells what would come if one stage were missing.
aims-model = Seeing the music as a model
aims-model-towards = Matches one sound with what it stands for.
aims-model-at = Explains two rules of the key.
aims-model-at-such = Explains two rules of the key (more { $quantity }: { $heard }).
aims-model-depth = Says what the music exaggerates or leaves out, and why it has to.
aims-model-at-told = Explains the sound of two stages with what happens in them.
aims-model-depth-told = Finds another sound that would fit as well, and says what the music leaves out.
aims-together = Playing together
aims-together-towards = Joins in, and finds the beat again with a neighbour's help.
aims-together-at = Starts and stops at the cue, and keeps to the beat of the group.
aims-together-depth = Holds an own part steady against the others, and is with a new beat at once.
aims-expression = Playing with expression
aims-expression-towards = Plays softer or louder when told to.
aims-expression-at = Grows and fades with the conductor's hands, and plays with care for the sound.
aims-expression-depth = Shapes a phrase unasked, and says which change in the science it follows.
aims-choosing = Making and choosing sounds
aims-choosing-towards = Tries several sounds and takes one.
aims-choosing-at = Chooses tempo, pitch, dynamics or timbre for a purpose and gives a reason.
aims-choosing-depth = Compares two ideas, improves one, and speaks of texture or structure as well.
aims-listening = Listening
aims-listening-towards = Notices that something in the music has changed.
aims-listening-at = Says what has changed, with the words for it.
aims-listening-depth = Knows a stage or a group by ear, and backs it with what was heard.
