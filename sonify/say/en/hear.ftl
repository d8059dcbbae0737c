## plain: labels, buttons and instructions of the page

hear-hear-the-piece = Hear the piece
hear-play = Play
hear-bar-1-of = Bar 1 of { $bars }
hear-why-this-tempo = Why this tempo?
hear-why-this-tempo-2 = { "." } Why this tempo?
hear-bar = Bar
hear-from-the-start = From the start
hear-stage-before = Stage before
hear-next-stage = Next stage
hear-stages-go-to-one = Stages: go to one
hear-beats-min = { $tempo } beats/min
hear-the-science = The science
hear-show = Show
hear-each-moment = each moment
hear-along-heard = Hear each bar on the way
hear-seek-ask = Where is it?
hear-seek-here = Here
hear-each-stage-s-average-the = each stage’s average: the beat follows it
hear-what-you-hear-now = What you hear now
hear-the-groups-as-you-face = The groups, as you face them
hear-tap-a-group-to = Tap a group to
hear-rest-it = rest it
hear-hear-it-alone = hear it alone
hear-everyone-plays = Everyone plays
hear-group = Group { $number }:
hear-waiting = waiting
hear-you = You
hear-who-shares-an-instrument = Who shares an instrument
hear-group-2 = Group { $number }: { $sharing }.
hear-why-does-it-sound-like = Why does it sound like this?
hear-table-in-each-stage = Table: { $control } in each stage
hear-stage = Stage
hear-keys = Keys
hear-space = Space
hear-play-or-pause = play or pause
hear-stage-before-next-stage = stage before, next stage
hear-page-up = Page Up
hear-page-down = Page Down
hear-the-same-in-conduct-a = the same in Conduct (a presenter’s clicker sends these)
hear-home = Home
hear-in-conduct-back-to-the = in Conduct: back to the start
hear-esc = Esc
hear-leave-full-screen-then-leave = leave full screen, then leave Conduct
hear-the-story = The story
hear-the-stages = The stages
hear-bars-to = , bars { $bar } to { $bars }. { $caption } { $name }
hear-what-happens-when = What happens when
hear-bar-2 = Bar { $bar }: { $text }
hear-what-this-picture-leaves-out = What this picture leaves out
hear-take-care = Take care
hear-play-at-the-level-of = Play at the level of ordinary speech. Turn it down if anyone has to raise their voice or covers their ears.

## plain: the question a class asks of each control, and the control as a heading

hear-asked =
    { $control ->
        [tempo] Why this tempo?
        [pitch] Why this pitch?
        [density] Why so many taps?
        [dynamics] Why this loudness?
       *[brightness] Why this hard or soft a sound?
    }
hear-headed =
    { $control ->
        [tempo] Tempo
        [pitch] Pitch
        [density] How many taps
        [dynamics] Loudness
       *[brightness] Hard or soft
    }

## no claim: where the curve stands now; the script reads it off the Timeline's own values

hear-curve-told =
    { $title }{ $whose ->
        [yes] { " " }of { $owner }
       *[no] { "" }
    }: { $first } at the start, between { $low } and { $high }, { $last } at the end.
hear-from-start = { $time } from the start
hear-hours-from-start = { $hours } h { $minutes } min from the start
hear-sets-the-tempo = { $title }: sets the tempo
hear-on-average = { $value } on average

## plain: how a part moves, in the words of the page

hear-own-idea = your own idea: { $ask }
hear-everyone = Everyone
hear-hairpin =
    { $way ->
        [cresc] getting louder
       *[dim] getting softer
    }
hear-texture =
    { $texture ->
        [drone] one long sound
        [ostinato] a repeated pattern
        [melody] a tune
        [tremolo] a roll
       *[scatter] scattered taps
    }
