## plain: where a text is no TOML, with what a teacher can do about it

error_toml-not-valid = not valid TOML: { $plain }
error_toml-not-valid-at = not valid TOML at column { $column }: { $plain }
error_toml-and = { $told }; { $advice }
error_toml-name-with-space = a name with a space in it needs quotation marks: "ocean drum" = 1
error_toml-text-quoted = a text needs quotation marks: title = "One drop"
error_toml-line-reads = a line reads key = "value", [table], or # remark
error_toml-text-ends = a text ends on the line where it began, or stands between triple quotation marks
error_toml-closing-mark = a closing quotation mark is missing
error_toml-closing-bracket = a closing bracket is missing
error_toml-one-line = one line holds one key; a list needs square brackets and commas
error_toml-backslash = write a backslash twice, or use single quotation marks
error_toml-double-brackets = a table that comes more than once has double brackets: [[part]]
error_toml-too-many-keys = more than { $most } keys and list items
error_toml-long-key = a key is longer than { $most } characters
error_toml-too-deep = tables or lists stand within each other more than { $most } deep
