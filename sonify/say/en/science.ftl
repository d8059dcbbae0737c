## no claim: the reason it holds carries its own

science-never-comes = { $title } never comes: { $reason }.

## no claim: advice; the process has tried it before it is told

science-set = Set { $condition } = { $value }.
science-no-single-change = No single change brings it; go back towards the usual values of { $conditions }.

## plain: what a person set for one run

science-set-for-this-run =
    For this run { $condition } is { $after }, in place of { $known ->
        [yes] { $before }
       *[no] the usual value
    }. Story, captions and answers were written for the scene as its file has it.
