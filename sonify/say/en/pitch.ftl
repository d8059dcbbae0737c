# claims: figure
pitch-whole =
    The whole { $kind ->
        [string] string
        [tube] tube
       *[bar] bar
    }, { $length } long, vibrates { $frequency } times a second.

# claims: figure, more, same
pitch-softly =
    Only the strength is changed: it is set going more { $way ->
        [softer] softly
       *[louder] strongly
    }, { $now } and not { $before }. It still vibrates { $frequency } times a second: the note is as high as before.

# claims: figure, more
pitch-shorter =
    Only the length is changed: { $now } and not { $before }. The shorter { $kind ->
        [string] string
        [tube] tube
       *[bar] bar
    } vibrates { $frequency } times a second and not { $was }: { $times } times as often.

# claims: figure, more
pitch-string =
    Only the pull is changed: { $now } and not { $before }. The { $way ->
        [more] tighter
       *[less] slacker
    } string vibrates { $frequency } times a second and not { $was }: { $times } times as often.

# claims: figure, more
pitch-tube =
    Only the air is changed, to { $way ->
        [more] warmer
       *[less] cooler
    } air, in which sound goes at { $now } and not at { $before }. It vibrates { $frequency } times a second and not { $was }: { $times } times as often.

# claims: figure, more
pitch-bar =
    Only the thickness is changed: { $now } and not { $before }. The { $way ->
        [more] thicker
       *[less] thinner
    } bar vibrates { $frequency } times a second and not { $was }: { $times } times as often.

# no claim: why a trial is not there; that it is not there is checked where stages are found
pitch-unchanged = { $changed } is as at first, or so close to it that nobody could tell them apart

## plain: what is changed in a trial, inside a sentence

pitch-changed-softly = the strength
pitch-changed-shorter = the length
pitch-changed-shortest = the length
pitch-changed-otherwise = what else can be changed

## plain: what the process is about, its stages and its conditions

pitch-title = High and low, loud and soft
pitch-summary = A string, a tube or a bar is made to sound, with one thing changed each time: strength, length, and what it is like.

pitch-stage-whole = The whole length
pitch-stage-softly = The same, more softly
pitch-stage-shorter = A shorter one
pitch-stage-shortest = The shortest
pitch-stage-otherwise = Changed in another way

pitch-seen-whole = as the conditions set it up
pitch-seen-softly = the same at another loudness, where it differs by a decibel or more
pitch-seen-shorter = the same with a shorter length, where it differs by more than a hundredth
pitch-seen-shortest = the same with the shortest length, where it differs by more than a hundredth
pitch-seen-otherwise = the same with another tension (string), other air (tube) or another thickness (bar)

pitch-condition-thing = what sounds: a string held at both ends, a tube open at both ends, or a bar that lies free
pitch-condition-length = its whole length
pitch-condition-shorter = how much of the length is left when it is made shorter
pitch-condition-shortest = how much of the length is left when it is shortest
pitch-condition-loudness = how loud it is, a metre away
pitch-condition-soft_loudness = how loud it is when it is set going more softly
pitch-condition-tension = how hard the string is pulled
pitch-condition-other_tension = how hard it is pulled when only that is changed
pitch-condition-line_mass = mass of a metre of the string
pitch-condition-air_speed = speed of sound in the air of the tube: 343 m/s at 20 °C
pitch-condition-other_air_speed = speed of sound when only the air is changed: 360 m/s at about 50 °C
pitch-condition-thickness = thickness of the bar
pitch-condition-other_thickness = thickness of the bar when only that is changed
pitch-condition-bar_speed = speed of sound along the bar: about 5000 m/s in steel or hard wood
pitch-condition-listen = how long each trial is listened to

pitch-quantity-frequency = how often a second it vibrates
pitch-quantity-loudness = how loud it is, a metre away
pitch-quantity-length = the length that vibrates
pitch-quantity-time-of-a-vibration = time of one vibration to and fro

## no claim: what the model is and leaves out

pitch-honesty-1 = The rules are those of ideal things: a string that bends easily, a tube much longer than wide, a bar of one thickness. Half of a string or a tube is an octave higher, half of a bar two octaves. Real strings are a little sharp, and a real tube sounds as if it were longer by about 0.6 of its width.
pitch-honesty-2 = A semitone takes a string or a tube that is 5.6 % shorter, and a bar that is only 2.8 % shorter. That is why bars of a xylophone differ so little.
pitch-honesty-3 = Only the lowest vibration is told. Higher ones sound along with it and make the colour of the sound.
pitch-honesty-4 = Strength and pitch have nothing to do with each other in the model. A real string that is plucked very hard is a little sharp at first.
