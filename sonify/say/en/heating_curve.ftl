## no claim: what the process is, in a line

heating_curve-title = From ice to steam
heating_curve-summary = Ice heated at a steady power until it has melted, boiled and become hot steam.

## plain: whose temperature it is

heating_curve-whose-water = the ice, water or steam

## plain: what a scene may set

heating_curve-condition-mass = mass of the ice or water
heating_curve-condition-start_temperature = temperature at the start; at 0 °C or below it is ice
heating_curve-condition-power = heat that the heater gives to the vessel
heating_curve-condition-room_temperature = temperature of the room
heating_curve-condition-loss = heat lost to the room for each degree of difference
heating_curve-condition-vessel = heat that the vessel takes for each degree
heating_curve-condition-boil_away = share of the water that boils away before the heater is switched off
heating_curve-condition-steam_temperature = how hot the steam is made once all the water has boiled away, closed in under a loose piston

## plain: what is computed

heating_curve-quantity-temperature = how warm it is
heating_curve-quantity-mean-molecule-speed = mean speed of its molecules at that temperature, by kinetic theory
heating_curve-quantity-share-melted = how much of it has melted, or was liquid from the start
heating_curve-quantity-share-boiled = how much of it has become steam
heating_curve-quantity-melting-rate = ice that melts in a second
heating_curve-quantity-boiling-rate = water that boils away in a second
heating_curve-quantity-power-changing-the-state = heat a second that melts or boils, and warms nothing
heating_curve-quantity-power-lost = heat a second that the room takes; negative while the room is warmer
heating_curve-quantity-heat-given = heat that the heater has given since the start
heating_curve-quantity-heat-in-the-water = heat that ice, water and steam have taken since the start
heating_curve-quantity-heat-in-the-vessel = heat that the vessel has taken since the start
heating_curve-quantity-heat-lost = heat that the room has taken since the start

## no claim: what a stage is called; where it comes it is so

heating_curve-stage-ice = The ice warms
heating_curve-stage-melting = The ice melts
heating_curve-stage-water = The water warms
heating_curve-stage-boiling = The water boils
heating_curve-stage-steam = The steam warms

## plain: how the stages are found

heating_curve-seen-ice = there is only ice, below 0 °C, and it grows warmer
heating_curve-seen-melting = the temperature stays at 0 °C while the share melted grows
heating_curve-seen-water = all is liquid, below 100 °C, and it grows warmer
heating_curve-seen-boiling = the temperature stays at 100 °C while the share boiled grows
heating_curve-seen-steam = all is steam, above 100 °C, and it grows warmer

## no claim: what the model leaves out, and general laws

heating_curve-honesty-1 = While ice melts or water boils the temperature stands still although the heater goes on: the energy changes the state, not the temperature. Boiling all of it takes 6.75 times as much energy as melting it.
heating_curve-honesty-2 = All of the water is taken to be equally warm and to melt at 0 °C sharp. In a real pan the water warms at the bottom while ice still floats on top, so a thermometer shows rounded corners and, unstirred, no level stretch.
heating_curve-honesty-3 = Water boils at 100 °C only at the pressure of sea level, and there by a schoolroom's rounding: at 99.97 °C. On a hill of 900 m it boils near 97 °C.
heating_curve-honesty-4 = The heats are rounded averages of one school table (ice 2090, water 4186, steam 2020 joules a kilogram and degree; melting 334, boiling 2256 kilojoules a kilogram). Steam's is the least certain: other books print from 1520 to 2080.
heating_curve-honesty-5 = What the room takes grows with the difference in temperature and with nothing else. A real pan without a lid also steams well below boiling, and loses much more heat by it.
heating_curve-honesty-6 = Steam is counted as if it stayed, closed in under a loose piston. From a pan it leaves at once; up to boiling dry that changes nothing in the times.
heating_curve-honesty-7 = What can be seen above a pan is not steam but tiny drops of water; steam is a gas and cannot be seen.
heating_curve-honesty-8 = Molecule speeds are those of kinetic theory for straight motion. At one temperature, ice, water and steam have the same: on the level stretches the molecules do not get faster, they get freer.
heating_curve-honesty-9 = The particle picture of melting is enrichment at this age in England, where it belongs to key stage 3.

# claims: figure, more
heating_curve-warms =
    In { $lasts } the { $what ->
        [ice] ice
        [steam] steam
       *[water] water
    } warms from { $from } to { $to } and takes { $heat }: { $each } for each degree.

# claims: figure
heating_curve-hardly-warms =
    For { $lasts } the { $what ->
        [ice] ice
        [steam] steam
       *[water] water
    } stays within a tenth of a degree of { $to }.

# claims: figure, at most
heating_curve-stuck = It hardly gets any warmer: at { $at } the room takes { $taken } of the { $given } that the heater gives.

# claims: figure
heating_curve-time-up = After { $after } the heater is switched off.

# claims: figure, steady
heating_curve-melts = For { $lasts } the temperature stays at { $at } while { $mass } of ice melt: { $heat } change the state and warm nothing.

# claims: figure, steady
heating_curve-boils = For { $lasts } the temperature stays at { $at } while { $mass } of water boil away: { $heat } change the state and warm nothing.

# claims: at least
heating_curve-first-melting = The first of the ice turns into water.

# claims: at least
heating_curve-ice-gone = The last of the ice is gone.

# claims: at least
heating_curve-boiling-begins = The water begins to boil.

# claims: figure
heating_curve-off-boiled = The heater is switched off; { $boiled } of the water has become steam.

# claims: at most
heating_curve-off = The heater is switched off.

# claims: figure, more
heating_curve-starts-as-water = it starts at { $at }, as water

# claims: figure, at least
heating_curve-starts-at = it starts at { $at }

# claims: figure, at most
heating_curve-room-takes = at { $at } it hardly gets any warmer: the room takes { $taken } of the { $given } that the heater gives

# claims: figure
heating_curve-too-little = time is up after { $after }, and so little heat has not done it by then
