## plain: what is wrong, said to the person who can mend it
error_processes-number-unit = "{ $text }" is not a number with a unit; { $allowed }
error_processes-whole-number = "{ $text }" is not a whole number; { $allowed }
error_processes-out-range = "{ $text }" is out of range; { $allowed }
error_processes-set-twice-leave = set twice; leave one of them out
error_processes-none-words = "{ $text }" is none of its words{ $near } { $allowed }
error_processes-too-near-room = { $value } °C is too near the room's { $value_2 } °C for a race; allowed: at least { $least_k } °C above or below it
error_processes-sunrise-sunset-every = at { $place } there is no sunrise and sunset on every day: on { $told }; { $allowed }
error_processes-near-equator-days = so near to the equator all days are alike within a quarter of an hour; { $allowed }
error_processes-air-humidity-take = in air of { $value } % humidity { $what } in { $watched }; take drier or warmer air, more wind or more sunlight
error_processes-air-dry-little = in air of { $value } °C, so dry or in so little sun, the puddle freezes, and there is no ice in this model; take warmer or damper air, or more sunlight
error_processes-under-puddle-grows = under { $sunlight } W/m² the puddle grows hotter than { $value } °C, which the formulae do not cover; take less sunlight, more wind, or cooler or drier air
error_processes-warms-nothing-here = { $power } W warms nothing here: the room takes { $taken } W from water of { $start_c } °C; allowed with this start and loss: more than { $taken_2 } W
error_processes-computed-below-where = { $name } is not computed below { $lowest_c } °C, where the water in it freezes
error_processes-water-warms-nothing = water of { $value } °C warms nothing that is at { $start_c } °C; allowed with this start: { $value_2 } °C and more
error_processes-melted-already-nothing = at { $start_c } °C { $name } has melted already, and nothing is left to watch; start colder
error_processes-exercise-hardly-raises = exercise that hardly raises the pulse changes nothing; allowed: { $least } a minute to 220 a minute with this resting pulse
error_processes-readings-different-times = readings at { $size } different times; a piece needs three at least
error_processes-snow-melt-allowed = there is no snow to melt; allowed: { $bare_mm } mm or more, low or high
error_processes-more-snow-valley = more snow on the valley's floor than on the ridge; allowed with this ridge: { $most } mm or less
error_processes-colder-night-allowed = colder than the night; allowed with this night: { $night } or more
error_processes-water-wets-none = water wets none of the three cloths, so none drinks; allowed for one at least: 0° to 89°
error_processes-cm-salt-water = { $depth } cm of salt water would boil in this sun with so little wind; allowed: 1 cm to 20 cm, as far as it does not boil
error_processes-colder-night-allowed-2 = colder than the night; allowed: { $coolest } °C (air_by_night) to 42 °C
error_processes-under-sky-freezes = { $night } °C under this sky freezes the drops on the cover; allowed: 8 °C to 32 °C, as far as the drops on the cover stay liquid
error_processes-nm-width-particles = { $value } nm is no width for { $particles } particles; allowed for so many: { $value_2 } nm to { $min } nm
error_processes-nothing-water-cycle = nothing of the water cycle comes: no warmth, no vapour and no cloud to speak of. { $advice }
error_processes-plays-readings-file = { $name } plays readings of your own, and no file of them is named; write data = "FILE.csv"
error_processes-computes-quantities-reads = { $name } computes its own quantities and reads no file; leave the line data out
error_processes-condition-allowed = { $name } has no such condition{ $near } Allowed: { $known }
error_processes-repeats-have-no-turns = only where each step of what was changed has bars of its own can its repeats be heard one by one: up to 12 steps that are no times, each with up to 6 tries, and something tried more than once. A table of results plays each of its readings in any case. Leave the line out; the mean is played. To hear how sure you are, wake the rule and the part "How sure?" in the scene file by taking away the # before their lines, or give the quantity of that name with "spread" at its end a rule and a part
error_processes-stages-stand-here = { $name } has the stages that stand here and reads no file; leave the line data out
error_processes-last-day-air = by the last day the air would be at { $warmest }; allowed with this afternoon and these days: { $most } K/day or less
error_processes-ridge-cold-formulae = on the ridge it would be as cold as { $coldest }; the formulae cover { $least } and above: a warmer night, a lower ridge or less cooling
error_processes-without-unit = "{ $text }" is without a unit; { $allowed }
error_processes-wrong-unit = "{ $text }" is in "{ $unit }"; { $allowed }
error_processes-no-unit-for = "{ $text }": "{ $unit }" is no unit for { $condition }; { $allowed }
error_processes-allowed-words = allowed: { $words }, such as { $example }
error_processes-allowed = allowed: { $low } to { $high }, such as { $example }
error_processes-finds-itself = { $name } finds this itself; only process = "drawn" or "in-order" lets you say it, so take it out
error_processes-nothing-drawn = { $name } plays what was measured, and nothing is drawn into that; write process = "drawn" instead
error_processes-latitudes = allowed: 3° to 65°, or -65° to -3° south of the equator
error_processes-north = { $degrees }° north
error_processes-south = { $degrees }° south
error_processes-sun-stays = { $dark } days a year the Sun does not rise there and on { $light } it does not set
error_processes-sun-only-just = the Sun only just rises or sets there at midwinter or midsummer
error_processes-only-evaporates = only { $share } % of the puddle evaporates
error_processes-dew = dew falls into the puddle
error_processes-go-back = Go back towards the usual values.
error_processes-set = Set { $line }.
error_processes-no-such-day = that month has { $last } days in that year; allowed: 1 to { $last }
error_processes-clock-elsewhere = by this clock the Sun would be highest at { $highest } there; with clock = "{ $fits } h" it comes nearest to twelve
error_processes-sun-too-low = on this day the Sun climbs to no more than { $climbs }° there, too low for a shadow on a playground; take a month nearer to summer, or a place nearer to the equator
error_processes-sun-climbs-little = on this day the Sun climbs to no more than { $climbs }° there; allowed: { $low }° to { $high }°
