## plain: parts of a card's sentences: numbers, bars, who shares

part-number =
    { $count ->
        [0] no
        [1] one
        [2] two
        [3] three
        [4] four
        [5] five
        [6] six
        [7] seven
        [8] eight
        [9] nine
        [10] ten
        [11] eleven
        [12] twelve
       *[other] { $count }
    }
part-bars =
    { $bars ->
        [1] bar { $bar }
       *[other] bars { $bar } to { $last }
    }
part-span =
    { $bars ->
        [1] { $bar }
       *[other] { $bar } to { $last }
    }
part-bars-named =
    { $bars ->
        [1] Bar { $bar }
       *[other] Bars { $bar } and { $last }
    }
part-bar-to-show = Bar { $bar }, to show how
part-tune = Tune { $letter }
part-take-turns = take turns
part-shared = { $players } players at { $count } { $what }: { $job }
part-to-an-instrument = { $count } to an instrument
part-turns =
    { $bars ->
        [1] { $count } at a time, taking turns: change over every bar
       *[other] { $count } at a time, taking turns: change over every { $number } bars
    }
part-job-and = { $one }; { $other }
part-named = { $name }: { $what }
part-own-idea = your own idea

## plain: what to do before the lesson

part-bars-ready = { $instrument }: { $what }.
part-put-on = put on { $on } in place of { $off }
part-take-off = take off { $bars }
part-leave-out = leave out { $bars }

## plain: what the count-in is, and what pupils are asked to invent

part-count-in = The teacher plays or claps { $bars } bars in the first tempo.
part-count-in-goes-on = The teacher plays or claps { $bars } bars in the first tempo and goes on softly under what pupils invent.
part-you-decide = You decide what to play. Try it out, then agree.
part-where-empty = Where the box is empty, you choose. Be ready to say why.
part-ask-invent = Invent this with your group.
part-ask-drone = Choose how your sound goes on here: longer, shorter, louder or softer. Say why.
part-ask-ostinato = Keep your rhythm here. Choose one thing: which sounds, how loud or which beater. Say why.
part-ask-melody = Make your own tune here: does it climb, stay or sink? Say why.
part-ask-tremolo = Choose how fast and how loud you roll here. Say why.
part-ask-scatter = Choose here: few taps or many, soft or strong? Say why.
part-yours-differ = Yours will be different each time.

## plain: instructions, how to play

part-call-and-answer =
    { $turn ->
        [first] You share this part: you start, { $bars } bars each; in the fullest place play together.
       *[second] You share this part: you answer, { $bars } bars each; in the fullest place play together.
    }
part-with = Play with { $what }.
part-with-who = { $who }: play with { $what }.
part-with-later = From bar { $bar }, { $what }.
part-pattern = Play your pattern over and over, with the beat.
part-patterns = Play the pattern shown, over and over.
part-breathe-after-phrase = At the end of each phrase leave the last beat silent: breathe.
part-is-the-beat = You are the beat.
part-beat-halved = You are the beat: one stroke on every beat. Where it gets very fast, play every second beat, as the patterns show.
part-every-second-beat = You are the beat, so fast that you play every second one.
part-keep-steady = Keep it steady, like breathing.
part-breathe-in-turn = Breathe when you need to, but not all together.
part-share-the-sound = You share this sound with another group: keep it going together.
part-early-stroke =
    { $count ->
        [one] A new phrase begins with a stroke, one bar early, in bar { $bars }.
       *[other] A new phrase begins with a stroke, one bar early, in bars { $bars }.
    }
part-keep-moving = keep it moving, growing and fading
part-keep-moving-all-the-time = Keep the sound moving all the time; grow and fade with the conductor's hands.
part-hands-in-turn = Hands in turn, light and even.
part-boxes-of-all = The boxes show what you hear together, not what each of you plays.
part-grow-like-a-wave = Grow and fade like a wave; the last beat of each phrase is silent.
part-tap-freely = Tap when you like, not with the beat, and not with your neighbour.
part-watch-for-more = Watch the conductor: more, or fewer.
part-fill-the-gaps = Another group taps the same: listen for gaps and fill them.
part-learn-slowly = Learn your tune slowly first.
part-breathe-after-tune = Breathe at the end of each phrase.
part-note-goes-round = In bars { $first } to { $last } all tunes tell of the same, so the sound goes round and each can be heard: play on { $n ->
        [one] beat { $beats } of every bar
       *[other] beats { $beats } of every bar
    }, and let the others have theirs.
part-tune-light = The lighter notes are trimmings: play them softer, or leave them out.
part-along = { $who }: play the same tune along with the { $main }.
part-along-octave =
    { $who }: play the same tune along with the { $main }. You sound an octave { $way ->
        [higher] higher
       *[lower] lower
    }: to hear whose tune is the highest, listen to the { $main }.
part-first-beats = { $who }: join in on the first beat of every bar.
part-no-notes-one-sound = Your tune has no notes: play stronger when it climbs, softer when it sinks.
part-no-notes = Your tune has no notes: from low to high it is { $sounds }.
part-chord-watch = Watch for the sign to add one or drop one.
part-chord-two-beaters =
    { $moves ->
        [yes] One note with each beater.
       *[no]
            { $grows ->
                [yes] { $notes }: one note with each beater.
               *[no] Play { $notes }: one note with each beater.
            }
    }
part-in-twos = Work in twos
part-in-twos-at = At the { $instruments }, work in twos
part-chord-shared = { $where }. One plays { $one }; the other plays { $other }.
part-chord-shared-moving =
    { $where }. One plays the first note of each chord{ $most ->
        [2] {""}
       *[other] {" "}and the third
    }; the other plays the second{ $most ->
        [2] {""}
        [3] {""}
       *[other] {" "}and the fourth
    }.
part-two-after-two = Take turns, two after two.
part-chord-one-note =
    { $moves ->
        [yes] While there is one note, all play it.
       *[no] While there is one note, { $note }, all play it.
    }
part-chord-along = { $who }: play along, but only the first two notes.
part-waves = one slow wave after another, without a gap
part-even-strokes = { $count } slow, even strokes a bar
part-let-ring =
    { $bars ->
        [1] strike on beat 1 in every bar and let it ring
       *[other] strike on beat 1 every { $bars } bars and let it ring
    }
part-end-together =
    { $damped ->
        [yes] In the last bar all end together on beat { $beat }: stop the sound at once.
       *[no] In the last bar all end together on beat { $beat }: let it ring.
    }
part-held-breath = At the end of bar { $bar } everybody is silent for one beat.
part-line-patterns =
    { $line ->
        [easy] Easier, and it fits what the others play:
        [core] In the middle, and it fits what the others play:
       *[stretch] Harder, and it fits what the others play:
    }
part-line-drone =
    { $line ->
        [easy] Easier: all strike together.
        [core] In the middle: one strikes first, the other after.
       *[stretch] Harder: strike one after the other, and cross to the higher note.
    }
part-line-held =
    { $line ->
        [easy] Easier: start and stop with the one beside you.
        [core] In the middle: play as your neighbour does.
       *[stretch] Harder: turn or breathe at different times, so that there is no gap.
    }
part-line-melody =
    { $line ->
        [easy] Easier: only the notes on the strong beats.
        [core] In the middle: as the others play.
       *[stretch] Harder: more notes between the beats.
    }
part-line-ostinato =
    { $line ->
        [easy] Easier: only on the beat.
        [core] In the middle: as the others play.
       *[stretch] Harder: between the beats, too.
    }
part-line-tremolo =
    { $line ->
        [easy] Easier: one hand only, and pass it on.
        [core] In the middle: both hands in turn.
       *[stretch] Harder: both hands in turn, so softly that nobody hears who changes.
    }
part-line-scatter =
    { $line ->
        [easy] Easier: tap on the beat or half-way.
        [core] In the middle: tap when you like.
       *[stretch] Harder: never tap on the beat.
    }
part-chord-moves = Your notes change with the letters: the list says which.
part-pattern-on = { $pattern }, with { $notes }
part-note-for = { $note } in place of { $home }
part-with-notes = { $notes }: { $how }
part-roll =
    { $pace ->
        [quick] quick
        [slow] slow
       *[easy] easy
    } light strokes, one after another{ $whole ->
        [yes] {""}
       *[no] { $beats ->
            [1] ; only on beat 1, then let it ring
           *[other] ; only beats 1 to { $beats }, then let it ring
        }
    }

## no claim: the part's own rule; the key prints it with its ends, and other code inverts it

# claims: rises or falls or swings or steady
part-breathe-meanwhile =
    { $way ->
        [rises] While you breathe, the { $quantity } { GOES($quantity) } on rising.
        [falls] While you breathe, the { $quantity } { GOES($quantity) } on falling.
        [swings] While you breathe, the { $quantity } { GOES($quantity) } on changing.
       *[steady] While you breathe, the { $quantity } { STAYS($quantity) } as it is.
    }

# claims: more or less
part-tune-follows =
    The first note of each bar follows the { $quantity }: { $way ->
        [higher] higher
       *[lower] lower
    } when it is more.
part-chord-grows = The louder you are, the more notes your chord has.

## plain: what a tune does, shown by the very notes beside it

part-tune-asks = asks: { $way ->
        [both] up and down
        [up] up a little
        [down] down a little
       *[none] one note
    }{ $home ->
        [yes] {" "}and back
       *[no] {""}
    }
part-tune-answers = answers: { $way ->
        [both] up and down
        [up] up a little
        [down] down a little
       *[none] one note
    }{ $home ->
        [yes] {" "}and back
       *[no] {""}
    }
part-tune-climbs =
    { $both ->
        [yes] climbs to a higher note; where the next start note is lower, step down instead
       *[no] climbs to a higher note
    }
part-tune-sinks = sinks to a lower note
part-tune-turns = moves up and down around its start note
part-contour =
    { $way ->
        [steady] steady
        [rising] { $by ->
            [sounds] rising: from sound to sound
           *[strength] rising: from soft to strong
        }
       *[falling] { $by ->
            [sounds] falling: from sound to sound
           *[strength] falling: from strong to soft
        }
    }

# claims: every beat
part-every-beat = You are the beat: one stroke on every beat, and no rests.

# claims: plays throughout
part-all-the-way = You sound all the way through. Keep it steady, like breathing.

# claims: in turn
part-in-turn = Light strokes, one after another round the group, never two at once.

# claims: in turn by kind
part-in-turn-by-kind = Light strokes, one after another among those who play the same instrument.

# claims: busier
part-roll-more = more strokes than before: { $how }

# claims: sparser
part-roll-fewer = fewer strokes than before: { $how }

# claims: plays, silent
part-bursts = come and go: busy in bars { $spans }, silent between

# claims: busier
part-taps-and-back = from few taps to many and back: most around bar { $bar }

# claims: busier
part-taps-more = from few taps to many

# claims: busier
part-taps-fewer = from many taps to few

# plain: an instruction
part-taps-spread = taps, spread out

## plain: the beat that a group keeps while its own part waits, and tunes to be compared

part-pulse = You keep the beat that everybody plays to, while your own part waits.
part-pulse-tap =
    { $how ->
        [every] When your own part stops, tap your knees softly on every beat.
        [second] When your own part stops, tap your knees softly on every second beat.
       *[first] When your own part stops, tap your knees softly on the first beat of each bar.
    }
part-pulse-stop = Stop tapping when your own part comes in again.
part-octave-apart =
    { $way ->
        [higher] { $other } sounds an octave higher than you: compare which way you both go.
       *[lower] { $other } sounds an octave lower than you: compare which way you both go.
    }

## plain: a pattern that pupils made

part-our-own-pattern = our own pattern
part-own-pattern = This is { $name }: play it over and over, with the beat.
part-own-rule-aside =
    { $control ->
        [density] You chose how many sounds there are. So listeners cannot hear the science from how many there are.
       *[pitch] You chose the notes. So listeners cannot hear the science from high and low.
    }

part-own-rule-same =
    { $control ->
        [density] Your pattern keeps { $sounds } sounds a bar. The rule would keep about { $low }.
       *[pitch] Your pattern keeps its own notes. The rule would stay near { $low }.
    }

# claims: more
part-own-rule =
    { $control ->
        [density] Your pattern keeps { $sounds } sounds a bar. The rule would go from { $low } (bar { $least }) to { $high } (bar { $most }). What can a listener no longer hear?
       *[pitch] Your pattern keeps its own notes. The rule would go from { $low } (bar { $least }) to { $high } (bar { $most }). What can a listener no longer hear?
    }
