## plain: what stands in a scene file to start from; all of it is for its author to change

outline-about = What is computed: { $summary }
outline-condition = { $meaning }; { $allowed }
outline-quantity = { $low } to { $high }; { $meaning }
outline-stage-found = It is the stage in which { $seen }.
outline-meaning = You are the { $name }: { $meaning }.
outline-beat = The beat
outline-beat-meaning = You keep the beat for everybody.
outline-pitch = { GREATER($quantity) } { $quantity }, the higher our notes.
outline-density = { GREATER($quantity) } { $quantity }, the more often we tap.
outline-dynamics = { GREATER($quantity) } { $quantity }, the louder we are.
outline-brightness = { GREATER($quantity) } { $quantity }, the brighter we sound.
outline-tempo = { GREATER($quantity) } { $quantity }, the quicker the beat.
outline-sample-title = Invented readings, to be replaced by our own
