## plain: labels that several sheets share

sheet-name = Name
sheet-date = Date
sheet-group = Group { $group }
sheet-group-and-part = Group and part
sheet-stage = Stage
sheet-page = { $page } of { $pages }
sheet-missing =
    { $stand_in } stands for a letter that this font cannot draw: { $letters }{ $more ->
        [0] { "" }
       *[other] { " " }and { $more } more
    }.
sheet-everybody = everybody

## phrase: a moment of the science

sheet-start = the start
sheet-after = { $after }
sheet-clock = { $clock }
sheet-clock-next-day = { $clock } next day
sheet-clock-day = { $clock } on day { $day }

## phrase: a tempo with its words

sheet-tempo = { $bpm } bpm, { $words } ({ $term })
sheet-bpm = { $bpm } bpm
sheet-from-to = { $low } to { $high }
sheet-glides =
    { $low } to { $high } bpm, { $steady ->
        [yes] steady
       *[no] bar by bar
    }

## phrase: how the beat of a stage goes

sheet-pace-steady = steady
sheet-pace-quickening = quickening
sheet-pace-slowing = slowing

# claims: figure
sheet-when = { $start } to { $end }

# claims: figure
sheet-squeezed = { $lasts } in { $bars }
