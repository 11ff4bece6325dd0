package api

import (
	"net/http"
	"strconv"
	"strings"
	"unicode"

	"tautspan/internal/chain"
	"tautspan/internal/garage"
	"tautspan/internal/wear"
	"tautspan/server/store"
)

// columns is the first row of the table of readings.
var columns = []string{
	"reading_id", "bike", "chain", "at", "at_km", "kind", "reading", "elongation_percent", "standard_uncertainty_percent",
	"limit_percent", "verdict", "by", "note", "void_reason",
}

// exportCSV is GET /api/v1/garages/{id}/export.csv: one row a reading, voided
// ones too, as RFC 4180 writes a table.
func exportCSV(a *actions, w http.ResponseWriter, _ *http.Request, who *store.Session) error {
	state, err := a.Store.State(who)
	if err != nil {
		return err
	}
	out := appendRow(nil, columns)
	for _, b := range garage.Read(state).Bikes {
		for _, c := range b.Chains {
			for _, r := range c.Readings {
				out = appendRow(out, readingRow(b, c, r))
			}
		}
	}
	w.Header().Set("Content-Type", "text/csv; charset=utf-8; header=present")
	w.Header().Set("Content-Disposition", `attachment; filename="readings.csv"`)
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(out) // the caller is gone; nobody to tell
	return nil
}

// appendRow writes one record of RFC 4180: fields with commas, quotes or line
// ends in quotes, quotes doubled, CRLF at the end.
func appendRow(out []byte, fields []string) []byte {
	for i, field := range fields {
		if i > 0 {
			out = append(out, ',')
		}
		if strings.ContainsAny(field, ",\"\r\n") {
			field = `"` + strings.ReplaceAll(field, `"`, `""`) + `"`
		}
		out = append(out, field...)
	}
	return append(out, '\r', '\n')
}

func readingRow(b *garage.Bike, c *garage.Chain, r *garage.Reading) []string {
	row := []string{r.ID, inert(b.Name), inert(text(c.Name)), r.At, decimal(r.AtKM), string(r.Reading.Reading.Kind), string(r.Text),
		"", "", "", "", inert(text(r.By)), inert(text(r.Note)), inert(text(r.VoidReason))}
	answer, err := wear.Calculate(wearRequest(b, c, r))
	if err == nil {
		row[7], row[8] = decimal(answer.Elongation), decimal(answer.StandardUncertainty)
		row[9], row[10] = decimal(answer.Limit), string(answer.Verdict)
	}
	return row
}

func wearRequest(b *garage.Bike, c *garage.Chain, r *garage.Reading) *wear.Request {
	ask := &wear.Request{
		Drive: b.Drive, RearSprockets: b.RearSprockets, LimitPercent: c.LimitPercent,
		PitchMM: chain.PitchMM, Reading: *r.Reading.Reading,
	}
	if b.Drive == chain.Derailleur && b.RearSprockets == nil {
		most := chain.MostSprockets
		ask.RearSprockets = &most
	}
	return ask
}

// inert keeps a spreadsheet from taking a text for a formula: an apostrophe goes
// before a sign that starts one, at the beginning and wherever a cell begins for
// a spreadsheet that parts cells at semicolons or tabs and knows no quotes then;
// and before a blank at the beginning.
func inert(text string) string {
	text = plain(strings.ReplaceAll(text, "\r\n", "\n"))
	out, begins := strings.Builder{}, true
	for i, r := range text {
		blank := unicode.IsSpace(r) || unicode.In(r, unicode.Cf, unicode.Cc)
		if begins && (strings.ContainsRune("=+-@＝＋－＠", r) || i == 0 && blank) {
			out.WriteByte('\'')
		}
		out.WriteRune(r)
		begins = strings.ContainsRune(";\t\n", r) || begins && blank
	}
	return out.String()
}

func text(p *string) string {
	if p == nil {
		return ""
	}
	return *p
}

func decimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
