## plain: what stands round the plots

plot-across = Across: { $time }. Shaded: { $stages }.
plot-across-stages = Shaded: { $stages }.
plot-bars-of =
    { $repeated ->
        [yes] Each bar is a mean; the upright line reaches from its least reading to its greatest, a dot for each: { $stages }.
       *[no] One bar for each reading: { $stages }.
    }
plot-points-of =
    Across: { $changed }. { $repeated ->
        [yes] Each dot is a mean; the upright line reaches from its least reading to its greatest: { $stages }.
       *[no] One dot for each reading: { $stages }.
    }
plot-rest =
    Drawn is what the music follows. { $n ->
        [one] The other quantity is
       *[other] The other { $n } quantities are
    } in science.csv.
plot-stage = { $letter } { $title }

## plain: what stands on the axis of time

plot-hour = hour of the day
plot-time-of-day = time of day
plot-time = time ({ $unit })
plot-unit-seconds = seconds
plot-unit-minutes = minutes
plot-unit-hours = hours
plot-unit-days = days
plot-unit-months = months
plot-unit-years = years

## claims: figure

plot-course =
    Plot of { $name }{ $over ->
        [time] { " " }over time
       *[piece] { "" }
    }: starts at { $first }, is least at { $least }, greatest at { $most } and ends at { $last }.
plot-rows = Plot of { $name }: { $rows }.

## phrase: one bar of a plot

plot-row = { $title } { $value }
