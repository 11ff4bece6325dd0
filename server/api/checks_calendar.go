package api

import (
	"encoding/json"
	"net/http"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"tautspan/internal/engine"
	"tautspan/internal/garage"
	"tautspan/server/store"
)

// checksCalendar is GET /api/v1/garages/{id}/checks.ics: for every chain on a
// bike whose weekly distance is known, one day on which to check it, as RFC
// 5545 writes a calendar.
func checksCalendar(a *actions, w http.ResponseWriter, _ *http.Request, who *store.Session) error {
	state, err := a.Store.State(who)
	if err != nil {
		return err
	}
	name, err := a.Store.GarageName(who)
	if err != nil {
		return err
	}
	c := &calendar{}
	c.line("BEGIN:VCALENDAR")
	c.line("VERSION:2.0")
	c.line("PRODID:-//Tautspan//Chain checks//EN")
	c.line("NAME:" + escape(name))
	for _, b := range garage.Read(state).Bikes {
		if b.Fitted != nil {
			if due, ok := nextCheck(b, a.Now()); ok {
				c.event(b, due, a.Now())
			}
		}
	}
	c.line("END:VCALENDAR")
	w.Header().Set("Content-Type", "text/calendar; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write([]byte(c.String())) // the caller is gone; nobody to tell
	return nil
}

// lastYear is the last that a calendar can name (RFC 5545 section 3.3.4).
const lastYear = 9999

// nextCheck asks the forecast for the day of a bike's next check, counted from
// its latest distance or reading, never before today; false where there is none
// to name.
func nextCheck(b *garage.Bike, now time.Time) (time.Time, bool) {
	answer, err := engine.Call("forecast", b.Fitted.ForecastRequest())
	if err != nil {
		return time.Time{}, false
	}
	var f struct {
		Days *int `json:"check_again_in_days"`
	}
	if err := json.Unmarshal(answer, &f); err != nil || f.Days == nil {
		return time.Time{}, false
	}
	from := b.Count.LastMS
	if last := b.Fitted.LastReading(); last != nil {
		from = max(from, last.AtMS)
	}
	if from == 0 {
		from = now.UnixMilli()
	}
	due := time.UnixMilli(from).UTC().AddDate(0, 0, *f.Days) // a bike that is hardly ridden has centuries, which no time.Duration holds
	if due.Before(now) {
		due = now.UTC()
	}
	return due, due.Year() <= lastYear
}

// calendar is text in content lines: ended by CRLF, folded after 75 bytes.
type calendar struct{ strings.Builder }

func (c *calendar) event(b *garage.Bike, due, now time.Time) {
	c.line("BEGIN:VEVENT")
	c.line("UID:check-" + b.Fitted.ID + "@tautspan")
	c.line("DTSTAMP:" + now.UTC().Format("20060102T150405Z"))
	c.line("DTSTART;VALUE=DATE:" + due.Format("20060102"))
	c.line("SUMMARY:" + escape("Check the chain of "+b.Name))
	c.line("DESCRIPTION:" + escape("It has run about "+strconv.FormatFloat(b.Fitted.KM, 'f', 0, 64)+
		" km. This is an estimate: check sooner after wet or gritty rides, and do not ride a chain that skips or looks damaged."))
	c.line("TRANSP:TRANSPARENT")
	c.line("END:VEVENT")
}

// line writes one content line (RFC 5545 section 3.1), never folding inside a
// character.
func (c *calendar) line(text string) {
	const most = 75
	room := most
	for len(text) > room {
		cut := room
		for !utf8.RuneStart(text[cut]) {
			cut--
		}
		c.WriteString(text[:cut] + "\r\n ")
		text, room = text[cut:], most-1
	}
	c.WriteString(text + "\r\n")
}

// escape writes a TEXT value (RFC 5545 section 3.3.11).
func escape(text string) string {
	text = plain(strings.ReplaceAll(text, "\r\n", "\n"))
	return strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`).Replace(text)
}

// plain makes blanks of control characters, which no calendar and no sheet may
// hold; tabs and line ends stay.
func plain(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' || r == 0x7f {
			return ' '
		}
		return r
	}, text)
}
