## plain: units of time, written out

unit-year =
    { $n ->
        [one] { $number } year
       *[other] { $number } years
    }
unit-month =
    { $n ->
        [one] { $number } month
       *[other] { $number } months
    }
unit-day =
    { $n ->
        [one] { $number } day
       *[other] { $number } days
    }
unit-hour =
    { $n ->
        [one] { $number } hour
       *[other] { $number } hours
    }
unit-minute =
    { $n ->
        [one] { $number } minute
       *[other] { $number } minutes
    }
unit-second =
    { $n ->
        [one] { $number } second
       *[other] { $number } seconds
    }
unit-nanosecond =
    { $n ->
        [one] { $number } nanosecond
       *[other] { $number } nanoseconds
    }
unit-picosecond =
    { $n ->
        [one] { $number } picosecond
       *[other] { $number } picoseconds
    }
unit-and = { $large } { $small }
