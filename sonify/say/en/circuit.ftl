# claims: figure
circuit-whole =
    { $one_cells ->
        [one] One cell and one { $what }
       *[more] { $cells } cells and one { $what }
    } in a ring with no gap: a current of { $current } flows all round it. The { $what } gets { $voltage } and { $power }.

# claims: figure, same
circuit-break = The switch is open, and the ring has a gap. No current flows anywhere in it, and the { $what } gets no power. The cells are still there, with { $voltage } across the ends.

# claims: figure, more
circuit-cells =
    Only the cells are changed: { $one_cells ->
        [one] one
       *[more] { $cells }
    } and not { $before }. The { $what } gets { $power }, where it got { $was }: { $times } times the power. It is { $way ->
        [more] { $what ->
            [bulb] brighter
            [buzzer] louder
           *[motor] quicker
        }
       *[fewer] { $what ->
            [bulb] dimmer
            [buzzer] softer
           *[motor] slower
        }
    }.

# claims: figure, more
circuit-row =
    { $components } { $what }s in a row, in one ring: the same current flows through each, { $current } where it was { $flowed }. Each gets { $power } and not { $was }. They are { $what ->
        [bulb] dimmer
        [buzzer] softer
       *[motor] slower
    } than one alone.

## phrase: how the components side by side compare with those in a row, inside a sentence

circuit-beside =
    { $what ->
        [bulb] brighter
        [buzzer] louder
       *[motor] quicker
    } than in a row

# claims: figure, more, at least
circuit-side = { $components } { $what }s side by side, each in a ring of its own with the cells: each gets { $power }, nearly what one alone got, { $was }. They are { $beside }. The cells have to send more current, { $current } where it was { $flowed }.

# claims: figure, more
circuit-side-alike = { $components } { $what }s side by side, each in a ring of its own with the cells: each gets what one alone got, as near as can be told, { $power }. They are { $beside }. The cells have to send more current, { $current } where it was { $flowed }.

# claims: figure, more, less
circuit-side-dimmer = { $components } { $what }s side by side, each in a ring of its own with the cells: each gets { $power }, less than one alone got, { $was }, for the cells hold back some of what they send. They are { $beside }. The cells have to send more current, { $current } where it was { $flowed }.

# no claim: why a trial is not there; that it is not there is checked where stages are found
circuit-unchanged = there are as many cells as in the first circuit

## plain: what the process is about, its stages and its conditions

circuit-title = A simple circuit
circuit-summary = Cells and bulbs, buzzers or motors in a ring: whole, with other cells, with a break, in a row and side by side.

circuit-stage-whole-circuit = A whole circuit
circuit-stage-break = The switch is open
circuit-stage-other-cells = Another number of cells
circuit-stage-in-a-row = More of them in a row
circuit-stage-side-by-side = More of them side by side

circuit-seen-whole-circuit = as the conditions set it up, with one component
circuit-seen-break = the first circuit with a gap in the ring, so that no current flows
circuit-seen-other-cells = the first circuit with another number of cells
circuit-seen-in-a-row = the first circuit with more components, one after the other in one ring
circuit-seen-side-by-side = the first circuit with more components, each in a ring of its own with the cells

circuit-condition-component = what the cells are joined to: bulb, buzzer or motor
circuit-condition-cells = how many cells there are at first, end to end
circuit-condition-other_cells = how many cells there are when only that is changed
circuit-condition-components = how many components there are in a row, and then side by side
circuit-condition-cell_voltage = voltage of one cell with nothing joined to it
circuit-condition-cell_resistance = resistance of one cell itself: more in an old cell
circuit-condition-resistance = resistance of each component
circuit-condition-watch = how long each circuit is watched

circuit-quantity-power-of-each-component = how much energy each component gets every second
circuit-quantity-current-from-the-cells = how much current the cells send round
circuit-quantity-current-through-each-component = how much of it flows through each component
circuit-quantity-voltage-of-the-cells = voltage across the two ends of all the cells together
circuit-quantity-voltage-across-each-component = voltage across the two ends of each component
circuit-quantity-heat-in-the-cells = how much energy turns to heat in the cells themselves every second
circuit-quantity-cells = how many cells there are, end to end
circuit-quantity-components = how many components there are

## no claim: what the model is and leaves out

circuit-honesty-1 = Each component counts as one resistance that stays as it is. A bulb's thread holds back more current when it is hot, so in a real circuit two cells give a bulb less than four times the power, and two bulbs in a row get a little more than a quarter each.
circuit-honesty-2 = How bright a bulb looks, how loud a buzzer sounds and how quickly a motor turns goes up with its power, but not in step: at half its power the thread of a bulb gives far less than half its light.
circuit-honesty-3 = Buzzers and motors are no mere resistances, and many begin only above some voltage. The order of the circuits holds for them, the figures only roughly.
circuit-honesty-4 = The cells push from end to end with a voltage of their own, and hold back a little of the current themselves. Old cells hold back more. Wires and switch hold back nothing here.
circuit-honesty-5 = Each circuit is watched equally long; in the piece each is as long as its stage. A real current is everywhere in the ring at once, as soon as the ring is closed.
