## claims: figure, rises, falls

food_chain-hunted-recover = For { $lasts } there are few hunters, so the hunted grow from { $hunted_from } to { $hunted_to }. The hunters still find too little and shrink from { $hunters_from } to { $hunters_to }.
food_chain-hunters-too-many = For { $lasts } the hunters eat more than grows again: the hunted shrink from { $hunted_from } to { $hunted_to }. There is still enough to eat, so the hunters grow from { $hunters_from } to { $hunters_to }.
food_chain-hunted-recover-again = Now it begins again: for { $lasts } the hunted grow from { $hunted_from } to { $hunted_to }, and the hunters still shrink, from { $hunters_from } to { $hunters_to }.

# claims: figure, rises
food_chain-both-grow = For { $lasts } both grow: the hunted from { $hunted_from } to { $hunted_to }, and the hunters, who find enough to eat, from { $hunters_from } to { $hunters_to }.

# claims: figure, falls
food_chain-both-shrink = For { $lasts } both shrink: the hunted from { $hunted_from } to { $hunted_to }, and the hunters, who go hungry, from { $hunters_from } to { $hunters_to }.

# claims: figure
food_chain-from-to = In { $lasts } the hunted go from { $hunted_from } to { $hunted_to } and the hunters from { $hunters_from } to { $hunters_to }.

# claims: figure
food_chain-most-hunted = There are most of the hunted now, { $most }.

# claims: figure, more
food_chain-most-hunters = Only now, after the hunted, there are most hunters, { $most }.

## plain: what the process is about, its stages and its conditions

food_chain-title = A food chain: hunters and hunted
food_chain-summary = Animals that eat plants and animals that hunt them: how many there are of each, through one round of rise and fall.

food_chain-stage-hunted-recover = Few hunters, the hunted grow
food_chain-stage-both-grow = Both grow
food_chain-stage-hunters-too-many = Too many hunters
food_chain-stage-both-shrink = Both shrink
food_chain-stage-hunted-recover-again = Few hunters again

food_chain-seen-hunted-recover = from the start until the hunters stop shrinking
food_chain-seen-both-grow = from then until the hunted stop growing
food_chain-seen-hunters-too-many = from then until the hunters stop growing
food_chain-seen-both-shrink = from then until the hunted stop shrinking
food_chain-seen-hunted-recover-again = from then until there are as many hunted as at the start, or the hunters stop shrinking

food_chain-condition-balance_hunted = how many hunted animals just feed the hunters, so that these neither grow nor shrink
food_chain-condition-balance_hunters = how many hunters eat just what grows again of the hunted
food_chain-condition-start_hunted = how many hunted there are at the start, as a share of their balance
food_chain-condition-start_hunters = how many hunters there are at the start, as a share of their balance
food_chain-condition-growth = how quickly the hunted grow with no hunters about: at 1 a year there are 2.7 times as many after a year
food_chain-condition-dying = how quickly the hunters die away with nothing to hunt: at 1 a year 37 of 100 are left after a year
food_chain-condition-limit = none where there is always enough for the hunted to eat; food where the land feeds only so many
food_chain-condition-room = how many times the balance of the hunted the land could feed, where there is a limit

food_chain-quantity-number-of-the-hunted = how many animals there are that are hunted
food_chain-quantity-number-of-hunters = how many animals there are that hunt them
food_chain-quantity-growth-of-the-hunted = how quickly the hunted grow just now, for each one that is there; shrinking is negative
food_chain-quantity-growth-of-the-hunters = how quickly the hunters grow just now, for each one that is there; shrinking is negative

## no claim: what the model is and leaves out

food_chain-honesty-1 = The model has one kind of hunter and one kind of hunted, always mixed, never full, never hiding. Real chains are webs: hunters eat several things, and several hunt them.
food_chain-honesty-2 = Over a whole round, without a limit, the averages are just the balance, however wide the swings are.
food_chain-honesty-3 = Without a limit the swings go on for ever, as wide as they began. Where the land feeds only so many, they die down to a balance. Real numbers swing from many causes: weather, disease, and people.
food_chain-honesty-4 = Numbers are averages and need not be whole. A real handful of animals can die out, and then nothing comes back; the model's numbers never reach nought.
food_chain-honesty-5 = The figures that the model begins with are chosen so that they are easy to hear. They are not those of any real animals.
