## phrase: value in a sentence or a table

value-alone = { $value }
value-beside = { $value } ({ $beside })
