## plain: two versions of a lesson set side by side; its figures are those of both plans, as the page shows them

differ-nothing = A and B are the same.
differ-more = … and { $count } more of this kind.
differ-title = A is “{ $first }”, B is “{ $second }”.
differ-length = A takes { $first }, B { $second }.
differ-condition = { $condition }: { $first } in A, { $second } in B.
differ-stage-only = { $which ->
    [first] “{ $stage }” comes in A alone.
   *[second] “{ $stage }” comes in B alone.
  }
differ-beat = “{ $stage }”: { $first } beats a minute in A, { $second } in B.
differ-rule-only = { $which ->
    [first] In A alone { $quantity } is heard as { $control }
   *[second] In B alone { $quantity } is heard as { $control }
  }{ $whom ->
    [part] { " " }in { $part }.
   *[all] .
  }
differ-rule = { $quantity } as { $control }{ $whom ->
    [part] { " " }in { $part }
   *[all] { "" }
  }: { $first } in A, { $second } in B.
differ-ends = from { $low } to { $high } is { $soft } to { $loud }
differ-one-rule = Both hear { $quantity } as { $control }{ $whom ->
    [part] { " " }in { $part }
   *[all] { "" }
  } by one rule.
differ-heard = { $quantity } as { $control }{ $whom ->
    [part] { " " }in { $part }
   *[all] { "" }
  } is { $heard ->
    [yes] heard in B, and hard to hear in A.
   *[no] hard to hear in B, and heard in A.
  }
differ-part-only = { $which ->
    [first] { $part } { PLAYS($part) } in A alone.
   *[second] { $part } { PLAYS($part) } in B alone.
  }
differ-instrument = { $part } { PLAYS($part) } { $first } in A, { $second } in B.
differ-way = { $part }: { $first } in A, { $second } in B.
differ-when = { $part } { PLAYS($part) } at other times in B.
differ-words =
    { $count ->
        [one] One text has other words in B.
       *[other] { $count } texts have other words in B.
    }
