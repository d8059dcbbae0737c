## no claim: the reason it holds carries its own

science-never-comes = { $title } never comes: { $reason }.

## no claim: advice; the process has tried it before it is told

science-set = Set { $condition } = { $value }.
science-no-single-change = No single change brings it; go back towards the usual values of { $conditions }.
