## plain: what was noticed in a file of readings, and what to do

logger-rows =
    { $n ->
        [one] row { $last }
       *[other] rows { $more ->
            [0] { $first } and { $last }
           *[other] { $first }, { $last } and { $more } more
        }
    }
logger-in-row = { $what } in row { $row }
logger-no-time = No time can be read in { $rows }, so those readings have no place.
logger-no-time-fix = Write the time as in the other rows.
logger-no-reading = No reading stands in { $rows }: left out.
logger-time-back = The time goes back at { $rows }. The readings are played in the order of time.
logger-no-unit = The file names no unit, so none is printed.
logger-no-unit-fix = Write it in brackets in the heading, as in "Temp (°C)".
logger-no-headings = The file has no headings; the columns are called by their number.
logger-no-headings-fix = Write a first row such as Time (s),Temp (°C).
logger-comma =
    In numbers such as "1,234" the comma is taken for { $sign ->
        [decimal] a decimal comma
       *[thousands] a comma between thousands
    }.
logger-comma-fix = Look at the ranges below.
logger-wide = More cells than the table has columns in { $rows }; the last are left out.
logger-wide-fix = Put a cell with the separator in it between quotation marks.
logger-gaps =
    { $n ->
        [one] { $n } reading
       *[other] { $n } readings
    } missing, in { $rows }.
logger-gaps-fix =
    { $table ->
        [yes] It has no turn in the music.
       *[no] In the music a straight line bridges the gap.
    }
logger-spikes =
    Readings that stand out from their neighbours: { $more ->
        [0] { $which }
       *[other] { $which }, and { $more } more
    }.
logger-spikes-fix = They are kept. If an instrument slipped, mend or empty those cells in the file.
logger-level = Every reading is { $value }.
logger-odd =
    Cells that are no numbers count as missing: { $more ->
        [0] { $which }
       *[other] { $which }, and { $more } more
    }.
logger-odd-fix = Write a number there, or leave the cell empty.
logger-twice = The same time comes more than once, in { $rows }.
logger-twice-fix = In the music their mean is heard.
logger-pauses =
    The readings pause { $n ->
        [one] { $n } time
       *[other] { $n } times
    }, after { $rows }: for up to { $pause } instead of { $usual }.
logger-pauses-fix = In the music a straight line bridges the pause.
logger-left-out = The column { $column } is not played: { $why }.
logger-why-missing = every reading is missing
logger-why-words = it holds words, not numbers
logger-why-counts = it only counts the rows
logger-why-time = the time is read from { $columns }
logger-no-time-unit = The file names no unit of time; the numbers are taken for seconds.
logger-no-time-unit-fix = Write the unit in the heading, such as { $column } (min), if that is wrong.
logger-dates-mixed =
    Dates are written both ways; { $way ->
        [day-first] the day before the month
       *[month-first] the month before the day
    } is read, and dates that cannot be so count as unreadable.
logger-dates-mixed-fix = Write every date the same way, such as 2026-03-02.
logger-dates-guessed =
    Nothing tells day from month in the dates; { $way ->
        [day-first] the day before the month
       *[month-first] the month before the day
    } is taken.
logger-dates-guessed-fix = Write dates such as 2026-03-02 if that is wrong.
logger-midnight = Midnight passes before { $rows }: the next day begins there.

## plain: what was read of a file of readings

logger-understood-file =
    { $file }: { $rows } rows of readings (rows { $first } to { $last } of the file), { $encoding }{ $between ->
        [tabs] , cells between tabs
        [semicolons] , cells between semicolons
        [commas] , cells between commas
        [strokes] , cells between upright strokes
       *[none] { "" }
    }, decimal { $decimal ->
        [comma] comma
       *[point] point
    }.
logger-understood-above =
    { $n ->
        [one] { $n } line
       *[other] { $n } lines
    } above the table: passed over.
logger-understood-no-time = Time: there is none; the rows are taken in the order of the file.
logger-understood-kind =
    { $kind ->
        [elapsed] time from the start
        [clock] times of day
        [moment] dates and times of day
       *[date] dates
    }
logger-understood-time = Time: { logger-understood-kind } in the column { $heading }, from { $start } to { $end }: { $lasts }.
logger-understood-time-every = Time: { logger-understood-kind } in the column { $heading }, from { $start } to { $end }: { $lasts }, a reading every { $every }.
logger-understood-rows = Each row is about one of these, in the column { $heading }: { $names }.
logger-understood-column =
    { $column }: { $n ->
        [one] { $n } reading
       *[other] { $n } readings
    }, { $least } to { $most }.
