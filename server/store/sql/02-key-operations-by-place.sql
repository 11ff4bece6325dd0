-- Operations get one number as their key, so that a garage's lie together in a
-- tree that is flat and grows at one end; ids are kept as their 16 bytes. Half
-- the pages are touched for each operation.
CREATE TABLE ops_by_place (
  place INTEGER PRIMARY KEY, -- gid << 32 | place in the order of arrival, from 1
  gid   INTEGER GENERATED ALWAYS AS (place >> 32) VIRTUAL REFERENCES garages ON DELETE CASCADE,
  op_id BLOB    NOT NULL,
  body  TEXT    NOT NULL -- canonical JSON (RFC 8785)
) STRICT;
INSERT INTO ops_by_place (place, op_id, body)
  SELECT gid << 32 | seq, unhex(op_id, '-'), body FROM ops ORDER BY gid, seq;
DROP TABLE ops;
ALTER TABLE ops_by_place RENAME TO ops;
CREATE UNIQUE INDEX ops_by_id ON ops (gid, op_id);

CREATE TABLE records_by_id (
  gid        INTEGER NOT NULL REFERENCES garages ON DELETE CASCADE,
  record_id  BLOB    NOT NULL,
  tbl        TEXT    NOT NULL,
  created_by BLOB    NOT NULL,
  PRIMARY KEY (gid, record_id, tbl)
) STRICT, WITHOUT ROWID;
INSERT INTO records_by_id (gid, record_id, tbl, created_by)
  SELECT gid, unhex(record_id, '-'), tbl, unhex(created_by, '-') FROM records ORDER BY gid, record_id, tbl;
DROP TABLE records;
ALTER TABLE records_by_id RENAME TO records;
