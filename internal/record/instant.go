package record

import "strconv"

// Instants are counted in milliseconds since 1970-01-01T00:00:00Z, leap seconds
// not counted (POSIX). Package time is not used: it would bring its zones and
// their size to the phone.

const dayMS = 24 * 60 * 60 * 1000

// ParseInstant reads a date and time as RFC 3339 writes it, with Z or an offset
// ("2026-03-01T09:00:00.5+01:00"), years 1970 to 9999, and returns milliseconds
// since 1970; digits after the third decimal are dropped. ok is false for
// anything else, days that do not exist included. A leap second counts as the
// second after it.
func ParseInstant(text string) (ms int64, ok bool) {
	if len(text) < len("2026-03-01T09:00:00Z") || !shaped(text, "dddd-dd-ddTdd:dd:dd") {
		return 0, false
	}
	year, month, day := digits(text[0:4]), digits(text[5:7]), digits(text[8:10])
	hour, minute, second := digits(text[11:13]), digits(text[14:16]), digits(text[17:19])
	if year < 1970 || month < 1 || month > 12 || day < 1 || day > daysIn(year, month) ||
		hour > 23 || minute > 59 || second > 60 {
		return 0, false
	}
	milli, rest := fraction(text[19:])
	offsetMinutes, ok := zone(rest)
	if !ok {
		return 0, false
	}
	ms = int64(daysBefore(year, month, day))*dayMS +
		int64((hour*60+minute-offsetMinutes)*60+second)*1000 + int64(milli)
	return ms, ms >= 0
}

// FormatInstant writes milliseconds since 1970, 0 to the end of the year 9999,
// in the fixed form "2026-03-01T08:00:00.000Z". Values outside are moved to the
// nearer end.
func FormatInstant(ms int64) string {
	ms = min(max(ms, 0), int64(daysBefore(9999, 12, 31)+1)*dayMS-1)
	year, month, day := civil(int(ms / dayMS))
	inDay := int(ms % dayMS)
	out := make([]byte, 0, len("2026-03-01T08:00:00.000Z"))
	out = pad(out, year, 4)
	out = pad(append(out, '-'), month, 2)
	out = pad(append(out, '-'), day, 2)
	out = pad(append(out, 'T'), inDay/3600000, 2)
	out = pad(append(out, ':'), inDay/60000%60, 2)
	out = pad(append(out, ':'), inDay/1000%60, 2)
	out = pad(append(out, '.'), inDay%1000, 3)
	return string(append(out, 'Z'))
}

// shaped reports whether text begins with the pattern, in which d stands for a
// digit and x for a lower-case hexadecimal digit.
func shaped(text, pattern string) bool {
	if len(text) < len(pattern) {
		return false
	}
	for i := range len(pattern) {
		c := text[i]
		switch pattern[i] {
		case 'd':
			if c < '0' || c > '9' {
				return false
			}
		case 'x':
			if (c < '0' || c > '9') && (c < 'a' || c > 'f') {
				return false
			}
		default:
			if c != pattern[i] {
				return false
			}
		}
	}
	return true
}

// digits reads text that is known to hold digits only.
func digits(text string) int {
	n := 0
	for i := range len(text) {
		n = 10*n + int(text[i]-'0')
	}
	return n
}

func pad(out []byte, n, width int) []byte {
	text := strconv.Itoa(n)
	for i := len(text); i < width; i++ {
		out = append(out, '0')
	}
	return append(out, text...)
}

// fraction reads the decimals of a second, if there are any, as milliseconds.
func fraction(text string) (milli int, rest string) {
	if len(text) < 2 || text[0] != '.' || text[1] < '0' || text[1] > '9' {
		return 0, text
	}
	unit := 100
	for i := 1; ; i++ {
		if i == len(text) || text[i] < '0' || text[i] > '9' {
			return milli, text[i:]
		}
		milli += unit * int(text[i]-'0')
		unit /= 10
	}
}

// zone reads Z or +hh:mm or -hh:mm and nothing after it.
func zone(text string) (minutes int, ok bool) {
	if text == "Z" {
		return 0, true
	}
	if len(text) != 6 || text[0] != '+' && text[0] != '-' || !shaped(text[1:], "dd:dd") {
		return 0, false
	}
	hours, mins := digits(text[1:3]), digits(text[4:6])
	minutes = hours*60 + mins
	if text[0] == '-' {
		minutes = -minutes
	}
	return minutes, hours <= 23 && mins <= 59
}

func leap(year int) bool { return year%4 == 0 && (year%100 != 0 || year%400 == 0) }

func daysIn(year, month int) int {
	switch month {
	case 2:
		if leap(year) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

// yearsBefore is how many days lie between 1970-01-01 and the year's first day.
func yearsBefore(year int) int {
	y := year - 1
	return 365*(year-1970) + (y/4 - 1969/4) - (y/100 - 1969/100) + (y/400 - 1969/400)
}

// daysBefore is how many days lie between 1970-01-01 and the date.
func daysBefore(year, month, day int) int {
	days := yearsBefore(year) + day - 1
	for m := 1; m < month; m++ {
		days += daysIn(year, m)
	}
	return days
}

// civil is the date that many days after 1970-01-01.
func civil(days int) (year, month, day int) {
	year = 1970 + days/366
	for yearsBefore(year+1) <= days {
		year++
	}
	days -= yearsBefore(year)
	month = 1
	for days >= daysIn(year, month) {
		days -= daysIn(year, month)
		month++
	}
	return year, month, days + 1
}
