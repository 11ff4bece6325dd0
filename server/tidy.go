package server

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"tautspan/server/api"
	"tautspan/server/store"
)

// Tidy is `tautspan tidy`: it deletes the garages nobody has called for so many
// days, each only once its export lies in a folder, and returns the exit status.
// A server may be serving meanwhile.
func Tidy(args []string, out, errs io.Writer) int {
	days := int64(0)
	flags := flag.NewFlagSet("tidy", flag.ContinueOnError)
	flags.SetOutput(errs)
	data := flags.String("data", dataFolder, "folder of the database")
	exports := flags.String("exports", "", "folder for the exports of what is deleted")
	flags.Int64Var(&days, "silent-days", 0, "how long nobody has called, in days; at least 90")
	if err := flags.Parse(args); err != nil {
		return 2
	}
	if flags.NArg() > 0 || *exports == "" || days < 90 {
		fmt.Fprintln(errs, "tautspan tidy: give --data DIR, --exports DIR and --silent-days N, at least 90, and nothing else")
		return 2
	}
	if err := tidy(*data, *exports, days, out); err != nil {
		fmt.Fprintf(errs, "tautspan tidy: %v\n", err)
		return 1
	}
	return 0
}

func tidy(data, exports string, days int64, out io.Writer) (err error) {
	garages, err := store.OpenExisting(data)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, garages.Close()) }()
	now := time.Now()
	silent, err := garages.Silent(days, now.UnixMilli())
	if err != nil {
		return err
	}
	if err := os.MkdirAll(exports, 0o700); err != nil {
		return err
	}
	for _, who := range silent {
		text, err := api.Export(garages, who, now)
		if err != nil {
			return err
		}
		file := filepath.Join(exports, who.GarageID+".json")
		if err := store.WriteDurably(file, append(text, '\n')); err != nil {
			return err
		}
		gone, err := garages.Forget(who)
		if err != nil {
			return err
		}
		if gone {
			fmt.Fprintf(out, "deleted %s, its export is %s\n", who.GarageID, file)
		}
	}
	fmt.Fprintf(out, "%d garages had been silent for %d days\n", len(silent), days)
	return nil
}
