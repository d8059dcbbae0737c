## plain: what was found out about sentences of ours

truth-not-said =
    A sentence of ours would have been false and is not printed{ $instead ->
        [yes] , but a weaker one
       *[no] { "" }
    }: { $message } ({ $claim }; found { $found }).
