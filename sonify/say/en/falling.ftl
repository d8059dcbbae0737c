# claims: figure, rises
falling-gaining = Gravity pulls, and at first the air hardly pushes back. In { $lasts } it falls { $fallen } and gets to a speed of { $speed }. By then the air carries { $share } of its weight.

# claims: figure, rises, less
falling-pushing = The faster it falls, the harder the air pushes back. In { $lasts } the speed goes from { $from } to { $to }, by less and less, until the air carries { $share } of its weight.

# claims: figure
falling-on = It falls on for { $lasts }, in the end at { $speed }: the air carries { $share } of its weight.

# claims: figure, steady
falling-steady = The air carries { $share } of its weight, and hardly any pull is left over to make it faster. It falls on for { $lasts } and { $fallen }, always at nearly the same speed, in the end { $speed }.

# claims: figure, less
falling-landing = It comes to the ground after { $lands } at { $speed }. With no air it would come down at { $bare }.

# claims: figure
falling-landing-plain = It comes to the ground after { $lands } at { $speed }. The air has hardly slowed it down.

# claims: figure, at most
falling-too-short = it comes to the ground, { $height } below, before the air carries more than { $share } of its weight

## plain: what the process is about, its stages and its conditions

falling-title = Falling through the air
falling-summary = Something is let go: it gains speed, the air pushes back harder and harder, and it falls on at one speed.

falling-stage-gaining-speed = Gaining speed
falling-stage-air-pushes-back = The air pushes back
falling-stage-steady-fall = Falling steadily

falling-seen-gaining = from letting go until it has { $share } of the speed that it would come to
falling-seen-pushing = from then until it has { $share } of that speed
falling-seen-steady-fall = from then until it comes to the ground

falling-condition-mass = mass of what falls
falling-condition-area = its area as seen from below
falling-condition-drag = its drag coefficient, how badly its shape slips through air: about 50 % a ball, 100 % a flat body, 130 % a parachute
falling-condition-air_density = density of the air: 1.21 kg/m³ near the ground
falling-condition-gravity = pull of gravity: 9.81 m/s² on the Earth
falling-condition-height = how far it falls

falling-quantity-speed = how fast it falls
falling-quantity-gain-of-speed = how much faster it gets each second
falling-quantity-share-of-the-air = how much of its weight the push of the air carries
falling-quantity-distance-fallen = how far it has fallen
falling-quantity-height-left = how far it still has to fall
falling-quantity-push-of-the-air = push of the air against the fall, its air resistance
falling-quantity-speed-with-no-air = how fast it would be at the same height if there were no air

## no claim: what the model is and leaves out

falling-honesty-1 = The push of the air goes with the square of the speed, which is right for things larger than a raindrop and much slower than sound. A shape's drag is put in as one number; real ones change a little with speed.
falling-honesty-2 = It falls straight down in still air of one density. Leaves and paper flutter, and from great heights the air is thin at first.
falling-honesty-3 = The speed comes ever nearer to its last value and never quite gets there: where the steady stage begins is our own choice, at 95 % of it.
falling-honesty-4 = A fall is short. The piece takes far longer than the fall of a small thing from a stair, or less than one from an aeroplane: the times on the sheets are those of the fall.
falling-honesty-5 = The lift of the air that makes balloons float is left out: it matters only for things as light as a balloon.
