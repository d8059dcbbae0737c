# no claim: the readings it holds carry their own
results_table-material = { $material }: { $readings }.

# claims: figure
results_table-reading = { $quantity } { $reading }

# claims: figure
results_table-reading-answer = { $quantity }: { $reading }

# claims: figure
results_table-readings = { $quantity } { $readings } (mean { $mean })

# claims: figure
results_table-place = { $material } { $mean }

# claims: never falls
results_table-order = In order of the { $quantity }, from the least to the most: { $places }.

# claims: never falls
results_table-order-answer = From no to yes, the { $quantity }: { $places }.

# claims: figure
results_table-alike = The { $quantity } { IS($quantity) } { $mean } for every one of them, so there is no order.

# claims: figure, same
results_table-least = The least: { $materials }, { $mean }.

# claims: figure, same
results_table-least-answer = The answer for { $materials }: { $mean }.

# claims: figure, same
results_table-most-answer = The answer for { $materials }: { $mean }.

# claims: figure, same
results_table-most = The most: { $materials }, { $mean }.

## plain: what the process is about, its stages and its conditions

results_table-title = Our own results
results_table-summary = What was found out about each { $what }: one sound for each, the same rule for all.
results_table-stage-in-order = From least to most
results_table-seen-in-order = once all readings have had their turn
results_table-seen-material = while its readings have their turns
results_table-condition-turn = how long one reading's turn lasts in science.csv; the music does not change with it

results_table-refused-no-words = a table of results needs a column of words that says what each row is about, such as Material, and no column of times
results_table-refused-name = "{ $name }" is the name of the last stage; give that material another
results_table-refused-count = the column { $heading } names { $count } with complete readings; { $fewest } to { $most } can be played, one stage each

## no claim: what the readings are and what was done to them

results_table-honesty-no-time = A table of results has no time. Every reading has a turn of one length, in the order of the table; at the end all come once more, from the least to the most.
results_table-honesty-own = The results are those of the table, and no formula makes them. They tell of the samples that were tested, in the way they were tested: tested again, the same { $what } can give another reading. Repeated readings show how far to trust the mean.
results_table-honesty-fair = A test is fair where everything but the { $what } was the same; whether it was, only those who tested know. The music is fair in the same way where one rule and one beat serve all.
results_table-honesty-row-lost = No complete reading stands in row { $row } of the file, so it has no turn.
