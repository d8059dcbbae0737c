## plain: what is wrong, said to the person who can mend it
error_edits-too-many = more than { $most } changes at once; save the scene and open it again, and go on from there
error_edits-unknown = "{ $path }" cannot be changed here; change it in the scene file
error_edits-kind = wanted: { $kind ->
    [bool] yes or no
    [list] a list of texts
    [numbers] a list of whole numbers
   *[other] a text
  }
error_edits-long = is too long; up to { $most } letters
error_edits-turned = holds a mark that turns the writing round and cannot be seen; type the words anew
error_edits-all-silent = every part is silent; let one of them play
