package server

import (
	"flag"
	"fmt"
	"io"

	"tautspan/server/store"
)

// Backup is `tautspan backup`: it writes the database as one file, also while a
// server is serving it, and returns the exit status.
func Backup(args []string, out, errs io.Writer) int {
	return keeping("backup", "out", "file to write, which must not exist", args, errs, func(data, file string) error {
		if err := store.Backup(data, file); err != nil {
			return err
		}
		fmt.Fprintf(out, "wrote %s\n", file)
		return nil
	})
}

// Restore is `tautspan restore`: it makes the database anew from a backup and
// returns the exit status.
func Restore(args []string, out, errs io.Writer) int {
	return keeping("restore", "from", "backup to read", args, errs, func(data, file string) error {
		if err := store.Restore(data, file); err != nil {
			return err
		}
		fmt.Fprintf(out, "restored %s from %s\n", data, file)
		return nil
	})
}

// Check is `tautspan check`: it looks whether the database is sound, also while
// a server is serving it, and returns the exit status.
func Check(args []string, out, errs io.Writer) int {
	return keeping("check", "", "", args, errs, func(data, _ string) error {
		if err := store.CheckFolder(data); err != nil {
			return err
		}
		fmt.Fprintln(out, "the database is sound")
		return nil
	})
}

// keeping reads the flags --data and, where it has a name, one for a file, and
// runs do.
func keeping(command, name, usage string, args []string, errs io.Writer, do func(data, file string) error) int {
	flags := flag.NewFlagSet(command, flag.ContinueOnError)
	flags.SetOutput(errs)
	data := flags.String("data", dataFolder, "folder of the database")
	file := new(string)
	if name != "" {
		file = flags.String(name, "", usage)
	}
	if err := flags.Parse(args); err != nil {
		return 2
	}
	if flags.NArg() > 0 || name != "" && *file == "" {
		fmt.Fprintf(errs, "tautspan %s: give --data DIR", command)
		if name != "" {
			fmt.Fprintf(errs, " and --%s FILE", name)
		}
		fmt.Fprintln(errs, ", and nothing else")
		return 2
	}
	if err := do(*data, *file); err != nil {
		fmt.Fprintf(errs, "tautspan %s: %v\n", command, err)
		return 1
	}
	return 0
}
