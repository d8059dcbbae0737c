## plain: the cue page for a music stand

stand-head = Cue page
stand-sign-in = comes in
stand-sign-other = plays something else
stand-sign-out = stops

## plain: its rows in words

stand-stage = Bar { $bar }: stage { $letter }, { $bpm } beats a minute.
stand-in =
    { $n ->
        [one] Bar { $bar }: group { $groups } comes in.
       *[other] Bar { $bar }: groups { $groups } come in.
    }
stand-other =
    { $n ->
        [one] Bar { $bar }: group { $groups } plays something else.
       *[other] Bar { $bar }: groups { $groups } play something else.
    }
stand-out =
    { $n ->
        [one] Bar { $bar }: group { $groups } stops.
       *[other] Bar { $bar }: groups { $groups } stop.
    }
stand-end = Bar { $bar }: the end.
