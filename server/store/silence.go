package store

import (
	"database/sql"
	"errors"

	"tautspan/internal/fault"
	"tautspan/internal/record"
)

// dayMS is how long a day is.
const dayMS = 24 * 60 * 60 * 1000

// Seen notes that the garage is alive; it writes once a day. Where nothing can be
// written, on a full disk for instance, the next call notes it, so that reading
// goes on.
func (s *Store) Seen(who *Session, nowMS int64) error {
	day := nowMS / dayMS
	if who.seenDay >= day {
		return nil
	}
	err := s.write(func(t *tx) error {
		return t.exec("UPDATE garages SET seen_day = max(seen_day, ?) WHERE gid = ?", day, who.gid)
	}, nil)
	var f *fault.Error
	if errors.As(err, &f) && (f.Code == fault.StorageFull || f.Code == fault.Unavailable) {
		return nil
	}
	return err
}

// Silent lists the garages of which no device has called for so many days, as an
// owner without a device would see them.
func (s *Store) Silent(days, nowMS int64) ([]*Session, error) {
	rows, err := s.reader.Query("SELECT gid, garage_id, seen_day FROM garages WHERE seen_day < ? ORDER BY gid", nowMS/dayMS-days)
	if err != nil {
		return nil, explain(err)
	}
	defer func() { _ = rows.Close() }()
	all := []*Session{}
	for rows.Next() {
		who := &Session{Role: record.Owner}
		if err := rows.Scan(&who.gid, &who.GarageID, &who.seenDay); err != nil {
			return nil, explain(err)
		}
		all = append(all, who)
	}
	return all, explain(rows.Err())
}

// Forget deletes a garage with everything in it, unless a device has called
// since Silent listed it. It reports whether it did.
func (s *Store) Forget(who *Session) (done bool, err error) {
	err = s.write(func(t *tx) error {
		done = false
		return t.each("DELETE FROM garages WHERE gid = ? AND seen_day = ? RETURNING gid", []any{who.gid, who.seenDay}, func(*sql.Rows) error {
			done = true
			return nil
		})
	}, func() { s.watch.closeGarage(who.GarageID) })
	return done && err == nil, err
}
