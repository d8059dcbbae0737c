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

## plain: units of amounts, written out

unit-deg = { $number }°
unit-deg-day = { $number }° a day
unit-litre =
    { $n ->
        [one] { $number } litre
       *[other] { $number } litres
    }
unit-litre-second =
    { $n ->
        [one] { $number } litre a second
       *[other] { $number } litres a second
    }
unit-litre-minute =
    { $n ->
        [one] { $number } litre a minute
       *[other] { $number } litres a minute
    }
unit-litre-hour =
    { $n ->
        [one] { $number } litre an hour
       *[other] { $number } litres an hour
    }
unit-millilitre-hour = { $number } ml an hour
unit-millimetre-hour = { $number } mm an hour
unit-metre-second = { $number } m a second
unit-cm-day = { $number } cm a day
