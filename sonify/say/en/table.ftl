## plain: what was understood of a class's table, told before any sound is made

table-some =
    { $more ->
        [0] { $names }
       *[other] { $names } and { $more } more
    }
table-places =
    { $way ->
        [row] { $n ->
            [one] row { $only }
           *[other] rows { $which }
        }
       *[column] { $n ->
            [one] column { $only }
           *[other] columns { $which }
        }
    }
table-understood-file =
    { $file }, { $rows } { $rows ->
        [one] row
       *[other] rows
    } of readings { $shape ->
        [time] over time
        [number] of one number against another
        [categories] of things that are compared
       *[before-after] before and after
    }.
table-understood-changed =
    We changed: { $shape ->
        [categories] { $changed }. { $n } of them: { $all }
        [time] { $changed }. { $n } steps, from { $first } to { $last }: { $lasts }
        [before-after] something between { $first } and { $last }
       *[other] { $changed }. { $n } steps, from { $first } to { $last }
    }.
table-understood-measured = We measured: { $quantity }, from { $least } to { $most }.
table-understood-groups = We compared { $n } groups: { $groups }. One rule holds for all of them.
table-understood-repeats = We repeated it: { $repeats }. Their mean is played.
table-understood-again = We repeated it: the same step comes in several rows. Their mean is played.
table-understood-kept = We kept the same: { $kept }.
table-understood-unused = Not played: { $unused }.
table-settled = If that is wrong: { $flag }
table-settled-on-page = If that is wrong: choose what each column is, in “What your table is”.

## plain: what was guessed of a class's table

table-doubt-changed = The { $name } was taken for what was changed.
table-doubt-rows = No column says what was changed, so the rows are counted: 1, 2, 3.
table-doubt-measured-name = No heading says what was measured, so it is called { $name }.
table-doubt-groups = { $names }: taken for groups that are compared, not for different things that were measured.
table-doubt-kept = { $name } never varies, so it was taken for what was kept the same.
table-doubt-sheet = The file holds { $n } tables ({ $all }), and only { $name } is read.
table-doubt-averaged = { $name } has { $n } names, too many to be told apart by ear, so they count as repeats and their mean is played.
table-doubt-yes-no = { $name } holds yes and no: yes is played as more and no as less.
table-doubt-time-unit = The heading { $name } names no unit of time, so seconds are taken.
table-doubt-time-stopwatch = In { $name }, 0:30 was taken for half an hour.
table-doubt-time-pointed = In { $name }, 9.30 was taken for half past nine. Write 9:30 to be sure.
table-doubt-time-serial = The numbers in { $name } were taken for dates, as a spreadsheet counts them. Give the column the format of a date to be sure.
table-doubt-time-afternoon = The times in { $name } fall back, so noon was taken to have passed. Write 13:00 to be sure.
table-doubt-time-midnight = The times in { $name } fall back, so midnight was taken to have passed. Write the dates as well to be sure.
table-doubt-time-day-month = Nothing tells day from month in { $name }. Write dates such as 2 March 2026 to be sure.

## plain: what was noticed in a class's table

table-noticed-sums = Left out, because it sums up the others: { $where_rows }.
table-noticed-astray = Left out, because it does not say which step it belongs to: { $where_rows }.
table-noticed-lost = Nothing can be read of { $steps }, so it is left out.
table-noticed-about = Read as plain numbers: { $cells }, in { $where_rows }.
table-noticed-about-fix = Write the number alone if you want it otherwise.
table-noticed-bound = No readings but limits, so they count as missing: { $cells }, in { $where_rows }.
table-noticed-bound-fix = Write a number there if you have one.
table-noticed-odd = No numbers, so they count as missing: { $cells }, in { $where_rows }.
table-noticed-odd-fix = Write a number there, or leave the cell empty.
table-noticed-empty =
    { $n ->
        [one] One cell is empty, in { $where_rows }. It costs nothing but that reading.
       *[other] { $n } cells are empty, in { $where_rows }. They cost nothing but those readings.
    }
table-noticed-mean = The mean in the file is not the mean of the tries, in { $where_rows }. The mean of the tries is played.
table-noticed-mean-fix = Look at those rows again.

## plain: what a column of a table can be, on the page

table-role =
    { $role ->
        [changed] we changed
        [measured] we measured
        [repeats] a repeat
        [groups] a group
        [kept] kept the same
       *[unused] left out
    }
