package ride

import (
	"strconv"
	"strings"
)

// moment is a time in UTC, to the millisecond.
type moment struct {
	day   int // days since 0000-03-01, proleptic Gregorian
	milli int // of that day
	known bool
}

func (m moment) before(n moment) bool {
	return m.day < n.day || m.day == n.day && m.milli < n.milli
}

const dayMS = 24 * 60 * 60 * 1000

// readMoment reads an xsd:dateTime of the years 0001 to 9999, such as
// 2026-03-01T08:00:00.5+01:00. A time without a zone is in UTC, as GPX says of
// all times. Digits behind the millisecond are dropped. What is no such time,
// leap seconds and 24:00:00 among it, gives an unknown moment.
func readMoment(text string) moment {
	text = strings.Trim(text, " \t\r\n")
	if len(text) < len("0000-00-00T00:00:00") {
		return moment{}
	}
	year, month, day, dateOK := three(text[:10], 4, '-')
	hour, minute, second, timeOK := three(text[11:19], 2, ':')
	milli, zone, fractionOK := fraction(text[19:])
	offset, zoneOK := zoneMinutes(zone)
	if !dateOK || !timeOK || !fractionOK || !zoneOK || text[10] != 'T' || year < 1 ||
		month < 1 || month > 12 || day < 1 || day > daysIn(year, month) || hour > 23 || minute > 59 || second > 59 {
		return moment{}
	}
	milli += ((hour*60+minute-offset)*60 + second) * 1000
	m := moment{day: dayNumber(year, month, day), milli: milli, known: true}
	for ; m.milli < 0; m.milli += dayMS {
		m.day--
	}
	for ; m.milli >= dayMS; m.milli -= dayMS {
		m.day++
	}
	m.known = m.day >= dayNumber(1, 1, 1) && m.day <= dayNumber(9999, 12, 31)
	return m
}

// three reads three numbers of two digits, the first of which may have more,
// between two separators.
func three(text string, first int, separator byte) (a, b, c int, ok bool) {
	if text[first] != separator || text[first+3] != separator {
		return 0, 0, 0, false
	}
	a, okA := digits(text[:first])
	b, okB := digits(text[first+1 : first+3])
	c, okC := digits(text[first+4:])
	return a, b, c, okA && okB && okC
}

func digits(text string) (int, bool) {
	v := 0
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return 0, false
		}
		v = v*10 + int(text[i]-'0')
	}
	return v, true
}

// fraction reads the part of a second, if there is one, in whole milliseconds.
func fraction(text string) (milli int, rest string, ok bool) {
	text, has := strings.CutPrefix(text, ".")
	if !has {
		return 0, text, true
	}
	size := 0
	for size < len(text) && text[size] >= '0' && text[size] <= '9' {
		size++
	}
	milli, _ = digits((text[:size] + "000")[:3])
	return milli, text[size:], size > 0
}

// zoneMinutes reads Z, nothing, or an offset of up to 14 hours.
func zoneMinutes(zone string) (minutes int, ok bool) {
	if zone == "" || zone == "Z" {
		return 0, true
	}
	if len(zone) != 6 || zone[3] != ':' || zone[0] != '+' && zone[0] != '-' {
		return 0, false
	}
	hour, hourOK := digits(zone[1:3])
	minute, minuteOK := digits(zone[4:])
	minutes = hour*60 + minute
	if !hourOK || !minuteOK || minute > 59 || minutes > 14*60 {
		return 0, false
	}
	if zone[0] == '-' {
		minutes = -minutes
	}
	return minutes, true
}

func daysIn(year, month int) int {
	nextYear, nextMonth := year, month+1
	if nextMonth > 12 {
		nextYear, nextMonth = year+1, 1
	}
	return dayNumber(nextYear, nextMonth, 1) - dayNumber(year, month, 1)
}

// dayNumber counts days from 0000-03-01. Years are taken to start in March, so
// that the leap day comes last and the months before it have lengths that
// (153 m + 2)/5 adds up.
func dayNumber(year, month, day int) int {
	if month < 3 {
		year, month = year-1, month+12
	}
	return 365*year + year/4 - year/100 + year/400 + (153*(month-3)+2)/5 + day - 1
}

// text is the moment in RFC 3339, with milliseconds where there are any.
func (m moment) text() string {
	year, month, day := m.date()
	second := m.milli / 1000
	text := padded(year, 4) + "-" + padded(month, 2) + "-" + padded(day, 2) + "T" +
		padded(second/3600, 2) + ":" + padded(second/60%60, 2) + ":" + padded(second%60, 2)
	if milli := m.milli % 1000; milli > 0 {
		text += "." + padded(milli, 3)
	}
	return text + "Z"
}

// date undoes dayNumber.
func (m moment) date() (year, month, day int) {
	year = m.day/366 - 1
	for dayNumber(year+1, 3, 1) <= m.day {
		year++
	}
	rest := m.day - dayNumber(year, 3, 1)
	month = (5*rest + 2) / 153
	day = rest - (153*month+2)/5 + 1
	if month += 3; month > 12 {
		year, month = year+1, month-12
	}
	return year, month, day
}

func padded(v, width int) string {
	text := strconv.Itoa(v)
	for len(text) < width {
		text = "0" + text
	}
	return text
}
