## claims: figure, steady

drawn-stays = The { $quantity } { STAYS($quantity) } at { $value }.
drawn-hardly = The { $quantity } hardly { CHANGES($quantity) }: it is about { $value }.

## claims: figure, rises

drawn-rises = The { $quantity } { RISES($quantity) } from { $from } to { $to }.

## claims: figure, falls

drawn-falls = The { $quantity } { FALLS($quantity) } from { $from } to { $to }.

## claims: figure, less

drawn-between = The { $quantity } { GOES($quantity) } up and down between { $least } and { $most }.

## claims: figure

drawn-about = The { $quantity } { IS($quantity) } about { $value }.

## plain: what the process is about, its stages, and what stands beside an axis

drawn-title = A process of our own
drawn-summary = Stages in order, with curves that were drawn or typed in by whoever wrote the scene.
drawn-seen = as its author set it
drawn-quantity = drawn, not computed
drawn-axis = drawn, not computed
drawn-these = Drawn, not computed: { $quantities }.
drawn-beside = { $quantity } (drawn, not computed)

## no claim: the sentences that it holds carry their own

drawn-told = (Drawn, not computed) { $told }

## no claim: what a drawing is, and what was not done

drawn-honesty-own = Drawn, not computed: the curves of this lesson were drawn or typed in by whoever wrote it. Nobody measured them, and no formula gave them. They show the order, and which way things go; do not read exact figures off them.
drawn-honesty-check = Whether it really goes like this can be looked up, or measured, and then the drawing can be mended.
drawn-honesty-no-time = Nobody said how long the stages take, so they are drawn equally long; in science.csv each is one minute, which stands for no time.
drawn-honesty-some = Drawn, not computed: { $quantities }. Nobody measured it, and no formula gave it; everything else in this lesson is computed.
