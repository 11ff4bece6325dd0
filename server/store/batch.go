package store

import (
	"database/sql"

	"tautspan/internal/record"
)

var (
	lookSessions = lookupsOf(1, "device", `SELECT device_id, role, gid, last_seq, bytes FROM w CROSS JOIN devices ON device_id = device
		JOIN garages USING (gid) WHERE revoked_ms IS NULL`)
	lookOps     = lookupsOf(2, "g, id", "SELECT gid, op_id, body FROM w CROSS JOIN ops ON gid = g AND op_id = id")
	lookRecords = lookupsOf(2, "g, id", "SELECT gid, record_id, tbl, created_by FROM w CROSS JOIN records ON gid = g AND record_id = id")

	insertOps     = writesOf(4, "INSERT INTO ops (place, op_id, body, draw) VALUES ", "")
	insertRecords = writesOf(4, "INSERT INTO records (gid, record_id, tbl, created_by) VALUES ", "")
	updateCounts  = writesOf(3, "WITH w (g, seq, size) AS (VALUES ", ") UPDATE garages SET last_seq = seq, bytes = size FROM w WHERE gid = g")
)

// place is where a garage's operation lies.
func place(gid, seq int64) int64 { return gid<<32 | seq }

// counts is a garage's, as they grow.
type counts struct {
	gid, seq, bytes int64
	changed         bool
}

// member is what a device is now.
type member struct {
	role   record.Role
	garage *counts
}

type opKey struct {
	gid int64
	id  uuid
}

type recordKey struct {
	gid   int64
	id    uuid
	table string
}

// batch is the work of many calls that push, done together: what is known of
// their operations is asked for all of them, and what is new is written for all.
type batch struct {
	tx       *tx
	sessions map[string]member // by device
	garages  map[int64]*counts
	ops      map[opKey]string
	records  map[recordKey]*record.Prior
}

// item is one operation of one call.
type item struct {
	push *push
	op   *record.Op
	id   opKey
	of   recordKey
}

// pushAll does the work of calls in the order in which they stand. A call that
// may not push any more is refused with ErrShutOut in its field refusal.
func pushAll(t *tx, pushes []*push) error {
	b := &batch{tx: t, sessions: map[string]member{}, garages: map[int64]*counts{}}
	if err := b.admit(pushes); err != nil {
		return err
	}
	items := []item{}
	for _, p := range pushes {
		for _, op := range p.sound {
			if p.garage != nil {
				items = append(items, item{p, op, opKey{p.who.gid, readUUID(op.ID)}, recordKey{p.who.gid, readUUID(op.Record), op.Table}})
			}
		}
	}
	for len(items) > 0 {
		n := min(len(items), handful)
		if err := b.keep(items[:n]); err != nil {
			return err
		}
		items = items[n:]
	}
	var changed rows
	for _, g := range b.garages {
		if g.changed {
			changed.add(g.gid, g.seq, g.bytes)
		}
	}
	return updateCounts.run(t, &changed)
}

// admit finds the garage of each call, unless its device was revoked, got
// another role, or the garage was deleted since the token was shown.
func (b *batch) admit(pushes []*push) error {
	var devices rows
	for i, p := range pushes {
		devices.add(p.who.Device)
		if devices.n < handful && i < len(pushes)-1 {
			continue
		}
		err := lookSessions.ask(b.tx, &devices, func(found *sql.Rows) error {
			var device string
			var role record.Role
			g := &counts{}
			if err := found.Scan(&device, (*string)(&role), &g.gid, &g.seq, &g.bytes); err != nil {
				return err
			}
			if b.garages[g.gid] == nil {
				b.garages[g.gid] = g
			}
			b.sessions[device] = member{role, b.garages[g.gid]}
			return nil
		})
		if err != nil {
			return err
		}
		devices = rows{}
	}
	for _, p := range pushes {
		is := b.sessions[p.who.Device]
		switch {
		case is.garage == nil || is.garage.gid != p.who.gid:
			p.refusal = ErrShutOut
		case is.role != p.who.Role:
			p.refusal = errRoleChanged
		default:
			p.garage = is.garage
		}
	}
	return nil
}

// keep judges a handful of operations and writes those that are new.
func (b *batch) keep(items []item) error {
	if err := b.look(items); err != nil {
		return err
	}
	var ops, records rows
	for _, it := range items {
		p, op, prior := it.push, it.op, b.records[it.of]
		fresh, err := p.judge(op, b.ops[it.id], prior)
		if p.refused(op, err) || !fresh {
			continue
		}
		if prior == nil {
			device := readUUID(op.Device)
			records.add(it.of.gid, it.of.id[:], it.of.table, device[:])
			b.records[it.of] = &record.Prior{CreatedBy: op.Device}
		}
		b.ops[it.id] = string(op.Text)
		p.take(op)
		b.tx.written += int64(len(op.Text))
		ops.add(place(it.id.gid, p.garage.seq), it.id.id[:], b.ops[it.id], p.last.draw)
	}
	if err := insertRecords.run(b.tx, &records); err != nil {
		return err
	}
	return insertOps.run(b.tx, &ops)
}

// look asks what is known of a handful of operations.
func (b *batch) look(items []item) error {
	b.ops, b.records = map[opKey]string{}, map[recordKey]*record.Prior{}
	var ops, records rows
	for i := range items {
		ops.add(items[i].id.gid, items[i].id.id[:])
		records.add(items[i].of.gid, items[i].of.id[:])
	}
	err := lookOps.ask(b.tx, &ops, func(found *sql.Rows) error {
		var gid int64
		var id, body sql.RawBytes
		err := found.Scan(&gid, &id, &body)
		if err == nil {
			b.ops[opKey{gid, uuid(id)}] = string(body)
		}
		return err
	})
	if err != nil {
		return err
	}
	return lookRecords.ask(b.tx, &records, func(found *sql.Rows) error {
		var gid int64
		var table string
		var id, by sql.RawBytes
		err := found.Scan(&gid, &id, &table, &by)
		if err == nil {
			b.records[recordKey{gid, uuid(id), table}] = &record.Prior{CreatedBy: uuid(by).String()}
		}
		return err
	})
}
