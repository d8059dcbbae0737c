## plain: what is wrong with a table of readings, said to the person who can mend it
error_readings-over = over { $most } MB; let the logger save fewer readings, or cut the file
error_readings-workbook = a spreadsheet workbook, not a CSV; in the spreadsheet choose "Save as" and the kind CSV
error_readings-empty-file = the file is empty; save the readings again
error_readings-no-text = not a text file in UTF-8, UTF-16 or Windows-1252; save the readings as CSV, encoding UTF-8
error_readings-open-quote = a quotation mark that opens here is never closed
error_readings-endless-cell = a cell has no end; is a quotation mark never closed?
error_readings-older-workbook = a spreadsheet of the older kind (.xls), or one locked with a password; save it as .xlsx, .ods or CSV, without a password
error_readings-broken-workbook = the spreadsheet cannot be opened: the file is cut off or damaged. Save it again, or save it as CSV
error_readings-empty-workbook = the spreadsheet is empty: no cell of it holds anything; save the readings again
error_readings-over-workbook = the spreadsheet is over { $most } MB; keep the sheet with the readings
error_readings-locked-workbook = the spreadsheet is locked with a password; save it without one
error_readings-macros = the spreadsheet holds macros (small programs), which are not opened here; save it without macros, as .xlsx, .ods or CSV
error_readings-no-workbook = not a spreadsheet that can be read here; save it as .xlsx, .ods or CSV
error_readings-unpacks = the spreadsheet unpacks to more than a class can have written; copy the table of readings into a new spreadsheet
error_readings-far-cell = something stands in row { $row }, column { $column } of a sheet, far beyond any table of a class; empty that cell, or copy the table into a new spreadsheet
error_readings-large-sheet = the sheet { $sheet } has { $rows } rows and { $columns } columns; up to { $most_rows } and { $most_columns } are read. Save a logger's readings as CSV
error_readings-wide-sheet = { $columns } columns; up to { $most } are read. Keep those that you want to hear
error_readings-wide-table = the table has { $columns } columns; up to { $most } are read. Keep the time and those you want to hear
error_readings-mixed-units = mixed units: the column { $column } is in { $known } and here in { $other }; one column has one unit. Turn all into one and write it in the heading, { $name } ({ $known })
error_readings-nothing-measured = nothing was measured in this table: beside what was changed it holds no column of numbers, tallies or answers; wanted: a row of headings, then rows such as Day 1,4
error_readings-nothing-under = every reading is missing: there are headings for readings, and nothing stands under them
error_readings-one-row = one row of readings; an experiment has at least two steps
error_readings-none-of-a-step = every reading is missing in the rows that say which step they belong to
error_readings-one-step = readings of one step alone ({ $step }); an experiment has at least two
error_readings-many-rows = more rows than a class writes by hand, and no column of times; cut the file down to the rows that you want to hear
error_readings-few-rows =
    { $rows ->
        [none] no row
       *[one] one row
    } of readings{ $timed ->
        [yes] { " " }with a time
       *[no] { "" }
    }; a table has at least { $least }
error_readings-no-numbers = the file holds no numbers; wanted: a row of headings, then rows of readings, such as Time (s),Temp (°C)
error_readings-no-numbers-beside = the file holds no column of numbers besides the time; wanted: Time (s),Temp (°C) and rows of readings
error_readings-only-gaps = every reading is missing: there are columns for numbers, and only gaps or words in them
error_readings-none-timed = every reading is missing in the rows that have a time; look at the times
error_readings-no-time = what was changed, { $changed }, is no time; write process = "{ $process }" in the scene
error_readings-few-times = readings at { $times } different times; a piece needs three at least
error_readings-follow = { $given } is out of range; the file has { $count }, so allowed: 1 to { $count }
error_readings-changed-no-number = what was changed, { $changed }, is not a number; write process = "{ $process }" in the scene
error_readings-changed-no-words =
    what was changed, { $changed }, { $groups ->
        [yes] has groups beside it
       *[no] is more than words
    }; write process = "{ $process }" in the scene
error_readings-one-value = readings at one value of { $changed }; two at least can be heard
error_readings-say-what-changed = this process walks along what you changed; say which column that is, in a section [table] of the scene, such as changed = "layers of paper"
error_readings-no-labels = a table of results needs a column of words that says what each row is about, such as Material, and no column of times
error_readings-named-in-order = "{ $name }" is the name of the last stage; give that material another
error_readings-how-many = the column { $column } names { $count } with complete readings; { $fewest } to { $most } can be played, one stage each
error_readings-many-kinds = { $count } kinds of { $changed } are too many for a class: { $most } at most; join those that are alike, or keep those that you want to compare
error_readings-name-the-file = this process plays readings of your own; name their file in the scene with data = "FILE.csv"
error_readings-model-groups = the table compares groups already; a model can stand beside one row of readings only. Name one column with --measured
error_readings-model-needs = to lay the model { $model } beside it, the table has to hold { $needs }
error_readings-model-needs-pendulum = a length, such as "Length (cm)", and the time of a swing, such as "Time of ten swings (s)"
error_readings-model-needs-fall = a height, such as "Height (cm)", and the time of the fall, such as "Time (s)"
error_readings-model-needs-sound-level = a distance, such as "Distance (m)", and a loudness, such as "Loudness (dB)"
error_readings-model-needs-plant-growth = days or dates and a height, such as "Height (cm)", four at least, the last taller than the first
error_readings-model-needs-shadow = times of day and the length of a shadow of a metre stick, such as "Shadow (cm)", four at least
