package store

import (
	"database/sql"
	"errors"

	"tautspan/internal/fault"
	"tautspan/internal/record"
)

// Session is a device that has shown its token: who it is, and in which garage.
type Session struct {
	GarageID string
	Device   string
	Role     record.Role
	gid      int64 // another garage's once this one was deleted
	seenDay  int64
}

// Welcome is what a device gets when it founds or joins a garage. Token is told
// once and never again.
type Welcome struct {
	GarageID, DeviceID, Token string
	Role                      record.Role
	Name                      string // of the garage
	Cursor                    string // the beginning
}

// CreateGarage founds a garage with its first device as owner.
func (s *Store) CreateGarage(name, deviceName string, nowMS int64) (*Welcome, error) {
	w := &Welcome{GarageID: newID(nowMS), Role: record.Owner, Name: name, Cursor: s.beginning()}
	err := s.write(func(t *tx) error {
		var gid int64
		err := t.row("INSERT INTO garages (garage_id, name, created_ms, seen_day) VALUES (?, ?, ?, ?) RETURNING gid",
			[]any{w.GarageID, name, nowMS, nowMS / dayMS}, &gid)
		if err != nil {
			return err
		}
		return w.addDevice(t, gid, deviceName, nowMS)
	}, nil)
	return w, err
}

func (w *Welcome) addDevice(t *tx, gid int64, name string, nowMS int64) error {
	w.DeviceID = newID(nowMS)
	var hash []byte
	w.Token, hash = newSecret(w.DeviceID)
	return t.exec("INSERT INTO devices (device_id, gid, name, role, secret_hash, joined_ms) VALUES (?, ?, ?, ?, ?, ?)",
		w.DeviceID, gid, name, string(w.Role), hash, nowMS)
}

// DeleteGarage removes a garage with everything in it.
func (s *Store) DeleteGarage(who *Session) error {
	return s.write(func(t *tx) error {
		if err := t.still(who); err != nil {
			return err
		}
		return t.exec("DELETE FROM garages WHERE gid = ?", who.gid)
	}, func() { s.watch.closeGarage(who.GarageID) })
}

// GarageName returns the garage's name.
func (s *Store) GarageName(who *Session) (string, error) {
	var name string
	err := s.reader.QueryRow("SELECT name FROM garages WHERE garage_id = ?", who.GarageID).Scan(&name)
	if errors.Is(err, sql.ErrNoRows) {
		return "", errNoGarage
	}
	return name, explain(err)
}

// ErrShutOut says that the token does not count any more.
var ErrShutOut = fault.New(fault.Denied, "", "this token is not valid: never given, or revoked; join again with an invitation")

// errRoleChanged says that the role with which the call began is not the device's any more.
var errRoleChanged = fault.New(fault.Unavailable, "", "what this device may do was changed just now; try again")

// still refuses what a device asks for that was revoked, or got another role,
// since it showed its token.
func (t *tx) still(who *Session) error {
	var role record.Role
	err := t.row("SELECT role FROM devices WHERE device_id = ? AND gid = ? AND revoked_ms IS NULL", []any{who.Device, who.gid}, (*string)(&role))
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return ErrShutOut
	case err == nil && role != who.Role:
		return errRoleChanged
	}
	return err
}

var errNoGarage = fault.New(fault.NotFound, "", "there is no such garage, or it is not yours to see")

// Authenticate returns the session a token stands for, or nil when it stands
// for none: not a token, unknown, or revoked.
func (s *Store) Authenticate(token string) (*Session, error) {
	id, hash, ok := readSecret(token)
	if !ok {
		return nil, nil
	}
	who := &Session{Device: id}
	var kept []byte
	err := s.reader.QueryRow(`SELECT g.garage_id, g.gid, g.seen_day, d.role, d.secret_hash FROM devices d JOIN garages g USING (gid)
		WHERE d.device_id = ? AND d.revoked_ms IS NULL`, id).Scan(&who.GarageID, &who.gid, &who.seenDay, (*string)(&who.Role), &kept)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	if err != nil {
		return nil, explain(err)
	}
	if !sameHash(hash, kept) {
		return nil, nil
	}
	return who, nil
}
