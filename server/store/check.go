package store

import (
	"database/sql"
	"errors"
	"fmt"

	"tautspan/internal/record"
)

// Check looks whether the whole database is sound: SQLite's own check, foreign
// keys, every operation readable, sequence numbers without a gap, counts and
// the table of records as they follow from the operations. It returns the first
// thing that is wrong. It reads one consistent state, also while serving.
func (s *Store) Check() error { return check(s.reader) }

func check(db *sql.DB) error {
	tx, err := db.Begin()
	if err != nil {
		return explain(err)
	}
	defer func() { _ = tx.Rollback() }() // it only read
	for _, step := range []func(queryer) error{checkFile, checkGarages, checkOps} {
		if err := step(tx); err != nil {
			return err
		}
	}
	return nil
}

func checkFile(tx queryer) error {
	var verdict string
	if err := tx.QueryRow("PRAGMA integrity_check(1)").Scan(&verdict); err != nil {
		return err
	}
	if verdict != "ok" {
		return errors.New("integrity_check: " + verdict)
	}
	var orphans int
	if err := tx.QueryRow("SELECT count(*) FROM pragma_foreign_key_check").Scan(&orphans); err != nil {
		return err
	}
	if orphans > 0 {
		return fmt.Errorf("%d rows belong to no garage", orphans)
	}
	return nil
}

// checkGarages compares each garage's counts with its operations.
func checkGarages(tx queryer) error {
	var wrong int
	err := tx.QueryRow(`SELECT count(*) FROM garages g
		LEFT JOIN (SELECT place >> 32 gid, count(*) n, max(place) & 0xffffffff last, sum(octet_length(body)) bytes FROM ops GROUP BY place >> 32) o USING (gid)
		WHERE g.last_seq <> coalesce(o.last, 0) OR g.last_seq <> coalesce(o.n, 0) OR g.bytes <> coalesce(o.bytes, 0)`).Scan(&wrong)
	if err != nil {
		return err
	}
	if wrong > 0 {
		return fmt.Errorf("the counts of %d garages do not fit their operations", wrong)
	}
	return nil
}

// checkOps reads every operation and compares the table of records with them.
func checkOps(tx queryer) error {
	rows, err := tx.Query("SELECT gid, op_id, body FROM ops ORDER BY place")
	if err != nil {
		return err
	}
	defer func() { _ = rows.Close() }()
	creators := map[recordKey]string{}
	for rows.Next() {
		var gid int64
		var id, body []byte
		if err := rows.Scan(&gid, &id, &body); err != nil {
			return err
		}
		op, err := record.ReadOp(body)
		if err != nil {
			return fmt.Errorf("operation %s cannot be read: %w", op.ID, err)
		}
		if len(id) != len(uuid{}) || op.ID != uuid(id).String() || string(op.Text) != string(body) {
			return fmt.Errorf("operation %s is not as it was kept", op.ID)
		}
		if k := (recordKey{gid, readUUID(op.Record), op.Table}); creators[k] == "" {
			creators[k] = op.Device
		}
	}
	if err := rows.Err(); err != nil {
		return err
	}
	known, err := tx.Query("SELECT gid, tbl, record_id, created_by FROM records")
	if err != nil {
		return err
	}
	defer func() { _ = known.Close() }()
	n := 0
	for ; known.Next(); n++ {
		var k recordKey
		var id, by []byte
		if err := known.Scan(&k.gid, &k.table, &id, &by); err != nil {
			return err
		}
		if len(id) != len(k.id) || len(by) != len(uuid{}) {
			return fmt.Errorf("a record of %s has an id that is none", k.table)
		}
		k.id = uuid(id)
		if by := uuid(by).String(); creators[k] != by {
			return fmt.Errorf("record %s of %s is listed as made by %q, its operations say %q", k.id, k.table, by, creators[k])
		}
	}
	if err := known.Err(); err != nil {
		return err
	}
	if n != len(creators) {
		return fmt.Errorf("%d records are listed, the operations make %d", n, len(creators))
	}
	return nil
}
