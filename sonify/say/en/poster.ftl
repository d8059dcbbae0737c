## plain: labels of the poster

poster-round-again = and round again
poster-key = The key
# the ends of an axis whose unit pupils do not know
poster-less = less
poster-more = more
poster-times = × { $times }

## plain: how the line is drawn

poster-line = Line:
poster-bars-label = Bars:
poster-bars = One bar for each reading.
poster-points-label = Dots:
poster-points = One dot for each value. Each stage is drawn equally wide.
poster-equal = Each stage is drawn equally wide.
poster-equal-tenfold = Each stage is drawn equally wide, and each line up is { $step } times as much.

# claims: more or less
poster-rule = When the { $quantity } { RISES($quantity) }, { $heard } ({ $who }).

# claims: figure
poster-course = Curve of { $name }: { $places }.

## phrase: a value of the curve

poster-begins = { $value } where { $stage } begins
poster-ends = { $value } at the end
