## no claim: a value alone; the sentence that it stands in has the claim

value-alone = { $value }
value-beside = { $value } ({ $beside })
