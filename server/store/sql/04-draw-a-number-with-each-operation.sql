-- A number drawn when the operation was kept. A cursor carries it, so that a
-- database that was copied back by hand, and then got the same operation at the
-- same place again, is not taken for the one it was. Older operations have 0.
ALTER TABLE ops ADD COLUMN draw INTEGER NOT NULL DEFAULT 0;
