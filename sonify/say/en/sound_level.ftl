# claims: figure, falls
sound_level-falls = From { $start } to { $end } away the loudness falls from { $from } to { $to }. Each time the distance doubles, { $loss } are gone.

# claims: figure, falls, more
sound_level-falls-less = From { $start } to { $end } away the loudness falls from { $from } to { $to }. A doubling of the distance takes off { $loss } at first and { $least } in the end, for echoes and noise do not fall off with the drum.

# claims: figure, falls, at most
sound_level-levels = From { $start } to { $end } away the loudness falls only from { $from } to { $to }. In the end a doubling of the distance takes off no more than { $loss }: just { $share } of the sound comes straight from the drum, the rest is echoes and noise.

# claims: figure
sound_level-stays = From { $start } to { $end } away the meter stands at { $loudness }: the drum cannot be told from echoes and noise.

# claims: figure
sound_level-at = { $distance } away: { $loudness }.

## plain: what the process is about, its stages and its conditions

sound_level-title = Loudness and distance
sound_level-summary = Somebody walks away from a drum that is always struck alike: how loud it is on the way.

sound_level-stage-near = Near the drum
sound_level-stage-further = Further away
sound_level-stage-far = Far away

sound_level-seen-near = from the start until { $share } of the whole fall of loudness are done
sound_level-seen-further = from then until { $share } of it are done
sound_level-seen-far = from then until the end of the walk

sound_level-condition-level = how loud the drum is where the walk begins
sound_level-condition-start = distance from the drum where the walk begins
sound_level-condition-doublings = how often the distance is doubled until the end of the walk
sound_level-condition-walk = how fast somebody walks away
sound_level-condition-room_distance = how far from the drum its echoes are as loud as itself: some metres in a room, 1000 m in the open
sound_level-condition-noise = how loud it is with no drum

sound_level-quantity-loudness = how loud it is where somebody listens
sound_level-quantity-distance = how far from the drum that is
sound_level-quantity-loss-a-doubling = how many decibels a doubling of the distance takes off there
sound_level-quantity-share-of-the-drum = how much of the sound's energy comes straight from the drum
sound_level-quantity-sound-pressure = how strongly the air shakes there

## no claim: what the model is and leaves out

sound_level-honesty-1 = In the open a doubling of the distance takes off 6 decibels, because the sound is spread over four times the area. That holds for a source small beside the distance, with nothing near that throws sound back.
sound_level-honesty-2 = Indoors walls send the sound back, and from some metres on it hardly gets softer. The model takes the echoes as equally loud everywhere, which is only nearly so in a bare hall and not so in a corridor.
sound_level-honesty-3 = Wind, grass, trees and the warmth of the air change loudness in the open, by some decibels over a hundred metres. They are left out.
sound_level-honesty-4 = Decibels are a way of counting in which 10 more are heard as about twice as loud, and in which the quietest sound that ears catch is about 0. They are not added up like metres.
