# claims: figure, less
states_of_matter-solid = Each particle trembles about its own place. It is never at rest, { $speed } on average, yet while it travels { $path } times its own width to and fro it gets only { $got } of its width away from where it was.

# claims: figure
states_of_matter-solid-loose = Each particle trembles about its place. It is never at rest, { $speed } on average, and while it travels { $path } times its own width to and fro it gets { $got } of its widths away from where it was.

# claims: figure, rises
states_of_matter-warms = The box warms from { $from } to { $to }.

# claims: figure
states_of_matter-warmer = The box is at { $from } in the beginning and at { $to } in the end.

# claims: figure, falls
states_of_matter-melting = The rows give way: the order falls from { $from } to { $to }.

# claims: figure
states_of_matter-melting-from-to = The rows give way: the order is { $from } when they begin to and { $to } at the end.

# claims: figure
states_of_matter-melting-at = The rows give way: the order is at { $order }.

# claims: figure, less
states_of_matter-only = Only { $share } of the heat given here makes the particles faster; the rest pulls them apart against their hold on each other.

# claims: figure
states_of_matter-share = { $share } of the heat given here makes the particles faster; the rest pulls them apart against their hold on each other.

# claims: at most
states_of_matter-no-warmer = Hardly any of the heat given here makes the particles faster: it pulls them apart against their hold on each other.

# claims: figure, less
states_of_matter-liquid = The particles are still close, { $near } others near each, but in no order: they jostle and get nowhere. While each travels { $path } times its own width to and fro, it ends only { $got } of its widths from where it was.

# claims: figure
states_of_matter-liquid-free = The particles are in no order, { $near } others near each, and push past one another. While each travels { $path } times its own width to and fro, it ends { $got } of its widths from where it was.

# claims: figure, at most
states_of_matter-nearly-as-close = Away from the edge they are nearly as close as in the solid: their six nearest are only { $further } further away.

# claims: figure
states_of_matter-further = Away from the edge their six nearest are { $further } further away than in the solid.

# claims: figure, rises
states_of_matter-evaporating = Particles tear themselves from their neighbours: the share on their own grows from { $from } to { $to }.

# claims: figure
states_of_matter-evaporating-from-to = Particles tear themselves from their neighbours and some are caught again: the share on their own is { $from } at the beginning and { $to } at the end.

# claims: figure
states_of_matter-evaporating-at = Particles tear themselves from their neighbours and as many are caught again: the share on their own is { $alone }.

# claims: figure, more
states_of_matter-gas = Most particles fly on their own, { $spacing } of their widths from their six nearest, and fill the box.

# claims: figure
states_of_matter-gas-many = Many particles fly on their own, on average { $spacing } of their widths from their six nearest.

# claims: figure, more
states_of_matter-gas-faster = They are faster now, { $speed } on average, because they are warmer ({ $warmth } on average), not because they are a gas.

# claims: figure
states_of_matter-gas-speed = They move at { $speed } on average, as particles of this warmth do ({ $warmth } on average), gas or not.

# claims: figure, at most
states_of_matter-melting-begins = The first rows of the crystal give way, at { $warmth }.

# claims: figure, at most
states_of_matter-liquid-begins = Hardly anything of the crystal's order is left, at { $warmth }.

# claims: figure, at least
states_of_matter-evaporating-begins = One particle in four is on its own, at { $warmth }.

# claims: figure, at least
states_of_matter-gas-begins = Half of the particles are on their own, at { $warmth }.

## no claim: why a stage is not there; that it is not there is checked where stages are found

states_of_matter-so-few =
    so few particles have so many at the rim that { $later ->
        [melting] melting comes
        [liquid] the liquid comes
        [evaporating] evaporating comes
       *[gas] the gas comes
    } before it
states_of_matter-overtaken =
    the heat comes so fast that { $later ->
        [melting] melting overtakes
        [liquid] the liquid overtakes
        [evaporating] evaporating overtakes
       *[gas] the gas overtakes
    } it
states_of_matter-crowded = the box is so narrow that its particles always have others near

# claims: figure
states_of_matter-reached = the box only warms to { $warmth }

## plain: what the process is about, its stages and its conditions

states_of_matter-title = Solid, liquid, gas
states_of_matter-summary = Particles in a flat box, heated from a cold crystal until most of them fly on their own.

states_of_matter-stage-solid = Solid: every particle keeps its place
states_of_matter-stage-melting = Melting: the rows give way
states_of_matter-stage-liquid = Liquid: close together, but in no order
states_of_matter-stage-evaporating = Evaporating: particles break free
states_of_matter-stage-gas = Gas: each on its own

states_of_matter-seen-solid = the heating begins with one crystal, and its order stays above four fifths of what it was
states_of_matter-seen-melting = the order has fallen below four fifths of what it was at the start
states_of_matter-seen-liquid = the order has fallen below three tenths of what it was at the start
states_of_matter-seen-evaporating = a quarter of the particles have two neighbours or fewer
states_of_matter-seen-gas = half of the particles have two neighbours or fewer

states_of_matter-condition-particles = how many particles are in the box
states_of_matter-condition-box_width = how wide and how high the flat box is
states_of_matter-condition-start_temperature = how cold the solid is when the heating begins
states_of_matter-condition-heat = heat given to the particles over the whole run, for each mole of them
states_of_matter-condition-duration = how long the heating takes
states_of_matter-condition-shuffle = which of many starts that differ only by chance

states_of_matter-quantity-temperature = how warm the particles are: their mean energy of motion
states_of_matter-quantity-mean-speed = mean speed of the particles, as counted in the flat box
states_of_matter-quantity-real-speed = mean speed, by kinetic theory, of atoms as warm as the box and free to move in all directions
states_of_matter-quantity-knock-rate = how often a particle knocks against another, in a billionth of a second
states_of_matter-quantity-order = how much the particles stand in the rows of one crystal (100 %: all of them)
states_of_matter-quantity-isolated-share = particles that have at most two others near, as a share of all
states_of_matter-quantity-number-of-neighbours = others near a particle, on average: within one and a half diameters
states_of_matter-quantity-spacing = mean distance from a particle to its six nearest, those at the edge and those that got away counted as well
states_of_matter-quantity-spacing-inside = the same of the particles alone that have others on every side
states_of_matter-quantity-wandering = how far from where it was a particle gets in a short while, as long all through
states_of_matter-quantity-heat-given = heat given since the start, for each mole of particles
states_of_matter-quantity-energy-gained = energy of motion and of the pulls between particles, since the start
states_of_matter-whose = the particles in the box

states_of_matter-refused-width = { $width } nm is no width for { $particles } particles; allowed for so many: { $least } nm to { $most } nm

## no claim: what the model is and leaves out, from its sources

states_of_matter-honesty-temperature-alone = A gas is not faster because it is a gas. Speed follows temperature alone: solid, liquid and gas of one temperature have particles of one mean speed. What changes is spacing and freedom.
states_of_matter-honesty-liquid = Liquid particles are as fast as those of a gas of the same warmth. They jostle and get nowhere, because others are in the way.
states_of_matter-honesty-flat = The box is a model, not to scale: its particles are smooth discs in the flat that pull and push each other as two argon atoms do. Real matter has depth, twelve neighbours instead of six, and far more particles than anyone could follow.
states_of_matter-honesty-argon = Flat argon melts near −223 °C; real argon, held by twice as many neighbours, melts at −189 °C and boils at −186 °C. The speeds printed beside the box are those of real atoms as warm as the box, by kinetic theory, and 27 % more than in the flat.
states_of_matter-honesty-water = Water would need molecules that turn and cling in a pattern, and ice takes more room than water; this box shows neither. Water molecules in a cup at 20 °C have a mean speed of 587 m/s, at 100 °C of 662 m/s.
states_of_matter-honesty-brief = All of this lasts less than a billionth of a second, played slowly enough to follow. Heated so fast, the liquid grows hotter than it would on a stove before it is all gone, and takes more room than a liquid that is heated gently.
states_of_matter-honesty-weightless = The particles have no weight that matters at this size: the drop floats. It is the walls that keep the gas in.
states_of_matter-honesty-crowded = In a real gas, such as the air, particles are about ten of their own widths apart: this gas is crowded.
states_of_matter-honesty-averaged = Readings are averaged over a twenty-fifth of the run, because a few hundred particles fluctuate. A knock is counted when two particles come closer than the distance at which their push undoes all that their pull gave.
states_of_matter-honesty-drift = Particles are followed in small steps, so their energy drifts by a fraction of a per cent of the heat given; the figure is printed with the run.
states_of_matter-honesty-enrichment = In England the particle model belongs to key stage 3: for 7 to 11 year-olds this is enrichment.
