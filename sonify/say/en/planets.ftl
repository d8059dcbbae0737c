# claims: figure, more
planets-first-oval = In { $time } { $planet } goes once round the Sun, with a speed of { $speed }. That is { $pace } on average. Its way is an oval: it moves on by { $most } where it is nearest to the Sun, and by { $least } where it is furthest.

# claims: figure
planets-first = In { $time } { $planet } goes once round the Sun, with a speed of { $speed }. That is { $pace } on average.

# claims: figure, less, more
planets-later = In { $time } { $planet } goes once round the Sun. It is { $further } times as far away as { $inner } and has a longer way, and it is slower, too: { $speed }, where { $inner } has { $was }. That is { $pace } on average.

## plain: what the process is about, its stages and its conditions

planets-title = Planets round the Sun
planets-summary = Four planets go once round the Sun, one after the other: how far away each is, how fast it goes and how long it takes.

planets-goes-round = Once round with { $planet }
planets-stage-first-planet = Once round with the nearest of the four
planets-stage-second-planet = Once round with the second
planets-stage-third-planet = Once round with the third
planets-stage-fourth-planet = Once round with the furthest of the four

planets-seen-first-planet = one turn of the nearest of the four, from where it is nearest to the Sun
planets-seen-second-planet = one turn of the second, likewise
planets-seen-third-planet = one turn of the third, likewise
planets-seen-fourth-planet = one turn of the furthest, likewise

planets-condition-planets = which four: inner for Mercury, Venus, the Earth and Mars; outer for the Earth, Mars, Jupiter and Saturn

planets-quantity-pace = by what angle the planet moves on round the Sun in a day
planets-quantity-speed = how fast it moves along its way
planets-quantity-distance-from-the-Sun = how far it is from the Sun, 1 au being the Earth's mean distance
planets-quantity-pull-of-the-Sun = how strongly the Sun pulls at each kilogram of it
planets-quantity-time-of-a-turn = how long it takes to go round once
planets-quantity-way-round = how far round it has gone since it was nearest to the Sun
planets-quantity-pace-of-the-Earth = by what angle the Earth moves on in a day, on average, to compare with

## no claim: what the model is and leaves out

planets-honesty-1 = The planets go one after the other here so that they can be compared. In the sky they all go at once, each at its own place, and nobody starts or stops.
planets-honesty-2 = How long a turn takes follows from the distance alone: in years it is the distance, in the Earth's, times its own square root. Mars, 1.524 times as far, takes 1.881 years.
planets-honesty-3 = That law holds for a planet that weighs nothing beside the Sun and is pulled by nothing else. Jupiter has a thousandth of the Sun's mass and pulls it along, and Saturn is pulled to and fro by Jupiter: with the distances that tables print, the law is right within 0.1 % for Jupiter and within 1 % for Saturn.
planets-honesty-4 = The ways are ovals, but nearly circles: of these six only Mercury's and Mars's are so oval that a careful drawing shows it. That they are tilted a little is left out, and so are moons, dwarf planets and the turning of each planet about itself.
planets-honesty-5 = The ways are those of the beginning of the year 2000; they change so slowly that nobody would notice in a lifetime.
planets-honesty-6 = Each turn begins where the planet is nearest to the Sun. In the piece all turns are about equally long, though a turn of the furthest takes many times as long as one of the nearest: what is heard is how fast a planet moves on, not how long it takes.
