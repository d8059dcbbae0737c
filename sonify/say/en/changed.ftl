## phrase: which figure of a quantity

changed-total = in all
changed-mean = on average
changed-most = at most
changed-figure = { $quantity }, { $what }: { $after } in place of { $before }

## no claim: two runs compared, which no reading of one Timeline can take again

changed-condition = { $condition } is now { $after }; the file has { $before }.
changed-condition-on-page = { $condition } is now { $after }; the scene has { $before }.
changed-condition-new = { $condition } is now { $after }.
changed-figure-alone = { $figure }.
changed-figure-percent =
    { $figure } ({ $way ->
        [up] +
       *[down] −
    }{ $percent } %).
changed-nothing = No figure of the science moved by more than half a per cent.
changed-now-comes = { $stage } now comes.
changed-never-comes = { $stage } never comes now.
changed-begins-later = { $stage } begins { $shift } later.
changed-begins-earlier = { $stage } begins { $shift } earlier.
changed-rule =
    The { $control }{ $whom ->
        [part] { " " }of { $part }
       *[all] { "" }
    } now goes from { $to_low } to { $to_high } while the { $quantity } { GOES($quantity) } from { $low } to { $high }{ $curve ->
        [linear] , on a linear curve
        [logarithmic] , on a logarithmic curve
        [decibels] , in equal steps of decibels
       *[same] { "" }
    }.
