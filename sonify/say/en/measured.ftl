# claims: figure
measured-from-to = From { $start } to { $end }

# claims: figure
measured-around = Around { $at }

# claims: figure
measured-day-and-hour = { $day }, { $hour }

# plain: the beginning of the readings, as a time
measured-start = the start

# claims: figure, more
measured-way =
    { $when }, in { $lasts }, the { $quantity } { $way ->
        [rising] rises
       *[falling] falls
    } from { $line ->
        [yes] about { $from }
       *[no] { $from }
    } to { $to }.

# claims: figure, at most
measured-level = { $when } the { $quantity } { STAYS($quantity) } near { $near }.

# claims: figure
measured-middle = { $when } the { $quantity } { IS($quantity) } about { $middle }, as often above as below.

# claims: figure
measured-goes = { $when } the { $quantity } { GOES($quantity) } from { $from } to { $to }.

# claims: figure
measured-is = { $when } the { $quantity } { IS($quantity) } { $value } at the start and at the end.

# no claim: how the readings were cut
measured-no-stretches = No stretches are told apart in these readings, so they are cut into four equal parts.

# claims: rises
measured-all-along-rises = It rises all along, so no stretches are told apart and the readings are cut into four equal parts.

# claims: falls
measured-all-along-falls = It falls all along, so no stretches are told apart and the readings are cut into four equal parts.

# claims: steady
measured-all-along-steady = It hardly changes, so no stretches are told apart and the readings are cut into four equal parts.

# claims: figure, same
measured-least = The { $quantity } { IS($quantity) } least, { $value } ({ $at }).

# claims: figure, same
measured-greatest = The { $quantity } { IS($quantity) } greatest, { $value } ({ $at }).

# claims: figure
measured-title-way =
    { $way ->
        [rising] Rising{ $pace ->
            [fast] { " " }fast
            [slowly] { " " }slowly
           *[any] {""}
        }
       *[falling] Falling{ $pace ->
            [fast] { " " }fast
            [slowly] { " " }slowly
           *[any] {""}
        }
    } to { $to }

# claims: figure
measured-title-level = Level near { $near }

# claims: figure
measured-title-goes = From { $from } to { $to }

# claims: figure
measured-title-about = About { $near }

# plain: a quarter of the readings
measured-title-quarter =
    { $number ->
        [1] First
        [2] Second
        [3] Third
       *[4] Last
    } quarter

# plain: a heading that came before
measured-title-again = { $title }, time { $time }

## plain: what the process is about, its stages and its conditions

measured-title = Our own readings
measured-summary = What a logger or the class itself measured over time, and where it rises, falls or stays level.
measured-stage = Stretch { $number }
measured-seen = a stretch in which the readings rise, fall or stay level: the fewest straight lines that follow them within { $within } of their range
measured-condition-level = share of the whole range: a stretch that rises or falls by less counts as level
measured-condition-stretches = how many straight lines the readings are followed with, at most
measured-condition-follow = the column whose stretches are looked for, counted from 1, the time not counted
measured-condition-interval = time from one row to the next, for a file that has no column of times
measured-quantity = the column "{ $heading }" of the file
measured-quantity-nameless = a column without a heading

measured-refused-column = { $asked } is out of range; the file has { $count }, so allowed: 1 to { $count }
measured-refused-no-table = this process plays readings of your own; name their file in the scene with data = "FILE.csv"
measured-refused-few = readings at { $count } different times; a piece needs three at least

## no claim: what the readings are and what was done to them

measured-honesty-readings = These are readings, not a model: nothing is computed but means and straight lines. Why they go as they go is for the class to find out.
measured-honesty-rule = Where the readings rise, fall or stay level is found by a rule: the fewest straight lines that follow them within { $within } of their range, single wild readings passed over; where they go up and down too often for that, the largest ups and downs. Another rule finds other stretches.
measured-honesty-instrument = An instrument has a limit, and a place: a reading is true to no more than the last digit it shows, and only where the sensor lay.
measured-honesty-gaps = Readings are missing, and straight lines bridge the gaps (number of them: { $gaps }).
measured-honesty-open-ends =
    Before the first reading and after the last one, { $quantities } { $n ->
        [one] stays
       *[other] stay
    } as there in the music and in averages, though nobody measured it.
measured-honesty-gap = { $quantity } { $count }
measured-honesty-means = The file has { $rows } rows. They are heard as { $means } means over equal times, so a single wild reading is softened.
measured-honesty-no-times = The file has no times: the time from row to row is the scene's condition { $condition }.
