package store

import (
	"database/sql"
	"errors"

	"tautspan/internal/fault"
	"tautspan/internal/record"
)

// Device is one phone of a garage.
type Device struct {
	ID, Name  string
	Role      record.Role
	JoinedMS  int64
	RevokedMS *int64
}

// Devices lists the phones of a garage, the revoked ones too, the eldest first.
func (s *Store) Devices(who *Session) ([]Device, error) {
	rows, err := s.reader.Query("SELECT device_id, name, role, joined_ms, revoked_ms FROM devices WHERE gid = ? ORDER BY joined_ms, device_id", who.gid)
	if err != nil {
		return nil, explain(err)
	}
	defer func() { _ = rows.Close() }()
	all := []Device{}
	for rows.Next() {
		var d Device
		if err := rows.Scan(&d.ID, &d.Name, (*string)(&d.Role), &d.JoinedMS, &d.RevokedMS); err != nil {
			return nil, explain(err)
		}
		all = append(all, d)
	}
	return all, explain(rows.Err())
}

// Revoke shuts a phone out at once, whoever it is.
func (s *Store) Revoke(who *Session, device string, nowMS int64) error {
	return s.write(func(t *tx) error {
		err := t.row("UPDATE devices SET revoked_ms = ? WHERE device_id = ? AND gid = ? AND revoked_ms IS NULL RETURNING device_id",
			[]any{nowMS, device, who.gid}, &device)
		if errors.Is(err, sql.ErrNoRows) {
			return fault.New(fault.NotFound, "", "there is no such device in this garage")
		}
		return err
	}, func() { s.watch.closeDevice(who.GarageID, device) })
}
