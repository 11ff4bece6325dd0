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
	rows, err := s.reader.Query("SELECT device_id, d.name, role, joined_ms, revoked_ms FROM devices d JOIN garages USING (gid) WHERE garage_id = ? ORDER BY joined_ms, device_id", who.GarageID)
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

var errNoDevice = fault.New(fault.NotFound, "", "there is no such device in this garage")

// Revoke shuts a phone out at once, whoever it is. A garage that has others
// keeps an owner; the last one to go takes back the open invitations, so that
// nobody comes into a garage that has no owner.
func (s *Store) Revoke(who *Session, device string, nowMS int64) error {
	return s.write(func(t *tx) error {
		others, err := t.others(who, device)
		if err != nil {
			return err
		}
		if others.role == record.Owner && others.owners == 0 && others.devices > 0 {
			return fault.New(fault.Denied, "", "this is the garage's last owner: make another device an owner first, or delete the garage")
		}
		if others.devices == 0 {
			if err := t.exec("DELETE FROM invites WHERE gid = ?", who.gid); err != nil {
				return err
			}
		}
		return t.exec("UPDATE devices SET revoked_ms = ? WHERE device_id = ?", nowMS, device)
	}, func() { s.watch.closeDevice(who.GarageID, device) })
}

// SetRole changes what a phone may do. Its streams end, so that it calls again
// and hears of it.
func (s *Store) SetRole(who *Session, device string, role record.Role) error {
	return s.write(func(t *tx) error {
		others, err := t.others(who, device)
		if err != nil {
			return err
		}
		if role != record.Owner && others.role == record.Owner && others.owners == 0 {
			return fault.New(fault.Denied, "role", "this is the garage's last owner: make another device an owner first")
		}
		return t.exec("UPDATE devices SET role = ? WHERE device_id = ?", string(role), device)
	}, func() { s.watch.closeDevice(who.GarageID, device) })
}

// others is a device's role, and who takes part beside it.
type others struct {
	role            record.Role
	devices, owners int64
}

// others looks at a device that takes part in the garage of one who still may ask.
func (t *tx) others(who *Session, device string) (o others, err error) {
	if err = t.still(who); err != nil {
		return o, err
	}
	err = t.row("SELECT role FROM devices WHERE device_id = ? AND gid = ? AND revoked_ms IS NULL", []any{device, who.gid}, (*string)(&o.role))
	if errors.Is(err, sql.ErrNoRows) {
		err = errNoDevice
	}
	if err != nil {
		return o, err
	}
	err = t.row("SELECT count(*), count(*) FILTER (WHERE role = 'owner') FROM devices WHERE gid = ? AND revoked_ms IS NULL AND device_id <> ?",
		[]any{who.gid, device}, &o.devices, &o.owners)
	return o, err
}
