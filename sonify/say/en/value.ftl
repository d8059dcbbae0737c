## phrase: value in a sentence or a table

value-alone = { $value }
value-beside = { $value } ({ $beside })

## plain: the answers of a column of yes and no
value-yes = yes
value-no = no
value-yes-share = yes in { $share } %
