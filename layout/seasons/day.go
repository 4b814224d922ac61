package seasons

import "time"

// Day is a day of the calendar, in days since 1970-01-01.
type Day int

// Never is after every day.
const Never Day = 1 << 30

const daySeconds = 24 * 60 * 60

// ParseDay reads a day of ISO 8601: 2027-02-15.
func ParseDay(s string) (Day, bool) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return 0, false
	}
	return dayOf(t), true
}

// MonthStart is the first day of a month; month 13 is the next year's first.
func MonthStart(year, month int) Day {
	return dayOf(time.Date(year, time.Month(month), 1, 0, 0, 0, 0, time.UTC))
}

func dayOf(t time.Time) Day {
	seconds := t.Unix()
	if seconds < 0 {
		seconds -= daySeconds - 1 // integer division rounds up there
	}
	return Day(seconds / daySeconds)
}

func (d Day) time() time.Time { return time.Unix(int64(d)*daySeconds, 0).UTC() }

// Month is the year and the month, from 1, that the day is in.
func (d Day) Month() (year, month int) {
	t := d.time()
	return t.Year(), int(t.Month())
}

// String is the day as ISO 8601 writes it, "" for Never.
func (d Day) String() string {
	if d == Never {
		return ""
	}
	return d.time().Format(time.DateOnly)
}
