## plain: where in the piece, the class or the scene

play-bar = bar { $bar }
play-from-bar = from bar { $bar }
play-group = group { $group }
play-stages = { $stages }
play-where =
    { $what ->
        [groups] groups
        [seats] seats
        [cupboard] cupboard
        [instruments] instruments
        [scale] scale
        [density] density
        [pitch] pitch
        [brightness] brightness
       *[dynamics] dynamics
    }

## plain: faults of the arrangement that a class could not play, found by the checker's own code

play-pupils-seated = The groups hold { $seated } pupils, the class has { $pupils }.
play-uneven-groups = Groups of { $least } and of { $most }: one has far more to do.
play-empty-seat = A seat on { $instrument } has { $players } pupils and { $count } instruments.
play-crowded = { $players } pupils on { $count } { $instruments }; one takes { $takes }.
play-promised-twice = Groups { $groups } need { $needed } { $instruments }; the cupboard has { $have }.
play-short-share =
    { $short } of { $all } pupils in group { $group } ({ $parts }) { $short ->
        [one] plays
       *[other] play
    } for { $seconds } of { $whole } seconds.
play-many-patterns = Group { $group } must learn { $count } patterns; three are enough.
play-out-of-range = { $note } is outside the { $instrument } ({ $low } to { $high }).
play-no-such-bar = { $note } is not among the bars of a { $instrument }.
play-wrong-instrument = A pupil at a { $instrument } is given a stroke on another.
play-too-fast = Too fast for one pupil on a { $instrument } ({ $long } a second, { $short } for a moment).
play-of-group = Group { $group }: { $told }
play-at-once = { $count } sounds at once for one pupil on a { $instrument }.
play-still-sounds = A { $instrument } is struck while it still sounds.
play-one-breath = More than { $seconds } seconds on one breath.
play-entry-leaves = The entry leaves the piece.
play-not-cued = A note stands outside every entry: nobody cues it.
play-sudden = A sudden loud sound: velocity { $velocity }; { $most } is the most here.
play-still-plays = Group { $group } still plays { $first } when { $second } begins.
play-little-time = Group { $group } has { $seconds } seconds to go from { $first } to { $second } at bar { $bar }: instruments for both must lie ready.
play-strokes-left-out =
    { $lost ->
        [one] 1 of { $all } strokes is left out: it follows the one before
       *[other] { $lost } of { $all } strokes are left out: they follow each other
    } too fast for pupils of this age.

## plain: what was changed, and which rule cannot be heard

play-loud-instrument = The { $instrument } is loud: it is played softly, with soft beaters.
play-quiet-start = It starts softer than its dynamics rule asks: the class needs a quiet start.
play-comes-in-softly = It comes in softly and takes up to { $bars ->
        [one] a bar
       *[other] { $bars } bars
    } to reach its own loudness: the class needs no sudden loud sounds.
play-softer-all-through = It is softer than its rule asks, by up to { $most } of 127{ $late ->
        [yes] {""}
       *[no] , and grows and fades where it did
    }: the class needs no sudden loud sounds.
play-unheard =
    Its { $control ->
        [density] density
        [pitch] pitch
        [brightness] brightness
        [dynamics] dynamics
       *[tempo] tempo
    } rule is not heard: { $because }.
play-goes-on-anyway = a { $texture } goes on whatever its { $control }
play-on-the-beat = a part on the beat plays every beat
play-no-notes = { $instruments } have no notes
play-one-sound = { $instruments } sound alike with any beater, or have none
play-no-note = There is no { $notes } on { $instruments }: the nearest notes of the scale stand in.
play-no-strokes = Its density rule cannot be heard: a { $instrument } sounds on without strokes.
play-beyond-range = In { $bars } bars its pitch goes beyond the { $instrument } ({ $low } to { $high }): it stays on the nearest note there.
play-rule-within-reach = Its rule goes from { $low } to { $high } for this class, in place of { $asked_low } to { $asked_high }, so that the { $instrument } and whatever else plays it have every note of it.
play-drone-beyond-range = { $bars } bars of its pitch lie beyond the { $instrument }: the end of its range holds.
play-no-tuned-instrument =
    { $how ->
        [sounds] The cupboard has no tuned instrument for this melody: the { $sounds } play its rise and fall on high and low sounds.
       *[strength] The cupboard has no tuned instrument for this melody: the { $sounds } play its rise and fall as stronger and softer strokes.
    }

# claims: figure
play-density-over-bar = Its density asks for { $asked } strokes a bar; at { $bpm } beats a minute pupils can keep up { $most }, and that is what they play.

# claims: figure
play-density-over-beat = Its density asks for { $asked } strokes a beat; at { $bpm } beats a minute the group plays { $most }.

# claims: figure
play-taps-over =
    Its density asks for { $asked } taps a beat{ $groups ->
        [1] {""}
       *[other] , shared by { $groups } groups
    }; at { $bpm } beats a minute this group plays { $most } ({ $why ->
        [grid] the semiquaver grid holds no more
       *[hands] each pupil's limit a second
    }). { $thinned ->
        [one] One bar is
       *[other] { $thinned } bars are
    } thinned.

## plain: what to do

play-seat-every-pupil = Give every pupil a seat in one group.
play-even-out = Even the groups out.
play-fill-the-seat = Take the seat away or fill it.
play-let-take-turns = Let them take turns, or give them another instrument.
play-another-instrument = Give one of the groups another instrument.
play-more-to-do = Give the part more stages, add instruments to the cupboard, or let them join another group there.
play-keep-different = Keep the most different ones.
play-move-an-octave = Move it by an octave.
play-nearest-note = Take the nearest note of the scale that is.
play-reseat = Reseat.
play-thin-it = Thin it, or let pupils take turns.
play-share-out = Share them out.
play-shorten = Shorten it.
play-leave-a-breath = Leave half a beat for a breath.
play-add-an-entry = Add an entry.
play-let-it-grow = Let it grow from softer.
play-begin-later = Let one of the two begin later, or share them between two teams of the group.
play-lay-out = Lay both sets out before the lesson, or make one more group.
play-would-keep-them =
    A slower tempo or a lower density would keep { $lost ->
        [one] it
       *[other] them
    }.
play-lower-density-or-texture = Lower the rule's density or the tempo, or give the part to another texture.
play-lower-density-or-instruments = Lower the rule's density or the tempo, or give the group more instruments.
play-hear-as-dynamics = Hear the quantity as dynamics instead, or list a struck instrument first.
play-wider-instrument = Where all who play it have instruments of a wider range, it can be heard as the scene has it.
play-narrow-pitches = Narrow the pitches of the rule, or choose an instrument with a wider range.
play-add-tuned-instrument = Add a glockenspiel, xylophone or chime bars to the cupboard to hear it as notes.
play-name-a-scale = Name a scale that the instruments have, such as C pentatonic.
play-another-control = Hear the quantity as another control, or give the part another texture or instrument.

## plain: parts that cannot be compared, and marks that are not played

play-not-as-marked = It is played at { $velocity } of 127, and marked { $marks }.
play-mark-it = Mark it as it is played.
play-compared-apart = { $a } and { $b } are to be compared, but sound together in only { $share } % of the bars of { $less }.
play-compared-late = { $a } begins in bar { $at } and { $b } in bar { $later }: what is compared begins together.
play-compared-alone = { $part } { IS($part) } to be compared, but without any of the others in most bars.
play-compared-unlike = { $a } and { $b } are to be compared, but one is on { $one } and one on { $other }.
play-compared-octaves =
    { $octaves ->
        [one] { $a } sounds an octave higher than { $b } at the same value, so the highest tune need not be the greatest value.
       *[other] { $a } sounds { $octaves } octaves higher than { $b } at the same value, so the highest tune need not be the greatest value.
    }
play-one-octave = Give the parts instruments of one size in sounds, such as alto bars for all, or add them to the cupboard; else leave out the question whose tune was highest.
play-same-stages = Give the compared parts the same stages in the scene.
play-same-stages-or-group = Give both the same stages in the scene, or the class one more group.
play-like-instruments = Add a tuned instrument for each to the cupboard, or give both parts voices in the scene.

## plain: a pattern that pupils made: what had to be otherwise on these instruments, and what mends it

play-own-without-notes = The notes of its pattern are not heard: { $instruments } have no notes.
play-own-octave =
    { $octaves ->
        [1] Its pattern sounds an octave { $way } than it was written, to suit { $instruments }.
       *[other] Its pattern sounds { $octaves } octaves { $way } than it was written, to suit { $instruments }.
    }
play-own-note-for = { $now } in place of { $was }
play-own-other-notes = Its pattern has notes that { $instruments } have not: it plays { $notes }.
play-own-choose-notes = Choose the pattern's notes among those of { $instruments }, or leave its notes out.
play-own-halves = One pupil alone cannot keep up { $name } all through: two halves of the group take turns, a bar each.
play-own-slower =
    { $bpm ->
        [0] Leave out a sound here and there to play it all together.
       *[other] With the beat no quicker than { $bpm } bpm all can play it together.
    }
play-own-offer =
    { $bpm ->
        [0] Choose what to leave out yourselves, or take what is played: boxes = [{ $boxes }].
       *[other] Keep the beat at { $bpm } bpm or below to play all of it, choose what to leave out yourselves, or take what is played: boxes = [{ $boxes }].
    }
play-own-offer-on-page =
    { $bpm ->
        [0] Choose what to leave out yourselves, or take what is played, in “A group’s own pattern”.
       *[other] Keep the beat at { $bpm } bpm or below to play all of it, choose what to leave out yourselves, or take what is played, in “A group’s own pattern”.
    }
play-own-rule-fix =
    { $control ->
        [density] Ask the group what a listener can no longer hear, or hear it as dynamics as well.
       *[pitch] Ask the group what a listener can no longer hear, or leave the notes to the rule: take the pattern out.
    }
play-own-rule-aside =
    { $control ->
        [density] How many sounds there are comes from { $name }, so { $quantity } is not heard in them.
       *[pitch] High and low come from { $name }, so { $quantity } is not heard in them.
    }
play-own-rule-same =
    { $control ->
        [density] There are { $sounds } sounds a bar in { $name }. The rule would keep about { $low }.
       *[pitch] The notes are those of { $name }. The rule would stay near { $low }.
    }

# claims: figure
play-own-too-quick = One pupil ({ $instrument }) cannot keep up { $name } at { $bpm } beats a minute: { $kept } of its { $all } sounds { $kept ->
        [one] is
       *[other] are
    } played.

# claims: more
play-own-rule =
    { $control ->
        [density] There are { $sounds } sounds a bar in { $name }. The rule would go from { $low } (bar { $least }) to { $high } (bar { $most }): { $quantity } is not heard in how many there are.
       *[pitch] The notes are those of { $name }. The rule would go from { $low } (bar { $least }) to { $high } (bar { $most }): { $quantity } is not heard in high and low.
    }

## plain: a sound that pupils recorded and that is not at hand

play-own-sound-gone = The recording of “{ $name }” is not at hand: what it is like plays in its place ({ $like }).
play-own-sound-choose = Choose its file, or record it again.

## plain: what the piece promises and this class cannot have

play-named-unheard =
    { $how ->
        [named] The caption names { $part }, and nobody is free to play it there.
       *[given] The scene gives { $part } to this stage, and nobody is free to play it there.
    }
play-untold = What it stands for changes there, but it plays only elsewhere, where nobody could hear a change.
play-second-beats = It is the beat itself and strikes every second one, though the beat is not too quick for most: { $instrument } are slow to strike.
play-quicker-instrument = Give it what is quick to strike: a small drum, a block, taps on the knees.
play-signs-at-once = { $count } signs at one moment: two hands can show { $most }.
play-long-wait = It waits for { $bars } bars in a row without a note; more than { $most } is long.
play-as-many-groups = With more groups, up to { $groups }, one for each part, more of them are free to play; or give the parts fewer stages in common.
play-fewer-at-once = Give the parts fewer stages in common, or this one to a group of its own.
play-let-some-follow = Show two, and let the other groups come in by counting. Another number of groups changes it, too.
