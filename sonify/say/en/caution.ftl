## plain: what a lesson has to say to be careful of

caution-allergies = Chocolate can hold milk, soya, nuts and gluten: ask about allergies beforehand, read the label, and let nobody eat what was handled in the lesson.
caution-button-cells = No button cells anywhere in the room: swallowed, they burn. Ordinary cells only, none that can be charged.
caution-boiling = Boiling water and steam: for the teacher to show, never for pupils to handle, with the class seated well back.
caution-chocolate = Melted chocolate sticks to skin and stays hot: keep the warm water below 50 °C, and let the teacher pour it.
caution-dropping = Only the teacher drops things from a height, and nobody stands below. Pupils let light things go from their own height, both feet on the floor.
caution-edges = Tins can have cut edges: use only tins with a rim that is whole or taped over, and look each one over beforehand.
caution-electricity = Cells only, never the mains: nothing from the lesson goes near a socket.
caution-exertion = Before anybody runs, look at the care plans of your class: heart conditions, asthma, epilepsy, injuries, heat. Whoever should not run counts or conducts.
caution-fat = Melted butter can be hot fat, which burns longer than hot water: keep the bath below 45 °C where pupils are near.
caution-fingers = Fingers away from teeth that turn: they can trap skin, hair and sleeves. Turn slowly, by the handle only.
caution-flame = Never melt wax over a naked flame or straight on a hob, and never put out burning wax with water.
caution-glass = Glass breaks: thick glass only, stood on a cloth in the middle of a table and tapped with a pencil, never carried about by pupils. The teacher alone picks up broken glass.
caution-hot-drinks = Hot drinks and hot water can scald for half an hour: poured, carried and read by the teacher only.
caution-ice = Ice straight from a freezer can stick to skin, and wet floors are slippery: mop up drips at once.
caution-loud = Nobody strikes a drum near an ear, and nobody stands nearer to it than a metre.
caution-milk = Butter is made of milk: ask about milk allergies beforehand, and let nobody eat what was handled in the lesson.
caution-mouthpieces = Nobody shares a mouthpiece: one instrument a pupil, cleaned before and after as your school does it.
caution-short-circuit = Never a short circuit: no wire goes straight from one end of a cell to the other. Wire and cell get hot within seconds.
caution-sun = Never look at the Sun, not through dark glass and not through a lens.
caution-swinging = Nobody stands in the way of a swinging bob: hang it where it cannot fall on feet, with a soft and light bob.
caution-taste = Nobody tastes or drinks anything in a science lesson.
caution-water = Keep water away from sockets, leads and laptops, and mop up spills at once: wet floors are slippery.
caution-wax = Hot wax sticks to skin and burns: melting it is for the teacher alone, in warm water and never near smoking; let it set before anybody touches it.

## plain: a caution that a scene lacks

caution-missing = The scene's cautions lack one that this science needs: { $caution }
caution-write = Write it, in your own words, into cautions = [...] of the scene file. The teacher's sheet prints it until then.
caution-write-on-page = The teacher's sheet prints it. To say it in your own words, save the scene, write them into cautions = [...] there, and open it again here.
