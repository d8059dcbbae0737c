## plain: how an error says where it is

error-at = { $place }: { $message }
error-line = { $file }, line { $line }
error-set = --set { $name }="{ $value }": { $message }
error-several = { $n } things to mend
error-more = and { $n } more
error-out-of-range = { $name } is { $value }; { $by } covers { $covered }
error-unknown = unknown { $kind } "{ $name }"{ $near } Allowed: { $allowed }
error-kind-in = { $kind } in { $where }
error-did-you-mean = ; did you mean "{ $near }"?
error-full-stop = .
error-semicolon = ;
