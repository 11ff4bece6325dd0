-- What the database is: one row. The epoch changes when a backup is restored,
-- so that cursors from before begin again.
CREATE TABLE history (
  epoch TEXT NOT NULL
) STRICT;

-- One garage: a set of bikes with those who look after them. Counts are kept
-- here so that quotas and the next sequence number need no search.
CREATE TABLE garages (
  gid        INTEGER PRIMARY KEY,
  garage_id  TEXT    NOT NULL UNIQUE,
  name       TEXT    NOT NULL,
  created_ms INTEGER NOT NULL,
  last_seq   INTEGER NOT NULL DEFAULT 0,
  bytes      INTEGER NOT NULL DEFAULT 0
) STRICT;

-- One phone in a garage. Of its secret only the SHA-256 is kept.
CREATE TABLE devices (
  device_id   TEXT    PRIMARY KEY,
  gid         INTEGER NOT NULL REFERENCES garages ON DELETE CASCADE,
  name        TEXT    NOT NULL,
  role        TEXT    NOT NULL CHECK (role IN ('owner', 'leader', 'checker', 'viewer')),
  secret_hash BLOB    NOT NULL,
  joined_ms   INTEGER NOT NULL,
  revoked_ms  INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX devices_of_garage ON devices (gid);

-- One invitation. It is gone when used up; an expired one does not count.
CREATE TABLE invites (
  invite_id   TEXT    PRIMARY KEY,
  gid         INTEGER NOT NULL REFERENCES garages ON DELETE CASCADE,
  role        TEXT    NOT NULL CHECK (role IN ('leader', 'checker', 'viewer')),
  secret_hash BLOB    NOT NULL,
  uses_left   INTEGER NOT NULL,
  expires_ms  INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX invites_of_garage ON invites (gid);

-- Every operation that was ever answered, in the order of arrival: the truth.
CREATE TABLE ops (
  gid   INTEGER NOT NULL REFERENCES garages ON DELETE CASCADE,
  seq   INTEGER NOT NULL,
  op_id TEXT    NOT NULL,
  body  TEXT    NOT NULL, -- canonical JSON (RFC 8785)
  PRIMARY KEY (gid, seq)
) STRICT, WITHOUT ROWID;
CREATE UNIQUE INDEX ops_by_id ON ops (gid, op_id);

-- Which records were ever put, and which device put each first. It follows from
-- ops; `tautspan check` compares.
CREATE TABLE records (
  gid        INTEGER NOT NULL REFERENCES garages ON DELETE CASCADE,
  tbl        TEXT    NOT NULL,
  record_id  TEXT    NOT NULL,
  created_by TEXT    NOT NULL,
  PRIMARY KEY (gid, tbl, record_id)
) STRICT, WITHOUT ROWID;
