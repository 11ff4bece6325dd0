package store_test

import (
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
	"tautspan/internal/testkit"
	"tautspan/server/store"
)

var update = flag.Bool("update", false, "write the database of the newest schema anew; only before that schema is released")

// content is what a kept database holds, as its sidecar says.
type content struct {
	Token string            // of an owner; the garage is invented
	View  map[string]string // every record
}

// Every schema that was ever released is kept as a database in testdata/db.
// Opened by today's program each must be sound and hold what it held then.
func TestOpen_everySchema(t *testing.T) {
	folder := filepath.Join(testkit.Root(t), "testdata", "db")
	migrations, err := filepath.Glob("sql/*.sql")
	require.NoError(t, err)
	if *update {
		writeNewest(t, folder, len(migrations))
	}
	files, err := filepath.Glob(filepath.Join(folder, "*.db"))
	require.NoError(t, err)
	require.Len(t, files, len(migrations), "one database a schema; for a new one: go test ./server/store -run everySchema -update")
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			kept, err := os.ReadFile(file)
			require.NoError(t, err)
			sidecar, err := os.ReadFile(strings.TrimSuffix(file, ".db") + ".json")
			require.NoError(t, err)
			var want content
			require.NoError(t, json.Unmarshal(sidecar, &want))
			dir := t.TempDir()
			require.NoError(t, os.WriteFile(filepath.Join(dir, store.FileName), kept, 0o600))

			s, err := store.Open(dir, store.DefaultQuota())
			require.NoError(t, err)
			defer func() { require.NoError(t, s.Close()) }()
			require.NoError(t, s.Check())
			before, err := filepath.Glob(filepath.Join(dir, "before-schema-*.db"))
			require.NoError(t, err)
			if file == files[len(files)-1] {
				assert.Empty(t, before, "nothing changed")
			} else if assert.Len(t, before, 1, "the way back") {
				copied, err := os.ReadFile(before[0])
				require.NoError(t, err)
				assert.Equal(t, kept[60:64], copied[60:64], "the schema it had (user_version, bytes 60 to 63 of the file)")
			}
			who, err := s.Authenticate(want.Token)
			require.NoError(t, err)
			require.NotNil(t, who, "the token still counts")
			state, err := s.State(who)
			require.NoError(t, err)
			assert.Equal(t, want.View, testkit.View(state))
			rejected, err := s.Push(who, []*record.Op{bikeOp(t, who, 100, "")}, now)
			require.NoError(t, err)
			assert.Empty(t, rejected, "and it goes on")
		})
	}
}

func writeNewest(t *testing.T, folder string, schema int) {
	require.NoError(t, os.MkdirAll(folder, 0o755))
	dir := t.TempDir()
	s, err := store.Open(dir, store.DefaultQuota())
	require.NoError(t, err)
	w, err := s.CreateGarage("Invented", "phone", now)
	require.NoError(t, err)
	who := session(t, s, w)
	code, err := s.Invite(who, record.Checker, 3, now+1000, now)
	require.NoError(t, err)
	_, err = s.Join(code, "helper", now)
	require.NoError(t, err)
	rejected, err := s.Push(who, []*record.Op{
		bikeOp(t, who, 1, ""), bikeOp(t, who, 2, `,"put":{"name":"Ümlaut \"quoted\"","drive":"derailleur","rear_sprockets":11}`),
		bikeOp(t, who, 3, ""), bikeOp(t, who, 4, ""),
	}, now)
	require.NoError(t, err)
	require.Empty(t, rejected)
	state, err := s.State(who)
	require.NoError(t, err)
	require.NoError(t, s.Close())
	name := filepath.Join(folder, "schema-"+string(rune('0'+schema/10))+string(rune('0'+schema%10)))
	require.NoError(t, os.RemoveAll(name+".db"))
	require.NoError(t, store.Backup(dir, name+".db"))
	sidecar, err := json.MarshalIndent(content{w.Token, testkit.View(state)}, "", "  ")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(name+".json", append(sidecar, '\n'), 0o644))
}
