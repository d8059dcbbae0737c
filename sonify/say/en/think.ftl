## plain: questions to think about

think-backwards = What would you hear if we played the piece from the end to the start? What would it mean?
think-most-change = Where does the { $quantity } change most from one stage to the next? How do you hear it?
think-most-apart = Which two differ most in { $quantity }? How do you hear it?
think-fair = { $change } Why did we do that? Is it fair?
think-sentences = Write two sentences. Use three words from “Words to know”.
think-not-real = Our music is a model. Write one way in which it is not like the real thing.

## plain: where a table has nothing to tell

think-not-played = nobody plays it there
