package store

import (
	"database/sql"
	"errors"
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/record"
)

// Invite makes an invitation and returns its code, which is told once.
func (s *Store) Invite(who *Session, role record.Role, uses, expiresMS, nowMS int64) (code string, err error) {
	id := newID(nowMS)
	code, hash := newSecret(id)
	return code, s.write(func(t *tx) error {
		if err := t.still(who); err != nil {
			return err
		}
		var open int64
		if err := t.row("SELECT count(*) FROM invites WHERE gid = ? AND expires_ms > ?", []any{who.gid, nowMS}, &open); err != nil {
			return err
		}
		if open >= s.quota.Invites {
			return fault.New(fault.TooMany, "", "there are "+strconv.FormatInt(open, 10)+" open invitations, as many as are allowed; wait until some expire")
		}
		if err := t.exec("DELETE FROM invites WHERE gid = ? AND expires_ms <= ?", who.gid, nowMS); err != nil {
			return err
		}
		return t.exec("INSERT INTO invites (invite_id, gid, role, secret_hash, uses_left, expires_ms) VALUES (?, ?, ?, ?, ?, ?)",
			id, who.gid, string(role), hash, uses, expiresMS)
	}, nil)
}

// errNoInvite does not tell apart what is wrong with a code.
var errNoInvite = fault.New(fault.NotFound, "code", "this invitation is not valid: mistyped, used up, expired or taken back; ask for a new one")

// Join spends one use of an invitation and adds a device.
func (s *Store) Join(code, deviceName string, nowMS int64) (*Welcome, error) {
	id, hash, ok := readSecret(code)
	if !ok {
		return nil, errNoInvite
	}
	w := &Welcome{Cursor: s.beginning()}
	err := s.write(func(t *tx) error {
		gid, uses, err := w.read(t, id, hash, nowMS)
		if err != nil {
			return err
		}
		var devices int64
		if err := t.row("SELECT count(*) FROM devices WHERE gid = ? AND revoked_ms IS NULL", []any{gid}, &devices); err != nil {
			return err
		}
		if devices >= s.quota.Devices {
			return fault.New(fault.TooMany, "", "this garage has "+strconv.FormatInt(devices, 10)+" devices, as many as are allowed; revoke one first")
		}
		if uses == 1 {
			err = t.exec("DELETE FROM invites WHERE invite_id = ?", id)
		} else {
			err = t.exec("UPDATE invites SET uses_left = uses_left - 1 WHERE invite_id = ?", id)
		}
		if err != nil {
			return err
		}
		return w.addDevice(t, gid, deviceName, nowMS)
	}, nil)
	return w, err
}

// read finds a valid invitation and fills in garage and role.
func (w *Welcome) read(t *tx, id string, hash []byte, nowMS int64) (gid, uses int64, err error) {
	var kept []byte
	var expires int64
	err = t.row("SELECT i.gid, g.garage_id, g.name, i.role, i.secret_hash, i.uses_left, i.expires_ms FROM invites i JOIN garages g USING (gid) WHERE i.invite_id = ?",
		[]any{id}, &gid, &w.GarageID, &w.Name, (*string)(&w.Role), &kept, &uses, &expires)
	if errors.Is(err, sql.ErrNoRows) || err == nil && (!sameHash(hash, kept) || expires <= nowMS) {
		err = errNoInvite
	}
	return gid, uses, err
}
