package store

import (
	"database/sql"
	"slices"
	"strings"
)

// A statement costs more than a row. So rows are looked up and written by the
// handful, with one statement for each of a few numbers of rows.
var handfuls = [...]int{1, 8, 32, 128}

const handful = 128

// lookups is the statements that answer for up to 1, 8, … rows of keys. w is
// the table of the keys asked for.
type lookups [len(handfuls)]string

func lookupsOf(columns int, with, query string) (all lookups) {
	for i, n := range handfuls {
		all[i] = "WITH w (" + with + ") AS (VALUES " + rowsOf(n, columns) + ") " + query
	}
	return all
}

// ask runs the statement for keys, which are at most a handful.
func (l *lookups) ask(t *tx, keys *rows, visit func(*sql.Rows) error) error {
	if keys.n == 0 {
		return nil
	}
	i, _ := slices.BinarySearch(handfuls[:], keys.n)
	columns := len(keys.args) / keys.n
	args := append(slices.Clone(keys.args), make([]any, (handfuls[i]-keys.n)*columns)...) // NULL is found nowhere
	return t.each(l[i], args, visit)
}

// writes is the statements that write 1, 8, … rows.
type writes [len(handfuls)]string

func writesOf(columns int, before, after string) (all writes) {
	for i, n := range handfuls {
		all[i] = before + rowsOf(n, columns) + after
	}
	return all
}

// run writes all rows, with as few statements as there are.
func (w *writes) run(t *tx, r *rows) error {
	args, left := r.args, r.n
	for i := len(handfuls) - 1; left > 0; {
		n := handfuls[i]
		if left < n {
			i--
			continue
		}
		width := len(r.args) / r.n * n
		if err := t.exec(w[i], args[:width]...); err != nil {
			return err
		}
		args, left = args[width:], left-n
	}
	return nil
}

// rowsOf is n rows of parameters.
func rowsOf(n, columns int) string {
	row := "(" + strings.Repeat("?, ", columns-1) + "?)"
	return strings.Repeat(row+", ", n-1) + row
}

// rows gathers rows of parameters.
type rows struct {
	n    int
	args []any
}

func (r *rows) add(columns ...any) {
	r.n++
	r.args = append(r.args, columns...)
}
