# claims: figure
gears-first = The wheel with the handle has { $driver } teeth, the other one { $teeth }. The handle turns { $handle }, the wheel { $wheel }, with a turning force of { $strength }.

# claims: figure, more
gears-other =
    Only the wheel is changed, to a { $way ->
        [larger] larger
       *[smaller] smaller
    } one: { $teeth } teeth and not { $before }. While the handle turns { $handle } as before, the wheel turns { $wheel }: { $slower } times as fast as the first wheel. It is { $way ->
        [larger] stronger
       *[smaller] weaker
    }: { $strength }, where it was { $was }.

# claims: figure, more, same
gears-friction = The first pair again, with more friction: { $share } of the work is lost, where it was { $before }. The wheel turns as fast as before, { $wheel }, for teeth cannot slip. But its turning force is now { $strength } and not { $was }.

# claims: figure, more, same
gears-balance = Of the { $work } that the hand puts in, { $out } come out and { $heat } turn to heat.

# claims: figure
gears-no-heat = The hand puts in { $work }, and { $out } come out.

## no claim: why a trial is not there; that it is not there is checked where stages are found

gears-no-larger-wheel = the wheel that should be larger has no more teeth than the first
gears-no-smaller-wheel = the wheel that should be smaller has no fewer teeth than the first
gears-no-more-friction = the friction that should be more is not, or by so little that nobody could tell

## plain: what the process is about, its stages and its conditions

gears-title = Gears and friction
gears-summary = A handle turns a wheel whose teeth turn another: as large, larger, smaller, and with more friction.

gears-stage-first-pair = The first pair of wheels
gears-stage-larger-wheel = A larger wheel
gears-stage-smaller-wheel = A smaller wheel
gears-stage-more-friction = More friction

gears-seen-first-pair = as the conditions set it up
gears-seen-larger-wheel = the same handle with a wheel that has more teeth than the first
gears-seen-smaller-wheel = the same handle with a wheel that has fewer teeth than the first
gears-seen-more-friction = the first pair with more friction

gears-condition-driver = how many teeth the wheel with the handle has
gears-condition-driven = how many teeth the other wheel has at first
gears-condition-larger = how many teeth the larger wheel has
gears-condition-smaller = how many teeth the smaller wheel has
gears-condition-pace = how often a minute the handle is turned
gears-condition-strength = turning force at the handle: a push of 10 N at the end of 10 cm is 1 N m
gears-condition-lost = share of the work that friction turns to heat at first
gears-condition-more_lost = share of the work that friction turns to heat where there is more friction
gears-condition-watch = how long each pair is watched

gears-quantity-pace-of-the-wheel = how often a minute the wheel turns that is driven
gears-quantity-pace-of-the-handle = how often a minute the handle is turned
gears-quantity-speed-of-the-wheel = how often the driven wheel turns while the handle turns once
gears-quantity-strength-of-the-wheel = turning force of the wheel that is driven
gears-quantity-heat = how much work friction turns to heat every second
gears-quantity-work-in = how much work the hand does every second
gears-quantity-work-out = how much work the driven wheel does every second
gears-quantity-share-lost = share of the work that friction turns to heat
gears-quantity-teeth-of-the-wheel = how many teeth the driven wheel has
gears-quantity-teeth-of-the-handle = how many teeth the wheel with the handle has

## no claim: what the model is and leaves out

gears-honesty-1 = Paces are exact: as many teeth pass on one wheel as on the other, whatever the friction is. That is why gears keep time in clocks.
gears-honesty-2 = A machine gives no work for nothing: what is gained in force is lost in pace, and friction takes its share besides. Work in is work out and heat, to the last digit.
gears-honesty-3 = The share that friction takes is set by whoever writes the scene. In clean plastic gears it is some hundredths for each pair, in dry or dirty ones much more; it also grows with the load, which is left out.
gears-honesty-4 = Wheels that mesh turn opposite ways. The piece does not say so: a direction has no sound here.
